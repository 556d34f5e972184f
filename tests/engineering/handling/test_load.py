from __future__ import annotations

import math

import pytest

from hubwright.engineering.handling.load import (
    AxleLoads,
    axle_sufficiency,
    speed_spare_kmh,
    tow_change_kg,
    wheel_rating_at_kg,
    with_trailer,
)
from hubwright.tables.tyre_indices import load_index, speed_symbol


def test_100_kg_on_the_ball_add_133_3_behind_and_lift_33_3_in_front() -> None:
    change = tow_change_kg(100, 1100, 3300)
    assert change.rear_kg == pytest.approx(133.3, abs=0.05)
    assert change.front_kg == pytest.approx(-33.3, abs=0.05)
    assert with_trailer(AxleLoads(1000, 1100), change).rear_kg == pytest.approx(1233.3, abs=0.05)


def test_two_tyres_of_index_91_are_enough_for_1200_but_not_for_1240_kg() -> None:
    each = load_index(91).single_kg
    assert axle_sufficiency(each, 2, 1.0, 1200).spare_kg == 30
    assert axle_sufficiency(each, 2, 1.0, 1240).spare_kg == -10
    assert speed_spare_kmh(speed_symbol("V").speed_kmh, 225) == 15


def test_a_taller_tyre_lowers_what_the_wheel_may_carry_and_a_smaller_one_does_not_raise_it() -> None:
    r_0, r = 320, 350
    found = wheel_rating_at_kg(650, 2 * math.pi * r_0, 2 * math.pi * r, 45)
    assert found == pytest.approx(650 * (0.9 * 320 + 45) / (0.9 * 350 + 45))
    assert wheel_rating_at_kg(650, 2000, 1900, 45) == 650
