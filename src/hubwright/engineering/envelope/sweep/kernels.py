"""Smallest signed distance between a package and the triangles of a body, over many states.

A state is given a first bound before the tree is walked (visit/kernels.py): a real point of the body near it. States
far apart are settled first, by a narrow search down the tree; the triangles that bind there give their neighbours
theirs. Where only the least of all counts, the place found is tried at every state, and the state at which it comes
nearest is searched again, until nothing comes nearer. The value found belongs to a real point, so the truth lies
between ``value - tolerance`` and ``value``.

Source: derived here.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from numba import prange

from hubwright.engineering.envelope.sweep.floors.kernels import box_floor, gap_of_point, triangle_floor
from hubwright.engineering.envelope.sweep.planes.kernels import ROWS
from hubwright.engineering.envelope.sweep.visit.kernels import FAN_OUT, Work, descend, measure, scratch
from hubwright.engineering.kernels import njit

Floats = np.ndarray[Any, np.dtype[np.float64]]
Whole = np.ndarray[Any, np.dtype[np.int32]]
Singles = np.ndarray[Any, np.dtype[np.float32]]

WIDE = 8
STRIDES = (64, 8, 1)
CHASES, CHASE_MM = 6, 10.0
TRIED = 512


@njit(error_model="numpy")
def _try(
    triangles: Floats, i: int, origins: Floats, axes: Floats, s: int, index: Floats, limit: Floats, overall: bool,
    best: Floats, which: Whole, touch: Floats, work: Work, tally: Floats,
) -> None:  # fmt: skip
    bound = min(best[s], limit[0]) if overall else best[s]
    found = measure(triangles, i, origins, axes, s, index, bound, 0.0, False, work, touch[s], tally)
    if found < bound:
        best[s], which[s] = found, i
        if overall:
            limit[0] = found


@njit(error_model="numpy")
def _search(
    triangles: Floats, balls: Floats, nodes: Floats, start: Whole, origins: Floats, axes: Floats, s: int, index: Floats,
    limit: Floats, overall: bool, best: Floats, which: Whole, touch: Floats, front: Whole, lows: Floats, work: Work,
    tally: Floats,
) -> None:  # fmt: skip
    """Try a few triangles that are probably near at one state: the ``WIDE`` lowest boxes of each rank of the tree."""
    depth = start.shape[0] - 1
    count, rank = 0, 0
    first, last = 0, start[1] - start[0] if depth > 0 else triangles.shape[0]
    held, fresh = front[0], front[1]
    while True:
        kept = 0
        for j in range(max(1, count)):
            if rank > 0:
                above = triangles.shape[0] if rank == depth else start[rank + 1] - start[rank]
                first, last = FAN_OUT * held[j], min(above, FAN_OUT * held[j] + FAN_OUT)
            for i in range(first, last):
                tally[0] += 1.0
                if rank == depth:
                    low = triangle_floor(triangles, balls, i, origins, axes, s, index)
                else:
                    low = box_floor(nodes, start[rank] + i, origins, axes, s, index)
                k = kept
                if kept < WIDE:
                    kept += 1
                elif low >= lows[WIDE - 1]:
                    continue
                else:
                    k = WIDE - 1
                while k > 0 and lows[k - 1] > low:
                    lows[k], fresh[k] = lows[k - 1], fresh[k - 1]
                    k -= 1
                lows[k], fresh[k] = low, i
        held, fresh, count = fresh, held, kept
        if rank == depth:
            break
        rank += 1
    for j in range(count):
        if lows[j] < (min(best[s], limit[0]) if overall else best[s]):
            _try(triangles, held[j], origins, axes, s, index, limit, overall, best, which, touch, work, tally)


@njit(error_model="numpy")
def _first_bound(
    triangles: Floats, balls: Floats, nodes: Floats, start: Whole, origins: Floats, axes: Floats, order: Whole,
    scouts: Whole, index: Floats, limit: Floats, best: Floats, which: Whole, touch: Floats, work: Work, tally: Floats,
) -> None:  # fmt: skip
    """Lower ``limit`` towards the least of all: from states at the rim, follow the place that binds to where it binds most."""
    n = order.shape[0]
    front, lows = np.empty((2, WIDE), np.int32), np.empty(WIDE)
    step = 1 + n // TRIED
    for k in range(scouts.shape[0]):
        at = scouts[k]
        for _ in range(CHASES):
            _search(
                triangles, balls, nodes, start, origins, axes, at, index, limit, False, best, which, touch, front, lows,
                work, tally,
            )  # fmt: skip
            if which[at] < 0:
                break
            limit[0] = min(limit[0], best[at])
            least, low = at, best[at]
            for j in range(0, n, step):
                gap = gap_of_point(touch[least, 4:], origins, axes, order[j], index)
                if gap < low:
                    at, low = order[j], gap
            if at == least or low > limit[0] + CHASE_MM:
                break
            _try(triangles, which[least], origins, axes, at, index, limit, False, best, which, touch, work, tally)


@njit(error_model="numpy")
def _from_neighbours(
    triangles: Floats, origins: Floats, axes: Floats, order: Whole, k: int, apart: int, index: Floats, limit: Floats,
    best: Floats, which: Whole, touch: Floats, work: Work, tally: Floats,
) -> None:  # fmt: skip
    """Try what binds at the settled states before and after state k of the order."""
    before = k // apart * apart
    first = which[order[before]]
    if first >= 0:
        _try(triangles, first, origins, axes, order[k], index, limit, False, best, which, touch, work, tally)
    if before + apart < order.shape[0]:
        second = which[order[before + apart]]
        if second >= 0 and second != first:
            _try(triangles, second, origins, axes, order[k], index, limit, False, best, which, touch, work, tally)


@njit(error_model="numpy")
def _chunk(
    triangles: Floats, balls: Floats, nodes: Floats, start: Whole, points: Singles, middle: Floats, origins: Floats,
    axes: Floats, own: Whole, index: Floats, table: Singles, spare: float, tolerance: float, hollow: bool, overall: bool,
    limit: Floats, best: Floats, which: Whole, touch: Floats, tally: Floats,
) -> None:  # fmt: skip
    """Settle the states ``own``."""
    ranks = start.shape[0] + 1
    held, names = np.empty((ranks, ROWS, own.shape[0]), np.float32), np.empty((ranks, own.shape[0]), np.int32)
    room = scratch(own.shape[0], points.shape[1])
    front, lows = np.empty((2, WIDE), np.int32), np.empty(WIDE)
    apart = 0
    for stride in STRIDES:
        if overall and stride > 1:
            continue
        some = np.empty(own.shape[0], np.int32)
        count = 0
        for k in range(0, own.shape[0], stride):
            if apart > 0 and k % apart == 0:
                continue
            some[count] = own[k]
            count += 1
            if overall:
                continue
            if apart == 0:
                _search(
                    triangles, balls, nodes, start, origins, axes, own[k], index, limit, False, best, which, touch,
                    front, lows, room, tally,
                )  # fmt: skip
            else:
                _from_neighbours(triangles, origins, axes, own, k, apart, index, limit, best, which, touch, room, tally)
        descend(
            triangles, balls, nodes, start, points, middle, origins, axes, index, table, spare, tolerance, hollow,
            overall, limit, some[:count], held, names, best, which, touch, room, tally,
        )  # fmt: skip
        apart = stride


@njit(error_model="numpy")
def _begin(
    triangles: Floats, balls: Floats, nodes: Floats, start: Whole, origins: Floats, axes: Floats, order: Whole,
    scouts: Whole, index: Floats, cap: float, overall: bool, tally: Floats,
) -> tuple[Floats, Whole, Floats, Floats]:  # fmt: skip
    """Gap and triangle (n,) and place (n, 7) of every state, and the least of all, before the tree is walked."""
    best, which = np.full(origins.shape[0], math.inf if overall else cap), np.full(origins.shape[0], -1, np.int32)
    touch = np.zeros((origins.shape[0], 7))
    touch[:, 3] = math.inf
    known = np.full(1, cap)
    if overall:
        work = scratch(1, 1)
        _first_bound(
            triangles, balls, nodes, start, origins, axes, order, scouts, index, known, best, which, touch, work, tally
        )
    return best, which, touch, known


@njit(error_model="numpy")
def _end(best: Floats, which: Whole) -> None:
    for s in range(best.shape[0]):
        if which[s] < 0:
            best[s] = math.inf


@njit(parallel=True, error_model="numpy")
def sweep(
    triangles: Floats, balls: Floats, nodes: Floats, start: Whole, points: Singles, middle: Floats, origins: Floats,
    axes: Floats, order: Whole, scouts: Whole, index: Floats, table: Singles, spare: float, cap: float, tolerance: float,
    hollow: bool, overall: bool, chunks: int,
) -> tuple[Floats, Whole, Floats]:  # fmt: skip
    """Gap (n,) and triangle (n,) of every state, and what it cost: planes tried, triangles measured, -, branch and bound.

    With ``overall`` only the smallest over all states counts; states that cannot beat the best so far keep infinity.
    """
    n, tallies = order.shape[0], np.zeros((chunks + 1, 4))
    best, which, touch, known = _begin(
        triangles, balls, nodes, start, origins, axes, order, scouts, index, cap, overall, tallies[chunks]
    )
    for chunk in prange(chunks):
        own = order[chunk * n // chunks : (chunk + 1) * n // chunks]
        _chunk(
            triangles, balls, nodes, start, points, middle, origins, axes, own, index, table, spare, tolerance, hollow,
            overall, known.copy(), best, which, touch, tallies[chunk],
        )  # fmt: skip
    _end(best, which)
    return best, which, tallies.sum(axis=0)


@njit(error_model="numpy")
def sweep_alone(
    triangles: Floats, balls: Floats, nodes: Floats, start: Whole, points: Singles, middle: Floats, origins: Floats,
    axes: Floats, order: Whole, scouts: Whole, index: Floats, table: Singles, spare: float, cap: float, tolerance: float,
    hollow: bool, overall: bool,
) -> tuple[Floats, Whole, Floats]:  # fmt: skip
    """As `sweep`, in one piece on the calling thread: waking others costs more than they save where states are few."""
    tally = np.zeros(4)
    best, which, touch, known = _begin(
        triangles, balls, nodes, start, origins, axes, order, scouts, index, cap, overall, tally
    )
    _chunk(
        triangles, balls, nodes, start, points, middle, origins, axes, order, index, table, spare, tolerance, hollow,
        overall, known, best, which, touch, tally,
    )  # fmt: skip
    _end(best, which)
    return best, which, tally
