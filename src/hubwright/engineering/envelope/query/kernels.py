"""Packages against a ready map: outline sides against the map's lines.

An outline comes as points in a row, its first repeated at the end, long sides cut so that none exceeds ``2 REACH_MM``.
One pass looks every point up in the field of squared distances (field/kernels.py); what it gives bounds every side
from below, and the few sides that may still bind are measured exactly against the lines listed near them.

Source: derived here.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from numba import prange

from hubwright.engineering.envelope.query.field.kernels import REACH_MM, point_floors, side_floors, side_gap2
from hubwright.engineering.envelope.query.overlap.kernels import overlap, within
from hubwright.engineering.kernels import njit

Bools = np.ndarray[Any, np.dtype[np.bool_]]
Floats = np.ndarray[Any, np.dtype[np.float64]]
Whole = np.ndarray[Any, np.dtype[np.int32]]
Longs = np.ndarray[Any, np.dtype[np.int64]]
Singles = np.ndarray[Any, np.dtype[np.float32]]


LINE = 8
"""Numbers of double precision that memory hands over at a time."""


@njit(error_model="numpy")
def _pieces(r0: float, y0: float, r1: float, y1: float) -> int:
    if r0 <= 0.0 and r1 <= 0.0:
        return 1
    return max(1, math.ceil(math.hypot(r1 - r0, y1 - y0) / (2.0 * REACH_MM)))


@njit(error_model="numpy")
def cut_all(rho: Floats, y: Floats, starts: Longs) -> tuple[Floats, Floats, Longs]:
    """Points (rho, y) of many outlines with long sides cut, and where each begins; ``starts`` numbers the corners."""
    first = np.zeros(starts.shape[0], np.int64)
    for k in range(starts.shape[0] - 1):
        count, j = 1, starts[k + 1] - 1
        for i in range(starts[k], starts[k + 1]):
            count += _pieces(rho[j], y[j], rho[i], y[i])
            j = i
        first[k + 1] = first[k] + count
    out_rho, out_y = np.empty(first[-1]), np.empty(first[-1])
    for k in range(starts.shape[0] - 1):
        at, j = first[k], starts[k + 1] - 1
        out_rho[at], out_y[at] = rho[j], y[j]
        for i in range(starts[k], starts[k + 1]):
            n = _pieces(rho[j], y[j], rho[i], y[i])
            for p in range(1, n):
                out_rho[at + p] = rho[j] + p / n * (rho[i] - rho[j])
                out_y[at + p] = y[j] + p / n * (y[i] - y[j])
            at += n
            out_rho[at], out_y[at] = rho[i], y[i]
            j = i
    return out_rho, out_y, first


@njit(error_model="numpy")
def frames(rho: Floats, y: Floats, starts: Longs) -> Floats:
    """Box and core (n, 8) of outlines made ready: greatest and least rho, least and greatest y; then of the core.

    From anywhere in the core every side shows its inner face. It is the box shrunk about its middle by the share that
    lets it stand behind every side; least above greatest where there is none.
    """
    out = np.empty((starts.shape[0] - 1, 8))
    for k in range(starts.shape[0] - 1):
        a, b = starts[k], starts[k + 1] - 1
        r0, r1, y0, y1 = rho[a : b + 1].min(), rho[a : b + 1].max(), y[a : b + 1].min(), y[a : b + 1].max()
        mr, my, hr, hy = 0.5 * (r0 + r1), 0.5 * (y0 + y1), 0.5 * (r1 - r0), 0.5 * (y1 - y0)
        share = 1.0
        for i in range(a, b):
            nr, ny = y[i + 1] - y[i], rho[i] - rho[i + 1]
            wide = abs(nr) * hr + abs(ny) * hy
            if wide > 0.0:
                share = min(share, (nr * (rho[i] - mr) + ny * (y[i] - my)) / wide)
        share -= 1e-9
        out[k, 0], out[k, 1], out[k, 2], out[k, 3] = r1, r0, y0, y1
        out[k, 4], out[k, 5], out[k, 6], out[k, 7] = mr - share * hr, mr + share * hr, my - share * hy, my + share * hy
    return out


@njit(error_model="numpy", fastmath={"contract", "nsz", "nnan"})
def seen_from(view_rho: float, view_y: float, rho: Floats, y: Floats, slide: float, away2: Floats) -> tuple[int, float]:
    """How many sides turn their back to the view point (by more than 1e-9 mm2), and its farthest point's distance.

    A side from r to s faces it when r x s >= 0. ``away2`` (points,) is scratch.
    """
    lift, backs = slide - view_y, 0
    rho_a, y_a, rho_b, y_b = rho[:-1], y[:-1], rho[1:], y[1:]
    for i in range(rho_a.shape[0]):
        r0, h0 = rho_a[i] - view_rho, y_a[i] + lift
        r1, h1 = rho_b[i] - view_rho, y_b[i] + lift
        backs += 1 if r0 * h1 - r1 * h0 < -1e-9 else 0
        away2[i] = r0 * r0 + h0 * h0
    bits = away2.view(np.int64)  # numbers from 0 up are ordered as their bits, and those compare many at once
    most = bits[0]
    for i in range(rho_a.shape[0]):
        most = max(most, bits[i])
    bits[0] = most
    return backs, math.sqrt(away2[0])


@njit(error_model="numpy")
def one_package(
    rho: Floats, y: Floats, points: Singles, length2: Singles, over2: Singles, box: Floats, a: int, b: int, slide: float,
    lines: Floats, seeds: Floats, grid: Floats, field: Singles, first: Whole, listed: Whole, away: Singles, cap: float,
    deep: bool, room: Singles, nodes: Whole,
) -> tuple[float, int]:  # fmt: skip
    """Smallest distance from an outline slid by ``slide`` to the lines, and the line; (cap, -1) when above.

    The outline is points a .. b. Contact or overlap gives 0 or less: the overlap depth when ``deep``, else 0.
    ``box`` = a row of `frames`. ``seeds`` (n, 6): first corner of each chain, its least
    and greatest rho, greatest and least y. ``room`` (4, points) and ``nodes`` are scratch.
    """
    best2, which, count = cap * cap, -1, b - a
    at_points, floors = room[0, : count + 1], room[1, :count]
    point_floors(points[0, a : b + 1], points[1, a : b + 1], slide, grid, field, nodes, room[2:], at_points)
    lowest = side_floors(at_points, length2[a:b], over2[a:b], grid[8], floors)
    left = 0
    if floors[lowest] <= 0.0 or floors[lowest] < best2:
        fetched = 0.0
        for i in range(a, b, LINE):
            fetched += rho[i] + y[i]
        room[2, 0] = fetched  # what memory is asked for in a row comes sooner than the few points needed, one by one
        best2, which = side_gap2(
            rho[a + lowest], y[a + lowest] + slide, rho[a + lowest + 1], y[a + lowest + 1] + slide, floors[lowest],
            best2, which, lines, grid, first, listed, away,
        )  # fmt: skip
        limit = np.float32(best2 * 1.000001)
        for k in range(count):  # collected without a branch: which sides are left is hard to foretell
            nodes[left] = k
            left += 1 if floors[k] <= limit else 0
    for n in range(left):
        k, i = nodes[n], a + nodes[n]
        if k != lowest and (floors[k] <= 0.0 or floors[k] < best2):
            best2, which = side_gap2(
                rho[i], y[i] + slide, rho[i + 1], y[i + 1] + slide, floors[k], best2, which, lines, grid, first, listed,
                away,
            )  # fmt: skip
    inside = best2 <= 0.0
    for n in range(seeds.shape[0]):
        if inside or seeds[n, 3] > box[0] or seeds[n, 4] > box[3] + slide or seeds[n, 5] < box[2] + slide:
            continue  # the chain reaches outside the outline's box, and no side crosses it
        inside = within(seeds[n, 0], seeds[n, 1], rho, y, a, b, slide)
    if inside:
        return overlap(lines, rho, y, a, b, slide) if deep else (0.0, which)
    return math.sqrt(best2), which


@njit(parallel=True, error_model="numpy")
def many_packages(
    rho: Floats, y: Floats, points: Singles, length2: Singles, over2: Singles, boxes: Floats, starts: Longs,
    outline: Longs, slide_of: Floats, lines: Floats, seeds: Floats, grid: Floats, field: Singles, first: Whole,
    listed: Whole, away: Singles, view: Floats, cap: float, deep: bool, chunks: int,
) -> tuple[Floats, Bools]:  # fmt: skip
    """Gap (n,) of many packages, and which are not star-shaped about the view point (to 1e-9 mm2).

    ``outline`` and ``slide_of`` (n,) name the outline (points starts[k] .. starts[k + 1] - 1) and its disc; ``view`` =
    rho, y and reach of the map's view point.
    """
    n = outline.shape[0]
    gaps, bad = np.empty(n), np.zeros(n, np.bool_)
    longest = 0
    for k in range(starts.shape[0] - 1):
        longest = max(longest, starts[k + 1] - starts[k])
    for chunk in prange(chunks):
        room, nodes, away2 = np.empty((4, longest), np.float32), np.empty(longest, np.int32), np.empty(longest)
        for p in range(chunk * n // chunks, (chunk + 1) * n // chunks):
            k, slide = outline[p], slide_of[p]
            a, b, box = starts[k], starts[k + 1] - 1, boxes[k]
            lift = view[1] - slide
            far = math.hypot(max(box[0] - view[0], view[0] - box[1]), max(box[3] - lift, lift - box[2]))
            sure = box[4] <= view[0] <= box[5] and box[6] <= lift <= box[7]
            limit, row = min(cap, view[2] - far), -1
            if sure and limit > 0.0:  # the box says enough of it: its points need not be gone through
                gaps[p], row = one_package(
                    rho, y, points, length2, over2, box, a, b, slide, lines, seeds, grid, field, first, listed, away,
                    limit, deep, room, nodes,
                )  # fmt: skip
            if row < 0 and not (sure and limit >= cap):
                backs, far = seen_from(view[0], view[1], rho[a : b + 1], y[a : b + 1], slide, away2)
                bad[p] = backs > 0
                gaps[p] = one_package(
                    rho, y, points, length2, over2, box, a, b, slide, lines, seeds, grid, field, first, listed, away,
                    min(cap, max(0.0, view[2] - far)), deep, room, nodes,
                )[0]  # fmt: skip
    return gaps, bad
