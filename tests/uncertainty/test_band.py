from __future__ import annotations

import math

import pytest

from hubwright.errors import OutsideValidity
from hubwright.uncertainty.band import Band, about, corners, envelope, exactly, over_grid


@pytest.mark.parametrize("three", [(2, 1, 3), (1, 3, 2), (math.nan, 1, 2)])
def test_a_band_out_of_order_is_refused(three: tuple[float, float, float]) -> None:
    with pytest.raises(OutsideValidity, match="rising order"):
        Band(*three)


def test_corners_of_a_falling_function_swap_the_ends() -> None:
    assert corners(lambda x, y: x / y, Band(1, 2, 3), Band(1, 2, 4)) == Band(0.25, 1, 3)
    assert about(100, 0.04) == Band(96, 100, 104)
    assert Band(1, 2, 3).scaled(-1) == Band(-3, -2, -1)


def test_a_turning_point_is_seen_by_the_grid_and_missed_by_the_corners() -> None:
    def valley(x: float) -> float:
        return (x - 1) ** 2

    assert corners(valley, Band(0, 2, 2)).low == 1
    assert over_grid(valley, 5, Band(0, 2, 2)).low == 0


def test_an_envelope_keeps_the_first_nominal() -> None:
    assert envelope(Band(2, 3, 4), Band(1, 2, 5)) == Band(1, 3, 5)
    assert exactly(7).width == 0
