from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import brentq, minimize
from tests.engineering.kinematics import cases

from hubwright.engineering.kinematics.build import linkage_of
from hubwright.engineering.kinematics.characteristics import characteristics
from hubwright.engineering.kinematics.hardpoints import FiveLink, Link, LiveAxle, SwingArm
from hubwright.engineering.kinematics.solve import carried, rates, solve, wheel_poses
from hubwright.errors import BadInput


def test_five_links_laid_along_two_wishbones_move_the_wheel_as_the_wishbones_do() -> None:
    travel, rack = np.array([-70.0, 0.0, 40.0, 80.0, 30.0]), np.array([0.0, 40.0, -40.0, 0.0, 55.0])
    links, arms = (
        solve(cases.CORNERS["steered five link"], travel, rack),
        solve(cases.CORNERS["double wishbone"], travel, rack),
    )
    assert np.all(arms.solved)
    np.testing.assert_allclose(wheel_poses(links).centre_mm, wheel_poses(arms).centre_mm, atol=1e-8)
    np.testing.assert_allclose(wheel_poses(links).axis, wheel_poses(arms).axis, atol=1e-11)


def test_the_strut_top_stays_on_the_line_of_the_strut() -> None:
    states = solve(cases.CORNERS["strut"], [-60.0, 70.0, 20.0], [0.0, 0.0, 50.0])
    top, foot = np.array(cases.STRUT.strut_top_mm), np.array(cases.STRUT.strut_lower_mm)
    line = (states.rotation[:, 0] @ (top - foot)) / np.linalg.norm(top - foot)
    off = np.cross(top - carried(states, foot), line)
    np.testing.assert_allclose(off, 0.0, atol=1e-8)


@pytest.mark.parametrize("points", [cases.TRAILING_ARM, cases.SEMI_TRAILING_ARM])
def test_a_swing_arm_turns_the_wheel_about_its_hinge_line_by_rodrigues_formula(points: SwingArm) -> None:
    states = solve(linkage_of(points), [-80.0, 35.0, 90.0])
    pivot = np.array(points.pivot_inner_mm)
    k = np.subtract(points.pivot_outer_mm, pivot)
    k = k / np.linalg.norm(k)

    def turned(v: np.ndarray, angle: float) -> np.ndarray:
        return v * np.cos(angle) + np.cross(k, v) * np.sin(angle) + k * (k @ v) * (1 - np.cos(angle))

    centre = np.array(points.wheel.centre_mm)
    for travel, place, axis in zip(
        [-80.0, 35.0, 90.0], wheel_poses(states).centre_mm, wheel_poses(states).axis, strict=True
    ):
        angle = brentq(lambda a, z=travel: (pivot + turned(centre - pivot, a))[2] - z, -0.6, 0.6, xtol=1e-15)
        np.testing.assert_allclose(place, pivot + turned(centre - pivot, angle), atol=1e-8)
        np.testing.assert_allclose(axis, turned(points.wheel.axis, angle), atol=1e-11)


def test_a_twist_beam_in_equal_bump_turns_about_the_line_of_its_mounts() -> None:
    states = solve(cases.AXLES["twist beam"], 60.0)
    moved = carried(states, cases.TWIST_BEAM.mount_left_mm, 1)
    np.testing.assert_allclose(moved[0], cases.TWIST_BEAM.mount_left_mm, atol=1e-8)
    np.testing.assert_allclose(states.rotation[0, 0], states.rotation[0, 1], atol=1e-11)


def test_a_twist_beam_in_roll_turns_each_side_about_the_line_from_mount_to_shear_centre() -> None:
    states = solve(cases.AXLES["twist beam"], 0.0)
    left_half = rates(states)[0, :, 0]
    roll = (left_half[0] - left_half[1])[3:]
    line = np.subtract(cases.TWIST_BEAM.shear_centre_mm, cases.TWIST_BEAM.mount_left_mm)
    np.testing.assert_allclose(np.cross(roll, line) / np.linalg.norm(line) / np.linalg.norm(roll), 0.0, atol=1e-9)


def test_a_panhard_rod_pulls_the_axle_along_its_arc_in_equal_bump() -> None:
    level = Link("Panhard rod", (-150.0, -520.0, 30.0), (-150.0, 480.0, 30.0))
    points = LiveAxle(cases.REAR_LEFT, cases.REAR_RIGHT, (*cases.THREE_LINKS_PANHARD.links[:3], level))
    states = solve(linkage_of(points), [-50.0, 50.0])
    end = carried(states, level.outer_mm)
    rise, along = end[:, 2] - 30.0, end[:, 0] + 150.0
    np.testing.assert_allclose(end[:, 1], -520.0 + np.sqrt(1000.0**2 - rise**2 - along**2), atol=1e-8)
    assert np.all(end[:, 1] < 480.0)


def test_a_watt_linkage_keeps_the_axle_in_the_middle_where_a_panhard_rod_does_not() -> None:
    sideways = {
        name: np.abs(wheel_poses(solve(cases.AXLES[f"live axle, {name}"], [-60.0, 60.0])).centre_mm[:, 1] - 740.0).max()
        for name in ("Watt linkage", "Panhard rod")
    }
    assert sideways["Watt linkage"] < 0.3
    assert sideways["Panhard rod"] > 1.5


def test_one_wheel_of_a_live_axle_lifted_leans_the_other() -> None:
    states = solve(cases.AXLES["live axle, Watt linkage"], 50.0, travel_other_mm=0.0)
    left, right = characteristics(states, 0), characteristics(states, 1)
    tilt = np.degrees(np.arctan2(50.0, 1480.0))
    # the whole axle leans to the right: top outboard on the right wheel, inboard of before on the left
    assert right.camber_deg[0] - (-1.4) == pytest.approx(tilt, abs=0.03)
    assert left.camber_deg[0] - (-1.4) == pytest.approx(-tilt, abs=0.03)


def test_five_links_on_a_live_axle_share_what_they_cannot_all_keep_with_the_least_sum_of_squares() -> None:
    states = solve(cases.AXLES["live axle, four links and Panhard rod"], 40.0, travel_other_mm=-40.0)
    assert 1e-4 < states.strain_mm[0] < 3.0
    links = cases.FOUR_LINKS_PANHARD.links
    lengths = np.array([np.linalg.norm(np.subtract(one.outer_mm, one.inner_mm)) for one in links])
    outer, inner = np.array([one.outer_mm for one in links]), np.array([one.inner_mm for one in links])
    origin = states.linkage.origins_mm[0]
    wheels = np.array([cases.REAR_LEFT.centre_mm, cases.REAR_RIGHT.centre_mm])

    def placed(x: np.ndarray, points: np.ndarray) -> np.ndarray:
        angle = np.linalg.norm(x[3:]) / 100.0
        k = x[3:] / 100.0 / max(angle, 1e-30)
        cross = np.array([[0, -k[2], k[1]], [k[2], 0, -k[0]], [-k[1], k[0], 0]])
        turn = np.eye(3) + np.sin(angle) * cross + (1 - np.cos(angle)) * cross @ cross
        return origin + x[:3] + (points - origin) @ turn.T

    def squares(x: np.ndarray) -> float:
        d2 = np.sum((placed(x, outer) - inner) ** 2, axis=1)
        return float(np.sum(((d2 - lengths**2) / (2 * lengths)) ** 2))

    heights = {"type": "eq", "fun": lambda x: placed(x, wheels)[:, 2] - np.array([40.0, -40.0])}
    start, options = np.array([0, 0, 40.0, 5.0, 0, 0]), {"ftol": 1e-15, "maxiter": 500}
    second = minimize(squares, start, constraints=[heights], method="SLSQP", options=options)
    np.testing.assert_allclose(wheel_poses(states).centre_mm[0], placed(second.x, wheels[:1])[0], atol=5e-3)


def test_a_link_without_length_is_refused_by_name() -> None:
    links = list(cases.FIVE_LINK.links)
    links[4] = Link("toe link", (-190.0, 390.0, -20.0), (-190.0, 390.0, -20.0))
    with pytest.raises(BadInput, match="toe link"):
        solve(linkage_of(FiveLink(cases.REAR_LEFT, (links[0], links[1], links[2], links[3], links[4]))), 0.0)


def test_a_live_axle_on_two_links_is_refused_for_it_is_not_held() -> None:
    with pytest.raises(BadInput, match="6 rows"):
        solve(linkage_of(LiveAxle(cases.REAR_LEFT, cases.REAR_RIGHT, cases.THREE_LINKS_PANHARD.links[:2])), 0.0)


def test_a_rack_move_where_nothing_steers_is_refused() -> None:
    with pytest.raises(BadInput, match="rack_mm"):
        solve(cases.CORNERS["five link"], 0.0, 5.0)


def test_a_right_wheel_on_the_left_of_the_car_is_refused() -> None:
    wrong = replace(cases.TRAILING_ARM, wheel=replace(cases.REAR_LEFT, side="right"))
    with pytest.raises(BadInput, match="Y below 0"):
        solve(linkage_of(wrong), 0.0)


def test_wishbones_with_a_toe_link_that_no_rack_moves_refuse_one_and_show_no_steering_axis() -> None:
    linkage = linkage_of(replace(cases.DOUBLE_WISHBONE, rack_direction=None))
    with pytest.raises(BadInput, match="rack_mm"):
        solve(linkage, 0.0, 5.0)
    found = characteristics(solve(linkage, [20.0]))
    assert np.isnan(found.caster_deg[0])
    steered = characteristics(solve(cases.CORNERS["double wishbone"], [20.0]))
    assert found.toe_deg[0] == pytest.approx(steered.toe_deg[0], abs=1e-9)
