"""Solved suspension states a second: this package, scipy per state, and a multibody engine's equality constraints.

    PYTHONPATH=src python -m benchmarks.bench_kinematics

All solve the same double wishbone over the same travel x rack grid in the same run, each state started from the one
before it; agreement of the answers is printed beside the speed. Medians of several runs.
"""

from __future__ import annotations

import os
import platform
import statistics
import time
from collections.abc import Callable

import mujoco
import numba
import numpy as np
import scipy
from scipy.optimize import least_squares, root
from scipy.spatial.transform import Rotation
from tests.engineering.kinematics import cases
from tests.engineering.kinematics.mujoco_linkage import model_of, solve_by_engine

from hubwright.engineering.kinematics import kernels
from hubwright.engineering.kinematics.characteristics import characteristics
from hubwright.engineering.kinematics.linkage import table_of
from hubwright.engineering.kinematics.solve import rates, solve, wheel_poses

RUNS = 7
LINKAGE = cases.CORNERS["double wishbone"]
CODES, FIGURES = table_of(LINKAGE)
ORIGIN = LINKAGE.origins_mm


def grid(travels: int, racks: int) -> tuple[np.ndarray, np.ndarray]:
    rack, travel = np.meshgrid(np.linspace(-60, 60, racks), np.linspace(-80, 90, travels), indexing="ij")
    travel[1::2] = travel[1::2, ::-1]  # there and back, so that each state lies next to the one before it
    return travel.ravel(), rack.ravel()


def median_seconds(work: Callable[[], object], runs: int = RUNS) -> float:
    seconds = []
    for _ in range(runs):
        start = time.perf_counter()
        work()
        seconds.append(time.perf_counter() - start)
    return statistics.median(seconds)


def link_errors(x: np.ndarray, travel: float, rack: float) -> np.ndarray:
    """The links as plain numpy, written apart from the kernels: x = shift in mm, turn as a rotation vector x 250 mm."""
    d = cases.DOUBLE_WISHBONE
    turn = Rotation.from_rotvec(x[3:] / 250.0).as_matrix()
    outer = np.array([d.upper_outer_mm, d.upper_outer_mm, d.lower_outer_mm, d.lower_outer_mm, d.tie_outer_mm])
    inner = np.array([d.upper_front_mm, d.upper_rear_mm, d.lower_front_mm, d.lower_rear_mm, d.tie_inner_mm])
    length = np.linalg.norm(outer - inner, axis=1)
    moved = inner + np.outer([0, 0, 0, 0, 1], [0, rack, 0])
    place = np.array(d.wheel.centre_mm) + x[:3] + (outer - d.wheel.centre_mm) @ turn.T
    return np.append(np.linalg.norm(place - moved, axis=1) - length, x[2] - travel)


def compiled_errors(x: np.ndarray, travel: float, rack: float) -> np.ndarray:
    """The kernels' own residual, so that scipy is not held up by slow Python."""
    turn = Rotation.from_rotvec(x[3:] / 250.0).as_matrix()[None]
    inputs = np.array([travel, rack])
    return np.asarray(kernels.residual_and_jacobian(CODES, FIGURES, ORIGIN + x[:3], turn, inputs)[0])


def by_scipy(travel: np.ndarray, rack: np.ndarray, method: str, errors: Callable[..., np.ndarray]) -> np.ndarray:
    """Wheel centres, NaN where the method gives up from the state before and from rest."""
    x, centres = np.zeros(6), np.full((len(travel), 3), np.nan)
    for k, (z, r) in enumerate(zip(travel, rack, strict=True)):
        for start in (x, np.zeros(6)):
            if method == "root":
                found = root(errors, start, args=(z, r), method="hybr", options={"xtol": 1e-10})
            else:
                found = least_squares(errors, start, args=(z, r), method="lm", xtol=1e-14, ftol=1e-14)
            if found.success and np.abs(found.fun).max() < 1e-6:
                x = found.x
                centres[k] = ORIGIN[0] + x[:3]
                break
    return centres


def main() -> None:
    print(
        f"{platform.processor() or platform.machine()}, {os.cpu_count()} processors, {numba.get_num_threads()} threads"
    )
    print(f"numpy {np.__version__}, scipy {scipy.__version__}, numba {numba.__version__}, mujoco {mujoco.__version__}")
    travel, rack = grid(171, 2401)
    solve(LINKAGE, travel[:2000], rack[:2000])
    states = solve(LINKAGE, travel, rack)
    order = np.random.default_rng(0).permutation(len(travel))
    ours = len(travel) / median_seconds(lambda: solve(LINKAGE, travel, rack))
    mixed = len(travel) / median_seconds(lambda: solve(LINKAGE, travel[order], rack[order]), 3)
    slopes = len(travel) / median_seconds(lambda: rates(states), 3)
    figures = len(travel) / median_seconds(lambda: characteristics(states), 3)
    print(f"this package, {len(travel)} states: {ours:,.0f} a second in grid order, {mixed:,.0f} in random order")
    print(f"  rates {slopes:,.0f}, characteristics {figures:,.0f} a second; unsolved {np.sum(~states.solved)}")

    coarse_travel, coarse_rack = grid(35, 25)
    same = solve(LINKAGE, coarse_travel, coarse_rack)
    # there and back over the same states, 400 times
    many = tuple(np.tile(np.append(one, one[::-1]), 200) for one in (coarse_travel, coarse_rack))
    coarse = len(many[0]) / median_seconds(lambda: solve(LINKAGE, *many))
    print(
        f"same {len(coarse_travel)} states for all (5 mm steps); this package over 400 copies: {coarse:,.0f} a second"
    )
    model = model_of(cases.DOUBLE_WISHBONE)
    others: dict[str, Callable[[], np.ndarray]] = {
        "scipy root (hybr), numpy residual": lambda: by_scipy(coarse_travel, coarse_rack, "root", link_errors),
        "scipy least_squares (lm), numpy residual": lambda: by_scipy(coarse_travel, coarse_rack, "lm", link_errors),
        "scipy root (hybr), compiled residual": lambda: by_scipy(coarse_travel, coarse_rack, "root", compiled_errors),
        "mujoco equality constraints, projected": lambda: solve_by_engine(model, coarse_travel, coarse_rack)[0],
    }
    for name, work in others.items():
        answers = work()
        apart = np.nanmax(np.abs(answers - wheel_poses(same).centre_mm))
        gone = np.sum(np.isnan(answers[:, 0]))
        speed = len(coarse_travel) / median_seconds(work, 3)
        print(
            f"  {name}: {speed:,.0f} a second, {coarse / speed:,.0f} times slower, "
            f"centres within {apart:.1e} mm, {gone} given up"
        )


if __name__ == "__main__":
    main()
