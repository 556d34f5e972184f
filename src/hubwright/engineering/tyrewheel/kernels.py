"""Number loops of the sidewall membrane and of the package outline. Arrays and numbers in, arrays and numbers out.

Meridian of an inextensible radial-ply membrane under inflation pressure: with phi the angle between the tangent and the
radial direction, counted positive where the ply runs outboard while the radius grows,

    d(phi)/ds = -2 r / K,   dr/ds = cos(phi),   dy/ds = sin(phi)   =>   sin(phi) = (r_m^2 - r^2) / K .

The curve is integrated over phi, in which arc length is smooth also where the ply runs parallel to the axis and beyond:
ds = -K d(phi) / (2 r), r^2 = r_b^2 + K (sin(phi_b) - sin(phi)). The two unknowns are the angles at the two ends, phi_b
at the bead anchor and phi_e at the belt edge; K = (r_e^2 - r_b^2) / (sin(phi_b) - sin(phi_e)).

Source: derived above.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from hubwright.engineering.kernels import njit

Floats = NDArray[np.float64]

_nodes, _weights = np.polynomial.legendre.leggauss(16)
NODES: Floats = (_nodes + 1.0) / 2.0
WEIGHTS: Floats = _weights / 2.0

SOLVED, NO_ANSWER, TAUT, FOLDED = 0, 1, 2, 3
WIDTH, LENGTH = 0, 1
MOST_BEND_RAD = math.radians(170.0)
LEAST_SLACK = 0.002
STEP_MM = 8.0
FIRST_GUESS = (0.9, -1.2)
PLY_POINTS = 97


@njit()
def membrane_integrals(b: float, e: float, rb: float, re: float, rise: bool) -> tuple[float, ...]:
    """Ply length, rise in y, rise up to the widest point, K, and the derivatives of the first three by b and e.

    Args:
        b: Angle phi at the bead anchor, rad.
        e: Angle phi at the belt edge, rad, below `b`.
        rb: Radius of the bead anchor, mm.
        re: Radius of the belt edge, mm.
        rise: Whether B and its derivatives are wanted (else 0).

    Returns:
        L, Y, B, K, L_b, L_e, Y_b, Y_e, B_b, B_e (mm, mm/rad); all NaN where the curve would cross the axis.
    """
    nan = math.nan
    difference = math.sin(b) - math.sin(e)
    if b - e < 1e-9 or abs(difference) < 1e-12:
        return nan, nan, nan, nan, nan, nan, nan, nan, nan, nan
    K = (re * re - rb * rb) / difference
    K_b, K_e = -K * math.cos(b) / difference, K * math.cos(e) / difference
    L = Y = B = L_b = L_e = Y_b = Y_e = B_b = B_e = 0.0
    for i in range(NODES.size):
        x, w = NODES[i], WEIGHTS[i]
        phi = b + (e - b) * x
        s, c = math.sin(phi), math.cos(phi)
        r2 = rb * rb + K * (math.sin(b) - s)
        if r2 <= 0.0:
            return nan, nan, nan, nan, nan, nan, nan, nan, nan, nan
        r = math.sqrt(r2)
        g = K * (b - e) / (2.0 * r)
        r2_b = K_b * (math.sin(b) - s) + K * (math.cos(b) - c * (1.0 - x))
        r2_e = K_e * (math.sin(b) - s) - K * c * x
        g_b = (K_b * (b - e) + K) / (2.0 * r) - g * r2_b / (2.0 * r2)
        g_e = (K_e * (b - e) - K) / (2.0 * r) - g * r2_e / (2.0 * r2)
        L, Y = L + w * g, Y + w * g * s
        L_b, L_e = L_b + w * g_b, L_e + w * g_e
        Y_b, Y_e = Y_b + w * (g_b * s + g * c * (1.0 - x)), Y_e + w * (g_e * s + g * c * x)
        if rise and b > 0.0:
            phi = b * (1.0 - x)
            s, c = math.sin(phi), math.cos(phi)
            r2 = rb * rb + K * (math.sin(b) - s)
            if r2 <= 0.0:
                return nan, nan, nan, nan, nan, nan, nan, nan, nan, nan
            r = math.sqrt(r2)
            g = K * b / (2.0 * r)
            r2_b = K_b * (math.sin(b) - s) + K * (math.cos(b) - c * (1.0 - x))
            r2_e = K_e * (math.sin(b) - s)
            g_b = (K_b * b + K) / (2.0 * r) - g * r2_b / (2.0 * r2)
            g_e = K_e * b / (2.0 * r) - g * r2_e / (2.0 * r2)
            B = B + w * g * s
            B_b = B_b + w * (g_b * s + g * c * (1.0 - x))
            B_e = B_e + w * g_e * s
    return L, Y, B, K, L_b, L_e, Y_b, Y_e, B_b, B_e


@njit()
def solve_membrane(
    rb: float, yb: float, re: float, ye: float, kind: int, target: float, b: float, e: float
) -> tuple[float, float, int]:
    """The end angles for which the ply runs from (rb, yb) to (re, ye) and meets one more condition.

    Args:
        rb: Radius of the bead anchor, mm.
        yb: Half width of the bead anchor, mm.
        re: Radius of the belt edge, mm.
        ye: Half width of the belt edge, mm.
        kind: `WIDTH`: the largest half width is `target`; `LENGTH`: the ply length is `target`.
        target: mm.
        b: First guess of phi at the bead, rad.
        e: First guess of phi at the belt edge, rad.

    Returns:
        phi at the bead and at the belt edge, rad, and a state: SOLVED, NO_ANSWER, TAUT (the ply is too short to reach)
        or FOLDED (bent beyond 170 deg, where the membrane no longer stands for a tyre).
    """
    if kind == LENGTH and target < (1.0 + LEAST_SLACK) * math.hypot(re - rb, ye - yb):
        return b, e, TAUT
    for _ in range(60):
        L, Y, B, _K, L_b, L_e, Y_b, Y_e, B_b, B_e = membrane_integrals(b, e, rb, re, kind == WIDTH)
        if math.isnan(L):
            return b, e, NO_ANSWER
        f = Y - (ye - yb)
        h, h_b, h_e = (L - target, L_b, L_e) if kind == LENGTH else (yb + B - target, B_b, B_e)
        if abs(f) < 1e-9 and abs(h) < 1e-9:
            return b, e, (FOLDED if max(abs(b), abs(e)) > MOST_BEND_RAD else SOLVED)
        det = Y_b * h_e - Y_e * h_b
        if det == 0.0:
            return b, e, NO_ANSWER
        db, de = -(f * h_e - Y_e * h) / det, -(Y_b * h - h_b * f) / det
        limit = 0.35 / max(0.35, abs(db), abs(de))
        b, e = b + limit * db, e + limit * de
        if b - e < 1e-6:
            e = b - 1e-3
        if abs(b) > 4.0 or abs(e) > 4.0:
            return b, e, FOLDED
    return b, e, NO_ANSWER


@njit()
def solve_on_rim(
    rb: float, yb_ref: float, w_ref: float, yb: float, re: float, ye: float
) -> tuple[float, float, float, int]:
    """End angles on the rim in question of a tyre whose width is known on a reference rim; ply length is conserved.

    The bead is walked from the reference rim to the new one in steps of at most `STEP_MM`, so that the solution stays
    on the branch of an inflated tyre.

    Args:
        rb: Radius of the bead anchor, mm.
        yb_ref: Half width of the bead anchor on the reference rim, mm.
        w_ref: Largest half width of the ply there, mm.
        yb: Half width of the bead anchor on the rim in question, mm.
        re: Radius of the belt edge, mm.
        ye: Half width of the belt edge, mm.

    Returns:
        phi_b, phi_e (rad), ply length (mm), state.
    """
    b, e, state = solve_membrane(rb, yb_ref, re, ye, WIDTH, w_ref, FIRST_GUESS[0], FIRST_GUESS[1])
    if state != SOLVED:
        return b, e, math.nan, state
    length = membrane_integrals(b, e, rb, re, False)[0]
    steps = math.ceil(abs(yb - yb_ref) / STEP_MM)
    for i in range(1, steps + 1):
        b, e, state = solve_membrane(rb, yb_ref + (yb - yb_ref) * i / steps, re, ye, LENGTH, length, b, e)
        if state != SOLVED:
            return b, e, length, state
    return b, e, length, state


@njit()
def ply_points(b: float, e: float, rb: float, yb: float, re: float, count: int) -> tuple[Floats, Floats, Floats]:
    """`count` points of the ply from bead anchor to belt edge, evenly spaced in phi: radius, half width, phi.

    Every step in y is a three-point Gauss rule, so the points lie on the curve far within 0.001 mm.
    """
    K = (re * re - rb * rb) / (math.sin(b) - math.sin(e))
    phi = np.linspace(b, e, count)
    r, y = np.empty(count), np.empty(count)
    r[0], y[0] = rb, yb
    half = (b - e) / (count - 1) / 2.0
    root = math.sqrt(0.6)
    sb = math.sin(b)
    for j in range(1, count):
        middle = phi[j - 1] - half
        rise = 0.0
        for k in range(-1, 2):
            s = math.sin(middle + k * root * half)
            rise += (8.0 if k == 0 else 5.0) / 9.0 * s / math.sqrt(rb * rb + K * (sb - s))
        y[j] = y[j - 1] + rise * half * K / 2.0
        r[j] = math.sqrt(rb * rb + K * (sb - math.sin(phi[j])))
    return r, y, phi


@njit()
def outer_skin(r: Floats, y: Floats, phi: Floats, skin: float, tread_r: float, tread_y: float) -> tuple[Floats, Floats]:
    """The outer surface over the ply: a constant skin along the normal, then straight to the tread edge.

    The straight leaves the sidewall where it touches it, seen from the tread edge. It is an estimate: a hollow shoulder
    lies farther in, a bulging one farther out. The points beyond the touch are spread evenly over the straight.
    """
    n = r.size
    out_r, out_y = r - skin * np.sin(phi), y + skin * np.cos(phi)
    touch, steepest = 0, -math.inf
    for j in range(n):
        if tread_r - out_r[j] > 1e-6:
            slope = (out_y[j] - tread_y) / (tread_r - out_r[j])
            if slope > steepest:
                touch, steepest = j, slope
    touch = min(touch, n - 2)
    for j in range(touch + 1, n):
        x = (j - touch) / (n - 1 - touch)
        out_r[j] = out_r[touch] + x * (tread_r - out_r[touch])
        out_y[j] = out_y[touch] + x * (tread_y - out_y[touch])
    return out_r, out_y


@njit()
def envelope_at(r: Floats, y: Floats, radii: Floats) -> Floats:
    """Largest y of the polyline (r, y) at each of the ascending `radii`; NaN where the polyline does not reach."""
    out = np.full(radii.size, math.nan)
    for j in range(r.size - 1):
        low, high = min(r[j], r[j + 1]), max(r[j], r[j + 1])
        i = np.searchsorted(radii, low)
        while i < radii.size and radii[i] <= high:
            value = (
                max(y[j], y[j + 1]) if high == low else y[j] + (y[j + 1] - y[j]) * (radii[i] - r[j]) / (r[j + 1] - r[j])
            )
            if math.isnan(out[i]) or value > out[i]:
                out[i] = value
            i += 1
    return out


@njit()
def widest_point(b: float, e: float, rb: float, yb: float, re: float) -> tuple[float, float]:
    """Radius and half width of the ply where it is widest: at phi = 0, or at the bead anchor of a stretched tyre."""
    if b <= 0.0:
        return rb, yb
    _, _, B, K, _, _, _, _, _, _ = membrane_integrals(b, e, rb, re, True)
    return math.sqrt(rb * rb + K * math.sin(b)), yb + B


@njit()
def surface_at(
    out_r: Floats, out_y: Floats, rb: float, tread_r: float, tread_y: float, crown_r: float, radii: Floats
) -> Floats:
    """Half width of a tyre at each of the ascending `radii`: sidewall, shoulder and crown; NaN inside and outside it.

    The crown is a parabola from the tread edge to the top, r = crown_r - (crown_r - tread_r) (y / tread_y)^2. Between
    the flange radius and the first point of a stretched sidewall the half width of that point is held.
    """
    half = envelope_at(out_r, out_y, radii)
    for i in range(radii.size):
        rho = radii[i]
        if rb <= rho < out_r[0] and math.isnan(half[i]):
            half[i] = out_y[0]
        if tread_r <= rho <= crown_r and crown_r > tread_r:
            crown = tread_y * math.sqrt((crown_r - rho) / (crown_r - tread_r))
            if math.isnan(half[i]) or crown > half[i]:
                half[i] = crown
    return half


BEAD, KNOWN_RIM, SECTION, RIM, CROWN, TREAD_HALF, DROP, SKIN, BELT_DEPTH, BELT_INSET, OVERALL, FLANGE, PLANE = range(13)
NOTHING, TYRE, FLANGE_PART = 0, 1, 2


@njit(nogil=True)
def outline_rows(
    rows: Floats,
    radii: Floats,
    outer: Floats,
    inner: Floats,
    part: NDArray[np.int8],
    width: Floats,
    state: NDArray[np.int8],
) -> None:
    """Outlines of many packages at once, into the arrays given.

    Args:
        rows: One package per row, shape (n, 13), mm, columns `BEAD` to `PLANE`: bead anchor radius, rim width on which
            the section width is known, that section width, rim width in question, crown radius, tread half width,
            shoulder drop, skin, belt depth, belt inset, width over the flanges, flange depth (how far inward from its
            outer radius the flange is as wide as that), rim centre plane in the hub frame.
        radii: Ascending radii about the spin axis, shape (m,), mm.
        outer: Largest position along the axis, outboard positive, shape (n, m), mm; NaN where there is nothing.
        inner: Smallest position, shape (n, m), mm.
        part: What is outermost: `NOTHING`, `TYRE` or `FLANGE_PART`, shape (n, m).
        width: Section width on the rim in question, shape (n,), mm.
        state: SOLVED or why there is no answer, shape (n,); such rows are NaN throughout.
    """
    for i in range(rows.shape[0]):
        p = rows[i]
        rb, yb, skin = p[BEAD], p[RIM] / 2.0, p[SKIN]
        tread_r = p[CROWN] - p[DROP]
        re, ye = tread_r - p[BELT_DEPTH], p[TREAD_HALF] - p[BELT_INSET]
        b, e, _, solved = solve_on_rim(rb, p[KNOWN_RIM] / 2.0, p[SECTION] / 2.0 - skin, yb, re, ye)
        state[i] = solved
        outer[i, :], inner[i, :], part[i, :], width[i] = math.nan, math.nan, NOTHING, math.nan
        if solved != SOLVED:
            continue
        r, y, phi = ply_points(b, e, rb, yb, re, PLY_POINTS)
        out_r, out_y = outer_skin(r, y, phi, skin, tread_r, p[TREAD_HALF])
        half = surface_at(out_r, out_y, rb, tread_r, p[TREAD_HALF], p[CROWN], radii)
        width[i] = 2.0 * (widest_point(b, e, rb, yb, re)[1] + skin * math.cos(min(b, 0.0)))
        for j in range(radii.size):
            reach = half[j]
            if not math.isnan(reach):
                part[i, j] = TYRE
            if rb - p[FLANGE] <= radii[j] <= rb and (math.isnan(reach) or p[OVERALL] / 2.0 > reach):
                reach = p[OVERALL] / 2.0
                part[i, j] = FLANGE_PART
            outer[i, j], inner[i, j] = p[PLANE] + reach, p[PLANE] - reach
