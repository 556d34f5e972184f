"""What a point inside the tyre sees: the nearest obstacle in every direction of the half-plane, over all states.

Obstacles of all states are drawn into one half-plane (rho, y) round a view point c. Bins of direction keep the nearest
real point. A package that is star-shaped about c cannot meet anything hidden behind a nearer point first: pulling a
point towards c by a factor k <= 1 takes it no further from the package, for k times the package lies within it. So the
smallest distance from the package to the kept points is the smallest distance to all, but for the width of a bin.

Source: geometry of the meridian half-plane (derived).
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from numba import prange

from hubwright.engineering.envelope.image.kernels import bounding_segments, covers, sag, seen_from_hub
from hubwright.engineering.envelope.outline.kernels import side_distance
from hubwright.engineering.kernels import njit

Floats = np.ndarray[Any, np.dtype[np.float64]]
Whole = np.ndarray[Any, np.dtype[np.int32]]
Longs = np.ndarray[Any, np.dtype[np.int64]]

BLOCK = 128
SAG_MM = 0.004
SHORT_MM = 4.0


@njit(error_model="numpy")
def _hidden(x: float, y: float, radius: float, least: float, view: Floats, coarse: Floats) -> bool:
    """Whether all that lies within ``radius`` of a point (relative to the view point) is hidden or out of reach.

    ``least`` is a distance from the view point that nothing of it falls below.
    """
    away = math.sqrt(x * x + y * y)
    if away <= radius:
        return False
    nearest = max(away - radius, least)
    if nearest > view[5]:
        return True
    share = radius / away
    half = (1.0472 * share if share < 0.5 else math.asin(min(1.0, share))) + view[3]  # asin s <= s pi/3 up to 1/2
    middle = math.atan2(y, x)
    low, high = math.floor((middle - half - view[2]) / view[3]), math.floor((middle + half - view[2]) / view[3])
    blocks = coarse.shape[0]
    first = low // BLOCK
    k, last = first, high // BLOCK + 1
    while k <= last and coarse[k % blocks] <= nearest:
        k += 1
    return bool(k > last)


@njit(error_model="numpy")
def _chord_hidden(x0: float, y0: float, x1: float, y1: float, bow: float, view: Floats, coarse: Floats) -> bool:
    """Whether a straight piece, and what lies within ``bow`` of it, is hidden or out of reach."""
    dx, dy = x1 - x0, y1 - y0
    length2 = dx * dx + dy * dy
    t = 0.0 if length2 == 0.0 else min(1.0, max(0.0, -(x0 * dx + y0 * dy) / length2))
    nearest = math.hypot(x0 + t * dx, y0 + t * dy) - bow
    if nearest <= 1.0:
        return False
    if nearest > view[5]:
        return True
    a0 = math.atan2(y0, x0)
    turn = math.atan2(y1, x1) - a0
    if turn > math.pi:
        turn -= 2.0 * math.pi
    elif turn < -math.pi:
        turn += 2.0 * math.pi
    if turn < 0.0:
        a0, turn = a0 + turn, -turn
    spare = bow / nearest + view[3]
    low, high = math.floor((a0 - spare - view[2]) / view[3]), math.floor((a0 + turn + spare - view[2]) / view[3])
    blocks = coarse.shape[0]
    k, last = low // BLOCK, high // BLOCK
    while k <= last and coarse[k % blocks] <= nearest:
        k += 1
    return bool(k > last)


@njit(error_model="numpy")
def _keep(b: int, x: float, y: float, mark: int, state: int, view: Floats, near: Floats, marks: Whole) -> None:
    b %= int(view[4])
    r = math.hypot(x, y)
    if r < near[b, 0] and r <= view[5]:
        near[b, 0], near[b, 1], near[b, 2] = r, x, y
        marks[b, 0], marks[b, 1] = mark, state


@njit(error_model="numpy")
def draw_chord(
    x0: float, y0: float, x1: float, y1: float, mark: int, state: int, view: Floats, rays: Floats,
    near: Floats, marks: Whole,
) -> None:  # fmt: skip
    """Enter a straight piece (relative to the view point) in every bin it crosses."""
    a0 = math.atan2(y0, x0)
    turn = math.atan2(y1, x1) - a0
    if turn > math.pi:
        turn -= 2.0 * math.pi
    elif turn < -math.pi:
        turn += 2.0 * math.pi
    if turn < 0.0:
        x0, y0, x1, y1, a0, turn = x1, y1, x0, y0, a0 + turn, -turn
    low, high = math.floor((a0 - view[2]) / view[3]), math.floor((a0 + turn - view[2]) / view[3])
    _keep(low, x0, y0, mark, state, view, near, marks)
    _keep(high, x1, y1, mark, state, view, near, marks)
    dx, dy = x1 - x0, y1 - y0
    length2 = dx * dx + dy * dy
    if length2 > 0.0:
        t = -(x0 * dx + y0 * dy) / length2
        if 0.0 < t < 1.0:
            fx, fy = x0 + t * dx, y0 + t * dy
            foot = math.atan2(fy, fx) - a0
            if foot < 0.0:
                foot += 2.0 * math.pi
            _keep(min(high, math.floor((a0 + foot - view[2]) / view[3])), fx, fy, mark, state, view, near, marks)
    area = x0 * dy - y0 * dx
    bins = int(view[4])
    before = low % bins
    for b in range(low + 1, high + 1):
        now = b if b < bins else b - bins
        ux, uy = rays[now, 0], rays[now, 1]
        cross = ux * dy - uy * dx
        r = area / cross
        if cross > 0.0 and r <= view[5]:
            if r < near[before, 0]:
                near[before, 0], near[before, 1], near[before, 2] = r, r * ux, r * uy
                marks[before, 0], marks[before, 1] = mark, state
            if r < near[now, 0]:
                near[now, 0], near[now, 1], near[now, 2] = r, r * ux, r * uy
                marks[now, 0], marks[now, 1] = mark, state
        before = now


@njit(error_model="numpy")
def _draw_arc(
    segments: Floats, row: int, mark: int, state: int, view: Floats, rays: Floats, near: Floats, coarse: Floats,
    marks: Whole, stack: Floats,
) -> None:  # fmt: skip
    ua, va, ya = segments[row, 0], segments[row, 1], segments[row, 2]
    du, dv, dy = segments[row, 3], segments[row, 4], segments[row, 5]
    a, b, c = du * du + dv * dv, ua * du + va * dv, ua * ua + va * va
    length = math.sqrt(a + dy * dy)
    stack[0, 0], stack[0, 1], top = 0.0, 1.0, 1
    while top > 0:
        top -= 1
        s0, s1 = stack[top, 0], stack[top, 1]
        sm, half = 0.5 * (s0 + s1), 0.5 * (s1 - s0) * length
        x, y = math.sqrt(max(0.0, a * sm * sm + 2.0 * b * sm + c)) - view[0], ya + sm * dy - view[1]
        if _hidden(x, y, half, 0.0, view, coarse):
            continue
        if (half > SHORT_MM or sag(a, b, c, s0, s1) > SAG_MM) and top + 2 <= stack.shape[0]:
            stack[top, 0], stack[top, 1], stack[top + 1, 0], stack[top + 1, 1] = s0, sm, sm, s1
            top += 2
            continue
        x0 = math.sqrt(max(0.0, a * s0 * s0 + 2.0 * b * s0 + c)) - view[0]
        x1 = math.sqrt(max(0.0, a * s1 * s1 + 2.0 * b * s1 + c)) - view[0]
        y0, y1 = ya + s0 * dy - view[1], ya + s1 * dy - view[1]
        if not _chord_hidden(x0, y0, x1, y1, SAG_MM, view, coarse):
            draw_chord(x0, y0, x1, y1, mark, state, view, rays, near, marks)


@njit(error_model="numpy")
def _draw_state(
    triangles: Floats, balls: Floats, nodes: Floats, start: Whole, origins: Floats, axes: Floats, state: int,
    view: Floats, rays: Floats, near: Floats, coarse: Floats, marks: Whole, queue: Whole, t: Floats, segments: Floats,
    stack: Floats,
) -> bool:  # fmt: skip
    """Draw one state; True when an obstacle covers the view point itself."""
    levels = start.shape[0] - 1
    ox, oy, oz = origins[state, 0], origins[state, 1], origins[state, 2]
    ax, ay, az = axes[state, 0], axes[state, 1], axes[state, 2]
    top, covered = 0, False
    for i in range(start[1] - start[0]):
        queue[2 * top], queue[2 * top + 1] = 0, i
        top += 1
    while top > 0:
        top -= 1
        level, i = queue[2 * top], queue[2 * top + 1]
        if level < levels:
            row = start[level] + i
            x, y, z = nodes[row, 0] - ox, nodes[row, 1] - oy, nodes[row, 2] - oz
            size = math.sqrt(nodes[row, 3] ** 2 + nodes[row, 4] ** 2 + nodes[row, 5] ** 2)
        else:
            x, y, z, size = balls[i, 0] - ox, balls[i, 1] - oy, balls[i, 2] - oz, balls[i, 3]
        along = x * ax + y * ay + z * az
        rho = math.sqrt(max(0.0, x * x + y * y + z * z - along * along))
        # The way from the view point to its middle: no point stands less far along it than the lowest corner does.
        nr, ny = rho - view[0], along - view[1]
        away, least = math.hypot(nr, ny), 0.0
        if nr >= 0.0 and rho > 0.0 and away > 0.0:
            nr, ny = nr / away, ny / away
            scale = nr / rho
            turn = ny - scale * along
            gx, gy, gz = scale * x + turn * ax, scale * y + turn * ay, scale * z + turn * az
            if level < levels:
                least = gx * x + gy * y + gz * z
                least -= abs(gx) * nodes[row, 3] + abs(gy) * nodes[row, 4] + abs(gz) * nodes[row, 5]
            else:
                first = gx * triangles[i, 0, 0] + gy * triangles[i, 0, 1] + gz * triangles[i, 0, 2]
                second = gx * triangles[i, 1, 0] + gy * triangles[i, 1, 1] + gz * triangles[i, 1, 2]
                third = gx * triangles[i, 2, 0] + gy * triangles[i, 2, 1] + gz * triangles[i, 2, 2]
                least = min(first, second, third) - (gx * ox + gy * oy + gz * oz)
            least -= nr * view[0] + ny * view[1]
        if _hidden(rho - view[0], along - view[1], size, least, view, coarse):
            continue
        if level < levels:
            last = triangles.shape[0] if level == levels - 1 else start[level + 2] - start[level + 1]
            for k in range(8 * i, min(last, 8 * i + 8)):
                queue[2 * top], queue[2 * top + 1] = level + 1, k
                top += 1
            continue
        seen_from_hub(triangles[i], origins[state], axes[state], t)
        count = bounding_segments(t, segments)
        for k in range(count):
            _draw_arc(segments, k, i, state, view, rays, near, coarse, marks, stack)
        covered = covered or (count > 1 and covers(t, view[0], view[1]))
    return covered


@njit(error_model="numpy")
def _refresh(near: Floats, coarse: Floats) -> None:
    bins = near.shape[0]
    for k in range(coarse.shape[0]):
        worst = 0.0
        for b in range(k * BLOCK, min(bins, k * BLOCK + BLOCK)):
            worst = max(worst, near[b, 0])
        coarse[k] = worst


@njit(parallel=True, error_model="numpy")
def draw_all(
    triangles: Floats, balls: Floats, nodes: Floats, start: Whole, origins: Floats, axes: Floats, order: Whole,
    view: Floats, chunks: int,
) -> tuple[Floats, Whole, int]:  # fmt: skip
    """Nearest real point per bin (bins, 3): distance from the view point, rho and y; its triangle and state (bins, 2).

    ``view`` = rho and y of the view point, first direction, bin width (rad), bins and reach; the bins go all round.
    ``order`` lists states far apart first, so that most of the rest is hidden. The last number is a state at which an
    obstacle covers the view point, or -1.
    """
    bins = int(view[4])
    n = order.shape[0]
    angles = view[2] + np.arange(bins) * view[3]
    rays = np.column_stack((np.cos(angles), np.sin(angles)))
    nears = np.full((chunks, bins, 3), math.inf)
    all_marks = np.full((chunks, bins, 2), -1, np.int32)
    covered = np.full(chunks, -1, np.int64)
    for chunk in prange(chunks):
        near, marks = nears[chunk], all_marks[chunk]
        coarse = np.full((bins + BLOCK - 1) // BLOCK, math.inf)
        queue = np.empty(2 * (64 * start.shape[0] + 8 + start[1]), np.int32)
        t, segments, stack = np.empty((3, 3)), np.empty((4, 6)), np.empty((130, 2))
        for k in range(chunk, n, chunks):
            done = k // chunks + 1
            state = order[k]
            hit = _draw_state(
                triangles, balls, nodes, start, origins, axes, state, view, rays, near, coarse, marks, queue, t,
                segments, stack,
            )  # fmt: skip
            if hit:
                covered[chunk] = state
            if done < 8 or done % 8 == 0:
                _refresh(near, coarse)
    return _merge(nears, all_marks, covered)


@njit(error_model="numpy")
def _merge(nears: Floats, marks: Whole, covered: Longs) -> tuple[Floats, Whole, int]:
    out, mark = nears[0].copy(), marks[0].copy()
    for c in range(1, nears.shape[0]):
        for b in range(out.shape[0]):
            if nears[c, b, 0] < out[b, 0]:
                out[b], mark[b] = nears[c, b], marks[c, b]
    return out, mark, int(covered.max())


@njit(error_model="numpy")
def corners_to_keep(points: Floats, tolerance: float) -> np.ndarray[Any, np.dtype[np.bool_]]:
    """Corners of a line (n,2) to keep so that every dropped one lies within ``tolerance`` of what is left.

    Recursive halving at the farthest point (Ramer 1972; Douglas and Peucker 1973), with distances to the piece itself,
    not its straight continuation.
    """
    n = points.shape[0]
    keep = np.zeros(n, np.bool_)
    keep[0] = keep[n - 1] = True
    stack = [(0, n - 1)]
    while len(stack) > 0:
        i, j = stack.pop()
        worst, where = tolerance, -1
        for k in range(i + 1, j):
            d = side_distance(points[k, 0], points[k, 1], points[i, 0], points[i, 1], points[j, 0], points[j, 1])[0]
            if d > worst:
                worst, where = d, k
        if where >= 0:
            keep[where] = True
            stack.append((i, where))
            stack.append((where, j))
    return keep
