"""What picked places say: a circle round the hub, how far each place lies from plane or circle, which way round they run.

Source: least squares (derived here); the linear form of the circle fit is I. D. Coope, J. Optim. Theory Appl. 76 (1993) 381,
from memory.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from hubwright.errors import BadInput, Fault
from hubwright.language import say

Floats = np.ndarray[Any, np.dtype[np.float64]]


@dataclass(frozen=True, eq=False)
class Circle:
    """A circle round the spin axis, through picked places.

    Attributes:
        centre_mm: (3,) in the middle of the places as far as the axis goes.
        radius_mm: Of the circle.
        off_mm: (n,) how far each place lies outside it (negative: inside), square to the axis.
    """

    centre_mm: Floats
    radius_mm: float
    off_mm: Floats


def fit_circle(points_mm: Floats, axis: Floats) -> Circle:
    """The circle of least squares square to an axis.

    With places u in the plane square to the axis: 2 u.c + (r^2 - c.c) = u.u is linear in c and r^2 - c.c. Holds for places
    spread over more than a short arc; what little bias the linear form has is below the scatter of the places.

    Args:
        points_mm: (n, 3), n >= 3.
        axis: (3,) unit vector; depth along it does not count.

    Raises:
        BadInput: fewer than three places, or places in line.
    """
    p = np.asarray(points_mm, float)
    if p.ndim != 2 or p.shape[1:] != (3,) or len(p) < 3:
        raise BadInput("picks", (Fault("hub_circle", say("three points and more"), str(len(p)), say("Pick more.")),))
    middle = p.mean(axis=0)
    across = _across(axis)
    flat = (p - middle) @ across.T
    size = np.linalg.svd(flat, compute_uv=False)
    if size[1] <= 1e-6 * max(float(size[0]), 1e-300):
        raise BadInput("picks", (Fault("hub_circle", say("points spread round the hub"), say("points in line")),))
    found = np.linalg.lstsq(np.column_stack([2.0 * flat, np.ones(len(flat))]), (flat**2).sum(axis=1), rcond=None)[0]
    centre = found[:2]
    radius = float(np.sqrt(max(found[2] + centre @ centre, 0.0)))
    off = np.linalg.norm(flat - centre, axis=1) - radius
    return Circle(middle + centre @ across, radius, off)


def off_plane(points_mm: Floats) -> Floats:
    """How far each place (n, 3) lies from the plane of least squares through all of them."""
    p = np.asarray(points_mm, float)
    spread = p - p.mean(axis=0)
    return np.asarray(spread @ np.linalg.svd(spread)[2][2])


def outboard_of(points_mm: Floats) -> Floats:
    """The direction from which the places (n, 3) run counter-clockwise: the vector of their area, of any length.

    Sum of (p_i - m) x (p_i+1 - m) over the ring, m their middle. For three places it is the cross product of two sides.
    """
    spread = np.asarray(points_mm, float) - np.mean(points_mm, axis=0)
    return np.asarray(np.cross(spread, np.roll(spread, -1, axis=0)).sum(axis=0))


def plane_doubt_mm(points_mm: Floats, away_mm: float) -> float | None:
    """Standard doubt, so far from the places, of the plane through them; None from three places, which always fit.

    Scatter s of the residuals with n - 3 degrees of freedom; level to s/sqrt(n), tilt to s over the smaller spread of the
    places (second singular value). Ordinary least squares, derived here.
    """
    p = np.asarray(points_mm, float)
    if len(p) < 4:
        return None
    s = float(np.sqrt((off_plane(p) ** 2).sum() / (len(p) - 3)))
    narrow = float(np.linalg.svd(p - p.mean(axis=0), compute_uv=False)[1])
    return s * float(np.sqrt(1.0 / len(p) + (away_mm / narrow) ** 2))


def circle_doubt_mm(circle: Circle) -> float | None:
    """Standard doubt of the centre, places evenly spread: s sqrt(2/n) with n - 3 degrees of freedom; None from three."""
    n = len(circle.off_mm)
    return None if n < 4 else float(np.sqrt((circle.off_mm**2).sum() / (n - 3) * 2.0 / n))


def _across(axis: Floats) -> Floats:
    """Two unit vectors square to an axis, so that first x second = axis."""
    least = np.eye(3)[int(np.argmin(np.abs(axis)))]
    one = np.cross(axis, least)
    one /= np.linalg.norm(one)
    return np.stack([one, np.cross(axis, one)])
