"""Units leave at the door; the factors are exact by definition."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hubwright.quantities import units
from hubwright.quantities.units import INSIDE, inside_name, numbers_in, outside_name, scaled, to_inside


def test_factors_are_those_of_the_yard_and_pound_agreement_and_standard_gravity() -> None:
    inch, pound, gravity = Fraction("0.0254"), Fraction("0.45359237"), Fraction("9.80665")
    assert float(inch * 1000) == units.MM_PER_INCH
    assert pytest.approx(float(pound * gravity * 12 * inch), rel=1e-15) == units.NM_PER_POUND_FOOT
    assert pytest.approx(float(pound * gravity / inch**2 / 1000), rel=1e-15) == units.KPA_PER_PSI
    assert units.KMH_PER_MPH == 1.609344


def test_89_pound_feet_are_120_7_newton_metres() -> None:
    """89 x 1.3558179483 N*m (NIST SP 811, table B.8: pound-force foot)."""
    assert to_inside({"torque_lbft": 89})[0] == {"torque_nm": pytest.approx(120.66779740)}


@pytest.mark.parametrize("name", ["gap_mm", "torque_nm", "mass_kg", "pressure_kpa", "speed_kmh"])
def test_every_unit_used_inside_has_one_other_spelling_that_leads_back(name: str) -> None:
    other = outside_name(name)
    assert other is not None
    assert inside_name(other)[0] == name


@pytest.mark.parametrize("name", ["in", "title", "camber_deg", "set", "_in"])
def test_a_name_without_a_unit_of_ours_stays_as_it_is(name: str) -> None:
    assert inside_name(name) == (name, 1.0)
    assert outside_name(name) is None


def test_numbers_are_converted_wherever_they_stand_and_nothing_else_is() -> None:
    tree = {"a_in": {"value": [1, 2.0], "u": 0.1, "method": "tape"}, "b": [{"c_in": 2}, {"c_mm": 2}], "d_in": True}
    inside, typed = to_inside(tree)
    assert inside == {
        "a_mm": {"value": [25.4, 50.8], "u": pytest.approx(2.54), "method": "tape"},
        "b": [{"c_mm": 50.8}, {"c_mm": 2}],
        "d_mm": True,
    }
    assert typed == {("a_mm",): "a_in", ("b", 0, "c_mm"): "c_in", ("d_mm",): "d_in"}


def test_of_two_spellings_of_one_key_neither_is_lost() -> None:
    assert to_inside({"gap_mm": 25, "gap_in": 1})[0] == {"gap_mm": 25, "gap_in": 1}


def test_a_whole_number_beyond_any_float_becomes_infinite_and_is_left_to_the_limits_of_its_field() -> None:
    assert scaled(10**400, 25.4) == float("inf")
    assert scaled(-(10**400), 25.4) == float("-inf")


@given(st.recursive(st.floats(-1e6, 1e6) | st.text(max_size=3), lambda inner: st.lists(inner, max_size=4)))
def test_to_the_unit_inside_and_back_is_where_it_was(value: object) -> None:
    factor = INSIDE["in"][1]
    back = scaled(scaled(value, factor), 1 / factor)
    assert list(numbers_in(back)) == pytest.approx(list(numbers_in(value)), rel=1e-12)
