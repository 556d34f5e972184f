"""UN R30 6.1: section width and diameter of the design, and the slope of 0.4 the sidewall model must meet."""

from __future__ import annotations

import pytest

from hubwright.engineering.tyrewheel.dimensions import section_width_on_rim_mm
from hubwright.engineering.tyrewheel.from_sizes import design_of, envelope_of, rim_of, tyre_of
from hubwright.engineering.tyrewheel.rim import rim_from
from hubwright.engineering.tyrewheel.sidewall import mount
from hubwright.parts.rim_size import RimSize
from hubwright.parts.tyre_size import read_tyre_size

INCH = 25.4
ORDINARY_SIZES = (
    "175/70R13", "185/65R14", "195/65R15", "205/55R16", "205/60R16", "215/60R16", "225/45R17", "235/65R17",
    "225/40R18", "235/40R18", "245/35R19", "255/35R19", "275/40R19", "295/30R20", "LT245/75R16",
)  # fmt: skip


@pytest.mark.parametrize("text", ORDINARY_SIZES)
def test_the_membrane_widens_by_the_standards_slope_on_the_measuring_rim(text: str) -> None:
    size = read_tyre_size(text)
    design = design_of(size)
    rim = rim_of(RimSize("", design.measuring_rim_width_mm / INCH, size.rim_code))
    carcass = tyre_of(size, rim).carcass
    narrow, wide = mount(carcass, rim.width_mm - INCH / 2.0), mount(carcass, rim.width_mm + INCH / 2.0)
    assert (wide.section_width_mm - narrow.section_width_mm) / INCH == pytest.approx(0.4, abs=0.05)


@pytest.mark.parametrize(("rim_in", "width_mm"), [(8.5, 235.16), (9.0, 240.24)])
def test_225_on_seven_and_a_half_grows_by_the_rule(rim_in: float, width_mm: float) -> None:
    assert section_width_on_rim_mm(225.0, 7.5 * INCH, rim_in * INCH) == pytest.approx(width_mm, abs=0.005)


@pytest.mark.parametrize(
    ("text", "rim_in", "section_mm", "diameter_mm"),
    [
        ("205/55R16", 6.5, 214, 632),
        ("195/65R15", 6.0, 201, 635),
        ("225/45R17", 7.5, 225, 634),
        ("235/40R18", 8.5, 241, 645),
        ("225/40R18", 8.0, 230, 637),
    ],
)
def test_catalogued_design_figures_are_met(text: str, rim_in: float, section_mm: int, diameter_mm: int) -> None:
    # Design width, diameter and measuring rim as tyre makers' data books print them, from memory.
    design = design_of(read_tyre_size(text))
    assert design.measuring_rim_width_mm == pytest.approx(rim_in * INCH)
    assert design.section_width_mm == pytest.approx(section_mm, abs=0.6)
    assert design.overall_diameter_mm == pytest.approx(diameter_mm, abs=1.0)


def test_the_largest_tyre_is_four_per_cent_wider_and_four_per_cent_taller_in_section() -> None:
    design = design_of(read_tyre_size("205/55R16"))
    largest = envelope_of(design)
    assert largest.width_most_mm == pytest.approx(1.04 * design.section_width_mm)
    assert largest.diameter_most_mm == pytest.approx(406.0 + 2.0 * 113.0 * 1.04)
    assert envelope_of(design, snow=True).diameter_most_mm == pytest.approx(1.01 * largest.diameter_most_mm)


def test_the_rim_stands_out_of_a_213_tyre_that_went_from_seven_to_nine_inches() -> None:
    rim = rim_from(9.0 * INCH, 462.0, 17.5)
    section = section_width_on_rim_mm(213.0, 7.0 * INCH, 9.0 * INCH)
    assert rim.overall_width_mm == pytest.approx(252.6)
    assert section == pytest.approx(233.3, abs=0.05)
    assert (rim.overall_width_mm - section) / 2.0 == pytest.approx(9.6, abs=0.05)
