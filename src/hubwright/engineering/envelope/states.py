"""A grid of states fine enough for a stated bound, and how much closer an obstacle may come between its nodes.

In the hub's own frame an obstacle point moves, from one node to the next, along a path of length at most
``L = |move of hub| + r |change of axis|`` for points within r of the hub. Every point of the package that is at least R
away at both ends of a straight path of length L is at least ``sqrt(R^2 - L^2/4)`` away all along it (chord of a
circle); over a cell of two directions ``sqrt(R^2 - (L1^2 + L2^2)/4)``. The path is not quite straight: it leaves the
straight (bilinear) one by at most an eighth of the second differences, ``|D2 o| + r |D2 a| + 2 |D o| |D a|``, per
direction; twice that is taken, for within a cell the path may bend more than at its nodes. R is the gap that is asked
about: the margin owed. Below that gap the statement is only that the margin is not kept.

Source: derived here.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np

Floats = np.ndarray[Any, np.dtype[np.float64]]
Solver = Callable[[Floats, Floats], tuple[Floats, Floats, np.ndarray[Any, np.dtype[np.bool_]]]]
"""Hub origins (n, 3), axes (n, 3) and whether the state can be, for travels (n,) and a second variable (n,)."""

FEWEST, BEND_FACTOR = 5, 2.0


@dataclass(frozen=True, eq=False)
class StateGrid:
    """Hub poses over travel and a second variable (rack, or the other wheel's travel), row by row.

    Attributes:
        travel_mm, second_mm: (n,) of every pose.
        origin_mm, axis: (n, 3).
        between_mm: How much closer than at the nodes an obstacle may come between them, for gaps of ``radius_mm``.
        radius_mm: The gap ``between_mm`` is stated for.
        unsolved: How many states of the grid have no answer; they are not among the poses.
        shape: Rows and columns of the grid.
    """

    travel_mm: Floats
    second_mm: Floats
    origin_mm: Floats
    axis: Floats
    between_mm: float
    radius_mm: float
    unsolved: int
    shape: tuple[int, int]


def closer_between_mm(origin_mm: Floats, axis: Floats, reach_mm: float, radius_mm: float) -> tuple[float, float, float]:
    """The bound of the module for a grid (n_a, n_b, 3), and each direction's share of it (a, b), mm.

    States without an answer are NaN and are left out. Where a step is longer than twice ``radius_mm`` the bound is half
    the step.
    """
    paths, bends = [], []
    for direction in (0, 1):
        if origin_mm.shape[direction] < 2:
            paths.append(0.0)
            bends.append(0.0)
            continue
        d_o = np.linalg.norm(np.diff(origin_mm, axis=direction), axis=2)
        d_a = np.linalg.norm(np.diff(axis, axis=direction), axis=2)
        paths.append(_largest(d_o + reach_mm * d_a))
        if origin_mm.shape[direction] < 3:
            bends.append(0.0)
            continue
        second = np.linalg.norm(np.diff(origin_mm, 2, axis=direction), axis=2)
        second = second + reach_mm * np.linalg.norm(np.diff(axis, 2, axis=direction), axis=2)
        bends.append(BEND_FACTOR * (_largest(second) + 2.0 * _largest(d_o * d_a)) / 8.0)
    square = (paths[0] ** 2 + paths[1] ** 2) / 4.0
    dip = radius_mm - math.sqrt(radius_mm**2 - square) if square < radius_mm**2 else math.sqrt(square)
    whole = paths[0] ** 2 + paths[1] ** 2
    share = [dip * path**2 / whole + bend if whole > 0.0 else bend for path, bend in zip(paths, bends, strict=True)]
    return dip + sum(bends), share[0], share[1]


def grid_within(
    solve: Solver, travel: tuple[float, float], second: tuple[float, float], *, reach_mm: float, radius_mm: float,
    within_mm: float, most: int,
) -> StateGrid:  # fmt: skip
    """The coarsest regular grid (counts doubling less one) whose bound is within ``within_mm``, or ``most`` states.

    Args:
        solve: Poses of states.
        travel: Lowest and highest travel.
        second: Range of the second variable; equal ends = one value.
        reach_mm: Farthest point of the package from the hub, plus the margin.
        radius_mm: The gap that matters: the least margin owed.
        within_mm: Bound wanted.
        most: States at most.
    """
    counts = [FEWEST if travel[1] > travel[0] else 1, FEWEST if second[1] > second[0] else 1]
    while True:
        a, b = np.linspace(*travel, counts[0]), np.linspace(*second, counts[1])
        every_a, every_b = (part.ravel() for part in np.meshgrid(a, b, indexing="ij"))
        origin, axis, good = solve(every_a, every_b)
        shape = (counts[0], counts[1], 3)
        bound, first, other = closer_between_mm(origin.reshape(shape), axis.reshape(shape), reach_mm, radius_mm)
        finer = [round(1.4 * count) if count > 1 else 1 for count in counts]
        grow = 0 if first >= other else 1
        if counts[grow] == 1:
            grow = 1 - grow
        following = counts.copy()
        following[grow] = finer[grow]
        if bound <= within_mm or following[0] * following[1] > most or following == counts:
            return StateGrid(
                every_a[good], every_b[good], origin[good], axis[good], bound, radius_mm, int((~good).sum()),
                (counts[0], counts[1]),
            )  # fmt: skip
        counts = following


def _largest(values: Floats) -> float:
    good = values[np.isfinite(values)]
    return float(good.max()) if good.size else 0.0
