"""Smallest gap of one package over many states, straight from the triangles, to a stated bound.

Source: derived here.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from hubwright.engineering.envelope.image.kernels import seen_from_hub, square_axes
from hubwright.engineering.envelope.obstacles import Obstacle
from hubwright.engineering.envelope.outline import Outline
from hubwright.engineering.envelope.poses import Poses, hub_at_rest, outermost, visiting_order
from hubwright.engineering.envelope.sweep import kernels
from hubwright.engineering.envelope.sweep.triangle.kernels import nearest_on_image, triangle_smallest
from hubwright.engineering.turns import one_parallel_kernel

Floats = np.ndarray[Any, np.dtype[np.float64]]
Whole = np.ndarray[Any, np.dtype[np.int32]]

TOLERANCE_MM = 0.005
FINE_TOLERANCE_MM = 1e-10
CHUNKS = 8
STATES_PER_CHUNK = 1024


@dataclass(frozen=True, eq=False)
class Swept:
    """Gaps of one package against one obstacle.

    Attributes:
        gap_mm: (n,) smallest signed distance at each listed state; negative is the overlap depth; infinite where
            nothing came below the cap (or below the smallest over all, when only that was asked for).
        triangle: (n,) triangle that binds, as numbered in the obstacle, -1 where none.
        error_mm: The truth lies between ``gap_mm - error_mm`` and ``gap_mm``: tolerance of the search, and for a
            body-fixed obstacle the motion between listed states, and the obstacle's own doubt.
        work: Planes tried (each at one state), triangles measured, triangles that needed branch and bound.
    """

    gap_mm: Floats
    triangle: Whole
    error_mm: float
    work: tuple[int, int, int]


@dataclass(frozen=True)
class Pinch:
    """The smallest gap over all states, where and when.

    Attributes:
        gap_mm: Smallest signed distance found; negative is the overlap depth.
        error_mm: The truth lies between ``gap_mm - error_mm`` and ``gap_mm``.
        state: Number of the pose, or -1 for a carried obstacle.
        triangle: Number of the triangle in the obstacle.
        place_mm: (x, y, z) of the obstacle's nearest point, in the obstacle's own coordinates.
        rho_mm: The same point in the half-plane: distance from the spin axis.
        y_mm: And position along it.
    """

    gap_mm: float
    error_mm: float
    state: int
    triangle: int
    place_mm: tuple[float, float, float]
    rho_mm: float
    y_mm: float

    @property
    def safe_gap_mm(self) -> float:
        """The gap with everything unknown taken to the safe side."""
        return self.gap_mm - self.error_mm


def gap_at_every_state(outline: Outline, obstacle: Obstacle, poses: Poses, *, cap_mm: float = 1e6) -> Swept:
    """Smallest gap of a package at each state.

    The smallest distance in the half-plane (rho, y) is the distance in space: the nearest point of a surface of
    revolution lies in the meridian plane of the point. Each triangle's image is bounded exactly (image/kernels.py),
    so no mesh is refined.

    Args:
        outline: The package, in the half-plane of the hub.
        obstacle: The obstacle; a carried one has one state whatever the poses.
        poses: Hub poses, n states.
        cap_mm: Gaps at or above it are not resolved (they come back infinite); a low cap is quick.
    """
    return _swept(outline, obstacle, poses, cap_mm, overall=False)


def smallest_gap(outline: Outline, obstacle: Obstacle, poses: Poses, *, cap_mm: float = 1e6) -> Pinch | None:
    """Smallest gap over all states with its state, triangle and place; None when nothing comes below the cap."""
    swept = _swept(outline, obstacle, poses, cap_mm, overall=True)
    state = int(np.argmin(swept.gap_mm))
    if swept.triangle[state] < 0:
        return None
    used = hub_at_rest() if obstacle.carried else poses
    triangle = int(swept.triangle[state])
    origin, axis = used.origin_mm[state], used.axis[state]
    place, gap = nearest_place(outline, obstacle.triangles_mm[triangle], origin, axis)
    y = float((place - origin) @ axis)
    rho = float(np.linalg.norm(place - origin - y * axis))
    number = -1 if obstacle.carried else state
    x, o, z = (float(v) for v in place)
    return Pinch(min(gap, float(swept.gap_mm[state])), swept.error_mm, number, triangle, (x, o, z), rho, y)


def nearest_place(outline: Outline, triangle_mm: Floats, origin_mm: Floats, axis: Floats) -> tuple[Floats, float]:
    """Point (3,) of one triangle nearest to (or deepest in) the package at one pose, and its signed distance."""
    hub, nearest = np.empty((3, 3)), np.empty(3)
    seen_from_hub(triangle_mm, origin_mm, axis, hub)
    gap = triangle_smallest(
        hub, outline.index, np.inf, FINE_TOLERANCE_MM, np.empty((4, 6)), np.empty((130, 2)), nearest
    )
    return place_in_body(nearest, origin_mm, axis), float(gap)


def point_on_image(triangle_mm: Floats, origin_mm: Floats, axis: Floats, rho_mm: float, y_mm: float) -> Floats:
    """The point of a triangle whose image comes nearest to (rho, y), in the triangle's own coordinates (3,)."""
    hub, segments, nearest = np.empty((3, 3)), np.empty((4, 6)), np.empty(3)
    seen_from_hub(triangle_mm, origin_mm, axis, hub)
    nearest_on_image(hub, rho_mm, y_mm, segments, nearest)
    return place_in_body(nearest, origin_mm, axis)


def place_in_body(hub_point: Floats, origin_mm: Floats, axis: Floats) -> Floats:
    """Body coordinates of (u, v, y)."""
    frame = np.array(square_axes(axis)).reshape(2, 3)
    return np.asarray(origin_mm + hub_point[0] * frame[0] + hub_point[1] * frame[1] + hub_point[2] * axis)


def _swept(outline: Outline, obstacle: Obstacle, poses: Poses, cap_mm: float, *, overall: bool) -> Swept:
    used = hub_at_rest() if obstacle.carried else poses
    grown = obstacle.tree
    reach = float(np.hypot(outline.rho_mm, outline.y_mm).max())
    order = np.arange(len(used), dtype=np.int32) if overall else visiting_order(used, reach)
    scouts = outermost(used, reach) if overall else order[:0]
    size = float(np.abs(grown.points).max()) + float(np.abs(used.origin_mm - grown.middle_mm).max()) + reach
    spare = 32.0 * float(np.finfo(np.float32).eps) * size
    chunks = min(CHUNKS, max(1, len(used) // STATES_PER_CHUNK))
    given = (
        *grown.arrays, used.origin_mm, used.axis, order, scouts, outline.index, outline.support, spare, cap_mm,
        TOLERANCE_MM, outline.hollow, overall,
    )  # fmt: skip
    if chunks == 1:
        gaps, which, tally = kernels.sweep_alone(*given)
    else:
        with one_parallel_kernel:
            gaps, which, tally = kernels.sweep(*given, chunks)
    error = TOLERANCE_MM + obstacle.doubt_mm + (0.0 if obstacle.carried else poses.between_mm)
    named = np.where(which >= 0, grown.came_from[np.maximum(which, 0)], -1).astype(np.int32)
    return Swept(gaps, named, error, (int(tally[0]), int(tally[1]), int(tally[2])))
