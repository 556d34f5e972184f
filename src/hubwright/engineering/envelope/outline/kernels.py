"""Signed distance from a point of the half-plane (rho, y) to the outline of a body of revolution.

An outline is a closed polygon; its sides that lie on the spin axis are no surface and are left out. The index is a
grid of square cells, each holding a lower bound of the signed distance anywhere in it and the few sides that can be
the nearest to any point within ``EXTRA_MM`` of it. The sign comes from the normal of the nearest feature; at a corner
that is the sum of the two neighbouring normals (Baerentzen and Aanaes, Signed distance computation using the angle
weighted pseudonormal, IEEE TVCG 11 (2005) 243; in the plane equal weights serve).

For shapes with extent there is a second bound: the outline lies in every half-plane n.q <= h(n), h its support
function, so the signed distance of q is at least n.q - h(n). Each cell names the direction that is best at its middle.

The index travels as one flat array, because unpacking a tuple of arrays costs more than the sums do. Its head holds,
in this order: number of sides, cells along rho, cells along y, rho and y of the grid's corner, cell size, (rho, y,
signed distance) of the deepest cell middle, and where the sides, the cells, the first entries and the lists begin.
A side has ten numbers: both corners, its normal, the normals at both corners. A cell has four: the lower bound, then
n_rho, n_y and h of its best half-plane.

Source: geometry of the meridian half-plane (derived).
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from hubwright.engineering.kernels import njit

EXTRA_MM = 4.0
SIDES, CELLS_RHO, CELLS_Y, CORNER_RHO, CORNER_Y, CELL, POLE_RHO, POLE_Y, POLE_DEPTH = range(9)
AT_SIDES, AT_CELLS, AT_FIRST, AT_LISTS = range(9, 13)
HEAD, SIDE, CELL_NUMBERS = 13, 10, 4

Floats = np.ndarray[Any, np.dtype[np.float64]]
Whole = np.ndarray[Any, np.dtype[np.int32]]


@njit(error_model="numpy")
def side_distance(rho: float, y: float, r0: float, y0: float, r1: float, y1: float) -> tuple[float, float]:
    """Distance from a point to a side and where along it (0..1) the nearest point lies."""
    dr, dy = r1 - r0, y1 - y0
    length2 = dr * dr + dy * dy
    t = 0.0
    if length2 > 0.0:
        t = min(1.0, max(0.0, ((rho - r0) * dr + (y - y0) * dy) / length2))
    er, ey = rho - r0 - t * dr, y - y0 - t * dy
    return math.sqrt(er * er + ey * ey), t


@njit(error_model="numpy")
def sides_apart(a: float, b: float, c: float, d: float, e: float, f: float, g: float, h: float) -> tuple[float, float]:
    """Distance between the segments (a,b)-(c,d) and (e,f)-(g,h) of a plane and where along the first (0..1).

    0 where they cross.
    """
    o1 = (c - a) * (f - b) - (d - b) * (e - a)
    o2 = (c - a) * (h - b) - (d - b) * (g - a)
    o3 = (g - e) * (b - f) - (h - f) * (a - e)
    o4 = (g - e) * (d - f) - (h - f) * (c - e)
    if o1 * o2 < 0.0 and o3 * o4 < 0.0:
        return 0.0, o3 / (o3 - o4)
    best, where = side_distance(a, b, e, f, g, h)[0], 0.0
    other = side_distance(c, d, e, f, g, h)[0]
    if other < best:
        best, where = other, 1.0
    other, t = side_distance(e, f, a, b, c, d)
    if other < best:
        best, where = other, t
    other, t = side_distance(g, h, a, b, c, d)
    if other < best:
        best, where = other, t
    return best, where


@njit(error_model="numpy")
def side_at(index: Floats, side: int) -> int:
    """Where the numbers of a side begin."""
    return int(index[AT_SIDES]) + SIDE * side


@njit(error_model="numpy")
def from_side(rho: float, y: float, index: Floats, side: int) -> tuple[float, float]:
    """Distance of a point from a side of the outline and where along it the nearest point lies."""
    k = side_at(index, side)
    return side_distance(rho, y, index[k], index[k + 1], index[k + 2], index[k + 3])


@njit(error_model="numpy")
def from_chord(r0: float, y0: float, r1: float, y1: float, index: Floats, side: int) -> tuple[float, float]:
    """Distance of a chord from a side of the outline and where along the chord."""
    k = side_at(index, side)
    return sides_apart(r0, y0, r1, y1, index[k], index[k + 1], index[k + 2], index[k + 3])


@njit(error_model="numpy")
def _signed(rho: float, y: float, side: int, t: float, distance: float, index: Floats) -> float:
    k = side_at(index, side)
    px = index[k] + t * (index[k + 2] - index[k])
    py = index[k + 1] + t * (index[k + 3] - index[k + 1])
    n = k + 4
    if t <= 0.0:
        n = k + 6
    elif t >= 1.0:
        n = k + 8
    return distance if (rho - px) * index[n] + (y - py) * index[n + 1] >= 0.0 else -distance


@njit(error_model="numpy")
def signed_over_all(rho: float, y: float, index: Floats) -> tuple[float, int]:
    """Signed distance to the outline (negative inside) and the nearest side, every side tried."""
    best, which, where = math.inf, 0, 0.0
    for j in range(int(index[SIDES])):
        d, t = from_side(rho, y, index, j)
        if d < best:
            best, which, where = d, j, t
    return _signed(rho, y, which, where, best, index), which


@njit(error_model="numpy")
def cell_of(rho: float, y: float, index: Floats) -> int:
    """Number of the cell a point falls in, or -1 outside the grid."""
    i = math.floor((rho - index[CORNER_RHO]) / index[CELL])
    j = math.floor((y - index[CORNER_Y]) / index[CELL])
    if i < 0 or j < 0 or i >= index[CELLS_RHO] or j >= index[CELLS_Y]:
        return -1
    return int(i * index[CELLS_Y] + j)


@njit(error_model="numpy")
def nearest_cell(rho: float, y: float, index: Floats) -> int:
    """Where the four numbers of the cell nearest to a point begin."""
    i = min(index[CELLS_RHO] - 1.0, max(0.0, math.floor((rho - index[CORNER_RHO]) / index[CELL])))
    j = min(index[CELLS_Y] - 1.0, max(0.0, math.floor((y - index[CORNER_Y]) / index[CELL])))
    return int(index[AT_CELLS] + CELL_NUMBERS * (i * index[CELLS_Y] + j))


@njit(error_model="numpy")
def lower_bound(rho: float, y: float, index: Floats) -> float:
    """A number not above the signed distance.

    A point outside the grid (a convex box round the outline) stands at an obtuse angle to everything inside, seen from
    the nearest cell: squares of its way to that cell and of the cell's own bound add up to no more than the distance.
    """
    bound = index[nearest_cell(rho, y, index)]
    top_r = index[CORNER_RHO] + index[CELLS_RHO] * index[CELL]
    top_y = index[CORNER_Y] + index[CELLS_Y] * index[CELL]
    out_r = max(0.0, index[CORNER_RHO] - rho, rho - top_r)
    out_y = max(0.0, index[CORNER_Y] - y, y - top_y)
    away2 = out_r * out_r + out_y * out_y
    if away2 > 0.0:
        bound = max(0.0, bound)
        return math.sqrt(bound * bound + away2)
    return float(bound)


@njit(error_model="numpy")
def signed_distance(rho: float, y: float, index: Floats) -> tuple[float, int]:
    """Signed distance to the outline (negative inside) and the nearest side."""
    cell = cell_of(rho, y, index)
    if cell < 0:
        return signed_over_all(rho, y, index)
    best, which, where = math.inf, 0, 0.0
    first = int(index[AT_FIRST]) + cell
    lists = int(index[AT_LISTS])
    for k in range(int(index[first]), int(index[first + 1])):
        j = int(index[lists + k])
        d, t = from_side(rho, y, index, j)
        if d < best:
            best, which, where = d, j, t
    return _signed(rho, y, which, where, best, index), which


@njit(error_model="numpy")
def signed_distances(rho: Floats, y: Floats, index: Floats) -> Floats:
    """Signed distances of many points (mm)."""
    out = np.empty(rho.shape[0])
    for i in range(rho.shape[0]):
        out[i] = signed_distance(rho[i], y[i], index)[0]
    return out


@njit(error_model="numpy")
def fill_cells(index: Floats, support: Floats) -> tuple[Whole, Whole]:
    """Fill the cells and the deepest middle in place; give the lists of sides.

    Args:
        index: Head, sides and room for the cells.
        support: (k, 3) n_rho, n_y, h of the half-planes to choose from.
    """
    nr, ny, m, cell = int(index[CELLS_RHO]), int(index[CELLS_Y]), int(index[SIDES]), index[CELL]
    half = cell * math.sqrt(0.5)
    d = np.empty(m)
    first = np.zeros(nr * ny + 1, np.int32)
    listed = np.empty(max(64, 4 * nr * ny), np.int32)
    count = 0
    index[POLE_DEPTH] = math.inf
    for i in range(nr):
        for j in range(ny):
            r, y = index[CORNER_RHO] + (i + 0.5) * cell, index[CORNER_Y] + (j + 0.5) * cell
            near = math.inf
            for k in range(m):
                d[k] = from_side(r, y, index, k)[0]
                near = min(near, d[k])
            signed = signed_over_all(r, y, index)[0]
            at = int(index[AT_CELLS]) + CELL_NUMBERS * (i * ny + j)
            index[at] = signed - half
            index[at + 1 : at + 4] = support[np.argmax(support[:, 0] * r + support[:, 1] * y - support[:, 2])]
            if signed < index[POLE_DEPTH] and r > 0.0:
                index[POLE_RHO], index[POLE_Y], index[POLE_DEPTH] = r, y, signed
            if count + m > listed.shape[0]:
                grown = np.empty(2 * listed.shape[0] + m, np.int32)
                grown[:count] = listed[:count]
                listed = grown
            reach = near + 2.0 * (half + EXTRA_MM)
            for k in range(m):
                if d[k] <= reach:
                    listed[count] = k
                    count += 1
            first[i * ny + j + 1] = count
    return first, listed[:count].copy()


@njit(error_model="numpy")
def deepen_pole(index: Floats) -> None:
    """Move the pole from its cell's middle to the deepest place near it, by a compass search down to a micrometre."""
    step = index[CELL]
    while step > 1e-6:
        best, rho, y = index[POLE_DEPTH], index[POLE_RHO], index[POLE_Y]
        for k in range(16):
            angle = k * math.pi / 8.0
            r, h = rho + step * math.cos(angle), y + step * math.sin(angle)
            found = signed_distance(max(0.0, r), h, index)[0]
            if found < best - 1e-12:
                best = found
                index[POLE_RHO], index[POLE_Y], index[POLE_DEPTH] = max(0.0, r), h, found
        if rho == index[POLE_RHO] and y == index[POLE_Y]:
            step *= 0.5


@njit(error_model="numpy")
def slid_index(index: Floats, slide: float) -> Floats:
    """The index of the same outline moved by ``slide`` along y."""
    out = index.copy()
    out[CORNER_Y] += slide
    out[POLE_Y] += slide
    for k in range(int(index[SIDES])):
        out[side_at(index, k) + 1] += slide
        out[side_at(index, k) + 3] += slide
    for at in range(int(index[AT_CELLS]), int(index[AT_FIRST]), CELL_NUMBERS):
        out[at + 3] += index[at + 2] * slide
    return out
