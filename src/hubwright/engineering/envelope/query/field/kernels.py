"""Distance field of a map's lines, and bounds drawn from it.

With d the distance to the lines, d^2 - |p|^2 is the least of functions linear in p, so it is concave. Hence

* for a point p inside a square of nodes v with bilinear weights w: d^2(p) >= sum w d^2(v) - sum w |v - p|^2, and the
  last sum is cell^2 (s (1 - s) + t (1 - t));
* for a point a share t along a side of length l with ends a and b: d^2 >= (1 - t) d^2(a) + t d^2(b) - t (1 - t) l^2.

Both err by a squared length of a few mm against a squared gap, far less than "distance changes by 1 per 1" gives.

``lines`` (k, 5): rho0, y0, rho1, y1, 1/length^2 (0 for a point). ``grid`` = rho and y of its corner, spacing of the
nodes, nodes along rho and y, cell size, cells along rho and y, and what single precision may cost a squared distance.
A cell lists, nearest first, the lines that can be the nearest to any point within ``REACH_MM`` of it, and their
distances from its middle.

Source: derived here.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from hubwright.engineering.envelope.outline.kernels import side_distance, sides_apart
from hubwright.engineering.kernels import njit

Floats = np.ndarray[Any, np.dtype[np.float64]]
Whole = np.ndarray[Any, np.dtype[np.int32]]
Singles = np.ndarray[Any, np.dtype[np.float32]]

REACH_MM = 6.0


@njit(error_model="numpy")
def fill_cells(lines: Floats, grid: Floats) -> tuple[Whole, Whole, Singles]:
    """First entry per cell, the lists, and the distances (rounded down) of the listed lines from the cell's middle."""
    wide, mr, my = grid[5], int(grid[6]), int(grid[7])
    first = np.zeros(mr * my + 1, np.int32)
    listed, away = np.empty(max(64, 8 * mr * my), np.int32), np.empty(max(64, 8 * mr * my), np.float32)
    d = np.empty(lines.shape[0])
    spare = 2.0 * (wide * math.sqrt(0.5) + REACH_MM)
    count = 0
    for c in range(mr * my):
        r, y = grid[0] + (c // my + 0.5) * wide, grid[1] + (c % my + 0.5) * wide
        for k in range(lines.shape[0]):
            d[k] = side_distance(r, y, lines[k, 0], lines[k, 1], lines[k, 2], lines[k, 3])[0]
        if count + lines.shape[0] > listed.shape[0]:
            more = listed.shape[0] + lines.shape[0]
            listed = np.concatenate((listed, np.empty(more, np.int32)))
            away = np.concatenate((away, np.empty(more, np.float32)))
        begin, near = count, math.inf if lines.shape[0] == 0 else d.min()
        for k in range(lines.shape[0]):
            if d[k] > near + spare:
                continue
            at = count
            while at > begin and away[at - 1] > d[k]:
                listed[at], away[at] = listed[at - 1], away[at - 1]
                at -= 1
            listed[at], away[at] = k, d[k] * (1.0 - 1e-6)
            count += 1
        first[c + 1] = count
    return first, listed[:count].copy(), away[:count].copy()


@njit(error_model="numpy")
def fill_nodes(lines: Floats, grid: Floats, first: Whole, listed: Whole) -> Singles:
    """Squared distance from each node to the nearest line."""
    fine, nr, ny = grid[2], int(grid[3]), int(grid[4])
    mr, my = int(grid[6]), int(grid[7])
    field = np.empty(nr * ny, np.float32)
    for i in range(nr):
        for j in range(ny):
            r, y = grid[0] + i * fine, grid[1] + j * fine
            cell = min(mr - 1, int(i * fine / grid[5])) * my + min(my - 1, int(j * fine / grid[5]))
            near = math.inf
            for n in range(first[cell], first[cell + 1]):
                k = listed[n]
                near = min(near, side_distance(r, y, lines[k, 0], lines[k, 1], lines[k, 2], lines[k, 3])[0])
            field[i * ny + j] = near * near
    return field


@njit(error_model="numpy", fastmath={"contract", "nsz", "nnan"})
def point_floors(
    rho: Singles, y: Singles, slide: float, grid: Floats, field: Singles, nodes: Whole, shares: Singles, out: Singles
) -> None:
    """A number not above the squared distance of points, slid along y, from every line (but for rounding).

    A point off the grid stands in for its nearest point of the grid, which is nearer to all lines. The first loop
    holds no look-up, so that the compiler works on many points at once. ``nodes`` and ``shares`` (2, n) are scratch.
    """
    ny, one, none = np.int32(grid[4]), np.float32(1.0), np.float32(0.0)
    over = np.float32(1.0 / grid[2])
    shift_r, shift_y = np.float32(-grid[0] / grid[2]), np.float32((slide - grid[1]) / grid[2])
    last_r, last_y = np.float32(grid[3] - 2.0), np.float32(grid[4] - 2.0)
    square = np.float32(grid[2] * grid[2])
    share_r, share_y = shares[0], shares[1]
    for i in range(rho.shape[0]):
        u, v = rho[i] * over + shift_r, y[i] * over + shift_y
        u, v = max(u, none), max(v, none)
        u, v = min(u, last_r + one), min(v, last_y + one)
        p, q = np.int32(min(last_r, u)), np.int32(min(last_y, v))
        s, t = u - np.float32(p), v - np.float32(q)
        nodes[i], share_r[i], share_y[i] = p * ny + q, s, t
        out[i] = -square * (s * (one - s) + t * (one - t))
    row = np.uint32(ny)
    for i in range(rho.shape[0]):
        k = np.uint32(nodes[i])
        a, b = field[k], field[k + np.uint32(1)]
        c, d = field[k + row], field[k + row + np.uint32(1)]
        low, high = a + share_y[i] * (b - a), c + share_y[i] * (d - c)
        out[i] += low + share_r[i] * (high - low)


@njit(error_model="numpy", fastmath={"contract", "nsz", "nnan"})
def side_floors(at_points: Singles, length2: Singles, over2: Singles, spare: float, out: Singles) -> int:
    """A number not above the squared distance of each side from every line (0 or more); gives the side with the least.

    Side i runs between points i and i + 1; ``length2`` below 0 marks a side that is no surface.
    """
    half, none, never, off = np.float32(0.5), np.float32(0.0), np.float32(3e38), np.float32(spare)
    at_first, at_second = at_points[:-1], at_points[1:]
    for i in range(length2.shape[0]):
        first, second, l2 = at_first[i], at_second[i], length2[i]
        tilt = half * (second - first)
        between = half * (first + second) - half * half * l2 - tilt * tilt * over2[i]
        floor = between if abs(tilt) < half * l2 else min(first, second)
        floor = max(none, floor - off)
        out[i] = never if l2 < none else floor
    bits = out.view(np.int32)  # numbers from 0 up are ordered as their bits, and those compare many at once
    least = bits[0]
    for i in range(bits.shape[0]):
        least = min(least, bits[i])
    at = 0
    while bits[at] != least:
        at += 1
    return at


@njit(error_model="numpy", fastmath={"contract"})
def _to_line2(px: float, py: float, ax: float, ay: float, dx: float, dy: float, over: float) -> float:
    """Squared distance of a point from the segment a, a + d; ``over`` = 1/|d|^2, or 0."""
    ex, ey = px - ax, py - ay
    t = min(1.0, max(0.0, (ex * dx + ey * dy) * over))
    ex, ey = ex - t * dx, ey - t * dy
    return ex * ex + ey * ey


@njit(error_model="numpy", fastmath={"contract"})
def side_gap2(
    a: float, b: float, c: float, d: float, floor: float, best2: float, which: int, lines: Floats, grid: Floats,
    first: Whole, listed: Whole, away: Singles,
) -> tuple[float, int]:  # fmt: skip
    """Squared distance of the side (a,b)-(c,d) from the nearest line when below ``best2``; 0 where they cross.

    ``floor`` above 0 says that they cannot cross.
    """
    mr, my = 0.5 * (a + c) - grid[0], 0.5 * (b + d) - grid[1]
    off = mr < 0.0 or my < 0.0 or mr >= grid[5] * grid[6] or my >= grid[5] * grid[7]
    cell = 0 if off else int(mr / grid[5]) * int(grid[7]) + int(my / grid[5])
    start, end = (0, lines.shape[0]) if off else (first[cell], first[cell + 1])
    sr, sy = c - a, d - b
    size2 = sr * sr + sy * sy
    over = 1.0 / size2 if size2 > 0.0 else 0.0
    wide = grid[5]
    er, ey = mr - (math.floor(mr / wide) + 0.5) * wide, my - (math.floor(my / wide) + 0.5) * wide
    slack = math.sqrt(er * er + ey * ey) + 0.5 * math.sqrt(size2) + 1e-9
    limit = math.sqrt(best2) + slack
    for n in range(start, end):
        if not off and away[n] > limit:
            break
        k = n if off else listed[n]
        e, f = lines[k, 0], lines[k, 1]
        tr, ty = lines[k, 2] - e, lines[k, 3] - f
        near = min(_to_line2(a, b, e, f, tr, ty, lines[k, 4]), _to_line2(c, d, e, f, tr, ty, lines[k, 4]))
        near = min(near, _to_line2(e, f, a, b, sr, sy, over), _to_line2(e + tr, f + ty, a, b, sr, sy, over))
        if near < best2:
            best2, which = near, k
            limit = math.sqrt(best2) + slack
        if floor <= 0.0 and sides_apart(a, b, c, d, e, f, e + tr, f + ty)[0] <= 0.0:
            return 0.0, k
    return best2, which
