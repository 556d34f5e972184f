"""Radius and load of one wheel, as far as the job tells."""

from __future__ import annotations

from hubwright.engineering.tyrewheel.dimensions import overall_diameter_mm, section_height_mm
from hubwright.errors import BadInput
from hubwright.findings import Step
from hubwright.language import say
from hubwright.language.part_words import seen_word
from hubwright.parts.job import Axle
from hubwright.parts.tyre_size import TyreSize, read_tyre_size
from hubwright.parts.wheel import Tyre
from hubwright.quantities.text import length, number
from hubwright.tables.rims import rim_diameter

GRAVITY_M_S2 = 9.80665


def size_of(tyre: Tyre) -> TyreSize | None:
    """The size written on the tyre; None where there is none or it cannot be read."""
    if tyre.designation is None:
        return None
    try:
        return read_tyre_size(tyre.designation)
    except BadInput:
        return None


def radius_of(tyre: Tyre) -> tuple[float, Step] | None:
    """Free radius as read, else that of the design; None where neither is known."""
    if tyre.free_radius_mm is not None and tyre.free_radius_mm.value > 0:
        radius_mm = tyre.free_radius_mm.value
        return radius_mm, Step(say("radius {radius}", radius=length(radius_mm, 0)), seen_word("read"))
    size = size_of(tyre)
    if size is None:
        return None
    if size.overall_diameter_mm is not None:
        return size.overall_diameter_mm / 2, Step(
            say("radius {overall_diameter}", overall_diameter=length(size.overall_diameter_mm / 2, 0)),
            say("written on the tyre"),
        )
    if size.aspect_percent is None or size.rim_code != int(size.rim_code):
        return None
    try:
        rim_mm = rim_diameter(int(size.rim_code)).nominal_mm
    except BadInput:
        return None
    if rim_mm is None:
        return None
    radius_mm = overall_diameter_mm(section_height_mm(size.section_width_mm, size.aspect_percent), rim_mm) / 2
    return radius_mm, Step(
        say("radius {radius} of a new {designation}", radius=length(radius_mm, 0), designation=tyre.designation),
        say("UN R30 6.1 (design, unloaded)"),
    )


def wheel_load_n(axle: Axle) -> tuple[float, Step] | None:
    """Load of one wheel: half the plate load of the axle, else half of what it weighs parked."""
    load_kg, words = axle.plate_load_kg, say("half the plate load of the axle")
    if load_kg is None:
        load_kg, words = axle.parked_load_kg, say("half the axle as weighed")
    if load_kg is None:
        return None
    load_n = load_kg / 2 * GRAVITY_M_S2
    return load_n, Step(
        say("wheel load {load} kg / 2 = {load2} kN", load=number(load_kg, 0), load2=number(load_n / 1000, 2)), words
    )
