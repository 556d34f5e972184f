"""Half width of a mounted tyre at any radius, bent to pass exactly through what the calliper read.

Source: readings; between them Fritsch and Carlson (1980) as in scipy.interpolate.PchipInterpolator.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hubwright.engineering.tyrewheel import kernels
from hubwright.engineering.tyrewheel.sidewall import MountedTyre, Points
from hubwright.errors import OutsideValidity
from hubwright.language import marked, say
from hubwright.quantities.text import pointed

Floats = NDArray[np.float64]
Side = Literal["outboard", "inboard"]
LEAST_CROWN_MM = 0.5


def half_width_mm(tyre: MountedTyre, radius_mm: ArrayLike, side: Side = "outboard") -> Floats:
    """Half width of the outer surface from the rim centre plane, at each radius about the spin axis, mm.

    The model curve plus the correction that the readings of this side ask for. The curve is a polyline of 97 points,
    within about 0.01 mm of the smooth curve, measured square to it. NaN where the tyre does not reach: inside the
    flange, beyond the crown.

    Args:
        tyre: The tyre on its rim.
        radius_mm: Radii, in any order, shape (n,) or a number.
        side: Which sidewall.

    Returns:
        Shape (n,).
    """
    radii = np.atleast_1d(np.asarray(radius_mm, dtype=float))
    edge = _edge_radius(tyre, side)
    half = _sidewall(tyre, radii) + _correction(tyre, radii, side)
    crown = radii > edge
    if crown.any():
        at_edge = _sidewall(tyre, np.array([edge]))[0] + _correction(tyre, np.array([edge]), side)[0]
        rise = np.clip(tyre.radius_mm - radii[crown], 0.0, None) / (tyre.radius_mm - edge)
        half[crown] = np.where(radii[crown] <= tyre.radius_mm, at_edge * np.sqrt(rise), np.nan)
    return half


def bend_to_readings(
    tyre: MountedTyre, points: Sequence[tuple[float, float]], side: Side | Literal["both"] = "both"
) -> MountedTyre:
    """The tyre with calliper readings, which its outline then passes exactly.

    Between readings the correction is a monotone cubic (Fritsch & Carlson 1980, as in SciPy's PCHIP), so it never runs
    beyond the corrections at its two ends; at the flange it fades to nothing, beyond the last reading it is held.

    Args:
        tyre: The tyre on its rim.
        points: (radius about the spin axis, half width from the rim centre plane), mm; replaces earlier readings.
        side: Which sidewall was read; `both` for one set of readings used on both.

    Raises:
        OutsideValidity: for a radius off the sidewall, two readings at one radius, or a half width off by more than a
            third of the section width.
    """
    low, high = _lowest_radius(tyre), tyre.radius_mm - LEAST_CROWN_MM
    ordered = tuple(sorted((float(r), float(w)) for r, w in points))
    for (first, _), (second, _) in pairwise(ordered):
        if second - first < 0.5:
            raise OutsideValidity("Calliper readings", "radius", second, "radii at least 0.5 mm apart", "policy")
    for radius, half in ordered:
        if not low <= radius <= high:
            valid = say(
                "the sidewall, radius {low} to {high} mm", low=pointed(f"{low:.1f}"), high=pointed(f"{high:.1f}")
            )
            raise OutsideValidity("Calliper readings", "radius", radius, valid, "geometry")
        if not abs(half - _sidewall(tyre, np.array([radius]))[0]) < tyre.section_width_mm / 3.0:
            valid = marked("half widths near the model; are they taken from the rim centre plane?")
            raise OutsideValidity("Calliper readings", "half width", half, valid, "plausibility")
    if side == "both":
        return replace(tyre, readings_outboard=ordered, readings_inboard=ordered)
    if side == "outboard":
        return replace(tyre, readings_outboard=ordered)
    return replace(tyre, readings_inboard=ordered)


def widest(tyre: MountedTyre, side: Side = "outboard") -> tuple[float, float]:
    """Radius and half width where this side of the tyre is widest, readings included, mm (radius within 0.25 mm)."""
    grid = np.arange(tyre.carcass.bead_radius_mm, tyre.radius_mm, 0.25)
    radii = np.append(grid, [tyre.widest_radius_mm, *(radius for radius, _ in _readings(tyre, side))])
    half = half_width_mm(tyre, radii, side)
    best = int(np.nanargmax(half))
    return float(radii[best]), float(half[best])


def section_width_read_mm(tyre: MountedTyre) -> float:
    """Section width with readings: both sides' largest half widths together, mm."""
    return widest(tyre, "outboard")[1] + widest(tyre, "inboard")[1]


def _lowest_radius(tyre: MountedTyre) -> float:
    return float(min(tyre.carcass.bead_radius_mm, tyre.surface[0, 0]))


def _readings(tyre: MountedTyre, side: Side) -> Points:
    return tyre.readings_outboard if side == "outboard" else tyre.readings_inboard


def _edge_radius(tyre: MountedTyre, side: Side) -> float:
    """Where the crown begins: at the tread edge, or at a reading taken still nearer to the top."""
    points = _readings(tyre, side)
    return max(tyre.tread_edge[0], points[-1][0]) if points else tyre.tread_edge[0]


def _sidewall(tyre: MountedTyre, radii: Floats) -> Floats:
    """The model below the crown; beyond the tread edge its half width is held, for readings taken up there."""
    edge_r, edge_y = tyre.tread_edge
    order = np.argsort(radii, kind="stable")
    below = np.minimum(radii[order], edge_r)
    r, y = np.ascontiguousarray(tyre.surface[:, 0]), np.ascontiguousarray(tyre.surface[:, 1])
    half = np.empty(radii.size)
    half[order] = kernels.surface_at(r, y, tyre.carcass.bead_radius_mm, edge_r, edge_y, tyre.radius_mm, below)
    return half


def _correction(tyre: MountedTyre, radii: Floats, side: Side) -> Floats:
    points = _readings(tyre, side)
    if not points:
        return np.zeros(radii.size)
    at = np.array([radius for radius, _ in points])
    by = np.array([half for _, half in points]) - _sidewall(tyre, at)
    if at[0] > tyre.carcass.bead_radius_mm + 0.5:
        at, by = np.append(tyre.carcass.bead_radius_mm, at), np.append(0.0, by)
    if at.size == 1:
        return np.full(radii.size, by[0])

    from scipy.interpolate import PchipInterpolator  # noqa: PLC0415 - heavy, and only needed with readings

    return np.asarray(PchipInterpolator(at, by)(np.clip(radii, at[0], at[-1])), dtype=float)
