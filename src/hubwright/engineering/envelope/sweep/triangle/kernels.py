"""Smallest signed distance between a package and the image of one triangle, by branch and bound.

Each boundary segment of an image is halved until a bound shows that it cannot beat the best found so far by more than
the tolerance. Outside the package the bound is the distance of the chord from the sides of the outline less the sag of
the arc; inside it is the greater of the distances of the chord's ends from the side nearest its middle (distance from
a convex side is convex along a chord, so it is greatest at an end) plus the sag. The value found belongs to a real
point, so the truth lies between ``value - tolerance`` and ``value``. When a triangle covers the deepest point of the
outline, that point's depth counts too.

``triangle_guess`` goes by Newton's method instead: quick, a real point, but no proof that nothing lies lower.

Source: derived here.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from hubwright.engineering.envelope.image.kernels import bounding_segments, covers, point_over, sag
from hubwright.engineering.envelope.outline.kernels import (
    AT_FIRST,
    AT_LISTS,
    EXTRA_MM,
    POLE_DEPTH,
    POLE_RHO,
    POLE_Y,
    SIDES,
    cell_of,
    from_chord,
    from_side,
    lower_bound,
    side_at,
    signed_distance,
)
from hubwright.engineering.kernels import njit

Floats = np.ndarray[Any, np.dtype[np.float64]]


@njit(error_model="numpy")
def _floor_of_piece(
    a: float, b: float, c: float, ya: float, dy: float, s0: float, s1: float, middle: float, side: int, index: Floats
) -> tuple[float, int, float]:
    """A number not above the signed distance on the piece s0..s1 of an arc; the side nearest its chord, and where."""
    r0 = math.sqrt(max(0.0, a * s0 * s0 + 2.0 * b * s0 + c))
    r1 = math.sqrt(max(0.0, a * s1 * s1 + 2.0 * b * s1 + c))
    y0, y1 = ya + s0 * dy, ya + s1 * dy
    bow = sag(a, b, c, s0, s1)
    if middle <= 0.5 * math.hypot(r1 - r0, y1 - y0) + bow:
        deep = max(from_side(r0, y0, index, side)[0], from_side(r1, y1, index, side)[0])
        return -deep - bow, side, 0.5
    cell = cell_of(0.5 * (r0 + r1), 0.5 * (y0 + y1), index)
    every = cell < 0
    first = 0 if every else int(index[int(index[AT_FIRST]) + cell])
    last = int(index[SIDES]) if every else int(index[int(index[AT_FIRST]) + cell + 1])
    lists = int(index[AT_LISTS])
    best, which, where = math.inf, side, 0.5
    for k in range(first, last):
        j = k if every else int(index[lists + k])
        apart, t = from_chord(r0, y0, r1, y1, index, j)
        if apart < best:
            best, which, where = apart, j, t
    return best - bow, which, where


@njit(error_model="numpy")
def _settle(
    a: float, b: float, c: float, ya: float, dy: float, s: float, s0: float, s1: float, side: int, index: Floats
) -> float:
    """Newton's method for the place nearest to a side, kept within s0..s1.

    F = n.q for the body of the side, F = |q - corner|^2 / 2 beyond its ends; rho' = (a s + b)/rho,
    rho'' = (a c - b^2)/rho^3.
    """
    k = side_at(index, side)
    for _ in range(6):
        rho = math.sqrt(max(0.0, a * s * s + 2.0 * b * s + c))
        if rho <= 0.0:
            return s
        y = ya + s * dy
        slope, bend = (a * s + b) / rho, max(0.0, a * c - b * b) / (rho * rho * rho)
        _, t = from_side(rho, y, index, side)
        if t <= 0.0 or t >= 1.0:
            corner = k if t <= 0.0 else k + 2
            first = (rho - index[corner]) * slope + (y - index[corner + 1]) * dy
            second = slope * slope + (rho - index[corner]) * bend + dy * dy
        else:
            first, second = index[k + 4] * slope + index[k + 5] * dy, index[k + 4] * bend
        if second <= 0.0:
            return s
        moved = min(s1, max(s0, s - first / second))
        if abs(moved - s) < 1e-12:
            return float(moved)
        s = moved
    return float(s)


@njit(error_model="numpy")
def segment_smallest(
    segments: Floats, row: int, index: Floats, best: float, tolerance: float, stack: Floats
) -> tuple[float, float]:
    """Smallest signed distance on one arc and its place s, or (best, -1) when it cannot beat ``best - tolerance``."""
    ua, va, ya = segments[row, 0], segments[row, 1], segments[row, 2]
    du, dv, dy = segments[row, 3], segments[row, 4], segments[row, 5]
    a, b, c = du * du + dv * dv, ua * du + va * dv, ua * ua + va * va
    length = math.sqrt(a + dy * dy)
    place = -1.0
    stack[0, 0], stack[0, 1], top = 0.0, 1.0, 1
    while top > 0:
        top -= 1
        s0, s1 = stack[top, 0], stack[top, 1]
        sm, half = 0.5 * (s0 + s1), 0.5 * (s1 - s0) * length
        rho, y = math.sqrt(max(0.0, a * sm * sm + 2.0 * b * sm + c)), ya + sm * dy
        if lower_bound(rho, y, index) - half >= best - tolerance:
            continue
        middle, side = signed_distance(rho, y, index)
        if middle < best:
            best, place = middle, sm
        if middle - half >= best - tolerance or half <= 0.5 * tolerance:
            continue
        if half <= EXTRA_MM:
            floor, near, where = _floor_of_piece(a, b, c, ya, dy, s0, s1, middle, side, index)
            if floor >= best - tolerance:
                continue
            s = s0 + where * (s1 - s0)
            for attempt in range(4):
                if attempt == 1:
                    s = _settle(a, b, c, ya, dy, s, s0, s1, near, index)
                elif attempt > 1:
                    s = s0 if attempt == 2 else s1
                found = signed_distance(math.sqrt(max(0.0, a * s * s + 2.0 * b * s + c)), ya + s * dy, index)[0]
                if found < best:
                    best, place = found, s
        if top + 2 > stack.shape[0]:
            continue  # 64 halvings deep: far below any tolerance
        stack[top, 0], stack[top, 1] = s0, sm
        stack[top + 1, 0], stack[top + 1, 1] = sm, s1
        top += 2
    return best, place


@njit(error_model="numpy")
def triangle_smallest(
    t: Floats, index: Floats, best: float, tolerance: float, segments: Floats, stack: Floats, nearest: Floats
) -> float:
    """Smallest signed distance of a triangle in hub coordinates; ``nearest`` (3,) receives (u, v, y) of its place."""
    count = bounding_segments(t, segments)
    for k in range(count):
        found, s = segment_smallest(segments, k, index, best, tolerance, stack)
        if s >= 0.0 and found < best:
            best = found
            for i in range(3):
                nearest[i] = segments[k, i] + s * segments[k, 3 + i]
    if count > 1 and index[POLE_DEPTH] < best and covers(t, index[POLE_RHO], index[POLE_Y]):
        best = index[POLE_DEPTH]
        point_over(t, index[POLE_RHO], index[POLE_Y], nearest)
    return best


@njit(error_model="numpy")
def nearest_on_image(t: Floats, rho: float, y: float, segments: Floats, nearest: Floats) -> float:
    """Find the point (u, v, y) of the boundary of an image nearest to (rho, y), to about 1e-7 mm; gives its distance.

    Each arc is sampled at 33 places, then five times more closely round the best one.
    """
    best = math.inf
    for k in range(bounding_segments(t, segments)):
        low, high = 0.0, 1.0
        for _ in range(6):
            step, least, where = (high - low) / 32.0, math.inf, low
            for i in range(33):
                s = low + i * step
                u, v = segments[k, 0] + s * segments[k, 3], segments[k, 1] + s * segments[k, 4]
                along = segments[k, 2] + s * segments[k, 5]
                d = math.hypot(math.sqrt(u * u + v * v) - rho, along - y)
                if d < least:
                    least, where = d, s
                if d < best:
                    best = d
                    nearest[0], nearest[1], nearest[2] = u, v, along
            low, high = max(0.0, where - step), min(1.0, where + step)
    return best


@njit(error_model="numpy")
def _arc_guess(segments: Floats, row: int, index: Floats) -> tuple[float, float]:
    """A low signed distance on one arc and its place, by Newton's method from the middle, side by side."""
    ua, va, ya = segments[row, 0], segments[row, 1], segments[row, 2]
    du, dv, dy = segments[row, 3], segments[row, 4], segments[row, 5]
    a, b, c = du * du + dv * dv, ua * du + va * dv, ua * ua + va * va
    s = 0.5
    best, side = signed_distance(math.sqrt(max(0.0, (a * s + 2.0 * b) * s + c)), ya + s * dy, index)
    for _ in range(6):
        moved = _settle(a, b, c, ya, dy, s, 0.0, 1.0, side, index)
        found, after = signed_distance(math.sqrt(max(0.0, (a * moved + 2.0 * b) * moved + c)), ya + moved * dy, index)
        if found < best:
            best, s = found, moved
        if after == side:
            break
        side = after
    return best, s


@njit(error_model="numpy")
def triangle_guess(t: Floats, index: Floats, segments: Floats, nearest: Floats) -> float:
    """Signed distance of a low point of a triangle in hub coordinates; ``nearest`` (3,) receives its (u, v, y)."""
    best = math.inf
    for k in range(bounding_segments(t, segments)):
        found, s = _arc_guess(segments, k, index)
        if found < best:
            best = found
            for i in range(3):
                nearest[i] = segments[k, i] + s * segments[k, 3 + i]
    return best
