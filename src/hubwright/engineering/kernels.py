"""Compiled functions that are compiled again when any kernel of their subject has changed.

Numba keeps compiled code as long as the file of the function itself is unchanged. A function called from another file
is compiled into its caller, though, and after a change there the caller would go on with what was. So compiled code is
kept in a folder named after size and time of every ``kernels.py`` of a subject (envelope, kinematics, tyrewheel), which
the first run after a change begins anew. Where that folder cannot be written Numba uses its own.

Source: Numba documentation, "Notes on Caching" (dependencies of a function are not tracked).
"""

from __future__ import annotations

import shutil
import sys
from collections.abc import Callable
from functools import lru_cache
from hashlib import sha256
from importlib import import_module
from pathlib import Path
from types import ModuleType
from typing import Any, TypeVar

import numba

Function = TypeVar("Function", bound=Callable[..., Any])


def _numba_without_blas() -> None:
    """Bring in Numba's array functions without all of `scipy.linalg`.

    They only ask whether its BLAS can be imported, which takes a tenth of a first answer's time, and no kernel here multiplies
    matrices. A name that stands there while they ask is answer enough; whoever needs BLAS later gets the real one.
    """
    name = "scipy.linalg.cython_blas"
    if name in sys.modules:
        return
    sys.modules[name] = ModuleType(name)
    try:
        import_module("numba.np.arraymath")  # it asks while it is imported
    finally:
        del sys.modules[name]


_numba_without_blas()


def njit(**options: Any) -> Callable[[Function], Function]:
    """`numba.njit` with its code kept as told above."""

    def compiled(function: Function) -> Function:
        config: Any = numba.config
        told = config.CACHE_DIR
        if not told:
            config.CACHE_DIR = str(_folder(_subject(Path(function.__code__.co_filename))))
        try:
            made: Function = numba.njit(cache=True, **options)(function)
        finally:
            config.CACHE_DIR = told
        return made

    return compiled


def _subject(file: Path) -> Path:
    """The folder of the subject a file belongs to: the one right below this file's folder."""
    here = Path(__file__).parent
    return here / file.relative_to(here).parts[0] if file.is_relative_to(here) else file.parent


@lru_cache
def _folder(subject: Path) -> Path:
    mark = sha256(numba.__version__.encode())
    for path in sorted(subject.rglob("kernels.py")):
        state = path.stat()
        mark.update(f"{path.relative_to(subject)} {state.st_size} {state.st_mtime_ns}\n".encode())
    kept = subject / "__pycache__"
    folder = kept / f"kernels-{mark.hexdigest()[:16]}"
    if not folder.exists():
        for older in kept.glob("kernels-*"):
            if older.is_dir():
                shutil.rmtree(older, ignore_errors=True)
    return folder
