"""TRA year book values, as quoted in a technical post (read there, not in the year book)."""

from __future__ import annotations

import pytest

from hubwright.engineering.tyrewheel.dimensions import section_width_on_rim_mm, tra_envelope
from hubwright.engineering.tyrewheel.from_sizes import design_of
from hubwright.parts.tyre_size import read_tyre_size

INCH = 25.4


def test_p205_60r15_on_its_six_inch_rim_is_as_printed() -> None:
    design = design_of(read_tyre_size("P205/60R15"), 6.0 * INCH)
    largest = tra_envelope(design.section_width_mm, design.section_height_mm, design.rim_diameter_mm)
    assert round(design.section_width_mm) == 209
    assert round(design.section_width_mm) / INCH == pytest.approx(8.23, abs=0.01)
    assert design.overall_diameter_mm == 627.0
    assert design.overall_diameter_mm / INCH == pytest.approx(24.69, abs=0.01)
    assert largest.diameter_most_mm / INCH == pytest.approx(24.98, abs=0.01)


@pytest.mark.parametrize(("rim_in", "section_in"), [(5.5, 8.03), (6.5, 8.43), (7.0, 8.63), (7.5, 8.83)])
def test_half_an_inch_of_rim_gives_a_fifth_of_an_inch_of_tyre(rim_in: float, section_in: float) -> None:
    width = section_width_on_rim_mm(8.23 * INCH, 6.0 * INCH, rim_in * INCH)
    assert width / INCH == pytest.approx(section_in, abs=0.01)
