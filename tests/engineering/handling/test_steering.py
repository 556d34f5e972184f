from __future__ import annotations

import math

import pytest

from hubwright.engineering.handling.steering import (
    scrub_change,
    steering_axis_moment_change_nm,
    steering_axis_moment_nm,
    tie_rod_force_n,
    turning_circle_change_mm,
)
from hubwright.errors import OutsideValidity


@pytest.mark.parametrize(("scrub", "thickness", "after", "flips"), [
    (-8, 15, 7, True), (-8, 5, -3, False), (-8, 8, 0, False), (10, 15, 25, False), (0, 15, 15, False),
])  # fmt: skip
def test_a_disc_moves_the_scrub_radius_out_and_says_when_its_sign_turns(
    scrub: float, thickness: float, after: float, flips: bool
) -> None:
    found = scrub_change(scrub, thickness)
    assert (found.scrub_mm.with_disc, found.flips) == (after, flips)


def test_braking_one_wheel_pulls_the_other_way_once_the_scrub_radius_has_flipped() -> None:
    moment = steering_axis_moment_change_nm(-4000, -8, 15, 12, 5)
    assert moment.standard > 0 > moment.with_disc
    assert moment.with_disc == pytest.approx(-28 * math.cos(math.radians(12)) * math.cos(math.radians(5)))


def test_the_moment_is_that_of_a_force_about_a_leaning_axis_when_only_one_angle_leans() -> None:
    # Second method: vector product; the arm at ground is d, the axis leans sideways by the inclination.
    force, d, lean = -3000.0, 20.0, math.radians(13)
    axis = (0.0, -math.sin(lean), math.cos(lean))  # corner axes: forward, outboard, up
    moment_z = 0 * 0 - d * force  # r = (0, d, 0), F = (force, 0, 0): r x F = (0, 0, -d F)
    about_axis = moment_z * axis[2] / 1000
    assert abs(steering_axis_moment_nm(force, d, 13, 0)) == pytest.approx(abs(about_axis))


def test_a_tie_rod_feels_the_moment_over_its_arm() -> None:
    assert tie_rod_force_n(60, 120) == 500


def test_the_turning_circle_grows_by_two_thicknesses() -> None:
    found = turning_circle_change_mm(2600, 33, -8, 15)
    assert found.difference == 30
    assert found.standard == pytest.approx(2 * (2600 / math.sin(math.radians(33)) - 8))
    with pytest.raises(OutsideValidity, match="outer_lock_deg"):
        turning_circle_change_mm(2600, 0, -8, 15)
