"""How far beyond a plane square to a direction u a piece of the body lies, for a whole list of states.

A body of revolution about the axis a through o reaches o.u + h(u) along u, where h = max over the corners of its
outline of rho |u x a| + y u.a. A piece of the body whose lowest point along u is ``low`` is therefore no nearer than
low - o.u - h: one number per state, whatever the state, and exact for flat things when u is square to them. h comes
from a table over t = c/(|c| + s), c = u.a, s = |u x a|, whose entries owe what straight lines between them may lose.

Sums are in single precision, about a middle point, and vectors of them are worked at once; the caller takes off what
that may cost.

Source: derived here.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from hubwright.engineering.envelope.outline.kernels import cell_of, from_side, nearest_cell, side_at, signed_distance
from hubwright.engineering.kernels import njit

Floats = np.ndarray[Any, np.dtype[np.float64]]
Whole = np.ndarray[Any, np.dtype[np.int32]]
Singles = np.ndarray[Any, np.dtype[np.float32]]

LIMIT = 6
ROWS = 7
"""Rows of a list of states: hub x, y, z about the middle, axis x, y, z, and what a gap must come below to matter."""


@njit(error_model="numpy")
def away_from(
    x: float, y: float, z: float, origins: Floats, axes: Floats, state: int, index: Floats
) -> tuple[float, float, float, float]:
    """Unit direction from the package to a point (x, y, z) at a state, and its distance (0 where the grid chose).

    From the nearest place of the outline for points outside it and within its grid, else the direction of the grid.
    """
    ax, ay, az = axes[state, 0], axes[state, 1], axes[state, 2]
    x, y, z = x - origins[state, 0], y - origins[state, 1], z - origins[state, 2]
    along = x * ax + y * ay + z * az
    rho = math.sqrt(max(0.0, x * x + y * y + z * z - along * along))
    gap = 0.0
    if cell_of(rho, along, index) >= 0:
        gap, side = signed_distance(rho, along, index)
    if gap > 0.01:
        k = side_at(index, side)
        _, t = from_side(rho, along, index, side)
        nr = (rho - index[k] - t * (index[k + 2] - index[k])) / gap
        ny = (along - index[k + 1] - t * (index[k + 3] - index[k + 1])) / gap
    else:
        gap = 0.0
        cell = nearest_cell(rho, along, index)
        nr, ny = index[cell + 1], index[cell + 2]
    scale = nr / rho if rho > 0.0 else 0.0
    turn = ny - scale * along
    gx, gy, gz = scale * x + turn * ax, scale * y + turn * ay, scale * z + turn * az
    size = math.sqrt(gx * gx + gy * gy + gz * gz)
    if size < 0.5:
        return ax, ay, az, 0.0
    return gx / size, gy / size, gz / size, gap


@njit(error_model="numpy")
def reach_along(u: float, v: float, w: float, ax: float, ay: float, az: float, table: Singles) -> float:
    """No less than what the package reaches from the hub along a unit direction."""
    c = u * ax + v * ay + w * az
    p, q, r = v * az - w * ay, w * ax - u * az, u * ay - v * ax
    place = (c / (abs(c) + math.sqrt(p * p + q * q + r * r)) + 1.0) * 0.5 * (table.shape[0] - 1)
    cell = min(table.shape[0] - 2, int(place))
    return float(table[cell] + (place - cell) * (table[cell + 1] - table[cell]))


@njit(error_model="numpy", fastmath={"contract", "nsz", "nnan"})
def lowest_point(points: Singles, a: int, b: int, ux: float, uy: float, uz: float, keys: Singles) -> tuple[float, int]:
    """Least u.p of points a .. b - 1 and which one it is; ``keys`` is scratch."""
    x, y, z = points[0, a:b], points[1, a:b], points[2, a:b]
    u, v, w = np.float32(ux), np.float32(uy), np.float32(uz)
    for i in range(b - a):
        keys[i] = u * x[i] + v * y[i] + w * z[i]
    bits = keys.view(np.int32)  # turned so that they are ordered as the numbers, and whole numbers compare many at once
    rest, sign = np.int32(0x7FFFFFFF), np.int32(31)
    for i in range(b - a):
        bits[i] ^= (bits[i] >> sign) & rest
    least = bits[0]
    for i in range(b - a):
        least = min(least, bits[i])
    at = 0
    while bits[at] != least:
        at += 1
    bits[at] ^= (bits[at] >> sign) & rest
    return float(keys[at]), a + at


@njit(error_model="numpy", fastmath={"contract", "nsz", "nnan"})
def plane_floors(
    states: Singles, count: int, ux: float, uy: float, uz: float, low: float, table: Singles, cells: Whole, out: Singles
) -> None:
    """Write low - o.u - h(u) for the first ``count`` states; ``cells`` is scratch."""
    ox, oy, oz = states[0, :count], states[1, :count], states[2, :count]
    ax, ay, az = states[3, :count], states[4, :count], states[5, :count]
    u, v, w, least = np.float32(ux), np.float32(uy), np.float32(uz), np.float32(low)
    one, half, last = np.float32(1.0), np.float32(0.5 * (table.shape[0] - 1)), np.float32(table.shape[0] - 2)
    for i in range(count):
        c = u * ax[i] + v * ay[i] + w * az[i]
        p, q, r = v * az[i] - w * ay[i], w * ax[i] - u * az[i], u * ay[i] - v * ax[i]
        s = math.sqrt(p * p + q * q + r * r)
        place = min(last + one, (c / (abs(c) + s) + one) * half)
        cell = np.int32(min(last, place))
        cells[i] = cell
        keep = place - np.float32(cell)
        out[i] = keep
    for i in range(count):
        k = np.uint32(cells[i])
        first, second = table[k], table[k + np.uint32(1)]
        reach = first + out[i] * (second - first)
        out[i] = least - (u * ox[i] + v * oy[i] + w * oz[i]) - reach


@njit(error_model="numpy")
def keep_low(
    states: Singles, names: Whole, floors: Singles, count: int, enough: float, spare: float, out: Singles, out_names: Whole
) -> tuple[int, int]:  # fmt: skip
    """Pass on the states whose floor, less ``spare``, is below ``enough`` and below their own limit.

    Gives how many, and the place among them of the lowest. ``out`` may be ``states`` itself.
    """
    left, lowest, some = 0, 0, 0
    least, off = np.float32(3e38), np.float32(spare)
    top = np.float32(min(enough, 3e38))
    for i in range(count):
        some += 1 if floors[i] - off < min(top, states[LIMIT, i]) else 0
    if some == 0:
        return 0, 0
    for i in range(count):
        floor = floors[i] - off
        if floor < top and floor < states[LIMIT, i]:
            if floor < least:
                least, lowest = floor, left
            out_names[left] = names[i]
            for j in range(ROWS):
                out[j, left] = states[j, i]
            left += 1
    return left, lowest
