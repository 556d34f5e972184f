"""A triangle seen from the spin axis: rho = distance from the axis, y = position along it.

On each slice y = const a triangle is a straight segment. Its distances from the axis run between its two ends (points
of the edges of the triangle) and the foot of the perpendicular from the axis, when that foot lies inside. The feet of
all slices lie on one straight line of the triangle's plane n.p = c: q(y) = (c - n_y y)/(n_u^2 + n_v^2) (n_u, n_v). So
the image is bounded by the images of the three edges and of the piece of that one line inside the triangle. A plane
square to the axis has one slice only; there the pierce point joined to a corner takes the place of the foot line.

The image of a straight segment a + s d is an arc of a hyperbola, rho^2 = A s^2 + 2 B s + C with y linear in s; rho is
convex in s, so over a step ds the arc sags below its chord by at most rho'' ds^2/8, rho'' = (A C - B^2)/rho^3.

Coordinates (u, v, y) have the spin axis as third axis. A segment is (u, v, y, du, dv, dy) with s from 0 to 1.

Source: derived here.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from hubwright.engineering.kernels import njit

Floats = np.ndarray[Any, np.dtype[np.float64]]

SEGMENTS = 4


@njit(error_model="numpy")
def square_axes(axis: Floats) -> tuple[float, float, float, float, float, float]:
    """Two unit vectors square to a unit axis and to each other."""
    ax, ay, az = axis[0], axis[1], axis[2]
    if abs(ax) < 0.6:
        px, py, pz = 0.0, -az, ay
    else:
        px, py, pz = az, 0.0, -ax
    size = math.sqrt(px * px + py * py + pz * pz)
    px, py, pz = px / size, py / size, pz / size
    return px, py, pz, ay * pz - az * py, az * px - ax * pz, ax * py - ay * px


@njit(error_model="numpy")
def seen_from_hub(triangle: Floats, origin: Floats, axis: Floats, out: Floats) -> None:
    """Write the corners of a triangle (3,3) as (u, v, y) into ``out`` (3,3)."""
    px, py, pz, qx, qy, qz = square_axes(axis)
    for i in range(3):
        x, y, z = triangle[i, 0] - origin[0], triangle[i, 1] - origin[1], triangle[i, 2] - origin[2]
        out[i, 0] = x * px + y * py + z * pz
        out[i, 1] = x * qx + y * qy + z * qz
        out[i, 2] = x * axis[0] + y * axis[1] + z * axis[2]


@njit(error_model="numpy")
def _join(hub: Floats, row: int, ua: float, va: float, ya: float, ub: float, vb: float, yb: float) -> int:
    hub[row, 0], hub[row, 1], hub[row, 2] = ua, va, ya
    hub[row, 3], hub[row, 4], hub[row, 5] = ub - ua, vb - va, yb - ya
    return row + 1


@njit(error_model="numpy")
def _foot_line(t: Floats, segments: Floats, count: int) -> int:
    """Add the piece of the foot line inside the triangle, when there is one."""
    eu, ev, ey = t[1, 0] - t[0, 0], t[1, 1] - t[0, 1], t[1, 2] - t[0, 2]
    fu, fv, fy = t[2, 0] - t[0, 0], t[2, 1] - t[0, 1], t[2, 2] - t[0, 2]
    nu, nv, ny = ev * fy - ey * fv, ey * fu - eu * fy, eu * fv - ev * fu
    size2 = nu * nu + nv * nv + ny * ny
    reach2 = max(eu * eu + ev * ev + ey * ey, fu * fu + fv * fv + fy * fy)
    if size2 <= 1e-24 * reach2 * reach2:
        return count  # no area: the edges are all there is
    m2 = nu * nu + nv * nv
    if m2 <= 1e-24 * size2:
        inside = _around(t)
        if inside:
            y = (t[0, 2] + t[1, 2] + t[2, 2]) / 3.0
            return _join(segments, count, 0.0, 0.0, y, t[0, 0], t[0, 1], t[0, 2])
        return count
    c = nu * t[0, 0] + nv * t[0, 1] + ny * t[0, 2]
    # The line runs along (-ny nu, -ny nv, m2)/m2 as y grows; clip it by the three edges in the plane of the triangle.
    ku, kv = -ny * nu / m2, -ny * nv / m2
    bu, bv = c * nu / m2, c * nv / m2
    low, high = -math.inf, math.inf
    for i in range(3):
        j = (i + 1) % 3
        gu, gv, gy = t[j, 0] - t[i, 0], t[j, 1] - t[i, 1], t[j, 2] - t[i, 2]
        hu, hv, hy = nv * gy - ny * gv, ny * gu - nu * gy, nu * gv - nv * gu  # inward normal in the plane
        at0 = hu * (bu - t[i, 0]) + hv * (bv - t[i, 1]) - hy * t[i, 2]
        slope = hu * ku + hv * kv + hy
        if slope > 0.0:
            low = max(low, -at0 / slope)
        elif slope < 0.0:
            high = min(high, -at0 / slope)
        elif at0 < 0.0:
            return count
    if not low < high:
        return count
    return _join(segments, count, bu + ku * low, bv + kv * low, low, bu + ku * high, bv + kv * high, high)


@njit(error_model="numpy")
def _around(t: Floats) -> bool:
    """Whether the spin axis passes through the outline of a triangle square to it."""
    plus = minus = False
    for i in range(3):
        j = (i + 1) % 3
        turn = t[i, 0] * t[j, 1] - t[i, 1] * t[j, 0]
        plus, minus = plus or turn > 0.0, minus or turn < 0.0
    return not (plus and minus)


@njit(error_model="numpy")
def bounding_segments(t: Floats, segments: Floats) -> int:
    """Fill ``segments`` (4,6) with the straight segments whose images bound the image of triangle ``t`` (3,3)."""
    count = 0
    for i in range(3):
        j = (i + 1) % 3
        if t[i, 0] != t[j, 0] or t[i, 1] != t[j, 1] or t[i, 2] != t[j, 2]:
            count = _join(segments, count, t[i, 0], t[i, 1], t[i, 2], t[j, 0], t[j, 1], t[j, 2])
    if count == 0:
        return _join(segments, 0, t[0, 0], t[0, 1], t[0, 2], t[0, 0], t[0, 1], t[0, 2])
    if count < 3:
        return 1  # a line traced there and back
    return _foot_line(t, segments, count)


@njit(error_model="numpy")
def _slice(t: Floats, y: float) -> tuple[int, float, float, float, float]:
    """Ends (u, v) of the segment in which triangle ``t`` meets the plane at y; the first number is 2 when it does."""
    ends = 0
    au = av = bu = bv = 0.0
    for i in range(3):
        j = (i + 1) % 3
        da, db = t[i, 2] - y, t[j, 2] - y
        if (da > 0.0) != (db > 0.0):
            s = da / (da - db)
            u, v = t[i, 0] + s * (t[j, 0] - t[i, 0]), t[i, 1] + s * (t[j, 1] - t[i, 1])
            if ends == 0:
                au, av = u, v
            else:
                bu, bv = u, v
            ends += 1
    return ends, au, av, bu, bv


@njit(error_model="numpy")
def covers(t: Floats, rho: float, y: float) -> bool:
    """Whether the image of triangle ``t`` holds the point (rho, y)."""
    ends, au, av, bu, bv = _slice(t, y)
    if ends < 2:
        return False
    du, dv = bu - au, bv - av
    length2 = du * du + dv * dv
    s = 0.0 if length2 == 0.0 else min(1.0, max(0.0, -(au * du + av * dv) / length2))
    nearest2 = (au + s * du) ** 2 + (av + s * dv) ** 2
    return nearest2 <= rho * rho <= max(au * au + av * av, bu * bu + bv * bv)


@njit(error_model="numpy")
def point_over(t: Floats, rho: float, y: float, out: Floats) -> None:
    """Write the point (u, v, y) of triangle ``t`` whose image is (rho, y), which the image ``covers``.

    |a + s d|^2 = rho^2 on the slice from a along d, solved for the s between 0 and 1.
    """
    _, au, av, bu, bv = _slice(t, y)
    du, dv = bu - au, bv - av
    a, b, c = du * du + dv * dv, au * du + av * dv, au * au + av * av - rho * rho
    s = 0.0
    if a > 0.0:
        root = math.sqrt(max(0.0, b * b - a * c))
        s = (root - b) / a
        if s > 1.0:
            s = (-root - b) / a
        s = min(1.0, max(0.0, s))
    out[0], out[1], out[2] = au + s * du, av + s * dv, y


@njit(error_model="numpy")
def sag(a: float, b: float, c: float, s0: float, s1: float) -> float:
    """Most that the arc rho^2 = a s^2 + 2 b s + c lies below its chord between s0 and s1."""
    bend = a * c - b * b
    if bend <= 0.0 or a == 0.0:
        bend = 0.0
    near = s0 if a == 0.0 else min(s1, max(s0, -b / a))
    rho2 = max(0.0, a * near * near + 2.0 * b * near + c)
    step = s1 - s0
    worst = 0.5 * math.sqrt(a) * step  # slopes lie within +-sqrt(a): no arc sags more than half its length
    if rho2 <= 0.0:
        return worst if near > s0 and near < s1 else 0.0
    return min(worst, bend / (rho2 * math.sqrt(rho2)) * step * step / 8.0)
