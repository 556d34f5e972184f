"""Smallest signed distance between a package and the triangles of a body, over many states.

States in neighbour order make clusters of 256, 64, 16, 4 and 1; the triangles hang in a tree of boxes. A cluster keeps
a front: the boxes and triangles that may come below the bound at any of its states. The front of a cluster begins with
that of the cluster above; a box wider than the motion within the cluster gives way to what it holds. Whatever lies at
distance r from the hub moves in the half-plane by no more than shift + r turn (a point lies at (r sin f, r cos f), f
its angle from the axis, and f changes by no more than the axis turns).

At a single state the triangle that bound last is measured first. The plane that touches the package there dismisses
most others at once; those left are measured by a guess, proved by its own plane, else by branch and bound. The value
found belongs to a real point, so the truth lies between ``value - tolerance`` and ``value``.

Source: derived here.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from numba import njit, prange

from hubwright.engineering.envelope.image.kernels import seen_from_hub, square_axes
from hubwright.engineering.envelope.sweep.floors.kernels import (
    beyond_all,
    box_beyond,
    box_floor,
    touching_plane,
    triangle_beyond,
    triangle_floor,
)
from hubwright.engineering.envelope.sweep.triangle.kernels import triangle_guess, triangle_smallest

Floats = np.ndarray[Any, np.dtype[np.float64]]
Whole = np.ndarray[Any, np.dtype[np.int32]]
Singles = np.ndarray[Any, np.dtype[np.float32]]

BLOCK = 256
CLUSTERS = 5
LEVELS = 16


@njit(cache=True, error_model="numpy")
def _moved(origins: Floats, axes: Floats, a: int, b: int) -> tuple[float, float]:
    """Move of the hub (mm) and turn of the axis (chord) between two states."""
    d2 = t2 = 0.0
    for i in range(3):
        d2 += (origins[a, i] - origins[b, i]) ** 2
        t2 += (axes[a, i] - axes[b, i]) ** 2
    return math.sqrt(d2), math.sqrt(t2)


@njit(cache=True, error_model="numpy")
def _spread(origins: Floats, axes: Floats, order: Whole, a: int, b: int, middle: int, motion: Floats) -> None:
    """Greatest changes from state ``middle`` over order[a:b]: of the axis by x, y, z, of the hub, turn and shift."""
    motion[:] = 0.0
    for k in range(a, b):
        for i in range(3):
            motion[i] = max(motion[i], abs(axes[order[k], i] - axes[middle, i]))
            motion[3 + i] = max(motion[3 + i], abs(origins[order[k], i] - origins[middle, i]))
        shift, turn = _moved(origins, axes, order[k], middle)
        motion[6], motion[7] = max(motion[6], turn), max(motion[7], shift)


@njit(cache=True, error_model="numpy")
def _advance(
    triangles: Floats, balls: Floats, nodes: Floats, start: Whole, origins: Floats, axes: Floats, state: int,
    motion: Floats, bound: float, plane: Floats, index: Floats, codes: Whole, floors: Singles, since: tuple[float, float],
    level: int, top_level: int, counts: Whole, queue: Whole, tally: Floats,
) -> int:  # fmt: skip
    """Fill the front of cluster ``level`` from the one above (at ``top_level``: from the tree) with all that may come below ``bound`` in it.

    Entry i of tree level l has the code ``LEVELS i + l``; below the last level of boxes come the triangles. ``floors``
    keeps each entry's bound and distance from the hub at the pose it was tried at, and ``since`` how far that is away.
    ``plane`` holds at a single state only. Gives the entry with the lowest floor.
    """
    depth = start.shape[0] - 1
    turn, shift = motion[6], motion[7]
    found, lowest, least_of_all = 0, -1, math.inf
    for entry in range(counts[level - 1] if level > top_level else start[1] - start[0]):
        if level == top_level:
            queue[0] = LEVELS * entry
        else:
            queue[0] = codes[level - 1, entry]
            gone = since[0] + floors[level - 1, 1, entry] * since[1]
            if floors[level - 1, 0, entry] - gone - shift - floors[level - 1, 1, entry] * turn >= bound:
                continue
        top = 1
        while top > 0:
            top -= 1
            code = queue[top]
            rank, i = code % LEVELS, code // LEVELS
            tally[0] += 1.0
            if rank == depth:
                if level == CLUSTERS - 1 and triangle_beyond(triangles, i, plane) >= bound:
                    continue
                floor, least, far = triangle_floor(triangles, balls, i, origins, axes, state, motion, index)
                half = 0.0
            else:
                row = start[rank] + i
                if level == CLUSTERS - 1 and box_beyond(nodes, row, plane) >= bound:
                    continue
                floor, least, far = box_floor(nodes, row, origins, axes, state, motion, index)
                half = max(nodes[row, 3], nodes[row, 4], nodes[row, 5])
            if floor >= bound:
                continue
            if rank < depth and half >= shift + far * turn:
                last = triangles.shape[0] if rank == depth - 1 else start[rank + 2] - start[rank + 1]
                for k in range(8 * i, min(last, 8 * i + 8)):
                    queue[top] = LEVELS * k + rank + 1
                    top += 1
                continue
            codes[level, found] = code
            floors[level, 0, found], floors[level, 1, found] = least - 1e-4, far * 1.000001
            if least < least_of_all:
                lowest, least_of_all = found, least
            found += 1
    counts[level] = found
    return lowest


@njit(cache=True, error_model="numpy")
def _measure(
    triangles: Floats, i: int, origins: Floats, axes: Floats, state: int, index: Floats, best: float, tolerance: float,
    work: tuple[Floats, Floats, Floats, Floats, Floats], point: Floats, plane: Floats, tally: Floats,
) -> float:  # fmt: skip
    """Signed distance of a triangle when below ``best - tolerance``, else something not below ``best - tolerance``.

    When it is below ``best``, ``point`` receives its place in the body and ``plane`` the plane touching there.
    """
    t, segments, stack, nearest, tried = work
    tally[1] += 1.0
    seen_from_hub(triangles[i], origins[state], axes[state], t)
    found = triangle_guess(t, index, segments, nearest)
    _to_body(nearest, origins, axes, state, tried[4:])
    touching_plane(tried[4:], origins, axes, state, index, tried)
    if triangle_beyond(triangles, i, tried) < min(best, found) - tolerance:
        tally[3] += 1.0
        better = triangle_smallest(t, index, min(best, found), tolerance, segments, stack, nearest)
        if better < min(best, found):
            found = better
            _to_body(nearest, origins, axes, state, tried[4:])
            touching_plane(tried[4:], origins, axes, state, index, tried)
    if found < best:
        plane[:] = tried[:4]
        point[:] = tried[4:]
    return found


@njit(cache=True, error_model="numpy")
def _to_body(nearest: Floats, origins: Floats, axes: Floats, state: int, out: Floats) -> None:
    """Body coordinates of (u, v, y)."""
    px, py, pz, qx, qy, qz = square_axes(axes[state])
    u, v, y = nearest[0], nearest[1], nearest[2]
    out[0] = origins[state, 0] + u * px + v * qx + y * axes[state, 0]
    out[1] = origins[state, 1] + u * py + v * qy + y * axes[state, 1]
    out[2] = origins[state, 2] + u * pz + v * qz + y * axes[state, 2]


@njit(cache=True, parallel=True, error_model="numpy")
def sweep(
    triangles: Floats, balls: Floats, nodes: Floats, start: Whole, origins: Floats, axes: Floats, order: Whole,
    index: Floats, cap: float, tolerance: float, overall: bool, top_level: int, chunks: int,
) -> tuple[Floats, Whole, Floats]:  # fmt: skip
    """Gap (n,) and triangle (n,) of every state, and what it cost.

    The cost: bounds, triangles measured, states looked at, triangles that needed branch and bound. With ``overall``
    only the smallest over all states counts: states that cannot beat the best so far keep infinity. The place that
    bound last is a real point of the obstacle, so its gap at any pose limits what need be looked at there. ``top_level``
    is the first cluster size, ``CLUSTERS - 1`` for states far apart.
    """
    n = order.shape[0]
    states = origins.shape[0]
    gaps, which = np.full(states, math.inf), np.full(states, -1, np.int32)
    tallies = np.zeros((chunks, 8))
    block = BLOCK >> (2 * top_level)
    blocks = (n + block - 1) // block
    room = triangles.shape[0] + nodes.shape[0]
    for chunk in prange(chunks):
        codes, floors = np.empty((CLUSTERS, room), np.int32), np.empty((CLUSTERS, 2, room), np.float32)
        counts, middles = np.zeros(CLUSTERS, np.int32), np.zeros(CLUSTERS, np.int64)
        queue = np.empty(8 * start.shape[0] + 8, np.int32)
        work = (np.empty((3, 3)), np.empty((4, 6)), np.empty((130, 2)), np.empty(3), np.empty(7))
        point, plane, motion, tally = np.empty(3), np.empty(4), np.empty(8), tallies[chunk]
        best, last = cap, -1
        k = block * (chunk * blocks // chunks)
        end = min(n, block * ((chunk + 1) * blocks // chunks))
        while k < end:
            level = top_level
            while k % (BLOCK >> (2 * level)) != 0:
                level += 1
            lowest = -1
            while level < CLUSTERS:
                size = BLOCK >> (2 * level)
                b = min(n, k + size)
                middle = order[(k + b) // 2] if size > 1 else order[k]
                middles[level] = middle
                bound = best if overall else cap
                _spread(origins, axes, order, k, b, middle, motion)
                plane[3] = math.inf
                if last >= 0:
                    known = touching_plane(point, origins, axes, middle, index, plane)
                    if size > 1:
                        x = 0.0
                        for j in range(3):
                            x += (point[j] - origins[middle, j]) ** 2
                        bound = min(bound, known + motion[7] + math.sqrt(x) * motion[6])
                    elif known < bound:
                        bound = known
                        gaps[middle], which[middle] = known, last
                        found = _measure(
                            triangles, last, origins, axes, middle, index, bound, tolerance, work, point, plane, tally
                        )
                        if found < bound:
                            bound = found
                            gaps[middle] = found
                since = (0.0, 0.0)
                if level > top_level:
                    since = _moved(origins, axes, middles[level - 1], middle)
                lowest = _advance(
                    triangles, balls, nodes, start, origins, axes, middle, motion,
                    bound - (tolerance if size == 1 else 0.0), plane, index, codes, floors, since, level, top_level, counts, queue,
                    tally,
                )  # fmt: skip
                if counts[level] == 0:
                    break
                level += 1
            if level < CLUSTERS - 1:
                k += BLOCK >> (2 * level)
                continue
            state = order[k]
            tally[2] += 1.0
            for j in range(-1, counts[CLUSTERS - 1]):
                at = lowest if j < 0 else j
                i = codes[CLUSTERS - 1, at] // LEVELS
                if j == lowest or at < 0 or (i == last and gaps[state] < math.inf):
                    continue
                if floors[CLUSTERS - 1, 0, at] >= bound - tolerance:
                    continue
                if triangle_beyond(triangles, i, plane) >= bound - tolerance:
                    continue
                if beyond_all(triangles, i, origins, axes, state, index, bound - tolerance):
                    continue
                found = _measure(triangles, i, origins, axes, state, index, bound, tolerance, work, point, plane, tally)
                if found < bound:
                    bound, last = found, i
                    gaps[state], which[state] = found, i
            best = min(best, gaps[state])
            k += 1
    return gaps, which, tallies.sum(axis=0)
