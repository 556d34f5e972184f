"""Balls round triangles, boxes round groups of eight, and an order that keeps neighbours together.

Source: bounding volumes, geometry (derived).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

Floats = np.ndarray[Any, np.dtype[np.float64]]
Whole = np.ndarray[Any, np.dtype[np.int32]]
Singles = np.ndarray[Any, np.dtype[np.float32]]

FAN_OUT = 8
PIECE_MM = 80.0


@dataclass(frozen=True, eq=False)
class TriangleTree:
    """Triangles in neighbour order with bounding balls, eight to a box, groups of groups above.

    Attributes:
        triangles_mm: (k, 3, 3) corners in body coordinates, in neighbour order; large triangles are cut in pieces.
        came_from: (k,) number, in the list given, of the triangle each piece belongs to.
        balls_mm: (k, 4) centre and radius round each triangle.
        points: (3, 3k) corners in a row about ``middle_mm``, single precision.
        middle_mm: (3,) middle of all.
        nodes_mm: (g, 6) boxes round the groups, centre and half sides, coarsest level first.
        start: (levels + 1,) where each level begins in ``nodes_mm``.
    """

    triangles_mm: Floats
    came_from: Whole
    balls_mm: Floats
    nodes_mm: Floats
    start: Whole
    points: Singles
    middle_mm: Floats

    @property
    def arrays(self) -> tuple[Floats, Floats, Floats, Whole, Singles, Floats]:
        """In the order the kernels of the sweep take them."""
        return self.triangles_mm, self.balls_mm, self.nodes_mm, self.start, self.points, self.middle_mm


def neighbour_order(points: Floats) -> Whole:
    """Order of points (n, d) along a Morton curve of their d coordinates, d <= 3."""
    low, span = points.min(axis=0), np.ptp(points, axis=0).max()
    scale = (2**20 - 1) / span if span > 0.0 else 0.0
    cells = ((points - low) * scale).astype(np.uint64)
    code = np.zeros(points.shape[0], np.uint64)
    dims = points.shape[1]
    for bit in range(20):
        for d in range(dims):
            code |= ((cells[:, d] >> np.uint64(bit)) & np.uint64(1)) << np.uint64(dims * bit + d)
    return np.argsort(code, kind="stable").astype(np.int32)


def triangle_tree(triangles_mm: Floats, piece_mm: float = PIECE_MM) -> TriangleTree:
    """Group triangles (k, 3, 3); memory stays within about 300 bytes a triangle.

    Triangles whose ball is wider than ``piece_mm`` are halved across their longest side until none is, for a large
    ball bounds little. The pieces cover the triangle exactly, so nothing but speed changes.
    """
    pieces, parent = _cut(triangles_mm, piece_mm)
    order = neighbour_order(pieces.mean(axis=1))
    triangles = np.ascontiguousarray(pieces[order])
    balls = _triangle_balls(triangles)
    levels = [_group(triangles.min(axis=1), triangles.max(axis=1))]
    while levels[-1].shape[0] > FAN_OUT:
        levels.append(_group(levels[-1][:, :3] - levels[-1][:, 3:], levels[-1][:, :3] + levels[-1][:, 3:]))
    levels.reverse()
    start = np.cumsum([0, *[level.shape[0] for level in levels]]).astype(np.int32)
    middle = 0.5 * (triangles.min(axis=(0, 1)) + triangles.max(axis=(0, 1)))
    points = np.ascontiguousarray((triangles.reshape(-1, 3) - middle).T, np.float32)
    return TriangleTree(triangles, parent[order], balls, np.concatenate(levels), start, points, middle)


def _cut(triangles: Floats, piece_mm: float) -> tuple[Floats, Whole]:
    parent = np.arange(triangles.shape[0], dtype=np.int32)
    done, parents = [], []
    while triangles.shape[0]:
        wide = _triangle_balls(triangles)[:, 3] > piece_mm
        done.append(triangles[~wide])
        parents.append(parent[~wide])
        triangles, parent = triangles[wide], np.repeat(parent[wide], 2)
        if triangles.shape[0]:
            triangles = _halves(triangles)
    return np.concatenate(done), np.concatenate(parents)


def _halves(triangles: Floats) -> Floats:
    """Two halves of each triangle, cut from the middle of its longest side."""
    lengths = np.linalg.norm(triangles - np.roll(triangles, -1, axis=1), axis=2)
    rows = np.arange(triangles.shape[0])
    i = lengths.argmax(axis=1)
    a, b, c = triangles[rows, i], triangles[rows, (i + 1) % 3], triangles[rows, (i + 2) % 3]
    middle = 0.5 * (a + b)
    halves = np.stack([np.stack([a, middle, c], axis=1), np.stack([middle, b, c], axis=1)], axis=1)
    return halves.reshape(-1, 3, 3)


def _triangle_balls(triangles: Floats) -> Floats:
    """Smallest of the ball round the box centre and the one on the longest side when it holds the third corner."""
    out = np.empty((triangles.shape[0], 4))
    centre = 0.5 * (triangles.min(axis=1) + triangles.max(axis=1))
    radius = np.linalg.norm(triangles - centre[:, None, :], axis=2).max(axis=1)
    for i, j in ((0, 1), (1, 2), (2, 0)):
        middle = 0.5 * (triangles[:, i] + triangles[:, j])
        reach = np.linalg.norm(triangles - middle[:, None, :], axis=2).max(axis=1)
        better = reach < radius
        centre[better], radius[better] = middle[better], reach[better]
    out[:, :3], out[:, 3] = centre, radius * (1.0 + 1e-12)
    return out


def _group(low: Floats, high: Floats) -> Floats:
    """Boxes round eight following boxes each, wide enough for the last bit of rounding."""
    starts = np.arange(0, low.shape[0], FAN_OUT)
    low, high = np.minimum.reduceat(low, starts), np.maximum.reduceat(high, starts)
    return np.column_stack([0.5 * (low + high), 0.5 * (high - low) + 1e-9])
