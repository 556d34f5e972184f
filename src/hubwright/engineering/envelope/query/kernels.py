"""Packages against a ready map: outline sides against the map's lines, by a grid of short candidate lists.

Each square cell of the half-plane holds a number not above the distance from any of its points to any line, and the
lines that can be the nearest to a point within ``EXTRA_MM`` of it. A side whose middle lies farther from everything
than the best so far plus its half length costs one look-up.

``lines`` (k, 4): rho0, y0, rho1, y1. ``grid`` = rho and y of its corner, cell size, cells along rho, cells along y.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from numba import njit, prange

from hubwright.engineering.envelope.outline.kernels import side_distance, sides_apart

Floats = np.ndarray[Any, np.dtype[np.float64]]
Whole = np.ndarray[Any, np.dtype[np.int32]]

EXTRA_MM = 4.0


@njit(cache=True, error_model="numpy")
def fill_grid(lines: Floats, grid: Floats) -> tuple[Floats, Whole, Whole]:
    """Lower bound per cell, first entry per cell and the lists."""
    cell, nr, ny = grid[2], int(grid[3]), int(grid[4])
    half = cell * math.sqrt(0.5)
    low, first = np.empty(nr * ny), np.zeros(nr * ny + 1, np.int32)
    listed = np.empty(max(64, 8 * nr * ny), np.int32)
    d = np.empty(lines.shape[0])
    count = 0
    for c in range(nr * ny):
        r, y = grid[0] + (c // ny + 0.5) * cell, grid[1] + (c % ny + 0.5) * cell
        near = math.inf
        for k in range(lines.shape[0]):
            d[k] = side_distance(r, y, lines[k, 0], lines[k, 1], lines[k, 2], lines[k, 3])[0]
            near = min(near, d[k])
        low[c] = near - half
        if count + lines.shape[0] > listed.shape[0]:
            grown = np.empty(2 * listed.shape[0] + lines.shape[0], np.int32)
            grown[:count] = listed[:count]
            listed = grown
        for k in range(lines.shape[0]):
            if d[k] <= near + 2.0 * (half + EXTRA_MM):
                listed[count] = k
                count += 1
        first[c + 1] = count
    return low, first, listed[:count].copy()


@njit(cache=True, error_model="numpy")
def _cell(r: float, y: float, grid: Floats) -> int:
    i = (r - grid[0]) / grid[2]
    j = (y - grid[1]) / grid[2]
    if i < 0.0 or j < 0.0 or i >= grid[3] or j >= grid[4]:
        return -1
    return int(i) * int(grid[4]) + int(j)


@njit(cache=True, error_model="numpy")
def _side_gap(
    r0: float, y0: float, r1: float, y1: float, best: float, which: int, lines: Floats, grid: Floats, low: Floats,
    first: Whole, listed: Whole,
) -> tuple[float, int]:  # fmt: skip
    """Distance of one side from the nearest line when below ``best``, in pieces of at most two cells."""
    pieces = int(math.hypot(r1 - r0, y1 - y0) / (2.0 * EXTRA_MM)) + 1
    dr, dy = (r1 - r0) / pieces, (y1 - y0) / pieces
    half = 0.5 * math.hypot(dr, dy)
    for p in range(pieces):
        a, b = r0 + p * dr, y0 + p * dy
        cell = _cell(a + 0.5 * dr, b + 0.5 * dy, grid)
        if cell < 0:
            start, end = 0, lines.shape[0]
        elif low[cell] - half >= best:
            continue
        else:
            start, end = first[cell], first[cell + 1]
        for n in range(start, end):
            k = n if cell < 0 else listed[n]
            apart = sides_apart(a, b, a + dr, b + dy, lines[k, 0], lines[k, 1], lines[k, 2], lines[k, 3])[0]
            if apart < best:
                best, which = apart, k
    return best, which


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
def _depth(
    r: float, y: float, corners: Floats, a: int, b: int, slide: float
) -> float:
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
    """Deepest point of the lines inside the outline, looked for every half millimetre along each line."""
    deepest, which = 0.0, 0
    for k in range(lines.shape[0]):
        dr, dy = lines[k, 2] - lines[k, 0], lines[k, 3] - lines[k, 1]
        steps = int(math.hypot(dr, dy) / 0.5) + 1
        for s in range(steps + 1):
            r, y = lines[k, 0] + dr * s / steps, lines[k, 1] + dy * s / steps
            if _within(r, y, corners, a, b, slide):
                depth = _depth(r, y, corners, a, b, slide)
                if depth > deepest:
                    deepest, which = depth, k
    return -deepest, which


@njit(cache=True, error_model="numpy")
def one_package(
    corners: Floats, a: int, b: int, slide: float, lines: Floats, seeds: Floats, grid: Floats, low: Floats,
    first: Whole, listed: Whole, cap: float, deep: bool, bounds: Floats,
) -> tuple[float, int]:  # fmt: skip
    """Smallest distance from outline corners[a:b] slid by ``slide`` to the lines, and the line; (cap, -1) when above.

    Contact or overlap gives 0 or less: the overlap depth when ``deep``, else 0. ``seeds`` (c, 6): first corner of each
    chain and its box.
    """
    best, which = cap, -1
    lowest, tried, j = math.inf, -1, b - 1
    top_r, low_y, high_y = 0.0, math.inf, -math.inf
    for i in range(a, b):
        r0, y0, r1, y1 = corners[j, 0], corners[j, 1], corners[i, 0], corners[i, 1]
        top_r, low_y, high_y = max(top_r, r1), min(low_y, y1), max(high_y, y1)
        bounds[i - a] = math.inf
        if r0 > 0.0 or r1 > 0.0:
            cell = _cell(0.5 * (r0 + r1), 0.5 * (y0 + y1) + slide, grid)
            half = 0.5 * math.sqrt((r1 - r0) * (r1 - r0) + (y1 - y0) * (y1 - y0))
            bounds[i - a] = (low[cell] if cell >= 0 else -math.inf) - half
            if bounds[i - a] < lowest:
                lowest, tried = bounds[i - a], i
        j = i
    if tried >= 0:
        j = tried - 1 if tried > a else b - 1
        best, which = _side_gap(
            corners[j, 0], corners[j, 1] + slide, corners[tried, 0], corners[tried, 1] + slide, best, which, lines,
            grid, low, first, listed,
        )  # fmt: skip
    j = b - 1
    for i in range(a, b):
        if bounds[i - a] < best and i != tried:
            best, which = _side_gap(
                corners[j, 0], corners[j, 1] + slide, corners[i, 0], corners[i, 1] + slide, best, which, lines, grid,
                low, first, listed,
            )  # fmt: skip
        j = i
    inside = best <= 0.0
    for c in range(seeds.shape[0]):
        if inside:
            break
        if seeds[c, 3] > top_r or seeds[c, 4] > high_y + slide or seeds[c, 5] < low_y + slide:
            continue  # the chain reaches outside the outline's box, and no side crosses it
        if seeds[c, 2] <= top_r and _within(seeds[c, 0], seeds[c, 1], corners, a, b, slide):
            inside = True
    if inside:
        return _overlap(lines, corners, a, b, slide) if deep else (0.0, which)
    return best, which


@njit(cache=True, parallel=True, error_model="numpy")
def many_packages(
    corners: Floats, starts: Whole, outline: Whole, slide: Floats, lines: Floats, seeds: Floats, grid: Floats,
    low: Floats, first: Whole, listed: Whole, caps: Floats, deep: bool, chunks: int,
) -> tuple[Floats, Whole]:  # fmt: skip
    """Gap (n,) and line (n,) of many packages; ``outline`` and ``slide`` (n,) name the outline and its disc."""
    n = outline.shape[0]
    gaps, which = np.empty(n), np.empty(n, np.int32)
    longest = 0
    for k in range(starts.shape[0] - 1):
        longest = max(longest, starts[k + 1] - starts[k])
    for chunk in prange(chunks):
        bounds = np.empty(longest)
        for p in range(chunk * n // chunks, (chunk + 1) * n // chunks):
            k = outline[p]
            gaps[p], which[p] = one_package(
                corners, starts[k], starts[k + 1], slide[p], lines, seeds, grid, low, first, listed, caps[p], deep,
                bounds,
            )  # fmt: skip
    return gaps, which
