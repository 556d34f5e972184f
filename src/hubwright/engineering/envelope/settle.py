"""The smallest gap of one package over a whole range of states, settled to a stated bound by halving cells of states.

In the hub's own frame an obstacle point moves, from one state of the grid to the next, along a path of length at most
``L = |move of hub| + r |change of axis|`` for points within r of the hub. A point that is at least d away from every
point of the package at both ends of a straight path is at least ``sqrt(d^2 - L^2/4)`` away all along it (chord of a
circle); over a cell of two directions ``sqrt(d^2 - S)`` with ``S = (L1^2 + L2^2)/4`` and d the least gap at its four
corners. The path is not quite straight: it leaves the bilinear one by at most an eighth of the second differences,
``|D2 o| + r |D2 a| + 2 |D o| |D a|``, in each direction; twice the largest of the grid is taken (``bend``), for within a
cell the path may bend more than at its corners.

Cells that may hide something nearer than the best gap found, less the bound wanted, are quartered; S falls to a quarter
each time, so a few rounds settle it. Where an overlap has been found nothing more is asked.

Source: derived here.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np

from hubwright.engineering.envelope.obstacles import Obstacle
from hubwright.engineering.envelope.outline import Outline
from hubwright.engineering.envelope.poses import Poses
from hubwright.engineering.envelope.sweep import gap_at_every_state, nearest_place

Floats = np.ndarray[Any, np.dtype[np.float64]]
Solver = Callable[[Floats, Floats], tuple[Floats, Floats, np.ndarray[Any, np.dtype[np.bool_]]]]
"""Hub origins (n, 3), axes (n, 3) and whether the state can be, for travels (n,) and a second variable (n,)."""
BEND_FACTOR = 2.0
CORNERS = ((0, 0), (0, 1), (1, 0), (1, 1))
FINE = ((0, 0), (0, 1), (0, 2), (1, 0), (1, 1), (1, 2), (2, 0), (2, 1), (2, 2))
ROUNDS = 12
FAR_MM, NEAR_MM = 60.0, 8.0


@dataclass(frozen=True, eq=False)
class StateField:
    """A regular grid of states with its poses; NaN where a state cannot be.

    Attributes:
        travel_mm: (a,), ascending.
        second_mm: (b,), ascending.
        origin_mm, axis: (a, b, 3).
    """

    travel_mm: Floats
    second_mm: Floats
    origin_mm: Floats
    axis: Floats

    @property
    def good(self) -> np.ndarray[Any, np.dtype[np.bool_]]:
        """Which states can be (a, b)."""
        return np.asarray(np.isfinite(self.origin_mm[:, :, 0]))


@dataclass(frozen=True)
class Settled:
    """The smallest gap over all states between the grid's ends.

    Attributes:
        gap_mm: The smallest found at a real state; negative is an overlap.
        error_mm: The smallest of all lies no more than this below it (of an overlap: it is at least that deep).
        travel_mm, second_mm: The state.
        place_mm: Nearest point of the obstacle, body coordinates.
        at_cap: Nothing came nearer than the cap; ``gap_mm`` is the cap then.
        states: How many states were looked at.
    """

    gap_mm: float
    error_mm: float
    travel_mm: float
    second_mm: float
    place_mm: tuple[float, float, float]
    at_cap: bool
    states: int


def state_field(solve: Solver, travel_mm: Floats, second_mm: Floats) -> StateField:
    """Solve a grid of states."""
    a, b = (part.ravel() for part in np.meshgrid(travel_mm, second_mm, indexing="ij"))
    origin, axis, good = solve(a, b)
    origin, axis = np.where(good[:, None], origin, np.nan), np.where(good[:, None], axis, np.nan)
    shape = (len(travel_mm), len(second_mm), 3)
    return StateField(travel_mm, second_mm, origin.reshape(shape), axis.reshape(shape))


def settled_gap(
    outline: Outline, obstacle: Obstacle, solve: Solver, field: StateField,
    *, floor_mm: Floats | None = None, within_mm: float = 0.05, cap_mm: float = FAR_MM,
) -> Settled:  # fmt: skip
    """The smallest gap over every state within the grid, known to ``within_mm``.

    Args:
        outline: The package at its thickness.
        obstacle: Fixed to the body.
        solve: Poses of states.
        field: A first grid.
        floor_mm: (a, b) what the gap cannot be less than at each node, where something is known; saves work.
        within_mm: How close to settle it.
        cap_mm: Gaps above it are not resolved.
    """
    reach = float(np.hypot(outline.rho_mm, outline.y_mm).max()) + cap_mm / 4.0
    gap = _gaps_on(outline, obstacle, field, floor_mm, cap_mm)
    states = int(field.good.sum())
    best, at = _best(gap, field.travel_mm, field.second_mm)
    cells = _first_cells(field, gap)
    bend = _bends(field, reach)
    error = 0.005
    for _ in range(ROUNDS):
        low = _least_possible(cells, reach, bend)
        if best <= 0.0 or len(low) == 0 or float(low.min()) >= best - within_mm:
            error = max(0.0, best - float(low.min())) + 0.005 if len(low) and best > 0.0 else 0.005
            break
        error = best - float(low.min()) + 0.005
        hiding = low < best - within_mm
        cells = (cells[0][hiding], cells[1][hiding], cells[2][hiding], cells[3][hiding])
        cells, fresh, value, at_fresh = _quartered(cells, outline, obstacle, solve, min(cap_mm, best + NEAR_MM))
        states += fresh
        bend /= 4.0
        if value < best:
            best, at = value, at_fresh
    origin, axis, good = solve(np.array([at[0]]), np.array([at[1]]))
    if best >= cap_mm or not good[0]:
        return Settled(cap_mm, min(error, cap_mm), at[0], at[1], (np.nan, np.nan, np.nan), True, states)
    one = gap_at_every_state(outline, obstacle, Poses(origin, axis))
    place = nearest_place(outline, obstacle.triangles_mm[int(one.triangle[0])], origin[0], axis[0])[0]
    x, o, z = (float(v) for v in place)
    return Settled(best, error, at[0], at[1], (x, o, z), False, states)


def gaps_at_nodes(outline: Outline, obstacle: Obstacle, field: StateField, cap_mm: float) -> Floats:
    """Smallest gap at every node (a, b), the cap where nothing is nearer or the state cannot be."""
    return _gaps_on(outline, obstacle, field, None, cap_mm)


def _gaps_on(outline: Outline, obstacle: Obstacle, field: StateField, floor: Floats | None, cap: float) -> Floats:
    found = np.full(field.good.shape, cap)
    wanted = field.good if floor is None else field.good & (floor < cap)
    if floor is not None:
        # look first where the floor is lowest: what is found there spares the rest
        rows = np.argwhere(wanted)
        if len(rows) > 64:
            first = rows[np.argsort(floor[wanted])[:48]]
            mask = np.zeros_like(wanted)
            mask[first[:, 0], first[:, 1]] = True
            found[mask] = _measure(outline, obstacle, field.origin_mm[mask], field.axis[mask], cap)
            nearest = float(found.min())
            wanted = wanted & ~mask & (floor < nearest + FAR_MM / 4.0)
            cap = min(cap, nearest + FAR_MM / 4.0)
            found[~mask] = cap
    if np.any(wanted):
        found[wanted] = _measure(outline, obstacle, field.origin_mm[wanted], field.axis[wanted], cap)
    return found


def _measure(outline: Outline, obstacle: Obstacle, origin: Floats, axis: Floats, cap: float) -> Floats:
    gap = gap_at_every_state(outline, obstacle, Poses(origin, axis), cap_mm=cap).gap_mm
    return np.asarray(np.minimum(gap, cap))


def _best(gap: Floats, travel: Floats, second: Floats) -> tuple[float, tuple[float, float]]:
    i, j = np.unravel_index(int(np.argmin(gap)), gap.shape)
    return float(gap[i, j]), (float(travel[i]), float(second[j]))


Cells = tuple[Floats, Floats, Floats, Floats]
"""Ends (n, 4: travel low, high, second low, high), origins (n, 4, 3), axes (n, 4, 3) and gaps (n, 4) of the corners."""


def _first_cells(field: StateField, gap: Floats) -> Cells:
    a, b = field.travel_mm, field.second_mm
    rows_a = range(max(1, len(a) - 1))
    rows_b = range(max(1, len(b) - 1))
    ends, origins, axes, gaps = [], [], [], []
    for i in rows_a:
        for j in rows_b:
            i2, j2 = min(i + 1, len(a) - 1), min(j + 1, len(b) - 1)
            corner = [(i, j), (i, j2), (i2, j), (i2, j2)]
            ends.append([a[i], a[i2], b[j], b[j2]])
            origins.append([field.origin_mm[c] for c in corner])
            axes.append([field.axis[c] for c in corner])
            gaps.append([gap[c] for c in corner])
    cells = (np.array(ends), np.array(origins), np.array(axes), np.array(gaps))
    some = np.isfinite(cells[1][:, :, 0]).any(axis=1)
    return tuple(part[some] for part in cells)  # type: ignore[return-value]  # four parts in, four out


def _bends(field: StateField, reach: float) -> float:
    total = 0.0
    for direction in (0, 1):
        if field.origin_mm.shape[direction] < 3:
            continue
        second = np.linalg.norm(np.diff(field.origin_mm, 2, axis=direction), axis=2)
        second = second + reach * np.linalg.norm(np.diff(field.axis, 2, axis=direction), axis=2)
        step = np.linalg.norm(np.diff(field.origin_mm, axis=direction), axis=2)
        step = step * np.linalg.norm(np.diff(field.axis, axis=direction), axis=2)
        finite = second[np.isfinite(second)]
        total += BEND_FACTOR * ((finite.max() if finite.size else 0.0) + 2.0 * np.nanmax(step, initial=0.0)) / 8.0
    return total


def _least_possible(cells: Cells, reach: float, bend: float) -> Floats:
    _, origin, axis, gap = cells
    if len(gap) == 0:
        return np.empty(0)

    def path(i: int, j: int) -> Floats:
        step = np.linalg.norm(origin[:, i] - origin[:, j], axis=1)
        return np.asarray(np.nan_to_num(step + reach * np.linalg.norm(axis[:, i] - axis[:, j], axis=1)))

    first = np.maximum(path(0, 2), path(1, 3))
    other = np.maximum(path(0, 1), path(2, 3))
    square = (first**2 + other**2) / 4.0
    d = gap.min(axis=1)
    inside = np.clip(d, 0.0, None) ** 2 - square
    least = np.where(inside > 0.0, np.sqrt(np.maximum(inside, 0.0)), np.minimum(d, 0.0) - np.sqrt(square))
    return np.asarray(least - bend)


def _quartered(
    cells: Cells, outline: Outline, obstacle: Obstacle, solve: Solver, cap: float
) -> tuple[Cells, int, float, tuple[float, float]]:
    ends = cells[0]
    middle_a, middle_b = 0.5 * (ends[:, 0] + ends[:, 1]), 0.5 * (ends[:, 2] + ends[:, 3])
    along = np.stack([ends[:, 0], middle_a, ends[:, 1]], axis=1)
    across = np.stack([ends[:, 2], middle_b, ends[:, 3]], axis=1)
    pairs = np.array([[along[:, i], across[:, j]] for i, j in FINE])
    states, back = np.unique(np.moveaxis(pairs, 2, 0).reshape(-1, 2), axis=0, return_inverse=True)
    origin, axis, good = solve(np.ascontiguousarray(states[:, 0]), np.ascontiguousarray(states[:, 1]))
    gap = np.full(len(states), cap)
    if np.any(good):
        gap[good] = _measure(outline, obstacle, origin[good], axis[good], cap)
    k = int(np.argmin(gap))
    origin, axis = np.where(good[:, None], origin, np.nan), np.where(good[:, None], axis, np.nan)
    number = back.reshape(len(ends), 9)
    quarter = []
    for i in (0, 1):
        for j in (0, 1):
            corners = np.stack([number[:, 3 * (i + m) + (j + n)] for m, n in CORNERS], axis=1)
            box = np.stack([along[:, i], along[:, i + 1], across[:, j], across[:, j + 1]], axis=1)
            quarter.append((box, origin[corners], axis[corners], gap[corners]))
    joined = tuple(np.concatenate([part[n] for part in quarter]) for n in range(4))
    return joined, len(states), float(gap[k]), (float(states[k, 0]), float(states[k, 1]))  # type: ignore[return-value]  # four parts
