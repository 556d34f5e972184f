from dataclasses import fields, replace
from typing import Any

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from tests.engineering.kinematics import cases

from hubwright.engineering.kinematics import kernels
from hubwright.engineering.kinematics.build import linkage_of
from hubwright.engineering.kinematics.characteristics import characteristics
from hubwright.engineering.kinematics.hardpoints import Corner, mirror_hardpoints
from hubwright.engineering.kinematics.instant_centres import instant_centres
from hubwright.engineering.kinematics.linkage import Linkage, table_of
from hubwright.engineering.kinematics.solve import solve, wheel_poses
from hubwright.quantities.axes import mirrored

CORNERS: dict[str, Corner] = {
    "double wishbone": cases.DOUBLE_WISHBONE,
    "strut": cases.STRUT,
    "steered five link": cases.WISHBONES_AS_FIVE_LINKS,
    "five link": cases.FIVE_LINK,
    "semi-trailing arm": cases.SEMI_TRAILING_ARM,
}
names = st.sampled_from(sorted(CORNERS))
travels = st.lists(st.floats(-70.0, 80.0), min_size=1, max_size=12)
racks = st.floats(-45.0, 45.0)
seeds = st.integers(0, 10_000)


def shaken(points: Corner, seed: int) -> Corner:
    """The same corner with every hard point up to 8 mm off, so that no symmetry of the case is left."""
    rng = np.random.default_rng(seed)
    changes: dict[str, Any] = {
        item.name: tuple(np.array(getattr(points, item.name)) + rng.uniform(-8, 8, 3))
        for item in fields(points)
        if item.name.endswith("_mm")
    }
    return replace(points, **changes)


def rack_of(linkage: Linkage, rack: float) -> float:
    return rack if linkage.steered else 0.0


@given(names, seeds)
def test_no_travel_and_no_rack_give_the_pose_that_went_in(name: str, seed: int) -> None:
    linkage = linkage_of(shaken(CORNERS[name], seed))
    states = solve(linkage, 0.0)
    np.testing.assert_array_equal(states.centre_mm[0], linkage.origins_mm)
    np.testing.assert_array_equal(states.rotation[0, 0], np.eye(3))
    assert states.solved[0]


@given(names, seeds, travels, racks)
def test_every_link_keeps_its_length_in_every_solved_state(
    name: str, seed: int, travel: list[float], rack: float
) -> None:
    linkage = linkage_of(shaken(CORNERS[name], seed))
    states = solve(linkage, travel, rack_of(linkage, rack))
    codes, figures = table_of(linkage)
    for k in np.flatnonzero(states.solved):
        rest, _ = kernels.residual_and_jacobian(
            codes, figures, states.centre_mm[k], states.rotation[k], states.inputs_mm[k]
        )
        assert np.abs(rest).max() < 1e-6  # mm: a thousandth of a micrometre
    np.testing.assert_allclose(
        wheel_poses(states).centre_mm[states.solved, 2],
        linkage.wheels[0].centre_mm[2] + np.array(travel)[states.solved],
        atol=1e-8,
    )
    turned = states.rotation[states.solved, 0]
    np.testing.assert_allclose(turned @ np.swapaxes(turned, 1, 2), np.broadcast_to(np.eye(3), turned.shape), atol=1e-13)


@given(names, seeds, travels, racks)
def test_a_batch_gives_what_its_states_give_one_by_one(name: str, seed: int, travel: list[float], rack: float) -> None:
    linkage = linkage_of(shaken(CORNERS[name], seed))
    batch = solve(linkage, travel, rack_of(linkage, rack))
    for k, one in enumerate(travel):
        single = solve(linkage, one, rack_of(linkage, rack))
        assert single.status[0] == batch.status[k]
        np.testing.assert_allclose(single.centre_mm[0], batch.centre_mm[k], atol=1e-7)
        np.testing.assert_allclose(single.rotation[0], batch.rotation[k], atol=1e-9)


@given(names, seeds, travels, racks)
def test_the_other_side_of_the_car_is_the_mirror_image(name: str, seed: int, travel: list[float], rack: float) -> None:
    left = linkage_of(shaken(CORNERS[name], seed))
    right = linkage_of(mirror_hardpoints(shaken(CORNERS[name], seed)))
    # one rack for both sides: what it pushes on one side it pulls on the other
    one, other = solve(left, travel, rack_of(left, rack)), solve(right, travel, -rack_of(left, rack))
    np.testing.assert_allclose(wheel_poses(other).centre_mm, mirrored(wheel_poses(one).centre_mm), atol=1e-7)
    np.testing.assert_allclose(wheel_poses(other).axis, mirrored(wheel_poses(one).axis), atol=1e-10)
    a, b = characteristics(one), characteristics(other)
    for item in ("camber_deg", "toe_deg", "half_track_change_mm", "kingpin_inclination_deg", "caster_deg", "scrub_mm"):
        np.testing.assert_allclose(getattr(b, item), getattr(a, item), atol=1e-6, err_msg=item)
    np.testing.assert_allclose(b.steer_deg, -a.steer_deg, atol=1e-7)
    np.testing.assert_allclose(b.trail_mm, a.trail_mm, atol=1e-6)
    np.testing.assert_allclose(
        instant_centres(other).roll_centre_height_mm, instant_centres(one).roll_centre_height_mm, rtol=1e-6, atol=1e-4
    )


@given(st.floats(-60.0, 60.0), st.floats(-60.0, 60.0))
def test_an_even_twist_beam_crossed_up_one_way_is_the_mirror_image_of_the_other(left: float, right: float) -> None:
    linkage = cases.AXLES["twist beam"]
    one, other = solve(linkage, left, travel_other_mm=right), solve(linkage, right, travel_other_mm=left)
    np.testing.assert_allclose(wheel_poses(one, 0).centre_mm, mirrored(wheel_poses(other, 1).centre_mm), atol=1e-7)
    np.testing.assert_allclose(wheel_poses(one, 0).axis, mirrored(wheel_poses(other, 1).axis), atol=1e-10)


@given(st.sampled_from(sorted(cases.AXLES)), st.floats(-60.0, 60.0), st.floats(-60.0, 60.0))
def test_every_rigid_row_of_a_coupled_axle_is_closed_in_every_solved_state(
    name: str, left: float, right: float
) -> None:
    linkage = cases.AXLES[name]
    states = solve(linkage, [0.0, left], travel_other_mm=[0.0, right])
    np.testing.assert_allclose(states.centre_mm[0], linkage.origins_mm, atol=1e-10)
    assert np.all(states.solved)
    codes, figures = table_of(linkage)
    left_over, _ = kernels.residual_and_jacobian(
        codes, figures, states.centre_mm[1], states.rotation[1], states.inputs_mm[1]
    )
    rigid = np.array([not row.gives for row in linkage.rows])
    assert np.abs(left_over[rigid]).max() < 1e-6
    np.testing.assert_allclose(wheel_poses(states, 0).centre_mm[1, 2], left, atol=1e-6)
    np.testing.assert_allclose(wheel_poses(states, 1).centre_mm[1, 2], right, atol=1e-6)
