"""A scan into body coordinates, by what can be picked on the screen: hub centre, hub plane, forward direction.

Source: geometry of three picks (derived); outliers by a stated rule, common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from hubwright.errors import BadInput, Fault
from hubwright.language import say

Floats = np.ndarray[Any, np.dtype[np.float64]]

NEIGHBOURS = 8
OUTLIER_FACTOR = 5.0
MAD_TO_SIGMA = 1.4826


@dataclass(frozen=True, eq=False)
class Alignment:
    """Turn and shift from scan to hub coordinates: hub = turn @ (scan - centre).

    Attributes:
        centre_mm: (3,) hub centre picked in the scan.
        turn: (3, 3) rows are forward, outboard and up in scan coordinates.
    """

    centre_mm: Floats
    turn: Floats

    def apply(self, points_mm: Floats) -> Floats:
        """Points (..., 3) of the scan in hub coordinates (x forward, o outboard along the axis, z up)."""
        return np.asarray((points_mm - self.centre_mm) @ self.turn.T)


def align(centre_mm: Floats, plane_points_mm: Floats, outboard_mm: Floats, forward_mm: Floats) -> Alignment:
    """Alignment from picked points.

    The spin axis is the normal of the least-squares plane through the picked points of the hub or wheel face (smallest
    singular direction), turned towards ``outboard_mm``. Forward is the picked direction laid square to the axis. Where
    outboard is to the left (left-hand wheels) up = forward x outboard; on the right-hand side mirror the scan first.

    Args:
        centre_mm: (3,) hub centre.
        plane_points_mm: (n, 3) points on a face square to the spin axis, n >= 3, not in line.
        outboard_mm: (3,) any vector that points away from the car.
        forward_mm: (3,) any vector that points forward, not along the axis.
    """
    p = np.asarray(plane_points_mm, float)
    if p.ndim != 2 or p.shape[1] != 3 or p.shape[0] < 3:
        raise BadInput(say("scan alignment"), (Fault("plane_points_mm", say("three points or more"), str(p.shape)),))
    _, size, directions = np.linalg.svd(p - p.mean(axis=0))
    if size[1] <= 1e-6 * max(float(size[0]), 1e-300):
        raise BadInput(
            say("scan alignment"), (Fault("plane_points_mm", say("points that are not in line"), say("a line")),)
        )
    axis = directions[2] * (1.0 if float(directions[2] @ outboard_mm) >= 0.0 else -1.0)
    ahead = np.asarray(forward_mm, float) - float(np.dot(forward_mm, axis)) * axis
    length = float(np.linalg.norm(ahead))
    if length <= 1e-6 * float(np.linalg.norm(forward_mm)):
        raise BadInput(
            say("scan alignment"), (Fault("forward_mm", say("a direction across the spin axis"), say("one along it")),)
        )
    ahead /= length
    return Alignment(np.asarray(centre_mm, float), np.stack([ahead, axis, np.cross(ahead, axis)]))


@dataclass(frozen=True, eq=False)
class Cleaned:
    """A scan without its outliers.

    Attributes:
        kept: (n,) True for the points kept.
        removed_count: How many were taken out.
        rule: The rule, in words.
        noise_mm: Standard deviation of the kept points from the plane through their neighbours.
    """

    kept: np.ndarray[Any, np.dtype[np.bool_]]
    removed_count: int
    rule: str
    noise_mm: float


def find_outliers(points_mm: Floats, floor_mm: float = 0.0) -> Cleaned:
    """Outliers of a scan, by distance from the plane through the neighbours, in one pass (more would eat edges).

    A point goes when it lies farther than ``OUTLIER_FACTOR`` x 1.4826 x the median absolute distance (over all points)
    from the plane of least squares through its nearest neighbours, and farther than ``floor_mm``. Median absolute
    deviation: Rousseeuw and Croux, JASA 88 (1993) 1273. Sharp edges scanned thinly may go too; the
    count says so. The noise given includes the curvature between neighbours, so it errs high.

    Args:
        points_mm: (n, 3) points, n > 8.
        floor_mm: Distances below it are never called outliers.
    """
    if points_mm.ndim != 2 or points_mm.shape[1] != 3 or points_mm.shape[0] <= NEIGHBOURS:
        raise BadInput(
            say("scan"),
            (Fault("points_mm", say("more than {count} points (n, 3)", count=NEIGHBOURS), str(points_mm.shape)),),
        )
    away = _from_neighbours(points_mm)
    kept = away <= max(floor_mm, OUTLIER_FACTOR * MAD_TO_SIGMA * float(np.median(away)))
    if int(kept.sum()) <= NEIGHBOURS:
        raise BadInput(
            say("scan"), (Fault("points_mm", say("a surface"), say("points without neighbours in any plane")),)
        )
    noise = float(MAD_TO_SIGMA * np.median(_from_neighbours(points_mm[kept])))
    removed = int((~kept).sum())
    rule = (
        f"farther than {OUTLIER_FACTOR:g} x {MAD_TO_SIGMA} x median distance from the plane through "
        f"{NEIGHBOURS} neighbours"
    )
    return Cleaned(kept, removed, rule, noise)


def _from_neighbours(points: Floats) -> Floats:
    from scipy.spatial import cKDTree  # noqa: PLC0415 - heavy, and only needed here

    near = np.asarray(cKDTree(points).query(points, k=NEIGHBOURS + 1)[1])
    cloud = points[near[:, 1:]]
    middle = np.median(cloud, axis=1)
    spread = cloud - middle[:, None, :]
    # Neighbours far out would tilt the plane: they count less (weight 1 at the median distance).
    size = np.linalg.norm(spread, axis=2)
    weight = 1.0 / (1.0 + (size / np.maximum(np.median(size, axis=1), 1e-12)[:, None]) ** 2)
    matrix = np.einsum("nk,nki,nkj->nij", weight, spread, spread)
    normal = np.linalg.eigh(matrix)[1][:, :, 0]
    return np.asarray(np.abs(np.einsum("ni,ni->n", points - middle, normal)))
