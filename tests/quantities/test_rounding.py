"""Rounding goes to the safe side, once, and forgives only float noise."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hubwright.quantities.rounding import at_least, at_most, down, up
from hubwright.quantities.text import MINUS, joined, length, number, percent, short, spare, speaking, thickness, torque

values = st.floats(-500, 500)
steps = st.sampled_from([0.1, 0.25, 0.5, 1.0, 25.4 / 1000])


@given(values, steps)
def test_down_never_gives_more_and_up_never_less_but_for_noise(value: float, step: float) -> None:
    assert down(value, step) <= value + 1e-8 * step
    assert up(value, step) >= value - 1e-8 * step
    assert value - down(value, step) < step * (1 + 1e-8)
    assert up(value, step) - value < step * (1 + 1e-8)


def test_noise_does_not_cost_a_step() -> None:
    assert down(0.1 + 0.2, 0.1) == pytest.approx(0.3)
    assert down(4.9999999999, 1.0) == 5.0
    assert up(5.0000000001, 1.0) == 5.0
    assert down(4.99, 1.0) == 4.0


def test_a_limit_is_reached_at_the_limit() -> None:
    assert at_least(0.1 + 0.2, 0.3)
    assert at_most(0.1 + 0.2, 0.3)
    assert not at_least(0.29, 0.3)
    assert not at_most(0.31, 0.3)
    assert not at_least(math.nan, 0.3)


def test_numbers_are_printed_with_a_minus_sign_and_never_as_minus_zero() -> None:
    assert number(-1.25, 1) == f"{MINUS}1.2"
    assert number(-0.04, 1) == "0.0"


def test_what_is_left_is_rounded_down_and_what_is_missing_up() -> None:
    assert spare(1.79) == "1.7 mm spare"
    assert short(1.55) == "1.6 mm short"
    with speaking("inch"):
        assert spare(25.4 * 0.4567) == "0.45 in spare"
        assert length(25.4) == "1.00 in"
        assert torque(120.0) == "89 lb-ft"
    assert length(25.4) == "25.4 mm"


def test_words_around_numbers() -> None:
    assert thickness(5.0) == "5 mm"
    assert thickness(7.5) == "7.5 mm"
    assert percent(0.0065) == "+0.65 %"
    assert percent(-0.019) == f"{MINUS}1.90 %"
    assert joined(["a", "b", "c"]) == "a, b and c"
    assert joined([], "or") == ""
