"""Wheel load on a larger tyre."""

from __future__ import annotations

import math

import pytest

from hubwright.engineering.tyrewheel.wheel_load import rating_on_tyre_kg
from hubwright.errors import OutsideValidity


def test_the_bending_moment_is_that_of_the_rating() -> None:
    load = rating_on_tyre_kg(690, 2000, 2200, 35)
    rated, used = (0.9 * c / (2 * math.pi) + 35 for c in (2000, 2200))
    assert load * used == pytest.approx(690 * rated)
    assert load == pytest.approx(633.5, abs=0.1)


def test_a_smaller_tyre_does_not_raise_the_rating() -> None:
    assert rating_on_tyre_kg(690, 2000, 1900, 35) == 690


def test_a_rating_of_nothing_is_refused() -> None:
    with pytest.raises(OutsideValidity):
        rating_on_tyre_kg(0, 2000, 2200, 35)
