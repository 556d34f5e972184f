from __future__ import annotations

import pytest

from hubwright.engineering.tyrewheel.dimensions import section_width_on_rim_mm, worn_diameter_mm
from hubwright.engineering.tyrewheel.from_sizes import design_of, rim_of
from hubwright.errors import OutsideValidity
from hubwright.parts.rim_size import RimSize
from hubwright.parts.tyre_size import read_tyre_size


def test_a_flotation_size_keeps_its_written_width_and_diameter() -> None:
    design = design_of(read_tyre_size("31x10.50R15LT"), habit="decimal_inch")
    assert design.overall_diameter_mm == pytest.approx(787.4)
    assert design.section_width_mm == pytest.approx(266.7)
    assert design.section_height_mm == pytest.approx((787.4 - 381.0) / 2.0)
    assert design.measuring_rim_width_mm == pytest.approx(8.5 * 25.4)
    assert design.aspect_percent == pytest.approx(76.2, abs=0.1)


def test_the_standards_slope_is_not_stretched_over_more_than_two_inches() -> None:
    with pytest.raises(OutsideValidity):
        section_width_on_rim_mm(225.0, 7.5 * 25.4, 10.0 * 25.4)


def test_a_worn_tyre_is_smaller_by_twice_the_rubber_that_went() -> None:
    assert worn_diameter_mm(632.0, 8.0) == pytest.approx(632.0 - 12.8)
    assert worn_diameter_mm(632.0, 8.0, 8.0) == 632.0
    with pytest.raises(OutsideValidity):
        worn_diameter_mm(632.0, 8.0, 9.0)


def test_half_rim_codes_have_no_conventional_diameter_nor_bead_seat() -> None:
    size = read_tyre_size("205/55R16.5")
    with pytest.raises(OutsideValidity):
        design_of(size)
    assert design_of(size, habit="decimal_inch").rim_diameter_mm == pytest.approx(419.1)
    with pytest.raises(OutsideValidity):
        rim_of(RimSize("", 7.0, 16.5))
