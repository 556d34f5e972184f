"""Close the gaps between sampled states: ask the solver for poses only where something may bind.

Source: derived here.
"""

from __future__ import annotations

import heapq
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np

from hubwright.engineering.envelope.culling import triangle_tree
from hubwright.engineering.envelope.obstacles import Obstacle
from hubwright.engineering.envelope.outline import Outline
from hubwright.engineering.envelope.outline.kernels import POLE_DEPTH
from hubwright.engineering.envelope.poses import Poses
from hubwright.engineering.envelope.sweep import gap_at_every_state
from hubwright.errors import OutsideValidity
from hubwright.language import say

Floats = np.ndarray[Any, np.dtype[np.float64]]
Solver = Callable[[Floats], Poses]

SPEED_FACTOR = 1.5


@dataclass(frozen=True)
class Refined:
    """Smallest gap over a whole range of states.

    Attributes:
        gap_mm: Smallest gap found at a real state.
        error_mm: The smallest gap over the whole range lies no more than this below ``gap_mm``.
        at: The state (travel, rack or whatever the range is in).
        solved: How many states were solved.
    """

    gap_mm: float
    error_mm: float
    at: tuple[float, float]
    solved: int


def smallest_gap_between(
    outline: Outline, obstacle: Obstacle, solve: Solver, low: tuple[float, float], high: tuple[float, float],
    *, within_mm: float = 0.05, cells: int = 8, most: int = 200_000,
) -> Refined:  # fmt: skip
    """Smallest gap over a rectangle of states, refined until it is known to ``within_mm``.

    Branch and bound over cells of the rectangle: a cell's gap is at least that at its middle less the most any point
    within reach can move from there to its rim. That is taken from the poses at its corners, |move of hub| + r |change
    of axis| at the farthest corner, times ``SPEED_FACTOR`` (the motion within a cell may be uneven by that much).
    The cell with the lowest bound is quartered until the lowest bound is within ``within_mm`` of the best gap.

    Args:
        outline: The package.
        obstacle: A body-fixed obstacle.
        solve: Gives poses for states (n, 2).
        low: Least of both state variables.
        high: Greatest.
        within_mm: How close to settle it.
        cells: First cells each way.
        most: Most states to solve before giving up.

    Raises:
        OutsideValidity: ``most`` states did not settle it.
    """
    tree = triangle_tree(obstacle.triangles_mm)
    best, at, solved = np.inf, (np.nan, np.nan), 0
    queue: list[tuple[float, tuple[float, float], tuple[float, float]]] = []
    half = 0.5 * (np.array(high) - np.array(low)) / cells
    steps = 2.0 * np.arange(cells) + 1.0
    fresh = np.array([[low[0] + half[0] * i, low[1] + half[1] * j] for i in steps for j in steps])
    reach = float(np.hypot(outline.rho_mm, outline.y_mm).max())
    while True:
        signs = np.array([[0, 0], [1, 1], [1, -1], [-1, 1], [-1, -1]])
        states = (fresh[:, None, :] + signs * half).reshape(-1, 2)
        poses = solve(states)
        solved += len(poses)
        middles = Poses(poses.origin_mm[::5], poses.axis[::5])
        gaps = gap_at_every_state(outline, obstacle, middles, tree=tree)
        k = int(np.argmin(gaps.gap_mm))
        if gaps.gap_mm[k] < best:
            best, at = float(gaps.gap_mm[k]), (float(fresh[k, 0]), float(fresh[k, 1]))
        shift = np.linalg.norm(poses.origin_mm.reshape(-1, 5, 3) - middles.origin_mm[:, None], axis=2)
        turn = np.linalg.norm(poses.axis.reshape(-1, 5, 3) - middles.axis[:, None], axis=2)
        # Whatever binds lies within its gap of the package, so no farther from the hub than both together.
        arm = reach + np.maximum(gaps.gap_mm, 0.0)
        rim = SPEED_FACTOR * (shift + turn * arm[:, None]).max(axis=1)
        for cell, gap, motion in zip(fresh, gaps.gap_mm, rim, strict=True):
            floor = max(float(gap - motion), float(outline.index[POLE_DEPTH]))  # nothing lies deeper than the pole
            heapq.heappush(queue, (floor, (float(cell[0]), float(cell[1])), (float(half[0]), float(half[1]))))
        bound = queue[0][0]
        if bound >= best - within_mm:
            return Refined(best, max(0.0, best - bound) + gaps.error_mm, at, solved)
        if solved > most:
            raise OutsideValidity(
                "refinement", "states solved", solved, say("up to {most}", most=most), "sweep/refine.py"
            )
        size = queue[0][2]
        picked: list[tuple[float, float]] = []
        while queue and queue[0][2] == size and queue[0][0] < best - within_mm and len(picked) < 64:
            picked.append(heapq.heappop(queue)[1])
        half = 0.5 * np.array(size)
        fresh = np.array([[a + half[0] * i, b + half[1] * j] for a, b in picked for i in (-1, 1) for j in (-1, 1)])
