"""Packages against a ready map: outline sides against the map's lines, by two grids.

The fine grid holds the distance from each cell's middle to the nearest line, so a point's distance is at least that
less its way to the middle. Outlines come cut into pieces no longer than ``2 HALF_MM``; each piece is looked up once,
and the few that may still bind are measured exactly against the lines listed in the coarse grid.

``lines`` (k, 4): rho0, y0, rho1, y1. ``grid`` = rho and y of its corner, fine cell size, fine cells along rho and y,
coarse cell size, coarse cells along rho and y. A coarse cell lists the lines that can be the nearest to any point
within ``HALF_MM`` of it.

Source: geometry of the meridian half-plane (derived).
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from numba import njit, prange

from hubwright.engineering.envelope.outline.kernels import side_distance, sides_apart

Floats = np.ndarray[Any, np.dtype[np.float64]]
Whole = np.ndarray[Any, np.dtype[np.int32]]
Singles = np.ndarray[Any, np.dtype[np.float32]]

HALF_MM = 3.0


@njit(cache=True, error_model="numpy")
def fill_grid(lines: Floats, grid: Floats) -> tuple[Singles, Whole, Whole]:
    """Distance at fine cells (rounded down), first entry per coarse cell and the lists."""
    cell, nr, ny = grid[2], int(grid[3]), int(grid[4])
    wide, mr, my = grid[5], int(grid[6]), int(grid[7])
    middle, first = np.empty(nr * ny, np.float32), np.zeros(mr * my + 1, np.int32)
    listed = np.empty(max(64, 8 * mr * my), np.int32)
    d = np.empty(lines.shape[0])
    half = wide * math.sqrt(0.5)
    count = 0
    for c in range(mr * my):
        r, y = grid[0] + (c // my + 0.5) * wide, grid[1] + (c % my + 0.5) * wide
        near = math.inf
        for k in range(lines.shape[0]):
            d[k] = side_distance(r, y, lines[k, 0], lines[k, 1], lines[k, 2], lines[k, 3])[0]
            near = min(near, d[k])
        if count + lines.shape[0] > listed.shape[0]:
            grown = np.empty(2 * listed.shape[0] + lines.shape[0], np.int32)
            grown[:count] = listed[:count]
            listed = grown
        for k in range(lines.shape[0]):
            if d[k] <= near + 2.0 * (half + HALF_MM):
                listed[count] = k
                count += 1
        first[c + 1] = count
    for c in range(nr * ny):
        r, y = grid[0] + (c // ny + 0.5) * cell, grid[1] + (c % ny + 0.5) * cell
        coarse = int((r - grid[0]) / wide) * my + int((y - grid[1]) / wide)
        near = math.inf
        for n in range(first[coarse], first[coarse + 1]):
            k = listed[n]
            near = min(near, side_distance(r, y, lines[k, 0], lines[k, 1], lines[k, 2], lines[k, 3])[0])
        middle[c] = near * (1.0 - 1e-6)
    return middle, first, listed[:count].copy()


@njit(cache=True, error_model="numpy")
def _to_line2(px: float, py: float, ax: float, ay: float, dx: float, dy: float, over: float) -> float:
    """Squared distance of a point from the segment a, a + d; ``over`` = 1/|d|^2, or 0."""
    ex, ey = px - ax, py - ay
    t = (ex * dx + ey * dy) * over
    t = 0.0 if t < 0.0 else t
    t = 1.0 if t > 1.0 else t
    ex, ey = ex - t * dx, ey - t * dy
    return ex * ex + ey * ey


@njit(cache=True, error_model="numpy")
def _piece_gap(
    pieces: Floats, row: int, slide: float, floor: float, best2: float, which: int, lines: Floats, grid: Floats,
    first: Whole, listed: Whole,
) -> tuple[float, int]:  # fmt: skip
    """Squared distance of one piece from the nearest line when below ``best2``; 0 where they cross."""
    a, b, c, d = pieces[row, 3], pieces[row, 4] + slide, pieces[row, 5], pieces[row, 6] + slide
    mr, my = pieces[row, 0] - grid[0], pieces[row, 1] + slide - grid[1]
    off = mr < 0.0 or my < 0.0 or mr >= grid[5] * grid[6] or my >= grid[5] * grid[7]
    cell = 0 if off else int(mr / grid[5]) * int(grid[7]) + int(my / grid[5])
    start, end = (0, lines.shape[0]) if off else (first[cell], first[cell + 1])
    sr, sy = c - a, d - b
    size2 = sr * sr + sy * sy
    over = 1.0 / size2 if size2 > 0.0 else 0.0
    for n in range(start, end):
        k = n if off else listed[n]
        e, f = lines[k, 0], lines[k, 1]
        tr, ty = lines[k, 2] - e, lines[k, 3] - f
        line2 = tr * tr + ty * ty
        over_line = 1.0 / line2 if line2 > 0.0 else 0.0
        near = min(_to_line2(a, b, e, f, tr, ty, over_line), _to_line2(c, d, e, f, tr, ty, over_line))
        near = min(near, _to_line2(e, f, a, b, sr, sy, over))
        near = min(near, _to_line2(e + tr, f + ty, a, b, sr, sy, over))
        if near < best2:
            best2, which = near, k
        if floor <= 0.0 and sides_apart(a, b, c, d, e, f, e + tr, f + ty)[0] <= 0.0:
            return 0.0, k
    return best2, which


@njit(cache=True, error_model="numpy")
def cut_outline(corners: Floats, a: int, b: int, out: Floats) -> int:
    """Cut the sides off the axis into pieces: middle, half length, both ends. Only counts when ``out`` is empty."""
    count, j = 0, b - 1
    for i in range(a, b):
        r0, y0, r1, y1 = corners[j, 0], corners[j, 1], corners[i, 0], corners[i, 1]
        j = i
        if r0 <= 0.0 and r1 <= 0.0:
            continue
        n = math.ceil(math.hypot(r1 - r0, y1 - y0) / (2.0 * HALF_MM))
        for p in range(n):
            if out.shape[0] > 0:
                s, t = p / n, (p + 1) / n
                q = out[count]
                q[3], q[4] = r0 + s * (r1 - r0), y0 + s * (y1 - y0)
                q[5], q[6] = r0 + t * (r1 - r0), y0 + t * (y1 - y0)
                q[0], q[1] = 0.5 * (q[3] + q[5]), 0.5 * (q[4] + q[6])
                q[2] = 0.5 * math.hypot(q[5] - q[3], q[6] - q[4])
            count += 1
    return count


@njit(cache=True, error_model="numpy")
def _within(r: float, y: float, corners: Floats, a: int, b: int, slide: float) -> bool:
    """Whether a point lies inside the outline corners[a:b] slid along y (crossing number)."""
    inside, j = False, b - 1
    for i in range(a, b):
        yi, yj = corners[i, 1] + slide, corners[j, 1] + slide
        if (yi > y) != (yj > y) and r < corners[i, 0] + (y - yi) / (yj - yi) * (corners[j, 0] - corners[i, 0]):
            inside = not inside
        j = i
    return inside


@njit(cache=True, error_model="numpy")
def _depth(r: float, y: float, corners: Floats, a: int, b: int, slide: float) -> float:
    """Distance of an inside point from the sides that are surface (not on the axis)."""
    best, j = math.inf, b - 1
    for i in range(a, b):
        if corners[i, 0] > 0.0 or corners[j, 0] > 0.0:
            d = side_distance(r, y, corners[i, 0], corners[i, 1] + slide, corners[j, 0], corners[j, 1] + slide)[0]
            best = min(best, d)
        j = i
    return best


@njit(cache=True, error_model="numpy")
def _overlap(lines: Floats, corners: Floats, a: int, b: int, slide: float) -> tuple[float, int]:
    """Depth of the deepest point of the lines inside the outline, to 0.005 mm, by halving (depth grows 1 per 1)."""
    deepest, which = 0.0, 0
    stack = np.empty((64, 2))
    for k in range(lines.shape[0]):
        dr, dy = lines[k, 2] - lines[k, 0], lines[k, 3] - lines[k, 1]
        length = math.hypot(dr, dy)
        stack[0, 0], stack[0, 1], top = 0.0, 1.0, 1
        while top > 0:
            top -= 1
            s0, s1 = stack[top, 0], stack[top, 1]
            s, half = 0.5 * (s0 + s1), 0.5 * (s1 - s0) * length
            r, y = lines[k, 0] + dr * s, lines[k, 1] + dy * s
            depth = _depth(r, y, corners, a, b, slide)
            if not _within(r, y, corners, a, b, slide):
                depth = -depth
            if depth > deepest:
                deepest, which = depth, k
            if depth + half > deepest + 0.005 and half > 0.0025 and top + 2 <= 64:
                stack[top, 0], stack[top, 1], stack[top + 1, 0], stack[top + 1, 1] = s0, s, s, s1
                top += 2
    return -deepest, which


@njit(cache=True, error_model="numpy", fastmath={"contract", "nsz"})
def _floors(
    middles: Singles, a: int, b: int, slide: float, grid: Floats, middle: Singles, bounds: Singles
) -> tuple[float, int]:
    """A number not above the distance of each piece from every line; the least and its row.

    In single precision, with a thousandth of a millimetre taken off for the rounding.
    """
    fine, nr, ny = np.float32(grid[2]), int(grid[3]), int(grid[4])
    over, half = np.float32(1.0 / grid[2]), np.float32(0.5)
    shift_r, shift_y = np.float32(-grid[0] / grid[2]), np.float32((slide - grid[1]) / grid[2])
    spare = np.float32(0.001)
    for i in range(b - a):
        u, v = middles[0, a + i] * over + shift_r, middles[1, a + i] * over + shift_y
        p = min(np.int32(nr - 1), max(np.int32(0), np.int32(u)))
        q = min(np.int32(ny - 1), max(np.int32(0), np.int32(v)))
        du, dv = u - np.float32(p) - half, v - np.float32(q) - half
        away = fine * np.sqrt(du * du + dv * dv)
        bounds[i] = middle[p * np.int32(ny) + q] - away - middles[2, a + i] - spare
    lowest, row = bounds[0], 0
    for i in range(b - a):
        if bounds[i] < lowest:
            lowest, row = bounds[i], i
    return float(lowest), a + row


@njit(cache=True, error_model="numpy")
def one_package(
    corners: Floats, a: int, b: int, pieces: Floats, middles: Singles, c: int, d: int, slide: float, lines: Floats, seeds: Floats,
    grid: Floats, middle: Singles, first: Whole, listed: Whole, cap: float, deep: bool, bounds: Singles,
) -> tuple[float, int]:  # fmt: skip
    """Smallest distance from an outline slid by ``slide`` to the lines, and the line; (cap, -1) when above.

    The outline is corners[a:b], cut into pieces[c:d]. Contact or overlap gives 0 or less: the overlap depth when
    ``deep``, else 0. ``seeds`` (n, 6): first corner of each chain, its least and greatest rho, greatest and least y.
    """
    best2, which = cap * cap, -1
    lowest, tried = _floors(middles, c, d, slide, grid, middle, bounds)
    if lowest < cap:
        best2, which = _piece_gap(pieces, tried, slide, lowest, best2, which, lines, grid, first, listed)
        for i in range(c, d):
            floor = float(bounds[i - c])
            if i != tried and (floor <= 0.0 or floor * floor < best2):
                best2, which = _piece_gap(pieces, i, slide, floor, best2, which, lines, grid, first, listed)
    inside = best2 <= 0.0
    if not inside and lines.shape[0] > 0:
        top_r, low_y, high_y = 0.0, math.inf, -math.inf
        for i in range(a, b):
            top_r = max(top_r, corners[i, 0])
            low_y, high_y = min(low_y, corners[i, 1] + slide), max(high_y, corners[i, 1] + slide)
        for n in range(seeds.shape[0]):
            if seeds[n, 3] > top_r or seeds[n, 4] > high_y or seeds[n, 5] < low_y:
                continue  # the chain reaches outside the outline's box, and no side crosses it
            inside = inside or _within(seeds[n, 0], seeds[n, 1], corners, a, b, slide)
    if inside:
        return _overlap(lines, corners, a, b, slide) if deep else (0.0, which)
    return math.sqrt(best2), which


@njit(cache=True, parallel=True, error_model="numpy")
def many_packages(
    corners: Floats, starts: Whole, pieces: Floats, middles: Singles, cuts: Whole, outline: Whole, slide: Floats, lines: Floats,
    seeds: Floats, grid: Floats, middle: Singles, first: Whole, listed: Whole, caps: Floats, deep: bool, chunks: int,
) -> tuple[Floats, Whole]:  # fmt: skip
    """Gap (n,) and line (n,) of many packages; ``outline`` and ``slide`` (n,) name the outline and its disc.

    Outline k is corners[starts[k]:starts[k+1]] and pieces[cuts[k]:cuts[k+1]].
    """
    n = outline.shape[0]
    gaps, which = np.empty(n), np.empty(n, np.int32)
    longest = 0
    for k in range(cuts.shape[0] - 1):
        longest = max(longest, cuts[k + 1] - cuts[k])
    for chunk in prange(chunks):
        bounds = np.empty(longest, np.float32)
        for p in range(chunk * n // chunks, (chunk + 1) * n // chunks):
            k = outline[p]
            gaps[p], which[p] = one_package(
                corners, starts[k], starts[k + 1], pieces, middles, cuts[k], cuts[k + 1], slide[p], lines, seeds, grid, middle,
                first, listed, caps[p], deep, bounds,
            )  # fmt: skip
    return gaps, which


@njit(cache=True, error_model="numpy")
def cut_all(corners: Floats, starts: Whole) -> tuple[Floats, Whole]:
    """Pieces of many outlines and where each begins."""
    cuts = np.zeros(starts.shape[0], np.int32)
    for k in range(starts.shape[0] - 1):
        cuts[k + 1] = cuts[k] + cut_outline(corners, starts[k], starts[k + 1], np.empty((0, 7)))
    pieces = np.empty((cuts[-1], 7))
    for k in range(starts.shape[0] - 1):
        cut_outline(corners, starts[k], starts[k + 1], pieces[cuts[k] : cuts[k + 1]])
    return pieces, cuts
