"""Obstacles: what the wheel must not touch. Points, lines and surfaces all become triangles, some without area.

Source: geometry (derived).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from hashlib import sha256
from typing import TYPE_CHECKING, Any

import numpy as np

from hubwright.errors import BadInput, Fault
from hubwright.language import say

if TYPE_CHECKING:
    from hubwright.engineering.envelope.culling import TriangleTree

Floats = np.ndarray[Any, np.dtype[np.float64]]
TREE_BYTES = 300
"""What a triangle takes in a tree, at most."""


@dataclass(frozen=True, eq=False)
class Obstacle:
    """One named obstacle.

    Attributes:
        name: As the technician would say it, such as "left front arch lip".
        kind: Decides the margin owed (the rules know the kinds; here it is only carried along).
        triangles_mm: (k, 3, 3) corners. A point is a triangle with three equal corners, a line one with two.
        carried: False: fixed to the body, in body coordinates, sweeps past the wheel. True: moves with the knuckle, in
            coordinates whose origin is the hub face centre and whose second axis is the spin axis, outboard.
        doubt_mm: How far a point may lie from the real surface; owed to every gap (noise of a scan, say).
    """

    name: str
    kind: str
    triangles_mm: Floats
    carried: bool = False
    doubt_mm: float = 0.0

    def __post_init__(self) -> None:
        triangles = np.ascontiguousarray(self.triangles_mm, float)
        if triangles.ndim != 3 or triangles.shape[1:] != (3, 3) or triangles.shape[0] == 0:
            raise BadInput(self.name, (Fault("triangles_mm", say("shape (k, 3, 3), k >= 1"), str(triangles.shape)),))
        if not np.all(np.isfinite(triangles)):
            raise BadInput(self.name, (Fault("triangles_mm", say("finite numbers"), say("a corner that is not")),))
        object.__setattr__(self, "triangles_mm", triangles)

    @cached_property
    def tree(self) -> TriangleTree:
        """Its triangles grouped for the sweep; worked out on the first call."""
        from hubwright.engineering.envelope.culling import triangle_tree  # noqa: PLC0415 - only where it is swept

        return triangle_tree(self.triangles_mm)

    @cached_property
    def mark(self) -> str:
        """SHA-256 over all it says; worked out on the first call."""
        digest = sha256(repr((self.name, self.kind, self.carried, self.doubt_mm, self.triangles_mm.shape)).encode())
        digest.update(np.ascontiguousarray(self.triangles_mm, "<f8").data)
        return digest.hexdigest()

    @property
    def held_bytes(self) -> int:
        """What it takes in memory once its tree is grown."""
        return self.triangles_mm.nbytes + TREE_BYTES * len(self.triangles_mm)


def points(points_mm: Floats) -> Floats:
    """Triangles without area from points (n, 3)."""
    return np.asarray(np.repeat(np.asarray(points_mm, float).reshape(-1, 1, 3), 3, axis=1))


def polyline(points_mm: Floats, closed: bool = False) -> Floats:
    """Triangles without area along a line through points (n, 3), n >= 2."""
    p = np.asarray(points_mm, float)
    if p.ndim != 2 or p.shape[0] < 2 or p.shape[1] != 3:
        raise BadInput(say("polyline"), (Fault("points_mm", say("shape (n, 3), n >= 2"), str(p.shape)),))
    following = np.roll(p, -1, axis=0) if closed else p[1:]
    first = p if closed else p[:-1]
    return np.stack([first, following, following], axis=1)


def mesh(vertices_mm: Floats, faces: np.ndarray[Any, np.dtype[np.integer[Any]]]) -> Floats:
    """Triangles (k, 3, 3) from vertices (v, 3) and faces (k, 3)."""
    return np.asarray(np.asarray(vertices_mm, float)[np.asarray(faces, int)])


def lip_by_clock(centre_mm: Sequence[float], clock_deg: Floats, height_mm: Floats, outboard_mm: Floats) -> Floats:
    """Points (n, 3) of an arch lip measured by clock angle round the parked wheel centre of a left-hand wheel.

    Equation: x = x_c - h sin(clock), y = o, z = z_c + h cos(clock); 0 deg straight up, 90 deg level to the rear.

    Args:
        centre_mm: Wheel centre (x, y, z), X forward, Y outboard, Z up.
        clock_deg: (n,) clock angles, in the order in which the lip runs.
        height_mm: (n,) distance of the lip from the wheel centre in side view.
        outboard_mm: (n,) lateral coordinate of the lip's inner edge.
    """
    angle = np.radians(np.asarray(clock_deg, float))
    height = np.asarray(height_mm, float)
    return np.column_stack(
        [centre_mm[0] - height * np.sin(angle), np.asarray(outboard_mm, float), centre_mm[2] + height * np.cos(angle)]
    )


def within_reach_rows(triangles_mm: Floats, origin_mm: Floats, reach_mm: float) -> np.ndarray[Any, np.dtype[np.intp]]:
    """Rows of the triangles whose box comes within ``reach_mm`` of any of the hub origins (n, 3)."""
    middle = origin_mm.mean(axis=0)
    spread = float(np.linalg.norm(origin_mm - middle, axis=1).max())
    low, high = triangles_mm.min(axis=1), triangles_mm.max(axis=1)
    away = np.maximum(0.0, np.maximum(low - middle, middle - high))
    return np.flatnonzero(np.linalg.norm(away, axis=1) <= reach_mm + spread)
