"""Walk the tree of triangles with a list of states; every box passes on only the states at which it may bind.

One plane, chosen at one state of the list, is tried at all of them at once (planes/kernels.py); where states are left,
a plane chosen at the worst of them, moved towards the lowest corner (Frank and Wolfe 1956), and so on while that takes
states away. Work so grows with what can bind and not with states times triangles. The triangles that are left are
looked at state by state: balls and touching planes, a guess proved by its own plane, else branch and bound.

Source: derived here.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from hubwright.engineering.envelope.image.kernels import seen_from_hub, square_axes
from hubwright.engineering.envelope.sweep.floors.kernels import (
    ball_floor,
    beyond,
    nearest_on,
    touching_plane,
    triangle_beyond,
    triangle_floor,
)
from hubwright.engineering.envelope.sweep.planes.kernels import (
    away_from,
    keep_low,
    lowest_point,
    plane_floors,
)
from hubwright.engineering.envelope.sweep.triangle.kernels import triangle_guess, triangle_smallest
from hubwright.engineering.kernels import njit

Floats = np.ndarray[Any, np.dtype[np.float64]]
Whole = np.ndarray[Any, np.dtype[np.int32]]
Singles = np.ndarray[Any, np.dtype[np.float32]]
Work = tuple[Floats, Floats, Floats, Floats, Floats, Singles, Whole, Singles]

FAN_OUT = 8
PLANES = 10
WORTH = 0.92
"""A further plane is tried while the last one left no more than this share of the states."""
FEW_POINTS, POINTS_PER_STATE = 96, 4
"""A box of more corners than this is taken as a box."""


@njit(error_model="numpy")
def scratch(states: int, points: int) -> Work:
    """Room for `measure` and `descend`."""
    return (
        np.empty((3, 3)), np.empty((4, 6)), np.empty((130, 2)), np.empty(3), np.empty(7),
        np.empty(states, np.float32), np.empty(states, np.int32), np.empty(points, np.float32),
    )  # fmt: skip


@njit(error_model="numpy")
def _to_body(nearest: Floats, origins: Floats, axes: Floats, state: int, out: Floats) -> None:
    """Body coordinates of (u, v, y)."""
    px, py, pz, qx, qy, qz = square_axes(axes[state])
    u, v, y = nearest[0], nearest[1], nearest[2]
    out[0] = origins[state, 0] + u * px + v * qx + y * axes[state, 0]
    out[1] = origins[state, 1] + u * py + v * qy + y * axes[state, 1]
    out[2] = origins[state, 2] + u * pz + v * qz + y * axes[state, 2]


@njit(error_model="numpy")
def measure(
    triangles: Floats, i: int, origins: Floats, axes: Floats, state: int, index: Floats, best: float, tolerance: float,
    proved: bool, work: Work, touch: Floats, tally: Floats,
) -> float:  # fmt: skip
    """Signed distance of a triangle when below ``best - tolerance``, else something not below ``best - tolerance``.

    When it is below ``best``, ``touch`` (7,) receives the plane touching the package there and the place in the body.
    Without ``proved`` it is a guess: a real point of the triangle, perhaps not its nearest.
    """
    t, segments, stack, nearest, tried = work[0], work[1], work[2], work[3], work[4]
    tally[1] += 1.0
    seen_from_hub(triangles[i], origins[state], axes[state], t)
    found = triangle_guess(t, index, segments, nearest)
    if found >= best and not proved:
        return found
    _to_body(nearest, origins, axes, state, tried[4:])
    touching_plane(tried[4:], origins, axes, state, index, tried)
    if proved and triangle_beyond(triangles, i, tried) < min(best, found) - tolerance:
        tally[3] += 1.0
        better = triangle_smallest(t, index, min(best, found), tolerance, segments, stack, nearest)
        if better < min(best, found):
            found = better
            _to_body(nearest, origins, axes, state, tried[4:])
            touching_plane(tried[4:], origins, axes, state, index, tried)
    if found < best:
        touch[:] = tried
    return found


@njit(error_model="numpy")
def _thin(
    triangles: Floats, balls: Floats, nodes: Floats, row: int, a: int, b: int, points: Singles, middle: Floats,
    origins: Floats, axes: Floats, index: Floats, table: Singles, spare: float, enough: float, hollow: bool,
    held: Singles, names: Whole, count: int, out: Singles, out_names: Whole, work: Work, tally: Floats,
) -> int:  # fmt: skip
    """Pass on the states at which a box (or one triangle, where ``row`` is -1) may come below ``enough``; gives how many.

    ``a`` .. ``b`` are the triangles in it.
    """
    floors, cells, keys = work[5], work[6], work[7]
    exact = 3 * (b - a) <= max(FEW_POINTS, POINTS_PER_STATE * count)
    if row < 0:
        x, y, z = balls[a, 0], balls[a, 1], balls[a, 2]
    else:
        x, y, z = nodes[row, 0], nodes[row, 1], nodes[row, 2]
    cx, cy, cz = x, y, z
    left, worst = count, count // 2
    for step in range(PLANES):
        source, source_names = (held, names) if step == 0 else (out, out_names)
        before = left
        u, v, w, _ = away_from(x, y, z, origins, axes, source_names[worst], index)
        if exact:
            low, at = lowest_point(points, 3 * a, 3 * b, u, v, w, keys)
            t, corner = at // 3, at % 3
            px, py, pz = triangles[t, corner, 0], triangles[t, corner, 1], triangles[t, corner, 2]
        else:
            px = nodes[row, 0] - (nodes[row, 3] if u > 0.0 else -nodes[row, 3])
            py = nodes[row, 1] - (nodes[row, 4] if v > 0.0 else -nodes[row, 4])
            pz = nodes[row, 2] - (nodes[row, 5] if w > 0.0 else -nodes[row, 5])
            low = u * (px - middle[0]) + v * (py - middle[1]) + w * (pz - middle[2])
        plane_floors(source, before, u, v, w, low, table, cells, floors)
        tally[0] += before
        tally[2] += 1.0
        left, worst = keep_low(source, source_names, floors, before, enough, spare, out, out_names)
        if left == 0:
            return 0
        if left > WORTH * before:
            break
        if row < 0:
            s = out_names[worst]
            u, v, w, gap = away_from(x, y, z, origins, axes, s, index)
            if gap > 0.0:
                x, y, z = nearest_on(triangles[a], x - gap * u, y - gap * v, z - gap * w)
            else:
                x, y, z = nearest_on(triangles[a], origins[s, 0], origins[s, 1], origins[s, 2])
        else:
            share = 1.0 if step == 0 else 2.0 / (step + 2.0)
            x, y, z = x + share * (px - x), y + share * (py - y), z + share * (pz - z)
    if hollow:
        half = balls[a, 3] if row < 0 else np.sqrt((nodes[row, 3:] ** 2).sum())
        for k in range(left):
            floors[k] = ball_floor(cx, cy, cz, half, origins, axes, out_names[k], index)
        left, _ = keep_low(out, out_names, floors, left, enough, spare, out, out_names)
    return left


@njit(error_model="numpy")
def descend(
    triangles: Floats, balls: Floats, nodes: Floats, start: Whole, points: Singles, middle: Floats, origins: Floats,
    axes: Floats, index: Floats, table: Singles, spare: float, tolerance: float, hollow: bool, overall: bool,
    limit: Floats, some: Whole, held: Singles, names: Whole, best: Floats, which: Whole, touch: Floats, work: Work,
    tally: Floats,
) -> None:  # fmt: skip
    """Settle ``best`` and ``which`` (states,) for the states ``some``, with the place in ``touch`` (states, 7).

    With ``overall`` only what comes below ``limit[0]``, the least of all so far, counts, and lowers it. ``held``
    (ranks + 2, ROWS, states) and ``names`` (ranks + 2, states) are scratch.
    """
    depth = start.shape[0] - 1
    count = np.zeros(depth + 2, np.int64)
    at, end = np.zeros(depth + 1, np.int64), np.zeros(depth + 1, np.int64)
    count[0] = some.shape[0]
    for k in range(some.shape[0]):
        s = some[k]
        names[0, k] = s
        for j in range(3):
            held[0, j, k], held[0, 3 + j, k] = origins[s, j] - middle[j], axes[s, j]
        held[0, 6, k] = 3e38 if overall else min(3e38, best[s] - tolerance)
    rank = 0
    end[0] = start[1] - start[0] if depth > 0 else triangles.shape[0]
    while rank >= 0:
        i = at[rank]
        if i == end[rank]:
            rank -= 1
            continue
        at[rank] = i + 1
        span = FAN_OUT ** (depth - rank)
        a, b = i * span, min(triangles.shape[0], (i + 1) * span)
        row = start[rank] + i if rank < depth else -1
        left = _thin(
            triangles, balls, nodes, row, a, b, points, middle, origins, axes, index, table, spare,
            limit[0] - tolerance if overall else np.inf, hollow, held[rank], names[rank], count[rank], held[rank + 1],
            names[rank + 1], work, tally,
        )  # fmt: skip
        if left == 0:
            continue
        if rank < depth:
            count[rank + 1] = left
            following = triangles.shape[0] if rank == depth - 1 else start[rank + 2] - start[rank + 1]
            at[rank + 1], end[rank + 1] = FAN_OUT * i, min(following, FAN_OUT * i + FAN_OUT)
            rank += 1
            continue
        for k in range(left):
            s = names[rank + 1, k]
            bound = limit[0] if overall else best[s]
            enough = bound - tolerance
            if triangle_beyond(triangles, i, touch[s]) >= enough:
                continue
            if triangle_floor(triangles, balls, i, origins, axes, s, index) >= enough:
                continue
            if beyond(triangles, i, origins, axes, s, index, table, enough):
                continue
            found = measure(triangles, i, origins, axes, s, index, bound, tolerance, True, work, touch[s], tally)
            if found < bound:
                best[s], which[s] = found, i
                if overall:
                    limit[0] = found
