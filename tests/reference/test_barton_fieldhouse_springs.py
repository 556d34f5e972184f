"""Barton & Fieldhouse, Automotive Chassis Engineering, p. 174 (worked figures)."""

import pytest

from hubwright.engineering.kinematics.loads import axle_roll_stiffness, cornering_change, roll_angle
from hubwright.engineering.kinematics.travel import wheel_rate


def test_the_car_of_1280_kg_rolls_a_fiftieth_of_a_radian_per_metre_per_second_squared() -> None:
    assert roll_angle(1280.0, 1.0, 365.0, 28650.0) == pytest.approx(0.0194, abs=5e-5)


def test_a_spring_of_300_at_a_ratio_of_three_quarters_is_168_75_at_the_wheel() -> None:
    assert wheel_rate(300.0, 0.75) == 168.75


def test_roll_stiffness_without_a_bar_is_half_the_rate_times_track_squared() -> None:
    assert axle_roll_stiffness(20.0, 0.0, 1500.0) == pytest.approx(0.5 * 20e3 * 1.5**2)


def test_both_axles_together_move_the_whole_roll_moment() -> None:
    angle = roll_angle(1280.0, 0.6 * 9.81, 365.0, 28650.0)
    moved = cornering_change(28650.0, angle, 1460.0)
    assert moved == pytest.approx(28650.0 * angle / 1.46)
    # the book's 1556 + 671 N of body-roll load transfer
    assert moved == pytest.approx(1556.0 + 671.0, rel=0.01)
