"""Tolerance grades and fits of ISO 286 (secondary copies), and the formulas behind the table."""

from __future__ import annotations

import math

import pytest

from hubwright.tables.iso286 import size_limits, tolerance_um

FACTORS = {"IT6": 10, "IT7": 16, "IT8": 25, "IT9": 40, "IT10": 64, "IT11": 100}
RANGES = [(30, 50), (50, 80), (80, 120)]


def test_grades_of_50_to_80_mm_are_the_printed_ones():
    assert [tolerance_um(grade, 66.6) for grade in FACTORS] == [19, 30, 46, 74, 120, 190]


@pytest.mark.parametrize(("over_mm", "up_to_mm"), RANGES)
def test_grades_follow_the_tolerance_unit_but_for_the_rounding_of_the_standard(over_mm, up_to_mm):
    mean_mm = math.sqrt(over_mm * up_to_mm)
    unit_um = 0.45 * mean_mm ** (1 / 3) + 0.001 * mean_mm
    for grade, factor in FACTORS.items():
        assert tolerance_um(grade, up_to_mm) == pytest.approx(factor * unit_um, rel=0.026, abs=0.5)


@pytest.mark.parametrize(("over_mm", "up_to_mm"), RANGES)
def test_deviations_f_and_g_follow_their_formulas(over_mm, up_to_mm):
    mean_mm = math.sqrt(over_mm * up_to_mm)
    assert -size_limits("g6", up_to_mm).upper_um == round(2.5 * mean_mm**0.34)
    assert -size_limits("f7", up_to_mm).upper_um == round(5.5 * mean_mm**0.41)


def test_a_50_h7_g6_fit_has_9_to_50_um_of_clearance():
    hole, shaft = size_limits("H7", 50), size_limits("g6", 50)
    assert (hole.lower_um, hole.upper_um) == (0, 25)
    assert (shaft.lower_um, shaft.upper_um) == (-25, -9)
    assert (hole.lower_um - shaft.upper_um, hole.upper_um - shaft.lower_um) == (9, 50)
