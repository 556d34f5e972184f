"""ISO 4000-2 rim figures, secondary copy."""

from __future__ import annotations

import pytest

from hubwright.engineering.tyrewheel.from_sizes import rim_of
from hubwright.errors import OutsideValidity
from hubwright.parts.rim_size import read_rim_size


def test_the_flange_of_a_code_17_rim_reaches_235_8_mm() -> None:
    rim = rim_of(read_rim_size("7.5Jx17"))
    assert rim.flange_radius_mm == pytest.approx(235.8, abs=0.05)
    assert rim.estimated == ("flange_radius_mm", "overall_width_mm")


def test_a_reading_overrules_the_standard_and_is_no_longer_an_estimate() -> None:
    rim = rim_of(read_rim_size("7.5Jx17"), flange_radius_read_mm=236.4, overall_width_read_mm=213.0)
    assert (rim.flange_radius_mm, rim.overall_width_mm, rim.estimated) == (236.4, 213.0, ())


def test_a_width_over_the_flanges_below_the_width_between_them_is_refused() -> None:
    with pytest.raises(OutsideValidity):
        rim_of(read_rim_size("7.5Jx17"), overall_width_read_mm=180.0)
