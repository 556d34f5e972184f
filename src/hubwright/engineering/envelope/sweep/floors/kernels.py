"""Planes that part the package from boxes and triangles of the body.

The package lies where n_rho rho + n_y y <= h. With e the radial direction of some point, rho >= e.p for every p, so for
n_rho >= 0 the signed distance of any p is at least g.p - h, g = n_rho e + n_y axis: linear in p, least at a corner.

Source: derived here.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from numba import njit

from hubwright.engineering.envelope.outline.kernels import (
    SIDES,
    from_side,
    lower_bound,
    nearest_cell,
    side_at,
    signed_distance,
)

Floats = np.ndarray[Any, np.dtype[np.float64]]


@njit(cache=True, error_model="numpy")
def _wall(
    x: float, y: float, z: float, ax: float, ay: float, az: float, index: Floats
) -> tuple[float, float, float, float, float, float, float, float, float, float]:
    """Choose a plane by the grid for a point (x, y, z) seen from the hub.

    Gives the point's bound by the grid, its distance from the hub and along the axis, n_rho / rho, n_y, g, h and n_rho
    (h infinite where n_rho < 0: no such plane).
    """
    along = x * ax + y * ay + z * az
    r2 = x * x + y * y + z * z
    rho = math.sqrt(max(0.0, r2 - along * along))
    cell = nearest_cell(rho, along, index)
    nr, ny, h = index[cell + 1], index[cell + 2], index[cell + 3]
    if nr < 0.0:
        h = math.inf
    scale = nr / rho if rho > 0.0 else 0.0
    turn = ny - scale * along
    gx, gy, gz = scale * x + turn * ax, scale * y + turn * ay, scale * z + turn * az
    return lower_bound(rho, along, index), math.sqrt(r2), along, scale, ny, gx, gy, gz, h, nr


@njit(cache=True, error_model="numpy")
def _most_lost(
    x: float, y: float, z: float, ax: float, ay: float, az: float, along: float, scale: float, ny: float, nr: float,
    gx: float, gy: float, gz: float, far: float, half: float, motion: Floats,
) -> float:  # fmt: skip
    """Most that the bound of a plane can fall over the poses of a cluster.

    ``motion``: greatest |change| of the axis in x, y, z, the same of the hub, greatest turn and shift. At a pose with
    axis a' = a + da and hub o' = o + do the radial direction e' = (e - d a')/sqrt(1 - d^2), d = e.da, serves as well
    as e did; with r = p - o' the bound g.(p - o) - h changes by -g.do - n_rho d a'.r + n_y da.r and, for d^2 <= 0.2,
    no more than 0.6 n_rho d^2 |r|. Every product is taken at its greatest.
    """
    turn, shift = motion[6], motion[7]
    swing = motion[0] * abs(x) + motion[1] * abs(y) + motion[2] * abs(z) + turn * half
    lean = scale * (
        motion[0] * abs(x - along * ax) + motion[1] * abs(y - along * ay) + motion[2] * abs(z - along * az)
    )  # n_rho times the greatest |d|
    least = motion[3] * abs(gx) + motion[4] * abs(gy) + motion[5] * abs(gz)
    least += lean * (abs(along) + half + swing + shift) + abs(ny) * (swing + turn * shift)
    if lean > 0.0:
        if lean * lean > 0.2 * nr * nr:
            return math.inf
        least += 0.6 * lean * lean / nr * (far + half + shift)
    return float(least)


@njit(cache=True, error_model="numpy")
def triangle_floor(
    triangles: Floats, balls: Floats, i: int, origins: Floats, axes: Floats, state: int, motion: Floats, index: Floats
) -> tuple[float, float, float]:
    """Numbers not above the signed distance of a triangle over a cluster, and at its middle pose; its far distance."""
    ox, oy, oz = origins[state, 0], origins[state, 1], origins[state, 2]
    ax, ay, az = axes[state, 0], axes[state, 1], axes[state, 2]
    x, y, z, half = balls[i, 0] - ox, balls[i, 1] - oy, balls[i, 2] - oz, balls[i, 3]
    low, far, along, scale, ny, gx, gy, gz, h, nr = _wall(x, y, z, ax, ay, az, index)
    least = gx * triangles[i, 0, 0] + gy * triangles[i, 0, 1] + gz * triangles[i, 0, 2]
    least = min(least, gx * triangles[i, 1, 0] + gy * triangles[i, 1, 1] + gz * triangles[i, 1, 2])
    least = min(least, gx * triangles[i, 2, 0] + gy * triangles[i, 2, 1] + gz * triangles[i, 2, 2])
    least -= gx * ox + gy * oy + gz * oz + h
    now, reach = max(low - half, least), far + half
    if motion[6] == 0.0 and motion[7] == 0.0:
        return now, now, reach
    lost = _most_lost(x, y, z, ax, ay, az, along, scale, ny, nr, gx, gy, gz, far, half, motion)
    return max(now - motion[7] - reach * motion[6], least - lost), now, reach


@njit(cache=True, error_model="numpy")
def box_floor(
    nodes: Floats, i: int, origins: Floats, axes: Floats, state: int, motion: Floats, index: Floats
) -> tuple[float, float, float]:
    """The same for a box (row of centre and half sides, 6 numbers)."""
    ax, ay, az = axes[state, 0], axes[state, 1], axes[state, 2]
    x, y, z = nodes[i, 0] - origins[state, 0], nodes[i, 1] - origins[state, 1], nodes[i, 2] - origins[state, 2]
    low, far, along, scale, ny, gx, gy, gz, h, nr = _wall(x, y, z, ax, ay, az, index)
    least = gx * x + gy * y + gz * z - abs(gx) * nodes[i, 3] - abs(gy) * nodes[i, 4] - abs(gz) * nodes[i, 5] - h
    half = math.sqrt(nodes[i, 3] * nodes[i, 3] + nodes[i, 4] * nodes[i, 4] + nodes[i, 5] * nodes[i, 5])
    now, reach = max(low - half, least), far + half
    if motion[6] == 0.0 and motion[7] == 0.0:
        return now, now, reach
    lost = _most_lost(x, y, z, ax, ay, az, along, scale, ny, nr, gx, gy, gz, far, half, motion)
    return max(now - motion[7] - reach * motion[6], least - lost), now, reach


@njit(cache=True, error_model="numpy")
def touching_plane(point: Floats, origins: Floats, axes: Floats, state: int, index: Floats, plane: Floats) -> float:
    """Signed distance of one point of the body at a pose, and the plane square to the way from the package to it.

    ``plane`` (4,) receives g and h in the body: no p has a signed distance below g.p - h. Where the point is the
    nearest of a convex thing to a convex package, that plane proves it. h is infinite where there is none (the point
    lies inside, or looks outward from within a ring).
    """
    ox, oy, oz = origins[state, 0], origins[state, 1], origins[state, 2]
    ax, ay, az = axes[state, 0], axes[state, 1], axes[state, 2]
    x, y, z = point[0] - ox, point[1] - oy, point[2] - oz
    along = x * ax + y * ay + z * az
    rho = math.sqrt(max(0.0, x * x + y * y + z * z - along * along))
    gap, side = signed_distance(rho, along, index)
    plane[0], plane[1], plane[2], plane[3] = 0.0, 0.0, 0.0, math.inf
    if gap <= 1e-6 or rho <= 0.0:
        return gap
    k = side_at(index, side)
    _, t = from_side(rho, along, index, side)
    nr = (rho - index[k] - t * (index[k + 2] - index[k])) / gap
    ny = (along - index[k + 1] - t * (index[k + 3] - index[k + 1])) / gap
    if nr < 0.0:
        return gap
    size, reach = math.sqrt(nr * nr + ny * ny), -math.inf
    nr, ny = nr / size, ny / size
    for j in range(int(index[SIDES])):
        k = side_at(index, j)
        reach = max(reach, nr * index[k] + ny * index[k + 1], nr * index[k + 2] + ny * index[k + 3])
    scale, turn = nr / rho, ny - nr / rho * along
    plane[0], plane[1], plane[2] = scale * x + turn * ax, scale * y + turn * ay, scale * z + turn * az
    plane[3] = reach + plane[0] * ox + plane[1] * oy + plane[2] * oz
    return gap


@njit(cache=True, error_model="numpy")
def triangle_beyond(triangles: Floats, i: int, plane: Floats) -> float:
    """How far beyond a plane a triangle lies, at its lowest corner."""
    gx, gy, gz = plane[0], plane[1], plane[2]
    least = gx * triangles[i, 0, 0] + gy * triangles[i, 0, 1] + gz * triangles[i, 0, 2]
    least = min(least, gx * triangles[i, 1, 0] + gy * triangles[i, 1, 1] + gz * triangles[i, 1, 2])
    least = min(least, gx * triangles[i, 2, 0] + gy * triangles[i, 2, 1] + gz * triangles[i, 2, 2])
    return float(least - plane[3])


@njit(cache=True, error_model="numpy")
def box_beyond(nodes: Floats, i: int, plane: Floats) -> float:
    """The same for a box."""
    gx, gy, gz = plane[0], plane[1], plane[2]
    middle = gx * nodes[i, 0] + gy * nodes[i, 1] + gz * nodes[i, 2] - plane[3]
    return float(middle - abs(gx) * nodes[i, 3] - abs(gy) * nodes[i, 4] - abs(gz) * nodes[i, 5])


@njit(cache=True, error_model="numpy")
def beyond_all(
    triangles: Floats, i: int, origins: Floats, axes: Floats, state: int, index: Floats, enough: float
) -> bool:
    """Whether some plane of the grid shows that a triangle's signed distance is ``enough`` or more.

    The planes are chosen at points that move towards the lowest corner under the last plane (Frank and Wolfe 1956);
    each bound is valid by itself.
    """
    ax, ay, az = axes[state, 0], axes[state, 1], axes[state, 2]
    ox, oy, oz = origins[state, 0], origins[state, 1], origins[state, 2]
    x = (triangles[i, 0, 0] + triangles[i, 1, 0] + triangles[i, 2, 0]) / 3.0 - ox
    y = (triangles[i, 0, 1] + triangles[i, 1, 1] + triangles[i, 2, 1]) / 3.0 - oy
    z = (triangles[i, 0, 2] + triangles[i, 1, 2] + triangles[i, 2, 2]) / 3.0 - oz
    for step in range(6):
        _, _, _, _, _, gx, gy, gz, h, _ = _wall(x, y, z, ax, ay, az, index)
        least, corner = math.inf, 0
        for k in range(3):
            along = gx * (triangles[i, k, 0] - ox) + gy * (triangles[i, k, 1] - oy) + gz * (triangles[i, k, 2] - oz)
            if along < least:
                least, corner = along, k
        if least - h >= enough:
            return True
        share = 1.0 if step == 0 else 2.0 / (step + 2.0)
        x += share * (triangles[i, corner, 0] - ox - x)
        y += share * (triangles[i, corner, 1] - oy - y)
        z += share * (triangles[i, corner, 2] - oz - z)
    return False
