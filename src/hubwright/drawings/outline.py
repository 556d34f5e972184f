"""The outline of wheel and tyre as half widths over the radius: what was read is solid, the rest is assumed and dashed."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from hubwright.drawings.figures import Figure, Standing, read
from hubwright.engineering.placement import Curve, smooth_through
from hubwright.engineering.tyrewheel.dimensions import design_section_width_mm
from hubwright.errors import BadInput, OutsideValidity
from hubwright.language import say
from hubwright.parts.rim_size import RimSize, read_rim_size
from hubwright.parts.tyre_size import TyreSize, read_tyre_size
from hubwright.parts.wheel import Tyre, Wheel, WheelSet
from hubwright.tables.rims import flange_height, rim_diameter, rim_ratios

SHOULDER_SHARE = 0.12
"""Share of the section height taken by the rounding into the tread where nobody read it; a guess for the picture."""
SHOULDER_WIDTH = 0.88
"""Half width at the shoulder over the widest half width where nobody read it; a guess for the picture."""
TREAD_IN_MM = 9.0
"""How far the rounding of the shoulder comes in; a guess for the picture."""
FLANGES_MM = 25.0
"""Overall width of a rim beyond its nominal one; common practice 22 to 27, no source."""
UNKNOWN_INSET_MM = 40.0
"""Where the wheel is drawn when its inset is not known."""


@dataclass(frozen=True)
class Rim:
    """The rim by its designation: bead seat, flange, width between and over the flanges."""

    width_mm: float
    seat_radius_mm: float
    flange_radius_mm: float
    overall: Figure


@dataclass(frozen=True)
class Outline:
    """Wheel and tyre about the spin axis.

    Attributes:
        inset: Rim centre plane inboard of the mounting face.
        rim: None where no designation says.
        radius: Free radius of the tyre; None where there is nothing to draw a tyre from.
        section: Widest section.
        knots: Radius and half width, ascending by radius, shape of the outer half.
        read_from_mm, read_to_mm: Radii between which the half width was read; None = nowhere.
        marks: The readings themselves.
    """

    inset: Figure
    rim: Rim | None
    radius: Figure | None
    section: Figure | None
    knots: tuple[tuple[float, float], ...]
    read_from_mm: float | None
    read_to_mm: float | None
    marks: tuple[tuple[float, float], ...]

    @cached_property
    def _curve(self) -> Curve:
        radius, half = np.array(self.knots).T
        return smooth_through(radius, half)

    def half_width(self, radius_mm: float) -> float:
        """Half width at a radius; beyond the outline that of its end."""
        inside = min(max(radius_mm, self.knots[0][0]), self.knots[-1][0])
        return float(self._curve(np.array([inside]))[0])

    def profile(self, count: int = 64) -> tuple[tuple[float, float], ...]:
        """Radius and half width from bead to tread, the readings among them."""
        low, high = self.knots[0][0], self.knots[-1][0]
        radii = sorted({*np.linspace(low, high, count).tolist(), *(knot[0] for knot in self.knots)})
        return tuple((radius, self.half_width(radius)) for radius in radii)


def outline_of(wheel_set: WheelSet | None) -> Outline:
    """The outline of a wheel set; anything may be missing."""
    wheel = wheel_set.wheel if wheel_set else Wheel()
    tyre = wheel_set.tyre if wheel_set else Tyre()
    size, tyre_size = _rim_size(wheel), _tyre_size(tyre)
    rim = _rim(wheel, size)
    radius = _radius(tyre, tyre_size)
    section = _section(tyre, tyre_size, rim)
    marks = tuple(sorted({item.radius_mm: item.half_width_mm for item in tyre.half_width}.items()))
    if radius is None and marks:
        radius = Figure(say("free radius"), marks[-1][0] + 5.0, Standing.MISSING)
    knots = _knots(rim, radius, section, marks)
    shown = tuple(mark for mark in marks if knots and knots[0][0] <= mark[0] <= knots[-1][0])
    low, high = (shown[0][0], shown[-1][0]) if len(shown) > 1 else (None, None)
    return Outline(_inset(wheel, size), rim, radius if knots else None, section, knots, low, high, shown)


def _rim_size(wheel: Wheel) -> RimSize | None:
    try:
        return read_rim_size(wheel.rim) if wheel.rim else None
    except BadInput:
        return None


def _tyre_size(tyre: Tyre) -> TyreSize | None:
    try:
        return read_tyre_size(tyre.designation) if tyre.designation else None
    except BadInput:
        return None


def _inset(wheel: Wheel, size: RimSize | None) -> Figure:
    if wheel.inset_mm is None and size is not None and size.inset_mm is not None:
        return Figure(say("inset"), size.inset_mm, Standing.MARKED)
    return read(say("inset"), wheel.inset_mm, UNKNOWN_INSET_MM)


def _rim(wheel: Wheel, size: RimSize | None) -> Rim | None:
    if size is None:
        return None
    try:
        codes = rim_diameter(int(size.diameter_code))
    except BadInput:
        return None
    seat = codes.bead_seat_mm or codes.nominal_mm
    if seat is None or size.diameter_code != int(size.diameter_code):
        return None
    try:
        height = flange_height(size.flange or "J").high_mm
    except BadInput:
        height = flange_height("J").high_mm
    overall = read(say("width over the rim flanges"), wheel.overall_width_mm)
    if wheel.overall_width_mm is None or overall.value <= size.width_mm:
        overall = Figure(say("width over the rim flanges"), size.width_mm + FLANGES_MM, Standing.ASSUMED)
    return Rim(size.width_mm, seat / 2, seat / 2 + height, overall)


def _radius(tyre: Tyre, size: TyreSize | None) -> Figure | None:
    if tyre.free_radius_mm is not None and tyre.free_radius_mm.value > 0:
        return read(say("free radius"), tyre.free_radius_mm)
    if size is None:
        return None
    if size.overall_diameter_mm is not None:
        return Figure(say("free radius"), size.overall_diameter_mm / 2, Standing.MARKED)
    try:
        rim_mm = rim_diameter(int(size.rim_code)).nominal_mm
    except BadInput:
        rim_mm = None
    height = size.section_height_mm
    if rim_mm is None or height is None or size.rim_code != int(size.rim_code):
        return None
    return Figure(say("free radius"), rim_mm / 2 + math.floor(height + 0.5), Standing.MARKED)


def _section(tyre: Tyre, size: TyreSize | None, rim: Rim | None) -> Figure | None:
    if tyre.section_width_mm is not None and tyre.section_width_mm.value > 0:
        return read(say("section width"), tyre.section_width_mm)
    if size is None:
        return None
    width = size.section_width_mm
    if rim is not None and size.aspect_percent is not None:
        try:
            width = design_section_width_mm(width, rim.width_mm, rim_ratios(size.aspect_percent).theoretical_ratio)
        except OutsideValidity:
            width = size.section_width_mm
    return Figure(say("section width"), width, Standing.MARKED)


def _knots(
    rim: Rim | None, radius: Figure | None, section: Figure | None, marks: tuple[tuple[float, float], ...]
) -> tuple[tuple[float, float], ...]:
    """Radius and half width from the bead to the tread; empty where there is no radius or no width at all."""
    widest = max((half for _, half in marks), default=section.value / 2 if section else 0.0)
    if radius is None or widest <= 0:
        return ()
    top = radius.value
    low = rim.flange_radius_mm if rim and rim.flange_radius_mm < top - 15 else top * 0.76
    height = top - low
    inside = {r: half for r, half in marks if r < top}
    if len(inside) < 2:
        half = section.value / 2 if section else widest
        inside = {low + 0.42 * height: half, top - SHOULDER_SHARE * height: half * SHOULDER_WIDTH, **inside}
    if min(inside) > low + 1.0:
        inside[low] = min(rim.width_mm / 2 + 3 if rim else widest * 0.9, inside[min(inside)])
    edge = max(inside)
    crown = max(inside[edge] - TREAD_IN_MM, inside[edge] * 0.8)
    for share in (0.5, 0.8, 0.95, 1.0):
        inside[edge + (top - edge) * share] = crown + (inside[edge] - crown) * math.sqrt(max(1 - share**2, 0.0))
    ordered = sorted(inside.items())
    spaced = [ordered[0]]
    for knot in ordered[1:]:
        if knot[0] - spaced[-1][0] > 1e-3:
            spaced.append(knot)
    return tuple(spaced)
