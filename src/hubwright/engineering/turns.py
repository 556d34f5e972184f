"""Parallel kernels take turns.

Numba's plainest thread pool, the one it falls back to where neither TBB nor OpenMP is installed, ends the process when
two threads start parallel kernels at once. A kernel uses all cores, so waiting for one's turn costs nothing.
Source: Numba documentation, "The Threading Layers" (workqueue is not threadsafe).
"""

from __future__ import annotations

import threading

one_parallel_kernel = threading.Lock()
