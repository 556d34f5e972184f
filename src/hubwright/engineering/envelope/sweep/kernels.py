"""Smallest signed distance between a package and the images of triangles, by branch and bound.

Each boundary segment of an image is halved until a bound shows that it cannot beat the best found so far by more than
the tolerance. Outside the package the bound is the distance of the chord from the sides of the outline less the sag of
the arc; inside it is the greater of the distances of the chord's ends from the side nearest its middle (distance from
a convex side is convex along a chord, so it is greatest at an end) plus the sag. The value found belongs to a real
point, so the truth lies between ``value - tolerance`` and ``value``. When a triangle covers the deepest point of the
outline, that point's depth counts too.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from numba import njit, prange

from hubwright.engineering.envelope.image.kernels import bounding_segments, covers, sag, seen_from_hub
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
    nearest_cell,
    signed_distance,
)

Floats = np.ndarray[Any, np.dtype[np.float64]]
Whole = np.ndarray[Any, np.dtype[np.int32]]

GOLDEN = 0.6180339887498949
BATCH = 4


@njit(cache=True)
def _at(segment: Floats, s: float, index: Floats) -> tuple[float, int]:
    u, v = segment[0] + s * segment[3], segment[1] + s * segment[4]
    return signed_distance(math.sqrt(u * u + v * v), segment[2] + s * segment[5], index)


@njit(cache=True)
def _floor_of_piece(
    a: float, b: float, c: float, segment: Floats, s0: float, s1: float, middle: float, side: int, index: Floats
) -> float:
    """A number not above the signed distance anywhere on the piece s0..s1 of an arc."""
    r0 = math.sqrt(max(0.0, a * s0 * s0 + 2.0 * b * s0 + c))
    r1 = math.sqrt(max(0.0, a * s1 * s1 + 2.0 * b * s1 + c))
    y0, y1 = segment[2] + s0 * segment[5], segment[2] + s1 * segment[5]
    bow = sag(a, b, c, s0, s1)
    if middle <= 0.5 * math.hypot(r1 - r0, y1 - y0) + bow:
        return -max(from_side(r0, y0, index, side)[0], from_side(r1, y1, index, side)[0]) - bow
    cell = cell_of(0.5 * (r0 + r1), 0.5 * (y0 + y1), index)
    best = math.inf
    if cell < 0:
        for j in range(int(index[SIDES])):
            best = min(best, from_chord(r0, y0, r1, y1, index, j))
    else:
        first, lists = int(index[AT_FIRST]) + cell, int(index[AT_LISTS])
        for k in range(int(index[first]), int(index[first + 1])):
            best = min(best, from_chord(r0, y0, r1, y1, index, int(index[lists + k])))
    return best - bow


@njit(cache=True)
def _settle(segment: Floats, s0: float, s1: float, length: float, index: Floats) -> tuple[float, float]:
    """Golden-section search for the smallest signed distance on a short piece (it need not find the global one)."""
    p, q = s1 - GOLDEN * (s1 - s0), s0 + GOLDEN * (s1 - s0)
    fp, fq = _at(segment, p, index)[0], _at(segment, q, index)[0]
    while (s1 - s0) * length > 2e-5:
        if fp <= fq:
            s1, q, fq = q, p, fp
            p = s1 - GOLDEN * (s1 - s0)
            fp = _at(segment, p, index)[0]
        else:
            s0, p, fp = p, q, fq
            q = s0 + GOLDEN * (s1 - s0)
            fq = _at(segment, q, index)[0]
    return (fp, p) if fp <= fq else (fq, q)


@njit(cache=True)
def segment_smallest(
    segment: Floats, index: Floats, best: float, tolerance: float, stack: Floats
) -> tuple[float, float]:
    """Smallest signed distance on one arc and its place s, or (best, -1) when it cannot beat ``best - tolerance``."""
    du, dv, dy = segment[3], segment[4], segment[5]
    a = du * du + dv * dv
    b, c = segment[0] * du + segment[1] * dv, segment[0] * segment[0] + segment[1] * segment[1]
    length = math.sqrt(a + dy * dy)
    place, piece0, piece1 = -1.0, 0.0, 0.0
    stack[0, 0], stack[0, 1], top = 0.0, 1.0, 1
    while top > 0:
        top -= 1
        s0, s1 = stack[top, 0], stack[top, 1]
        sm, half = 0.5 * (s0 + s1), 0.5 * (s1 - s0) * length
        u, v, y = segment[0] + sm * du, segment[1] + sm * dv, segment[2] + sm * dy
        rho = math.sqrt(u * u + v * v)
        if lower_bound(rho, y, index) - half >= best - tolerance:
            continue
        middle, side = signed_distance(rho, y, index)
        if middle < best:
            best, place, piece0, piece1 = middle, sm, s0, s1
        if middle - half >= best - tolerance or half <= 0.5 * tolerance:
            continue
        if half <= EXTRA_MM:
            if _floor_of_piece(a, b, c, segment, s0, s1, middle, side, index) >= best - tolerance:
                continue
            for s in (s0, s1):
                end = _at(segment, s, index)[0]
                if end < best:
                    best, place, piece0, piece1 = end, s, s0, s1
            if half <= 1.0 and middle > 2.0 * half:
                low, s = _settle(segment, s0, s1, length, index)
                if low < best:
                    best, place, piece0, piece1 = low, s, s0, s1
        if top + 2 > stack.shape[0]:
            continue  # 64 halvings deep: far below any tolerance
        first, second = top, top + 1
        stack[first, 0], stack[first, 1] = s0, sm
        stack[second, 0], stack[second, 1] = sm, s1
        top += 2
    if place >= 0.0 and length > 0.0:
        low, s = _settle(segment, piece0, piece1, length, index)
        if low < best:
            best, place = low, s
    return best, place


@njit(cache=True)
def triangle_smallest(
    t: Floats, index: Floats, best: float, tolerance: float, segments: Floats, stack: Floats, nearest: Floats
) -> float:
    """Smallest signed distance of a triangle in hub coordinates; ``nearest`` (3,) receives (u, v, y) of its place."""
    count = bounding_segments(t, segments)
    for k in range(count):
        found, s = segment_smallest(segments[k], index, best, tolerance, stack)
        if s >= 0.0 and found < best:
            best = found
            for i in range(3):
                nearest[i] = segments[k, i] + s * segments[k, 3 + i]
    if count > 1 and index[POLE_DEPTH] < best and covers(t, index[POLE_RHO], index[POLE_Y]):
        best = index[POLE_DEPTH]
        nearest[0], nearest[1], nearest[2] = index[POLE_RHO], 0.0, index[POLE_Y]
    return best


@njit(cache=True)
def _wall(x: float, y: float, z: float, axis: Floats, index: Floats, wall: Floats) -> tuple[float, float]:
    """Choose a plane that parts the package from what lies near the point (x, y, z) seen from the hub.

    The package lies where n_rho rho + n_y y <= h. With e the radial direction of the point, rho >= e.p for every p, so
    for n_rho >= 0 the signed distance of any p is at least g.p - h, g = n_rho e + n_y axis: linear in p. Writes g and h
    (infinite where n_rho < 0 and there is no such plane); gives the point's bound by the grid and its distance.
    """
    along = x * axis[0] + y * axis[1] + z * axis[2]
    r2 = x * x + y * y + z * z
    rho = math.sqrt(max(0.0, r2 - along * along))
    cell = nearest_cell(rho, along, index)
    nr, ny, h = index[cell + 1], index[cell + 2], index[cell + 3]
    if nr < 0.0:
        h = math.inf
    scale = nr / rho if rho > 0.0 else 0.0
    turn = ny - scale * along
    wall[0], wall[1], wall[2] = scale * x + turn * axis[0], scale * y + turn * axis[1], scale * z + turn * axis[2]
    wall[3] = h
    return lower_bound(rho, along, index), math.sqrt(r2)


@njit(cache=True)
def triangle_floor(
    triangle: Floats, ball: Floats, origin: Floats, axis: Floats, index: Floats, wall: Floats
) -> tuple[float, float]:
    """A number not above the signed distance of a triangle at one pose, and its greatest distance from the hub."""
    low, far = _wall(ball[0] - origin[0], ball[1] - origin[1], ball[2] - origin[2], axis, index, wall)
    gx, gy, gz = wall[0], wall[1], wall[2]
    least = gx * triangle[0, 0] + gy * triangle[0, 1] + gz * triangle[0, 2]
    least = min(least, gx * triangle[1, 0] + gy * triangle[1, 1] + gz * triangle[1, 2])
    least = min(least, gx * triangle[2, 0] + gy * triangle[2, 1] + gz * triangle[2, 2])
    least -= gx * origin[0] + gy * origin[1] + gz * origin[2] + wall[3]
    return max(low - ball[3], least), far + ball[3]


@njit(cache=True)
def box_floor(box: Floats, origin: Floats, axis: Floats, index: Floats, wall: Floats) -> tuple[float, float]:
    """The same for a box (centre and half sides, 6 numbers)."""
    x, y, z = box[0] - origin[0], box[1] - origin[1], box[2] - origin[2]
    low, far = _wall(x, y, z, axis, index, wall)
    gx, gy, gz = wall[0], wall[1], wall[2]
    least = gx * x + gy * y + gz * z - abs(gx) * box[3] - abs(gy) * box[4] - abs(gz) * box[5] - wall[3]
    half = math.sqrt(box[3] * box[3] + box[4] * box[4] + box[5] * box[5])
    return max(low - half, least), far + half


@njit(cache=True)
def one_state(
    triangles: Floats, balls: Floats, listed: Whole, count: int, first_try: int, origin: Floats, axis: Floats,
    index: Floats, cap: float, tolerance: float, work: tuple[Floats, Floats, Floats, Floats, Floats], tally: Floats,
) -> tuple[float, int]:  # fmt: skip
    """Smallest signed distance over listed triangles at one state; (cap, -1) when nothing is below ``cap``."""
    t, segments, stack, nearest, wall = work
    best, which = cap, -1
    for k in range(-1, count):
        i = first_try if k < 0 else listed[k]
        if i < 0 or (k >= 0 and i == first_try):
            continue
        tally[0] += 1.0
        if triangle_floor(triangles[i], balls[i], origin, axis, index, wall)[0] >= best - tolerance:
            continue
        tally[1] += 1.0
        seen_from_hub(triangles[i], origin, axis, t)
        found = triangle_smallest(t, index, best, tolerance, segments, stack, nearest)
        if found < best:
            best, which = found, i
    return best, which


@njit(cache=True)
def candidates(
    triangles: Floats, balls: Floats, nodes: Floats, start: Whole, origin: Floats, axis: Floats, shift: float, turn: float,
    index: Floats, bound: float, listed: Whole, queue: Whole, wall: Floats, tally: Floats,
) -> int:  # fmt: skip
    """List triangles that may come below ``bound`` at any pose within ``shift`` (mm) and ``turn`` (chord of the axis) of this one.

    A point at distance r from the hub lies at (r sin f, r cos f), f its angle from the axis; turning the axis changes f
    by no more than the turn, so the point moves in the half-plane by no more than shift + r turn. The tree is eight-fold:
    node i of a level has children 8 i .. 8 i + 7 of the next; below the last level come the triangles.
    """
    levels = start.shape[0] - 1
    top = 0
    for i in range(start[1] - start[0]):
        queue[2 * top], queue[2 * top + 1] = 0, i
        top += 1
    found = 0
    while top > 0:
        top -= 1
        level, i = queue[2 * top], queue[2 * top + 1]
        node = nodes[start[level] + i]
        tally[0] += 1.0
        least, far = box_floor(node, origin, axis, index, wall)
        if least - shift - far * turn >= bound:
            continue
        if level == levels - 1:
            for k in range(8 * i, min(triangles.shape[0], 8 * i + 8)):
                tally[0] += 1.0
                least, reach = triangle_floor(triangles[k], balls[k], origin, axis, index, wall)
                if least - shift - reach * turn < bound:
                    listed[found] = k
                    found += 1
        else:
            for k in range(8 * i, min(start[level + 2] - start[level + 1], 8 * i + 8)):
                queue[2 * top], queue[2 * top + 1] = level + 1, k
                top += 1
    return found


@njit(cache=True)
def _spread(origins: Floats, axes: Floats, order: Whole, a: int, b: int, middle: int) -> tuple[float, float]:
    """Greatest move of the hub (mm) and turn of the axis (chord) from state ``middle`` over order[a:b]."""
    shift2 = turn2 = 0.0
    for k in range(a, b):
        d2 = t2 = 0.0
        for i in range(3):
            d2 += (origins[order[k], i] - origins[middle, i]) ** 2
            t2 += (axes[order[k], i] - axes[middle, i]) ** 2
        shift2, turn2 = max(shift2, d2), max(turn2, t2)
    return math.sqrt(shift2), math.sqrt(turn2)


@njit(cache=True, parallel=True)
def sweep(
    triangles: Floats, balls: Floats, nodes: Floats, start: Whole, origins: Floats, axes: Floats, order: Whole,
    index: Floats, cap: float, tolerance: float, overall: bool, chunks: int,
) -> tuple[Floats, Whole, Floats]:  # fmt: skip
    """Gap (n,) and triangle (n,) of every state, and what it cost (tree balls, triangles, states looked at).

    With ``overall`` only the smallest over all states counts: states that cannot beat the best so far keep infinity.
    States are taken in batches of neighbours that share one list of candidates.
    """
    n = order.shape[0]
    gaps, which = np.full(n, math.inf), np.full(n, -1, np.int32)
    batches = (n + BATCH - 1) // BATCH
    tallies = np.zeros((chunks, 8))
    for chunk in prange(chunks):
        listed = np.empty(triangles.shape[0], np.int32)
        queue = np.empty(2 * (64 * start.shape[0] + 8 + start[1]), np.int32)
        work = (np.empty((3, 3)), np.empty((4, 6)), np.empty((130, 2)), np.empty(3), np.empty(4))
        tally = tallies[chunk]
        best, last = cap, -1
        for batch in range(chunk, batches, chunks):
            a, b = batch * BATCH, min(n, batch * BATCH + BATCH)
            middle = order[(a + b) // 2]
            shift, turn = _spread(origins, axes, order, a, b, middle)
            bound = cap
            if last >= 0:  # a real triangle at the middle state bounds the whole batch
                seen_from_hub(triangles[last], origins[middle], axes[middle], work[0])
                near = triangle_smallest(work[0], index, cap, tolerance, work[1], work[2], work[3])
                far = math.sqrt(work[3][0] ** 2 + work[3][1] ** 2 + work[3][2] ** 2)
                bound = min(cap, near + shift + far * turn) if near < cap else cap
            if overall:
                bound = min(bound, best)
            count = candidates(
                triangles, balls, nodes, start, origins[middle], axes[middle], shift, turn, index, bound, listed,
                queue, work[4], tally,
            )  # fmt: skip
            for k in range(a, b):
                if count == 0:
                    break
                state = order[k]
                tally[2] += 1.0
                limit = best if overall else cap
                gap, i = one_state(
                    triangles, balls, listed, count, last, origins[state], axes[state], index, limit, tolerance, work,
                    tally,
                )  # fmt: skip
                if i >= 0:
                    gaps[state], which[state], last = gap, i, i
                    best = min(best, gap)
    return gaps, which, tallies.sum(axis=0)
