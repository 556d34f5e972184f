from dataclasses import replace

import numpy as np
import pytest

from hubwright.engineering.kinematics.loads import (
    axle_roll_stiffness,
    braking_change,
    cornering_change,
    kerb_strike_travel,
    plate_wheel_load,
    roll_angle,
    towing_change,
)
from hubwright.engineering.kinematics.travel import AxleSprings, BumpStop, SprungWheel, equilibrium
from hubwright.errors import OutsideValidity

WHEEL = SprungWheel(3500.0, 25.0, BumpStop(60.0, (0.0, 20.0, 35.0), (0.0, 1500.0, 9000.0)))


def test_a_nose_weight_loads_the_rear_axle_by_more_than_itself() -> None:
    found = towing_change(100.0, 1100.0, 3300.0)
    assert found.rear == pytest.approx(133.33, abs=0.01)
    assert found.front == pytest.approx(-33.33, abs=0.01)


def test_the_roll_of_the_body_in_a_corner_is_the_roll_its_springs_and_bar_give_in_balance() -> None:
    stiffness = axle_roll_stiffness(25.0, 10.0, 1500.0)
    angle = roll_angle(700.0, 5.0, 400.0, stiffness)
    change_n = cornering_change(stiffness, angle, 1500.0)
    plain = SprungWheel(3500.0, 25.0)
    left, right = equilibrium(AxleSprings(plain, plain, 10.0), 3500.0 + change_n, 3500.0 - change_n)
    assert (left.travel_mm - right.travel_mm) / 1500.0 == pytest.approx(angle, rel=1e-9)


def test_braking_loads_the_front_springs_less_where_the_links_carry_a_share() -> None:
    plain, shared = (braking_change(1500.0, 9.0, 550.0, 2700.0, links_front=share) for share in (0.0, 0.3))
    assert plain.front == pytest.approx(1500.0 * 9.0 * 550.0 / 2700.0)
    assert plain.front == -plain.rear
    assert shared.front == pytest.approx(0.7 * plain.front)


def test_the_plate_load_leaves_out_what_the_springs_do_not_carry() -> None:
    assert plate_wheel_load(1000.0, 80.0) == pytest.approx(4511.06, abs=0.01)


def test_a_kerb_at_walking_pace_lifts_the_wheel_by_its_own_height() -> None:
    assert kerb_strike_travel(WHEEL, 40.0, 3.0, 60.0, 310.0) == 60.0


def test_a_kerb_at_speed_is_taken_up_by_the_spring_as_energy() -> None:
    plain = replace(WHEEL, bump_stop=None)
    cosine = 250.0 / 310.0
    speed_m_per_s = 40.0 / 3.6 * cosine * np.sqrt(1 - cosine**2)
    travel = kerb_strike_travel(plain, 40.0, 40.0, 60.0, 310.0)
    assert 0.5 * 25e3 * (travel * 1e-3) ** 2 == pytest.approx(0.5 * 40.0 * speed_m_per_s**2, rel=1e-9)
    assert kerb_strike_travel(WHEEL, 40.0, 40.0, 60.0, 310.0) < travel
    assert kerb_strike_travel(replace(WHEEL, bump_limit_mm=70.0), 40.0, 40.0, 60.0, 310.0) == 70.0


def test_a_kerb_as_high_as_the_wheel_centre_is_outside_the_sum() -> None:
    with pytest.raises(OutsideValidity, match="kerb_mm"):
        kerb_strike_travel(WHEEL, 40.0, 20.0, 310.0, 310.0)


def test_a_car_that_would_fall_over_on_its_springs_has_no_roll_angle() -> None:
    with pytest.raises(OutsideValidity, match="roll stiffness"):
        roll_angle(1500.0, 3.0, 500.0, 7000.0)
