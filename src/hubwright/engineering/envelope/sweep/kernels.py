"""Smallest signed distance between a package and the images of triangles, by branch and bound.

Each boundary segment of an image is halved until a bound shows that it cannot beat the best found so far by more than
the tolerance. Outside the package the bound is the distance of the chord from the sides of the outline less the sag of
the arc; inside it is the greater of the distances of the chord's ends from the side nearest its middle (distance from
a convex side is convex along a chord, so it is greatest at an end) plus the sag. The value found belongs to a real
point, so the truth lies between ``value - tolerance`` and ``value``. When a triangle covers the deepest point of the
outline, that point's depth counts too.

Source: geometry of the meridian half-plane (derived).
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from numba import njit, prange

from hubwright.engineering.envelope.image.kernels import bounding_segments, covers, sag, seen_from_hub, square_axes
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
    side_at,
    signed_distance,
)

Floats = np.ndarray[Any, np.dtype[np.float64]]
Whole = np.ndarray[Any, np.dtype[np.int32]]


@njit(cache=True, error_model="numpy")
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


@njit(cache=True, error_model="numpy")
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


@njit(cache=True, error_model="numpy")
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


@njit(cache=True, error_model="numpy")
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
        nearest[0], nearest[1], nearest[2] = index[POLE_RHO], 0.0, index[POLE_Y]
    return best


@njit(cache=True, error_model="numpy")
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


@njit(cache=True, error_model="numpy")
def _wall(
    x: float, y: float, z: float, ax: float, ay: float, az: float, index: Floats
) -> tuple[float, float, float, float, float, float]:
    """Choose a plane that parts the package from what lies near the point (x, y, z) seen from the hub.

    The package lies where n_rho rho + n_y y <= h. With e the radial direction of the point, rho >= e.p for every p, so
    for n_rho >= 0 the signed distance of any p is at least g.p - h, g = n_rho e + n_y axis: linear in p. Gives the
    point's bound by the grid, its distance from the hub, g and h (infinite where n_rho < 0: no such plane).
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
    return lower_bound(rho, along, index), math.sqrt(r2), gx, gy, gz, h


@njit(cache=True, error_model="numpy")
def triangle_floor(
    triangles: Floats, balls: Floats, i: int, origins: Floats, axes: Floats, state: int, index: Floats
) -> tuple[float, float]:
    """A number not above the signed distance of a triangle at one pose, and its greatest distance from the hub."""
    ox, oy, oz = origins[state, 0], origins[state, 1], origins[state, 2]
    low, far, gx, gy, gz, h = _wall(
        balls[i, 0] - ox, balls[i, 1] - oy, balls[i, 2] - oz, axes[state, 0], axes[state, 1], axes[state, 2], index
    )
    least = gx * triangles[i, 0, 0] + gy * triangles[i, 0, 1] + gz * triangles[i, 0, 2]
    least = min(least, gx * triangles[i, 1, 0] + gy * triangles[i, 1, 1] + gz * triangles[i, 1, 2])
    least = min(least, gx * triangles[i, 2, 0] + gy * triangles[i, 2, 1] + gz * triangles[i, 2, 2])
    least -= gx * ox + gy * oy + gz * oz + h
    return max(low - balls[i, 3], least), far + balls[i, 3]


@njit(cache=True, error_model="numpy")
def refined_floor(triangles: Floats, i: int, origins: Floats, axes: Floats, state: int, index: Floats) -> float:
    """A closer floor for one triangle: planes chosen at points that move towards the nearest one, each bound valid."""
    ax, ay, az = axes[state, 0], axes[state, 1], axes[state, 2]
    ox, oy, oz = origins[state, 0], origins[state, 1], origins[state, 2]
    x = (triangles[i, 0, 0] + triangles[i, 1, 0] + triangles[i, 2, 0]) / 3.0 - ox
    y = (triangles[i, 0, 1] + triangles[i, 1, 1] + triangles[i, 2, 1]) / 3.0 - oy
    z = (triangles[i, 0, 2] + triangles[i, 1, 2] + triangles[i, 2, 2]) / 3.0 - oz
    best = -math.inf
    for step in range(6):
        _, _, gx, gy, gz, h = _wall(x, y, z, ax, ay, az, index)
        least, corner = math.inf, 0
        for k in range(3):
            along = gx * (triangles[i, k, 0] - ox) + gy * (triangles[i, k, 1] - oy) + gz * (triangles[i, k, 2] - oz)
            if along < least:
                least, corner = along, k
        best = max(best, least - h)
        share = 1.0 if step == 0 else 2.0 / (step + 2.0)
        x += share * (triangles[i, corner, 0] - ox - x)
        y += share * (triangles[i, corner, 1] - oy - y)
        z += share * (triangles[i, corner, 2] - oz - z)
    return best


@njit(cache=True, error_model="numpy")
def box_floor(nodes: Floats, i: int, origins: Floats, axes: Floats, state: int, index: Floats) -> tuple[float, float]:
    """The same for a box (row of centre and half sides, 6 numbers)."""
    x, y, z = nodes[i, 0] - origins[state, 0], nodes[i, 1] - origins[state, 1], nodes[i, 2] - origins[state, 2]
    low, far, gx, gy, gz, h = _wall(x, y, z, axes[state, 0], axes[state, 1], axes[state, 2], index)
    least = gx * x + gy * y + gz * z - abs(gx) * nodes[i, 3] - abs(gy) * nodes[i, 4] - abs(gz) * nodes[i, 5] - h
    half = math.sqrt(nodes[i, 3] * nodes[i, 3] + nodes[i, 4] * nodes[i, 4] + nodes[i, 5] * nodes[i, 5])
    return max(low - half, least), far + half


@njit(cache=True, error_model="numpy")
def _from_tree(
    triangles: Floats, balls: Floats, nodes: Floats, start: Whole, origins: Floats, axes: Floats, state: int,
    shift: float, turn: float, bound: float, index: Floats, listed: Whole, queue: Whole, tally: Floats,
) -> int:  # fmt: skip
    """List triangles that may come below ``bound`` at any pose within ``shift`` (mm) and ``turn`` (chord) of this one.

    A point at distance r from the hub lies at (r sin f, r cos f), f its angle from the axis; turning the axis changes f
    by no more than the turn, so the point moves in the half-plane by no more than shift + r turn. The tree is
    eight-fold: node i of a level has children 8 i .. 8 i + 7 of the next; below the last level come the triangles.
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
        tally[0] += 1.0
        least, far = box_floor(nodes, start[level] + i, origins, axes, state, index)
        if least - shift - far * turn >= bound:
            continue
        if level == levels - 1:
            for k in range(8 * i, min(triangles.shape[0], 8 * i + 8)):
                listed[found] = k
                found += 1
        else:
            for k in range(8 * i, min(start[level + 2] - start[level + 1], 8 * i + 8)):
                queue[2 * top], queue[2 * top + 1] = level + 1, k
                top += 1
    return found


@njit(cache=True, error_model="numpy")
def _thin_out(
    triangles: Floats, balls: Floats, origins: Floats, axes: Floats, state: int, shift: float, turn: float,
    bound: float, index: Floats, lists: Whole, floors: Floats, level: int, count: int, tally: Floats,
) -> int:  # fmt: skip
    """Copy to the list of the next level what may come below ``bound`` near this pose, with its floor."""
    found = 0
    for k in range(count):
        i = lists[level, k]
        tally[0] += 1.0
        least, reach = triangle_floor(triangles, balls, i, origins, axes, state, index)
        if least - shift - reach * turn < bound:
            lists[level + 1, found], floors[0, found], floors[1, found] = i, least, reach
            found += 1
    return found


@njit(cache=True, error_model="numpy")
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


@njit(cache=True, error_model="numpy")
def _point_gap(point: Floats, origins: Floats, axes: Floats, state: int, index: Floats) -> tuple[float, float]:
    """Signed distance of one point of the body at a pose, and its distance from the hub."""
    x, y, z = point[0] - origins[state, 0], point[1] - origins[state, 1], point[2] - origins[state, 2]
    along = x * axes[state, 0] + y * axes[state, 1] + z * axes[state, 2]
    r2 = x * x + y * y + z * z
    return signed_distance(math.sqrt(max(0.0, r2 - along * along)), along, index)[0], math.sqrt(r2)


@njit(cache=True, error_model="numpy")
def _one_state(
    triangles: Floats, balls: Floats, listed: Whole, floors: Floats, count: int, origins: Floats, axes: Floats,
    state: int, shift: float, turn: float, index: Floats, limit: float, tolerance: float, work: tuple[Floats, Floats, Floats, Floats],
    queue: Whole, here: Floats, point: Floats, tally: Floats,
) -> tuple[float, int]:  # fmt: skip
    """Smallest signed distance over listed triangles at one state; its place goes to ``point``, in the body.

    ``floors`` hold at a pose ``shift`` and ``turn`` away. The most promising triangle is measured first.
    """
    t, segments, stack, nearest = work
    best, which = limit, -1
    left, promising, lowest = 0, -1, math.inf
    for k in range(count):
        i = listed[k]
        if floors[0, k] - shift - turn * floors[1, k] >= best - tolerance:
            continue
        tally[0] += 1.0
        least = triangle_floor(triangles, balls, i, origins, axes, state, index)[0]
        if least < best - tolerance:
            queue[left], here[left] = i, least
            if least < lowest:
                promising, lowest = left, least
            left += 1
    for k in range(-1, left):
        j = promising if k < 0 else k
        if j < 0 or here[j] >= best - tolerance or k == promising:
            continue
        i = queue[j]
        if k >= 0 and refined_floor(triangles, i, origins, axes, state, index) >= best - tolerance:
            continue
        tally[1] += 1.0
        seen_from_hub(triangles[i], origins[state], axes[state], t)
        found = triangle_smallest(t, index, best, tolerance, segments, stack, nearest)
        if found < best:
            best, which = found, i
    if which >= 0:
        px, py, pz, qx, qy, qz = square_axes(axes[state])
        u, v, y = nearest[0], nearest[1], nearest[2]
        point[0] = origins[state, 0] + u * px + v * qx + y * axes[state, 0]
        point[1] = origins[state, 1] + u * py + v * qy + y * axes[state, 1]
        point[2] = origins[state, 2] + u * pz + v * qz + y * axes[state, 2]
    return best, which


@njit(cache=True, parallel=True, error_model="numpy")
def sweep(
    triangles: Floats, balls: Floats, nodes: Floats, start: Whole, origins: Floats, axes: Floats, order: Whole,
    index: Floats, cap: float, tolerance: float, overall: bool, chunks: int,
) -> tuple[Floats, Whole, Floats]:  # fmt: skip
    """Gap (n,) and triangle (n,) of every state, and what it cost (bounds, triangles measured, states looked at).

    With ``overall`` only the smallest over all states counts: states that cannot beat the best so far keep infinity.
    Neighbouring states share lists of candidates, thinned out from 64 states to 16 to 4. The place that bound last
    is a real point of the obstacle, so its gap at any pose limits what need be looked at there.
    """
    n = order.shape[0]
    states = origins.shape[0]
    gaps, which = np.full(states, math.inf), np.full(states, -1, np.int32)
    tallies = np.zeros((chunks, 8))
    blocks = (n + 63) // 64
    for chunk in prange(chunks):
        lists = np.empty((4, triangles.shape[0]), np.int32)
        floors, here = np.empty((2, triangles.shape[0])), np.empty(triangles.shape[0])
        queue = np.empty(2 * (64 * start.shape[0] + 8 + start[1]), np.int32)
        work = (np.empty((3, 3)), np.empty((4, 6)), np.empty((130, 2)), np.empty(3))
        point, tally, counts = np.empty(3), tallies[chunk], np.zeros(4, np.int64)
        best, last = cap, -1
        for block in range(chunk * blocks // chunks, (chunk + 1) * blocks // chunks):
            for k in range(64 * block, min(n, 64 * block + 64)):
                for level in range(3):
                    size = 64 >> (2 * level)
                    if k % size != 0:
                        continue
                    b = min(n, k + size)
                    middle = order[(k + b) // 2]
                    shift, turn = _spread(origins, axes, order, k, b, middle)
                    bound = best if overall else cap
                    if last >= 0:
                        near, far = _point_gap(point, origins, axes, middle, index)
                        bound = min(bound, near + shift + far * turn)
                    if level == 0:
                        counts[0] = _from_tree(
                            triangles, balls, nodes, start, origins, axes, middle, shift, turn, bound, index, lists[0],
                            queue, tally,
                        )  # fmt: skip
                    else:
                        counts[level] = _thin_out(
                            triangles, balls, origins, axes, middle, shift, turn, bound, index, lists, floors,
                            level - 1, counts[level - 1], tally,
                        )  # fmt: skip
                if counts[2] == 0:
                    continue
                state = order[k]
                shift, turn = _spread(origins, axes, order, k, k + 1, order[(k // 4 * 4 + min(n, k // 4 * 4 + 4)) // 2])
                tally[2] += 1.0
                limit = best if overall else cap
                known = math.inf
                if last >= 0:
                    known = _point_gap(point, origins, axes, state, index)[0]
                if known < limit:
                    limit = known
                else:
                    known = math.inf
                gap, i = _one_state(
                    triangles, balls, lists[2], floors, counts[2], origins, axes, state, shift, turn, index, limit,
                    tolerance, work, lists[3], here, point, tally,
                )  # fmt: skip
                if i < 0 and known < math.inf:
                    gap, i = known, last
                if i >= 0:
                    gaps[state], which[state], last = gap, i, i
                    best = min(best, gap)
    return gaps, which, tallies.sum(axis=0)
