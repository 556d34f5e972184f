"""Numbers not above the signed distance of a triangle or a box at one state, and the plane that touches the package.

The package lies where n_rho rho + n_y y <= h. With e the radial direction of some point, rho >= e.p for every p, so for
n_rho >= 0 the signed distance of any p is at least g.p - h, g = n_rho e + n_y axis: linear in p, least at a corner.

Source: derived here.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from hubwright.engineering.envelope.outline.kernels import (
    SIDES,
    from_side,
    lower_bound,
    nearest_cell,
    side_at,
    signed_distance,
)
from hubwright.engineering.envelope.sweep.planes.kernels import away_from, reach_along
from hubwright.engineering.kernels import njit

Floats = np.ndarray[Any, np.dtype[np.float64]]
Singles = np.ndarray[Any, np.dtype[np.float32]]

TRIES = 6


@njit(error_model="numpy")
def _wall(
    x: float, y: float, z: float, ax: float, ay: float, az: float, index: Floats
) -> tuple[float, float, float, float, float]:
    """Choose a plane by the grid for a point (x, y, z) seen from the hub.

    Gives the point's bound by the grid, g and h (infinite where n_rho < 0: no such plane).
    """
    along = x * ax + y * ay + z * az
    rho = math.sqrt(max(0.0, x * x + y * y + z * z - along * along))
    cell = nearest_cell(rho, along, index)
    nr, ny, h = index[cell + 1], index[cell + 2], index[cell + 3]
    if nr < 0.0:
        h = math.inf
    scale = nr / rho if rho > 0.0 else 0.0
    turn = ny - scale * along
    gx, gy, gz = scale * x + turn * ax, scale * y + turn * ay, scale * z + turn * az
    return lower_bound(rho, along, index), gx, gy, gz, h


@njit(error_model="numpy")
def triangle_floor(
    triangles: Floats, balls: Floats, i: int, origins: Floats, axes: Floats, state: int, index: Floats
) -> float:
    """A number not above the signed distance of a triangle."""
    ox, oy, oz = origins[state, 0], origins[state, 1], origins[state, 2]
    ax, ay, az = axes[state, 0], axes[state, 1], axes[state, 2]
    low, gx, gy, gz, h = _wall(balls[i, 0] - ox, balls[i, 1] - oy, balls[i, 2] - oz, ax, ay, az, index)
    least = gx * triangles[i, 0, 0] + gy * triangles[i, 0, 1] + gz * triangles[i, 0, 2]
    least = min(least, gx * triangles[i, 1, 0] + gy * triangles[i, 1, 1] + gz * triangles[i, 1, 2])
    least = min(least, gx * triangles[i, 2, 0] + gy * triangles[i, 2, 1] + gz * triangles[i, 2, 2])
    return float(max(low - balls[i, 3], least - (gx * ox + gy * oy + gz * oz + h)))


@njit(error_model="numpy")
def box_floor(nodes: Floats, i: int, origins: Floats, axes: Floats, state: int, index: Floats) -> float:
    """The same for a box (row of centre and half sides, 6 numbers)."""
    ax, ay, az = axes[state, 0], axes[state, 1], axes[state, 2]
    x, y, z = nodes[i, 0] - origins[state, 0], nodes[i, 1] - origins[state, 1], nodes[i, 2] - origins[state, 2]
    low, gx, gy, gz, h = _wall(x, y, z, ax, ay, az, index)
    least = gx * x + gy * y + gz * z - abs(gx) * nodes[i, 3] - abs(gy) * nodes[i, 4] - abs(gz) * nodes[i, 5] - h
    half = math.sqrt(nodes[i, 3] * nodes[i, 3] + nodes[i, 4] * nodes[i, 4] + nodes[i, 5] * nodes[i, 5])
    return float(max(low - half, least))


@njit(error_model="numpy")
def ball_floor(
    x: float, y: float, z: float, half: float, origins: Floats, axes: Floats, state: int, index: Floats
) -> float:
    """The same for a ball, by the outline's grid alone: it knows the hollows of an outline."""
    x, y, z = x - origins[state, 0], y - origins[state, 1], z - origins[state, 2]
    along = x * axes[state, 0] + y * axes[state, 1] + z * axes[state, 2]
    return lower_bound(math.sqrt(max(0.0, x * x + y * y + z * z - along * along)), along, index) - half


@njit(error_model="numpy")
def gap_of_point(point: Floats, origins: Floats, axes: Floats, state: int, index: Floats) -> float:
    """Signed distance of one point of the body at a state."""
    x, y, z = point[0] - origins[state, 0], point[1] - origins[state, 1], point[2] - origins[state, 2]
    along = x * axes[state, 0] + y * axes[state, 1] + z * axes[state, 2]
    return signed_distance(math.sqrt(max(0.0, x * x + y * y + z * z - along * along)), along, index)[0]


@njit(error_model="numpy")
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


@njit(error_model="numpy")
def triangle_beyond(triangles: Floats, i: int, plane: Floats) -> float:
    """How far beyond a plane a triangle lies, at its lowest corner."""
    gx, gy, gz = plane[0], plane[1], plane[2]
    least = gx * triangles[i, 0, 0] + gy * triangles[i, 0, 1] + gz * triangles[i, 0, 2]
    least = min(least, gx * triangles[i, 1, 0] + gy * triangles[i, 1, 1] + gz * triangles[i, 1, 2])
    least = min(least, gx * triangles[i, 2, 0] + gy * triangles[i, 2, 1] + gz * triangles[i, 2, 2])
    return float(least - plane[3])


@njit(error_model="numpy")
def nearest_on(t: Floats, x: float, y: float, z: float) -> tuple[float, float, float]:
    """The point of a triangle nearest to (x, y, z) (Ericson, Real-Time Collision Detection, 2005, 5.1.5)."""
    ax, ay, az = t[0, 0], t[0, 1], t[0, 2]
    ux, uy, uz = t[1, 0] - ax, t[1, 1] - ay, t[1, 2] - az
    vx, vy, vz = t[2, 0] - ax, t[2, 1] - ay, t[2, 2] - az
    px, py, pz = x - ax, y - ay, z - az
    uu, uv, vv = ux * ux + uy * uy + uz * uz, ux * vx + uy * vy + uz * vz, vx * vx + vy * vy + vz * vz
    d1, d2 = ux * px + uy * py + uz * pz, vx * px + vy * py + vz * pz
    d3, d4, d5, d6 = d1 - uu, d2 - uv, d1 - uv, d2 - vv
    a, b, c = d3 * d6 - d5 * d4, d5 * d2 - d1 * d6, d1 * d4 - d3 * d2
    s, r = 0.0, 0.0
    if d1 <= 0.0 and d2 <= 0.0:
        pass
    elif d3 >= 0.0 and d4 <= d3:
        s = 1.0
    elif d6 >= 0.0 and d5 <= d6:
        r = 1.0
    elif c <= 0.0 and d1 >= 0.0 and d3 <= 0.0:
        s = d1 / (d1 - d3) if d1 > d3 else 0.0
    elif b <= 0.0 and d2 >= 0.0 and d6 <= 0.0:
        r = d2 / (d2 - d6) if d2 > d6 else 0.0
    elif a <= 0.0 and d4 - d3 >= 0.0 and d5 - d6 >= 0.0:
        r = (d4 - d3) / (d4 - d3 + d5 - d6) if d4 - d3 + d5 - d6 > 0.0 else 0.0
        s = 1.0 - r
    elif a + b + c > 0.0:
        s, r = b / (a + b + c), c / (a + b + c)
    return ax + s * ux + r * vx, ay + s * uy + r * vy, az + s * uz + r * vz


@njit(error_model="numpy")
def beyond(
    triangles: Floats, i: int, origins: Floats, axes: Floats, state: int, index: Floats, table: Singles, enough: float
) -> bool:
    """Whether some plane shows that a triangle's signed distance is ``enough`` or more.

    The planes are those square to the way from the package to a point of the triangle; the next point is the one
    nearest to the last place of the package (alternating projections, Cheney and Goldstein 1959). Each plane is valid
    by itself.
    """
    ax, ay, az = axes[state, 0], axes[state, 1], axes[state, 2]
    ox, oy, oz = origins[state, 0], origins[state, 1], origins[state, 2]
    t = triangles[i]
    x, y, z = (
        (t[0, 0] + t[1, 0] + t[2, 0]) / 3.0,
        (t[0, 1] + t[1, 1] + t[2, 1]) / 3.0,
        (t[0, 2] + t[1, 2] + t[2, 2]) / 3.0,
    )
    for step in range(TRIES):
        u, v, w, gap = away_from(x, y, z, origins, axes, state, index)
        least = min(u * t[0, 0] + v * t[0, 1] + w * t[0, 2], u * t[1, 0] + v * t[1, 1] + w * t[1, 2])
        least = min(least, u * t[2, 0] + v * t[2, 1] + w * t[2, 2]) - (u * ox + v * oy + w * oz)
        if least - reach_along(u, v, w, ax, ay, az, table) >= enough:
            return True
        if step > 0 and 0.0 < gap < enough:
            return False  # a point of the triangle is nearer than that
        if gap > 0.0:
            x, y, z = nearest_on(t, x - gap * u, y - gap * v, z - gap * w)
        else:
            x, y, z = nearest_on(t, ox, oy, oz)
    return False
