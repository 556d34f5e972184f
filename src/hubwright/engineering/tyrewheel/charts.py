"""Figures for drawings; the drawing itself is made elsewhere.

Source: the membrane of `sidewall`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from hubwright.engineering.tyrewheel.sidewall import Carcass, mount
from hubwright.engineering.tyrewheel.surface import half_width_mm
from hubwright.quantities.units import MM_PER_INCH

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class RimCurve:
    """One tyre on one rim, mm: half width over radius (NaN where it does not reach), section width, widest radius."""

    rim_width_mm: float
    section_width_mm: float
    widest_radius_mm: float
    radius_mm: Floats = field(repr=False)
    half_width_mm: Floats = field(repr=False)


def tyre_on_rims(
    carcass: Carcass, rim_widths_in: Sequence[float] = (6.5, 7.0, 7.5, 8.0, 8.5, 9.0, 9.5), step_mm: float = 1.0
) -> tuple[RimCurve, ...]:
    """The same tyre on several rims, for a chart of half width over radius.

    Raises:
        OutsideValidity: where a rim is out of the tyre's reach (see `sidewall.mount`).
    """
    radii = np.arange(carcass.bead_radius_mm, carcass.overall_diameter_mm / 2.0 + step_mm / 2.0, step_mm)
    radii[-1] = min(radii[-1], carcass.overall_diameter_mm / 2.0)
    curves = []
    for width_in in rim_widths_in:
        tyre = mount(carcass, width_in * MM_PER_INCH)
        half = half_width_mm(tyre, radii)
        curves.append(RimCurve(tyre.rim_width_mm, tyre.section_width_mm, tyre.widest_radius_mm, radii, half))
    return tuple(curves)
