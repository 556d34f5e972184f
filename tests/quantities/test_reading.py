"""Readings carry their doubt as the guide to its expression asks (JCGM 100:2008)."""

from __future__ import annotations

import math
import statistics

import GTC
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hubwright.quantities.reading import METHOD_DOUBT_MM, UNSTATED_DOUBT_MM, Reading, exact

figures = st.lists(st.floats(-200, 1500), min_size=2, max_size=12)


@given(figures)
def test_mean_and_spread_are_those_of_jcgm_100_4_2(values: list[float]) -> None:
    reading = Reading(tuple(values))
    assert reading.value == pytest.approx(statistics.fmean(values))
    assert reading.spread == pytest.approx(statistics.stdev(values), abs=1e-9)


@given(figures, st.floats(0, 5))
def test_doubt_agrees_with_another_program_for_uncertainty(values: list[float], u: float) -> None:
    repeats = GTC.type_a.estimate(values)
    stated = GTC.ureal(0.0, u)
    total = GTC.uncertainty(repeats + stated)
    assert Reading(tuple(values), u=u).doubt == pytest.approx(total, rel=1e-9, abs=1e-9)


def test_a_single_reading_has_no_spread_and_the_doubt_of_its_method() -> None:
    assert Reading((12.0,)).spread == 0.0
    assert Reading((12.0,)).doubt == UNSTATED_DOUBT_MM
    assert Reading((12.0,), method="plumb line").doubt == METHOD_DOUBT_MM["plumb line"]
    assert Reading((12.0,), method="by eye").doubt == UNSTATED_DOUBT_MM
    assert Reading((12.0,), u=0.3, method="plumb line").doubt == 0.3


def test_four_repeats_halve_the_doubt_of_the_spread() -> None:
    assert Reading((9.0, 11.0, 9.0, 11.0), u=0.0).doubt == pytest.approx(math.sqrt(4 / 3) / 2)


def test_a_figure_that_is_given_has_no_doubt_and_says_so() -> None:
    assert exact(12.5).doubt == 0.0
    assert not exact(12.5).doubt_is_guess
    assert Reading((12.5,), method="blocks").doubt_is_guess
