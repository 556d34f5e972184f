from dataclasses import replace

import numpy as np
import pytest
from tests.engineering.kinematics import cases

from hubwright.engineering.kinematics.build import linkage_of
from hubwright.engineering.kinematics.characteristics import characteristics
from hubwright.engineering.kinematics.hardpoints import Corner, mirror_hardpoints
from hubwright.engineering.kinematics.solve import hub_poses, solve


def moved_by_disc(camber_deg: float, toe_deg: float, thickness_mm: float) -> np.ndarray:
    wheel = replace(cases.REAR_LEFT, camber_deg=camber_deg, toe_deg=toe_deg)
    states = solve(linkage_of(replace(cases.TRAILING_ARM, wheel=wheel)), 0.0)
    return hub_poses(states, thickness_mm).origin_mm[0] - hub_poses(states, 0.0).origin_mm[0]


def test_a_disc_acts_along_the_leaning_spin_axis() -> None:
    # 20 mm at -2 deg: 20 cos 2 = 19.99 outboard, 20 sin 2 = 0.70 up
    np.testing.assert_allclose(moved_by_disc(-2.0, 0.0, 20.0), [0.0, 19.99, 0.70], atol=0.005)


def test_a_disc_acts_along_the_steered_spin_axis() -> None:
    # 15 mm at 35 deg: 15 cos 35 = 12.29 sideways, 15 sin 35 = 8.60 along the car
    np.testing.assert_allclose(np.abs(moved_by_disc(0.0, 35.0, 15.0)), [8.60, 12.29, 0.0], atol=0.005)


@pytest.mark.parametrize("points", [cases.DOUBLE_WISHBONE, mirror_hardpoints(cases.DOUBLE_WISHBONE)])
def test_the_figures_at_rest_are_those_that_went_in(points: Corner) -> None:
    found = characteristics(solve(linkage_of(points), 0.0))
    assert found.camber_deg[0] == pytest.approx(cases.FRONT.camber_deg, abs=1e-12)
    assert found.toe_deg[0] == pytest.approx(cases.FRONT.toe_deg, abs=1e-12)
    assert found.half_track_change_mm[0] == pytest.approx(0.0, abs=1e-12)


def test_a_right_wheel_turned_to_the_left_toes_in() -> None:
    right = linkage_of(mirror_hardpoints(cases.DOUBLE_WISHBONE))
    left = linkage_of(cases.DOUBLE_WISHBONE)
    one, other = characteristics(solve(left, 0.0, -30.0)), characteristics(solve(right, 0.0, -30.0))
    assert one.steer_deg[0] > 8.0
    assert other.steer_deg[0] > 8.0
    assert other.toe_deg[0] > 0.0 > one.toe_deg[0]


def test_scrub_grows_by_the_thickness_of_a_disc_on_an_upright_wheel() -> None:
    before = replace(cases.DOUBLE_WISHBONE, wheel=replace(cases.FRONT, camber_deg=0.0, toe_deg=0.0))
    x, y, z = before.wheel.centre_mm
    after = replace(before, wheel=replace(before.wheel, centre_mm=(x, y + 15.0, z)))
    scrub = [characteristics(solve(linkage_of(p), 0.0)).scrub_mm[0] for p in (before, after)]
    assert scrub[1] - scrub[0] == pytest.approx(15.0, abs=1e-9)


def test_the_screw_axis_of_five_links_laid_along_wishbones_is_close_to_the_line_of_their_ball_joints() -> None:
    joints = characteristics(solve(cases.CORNERS["double wishbone"], [0.0, 30.0], [0.0, 20.0]))
    screw = characteristics(solve(cases.CORNERS["steered five link"], [0.0, 30.0], [0.0, 20.0]))
    np.testing.assert_allclose(screw.kingpin_inclination_deg, joints.kingpin_inclination_deg, atol=1.5)
    np.testing.assert_allclose(screw.scrub_mm, joints.scrub_mm, atol=4.0)


def test_a_wheel_that_nothing_steers_has_no_steering_axis() -> None:
    found = characteristics(solve(cases.CORNERS["semi-trailing arm"], 10.0))
    assert np.isnan(found.kingpin_inclination_deg[0])
    assert np.isnan(found.scrub_mm[0])
    assert np.isfinite(found.camber_deg[0])
