"""Several threads may ask at once, whatever thread pool Numba finds."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

SCRIPT = """
from concurrent.futures import ThreadPoolExecutor
import numpy as np
from hubwright.engineering.envelope.meridian.build import draw_map, view_for
from hubwright.engineering.envelope.obstacles import Obstacle
from hubwright.engineering.envelope.outline import cylinder_outline
from hubwright.engineering.envelope.poses import Poses
from hubwright.engineering.envelope.query import ReadyMap, many_gaps, package_set
from hubwright.engineering.envelope.sweep import smallest_gap
from hubwright.engineering.kinematics.kernels import FEW
from hubwright.engineering.kinematics.solve import rates, solve
from tests.engineering.kinematics.cases import CORNERS

rng = np.random.default_rng(1)
clock = rng.uniform(0, 2 * np.pi, 60)
middle = np.column_stack([400 * np.cos(clock), rng.uniform(-90, 90, 60), 400 * np.sin(clock)])
arch = Obstacle("arch", "body", middle[:, None] + rng.normal(scale=20.0, size=(60, 3, 3)))
poses = Poses(rng.normal(scale=5.0, size=(2100, 3)), np.tile([0.0, 1.0, 0.0], (2100, 1)))
wheel = cylinder_outline(300.0, 180.0, 0.0)
ready = ReadyMap(draw_map([arch], poses, view_for(wheel, 150.0)))
packages = package_set([wheel])
which, discs = np.zeros(2000, np.int32), np.linspace(-5, 5, 2000)

def ask(number):
    if number % 2:
        return float(many_gaps(ready, packages, which, discs).sum())
    if number % 4:
        return smallest_gap(wheel, arch, poses).gap_mm
    states = solve(CORNERS["strut"], travels)
    return float(states.centre_mm.sum() + rates(states).sum())

travels = np.linspace(-60.0, 60.0, FEW + 100)
alone = [ask(number) for number in range(4)]
with ThreadPoolExecutor(4) as pool:
    assert all(answer == alone[n % 4] for n, answer in enumerate(pool.map(ask, range(200))))
print("all agree")
"""


@pytest.mark.slow
def test_threads_that_ask_at_once_get_the_same_answers_from_the_plainest_thread_pool() -> None:
    root = Path(__file__).resolve().parents[3]
    told = {
        **os.environ,
        "NUMBA_THREADING_LAYER": "workqueue",
        "PYTHONPATH": os.pathsep.join([str(root / "src"), str(root)]),
    }
    done = subprocess.run([sys.executable, "-c", SCRIPT], capture_output=True, text=True, env=told, check=False)
    assert done.stdout.strip() == "all agree", done.stderr[-2000:]
