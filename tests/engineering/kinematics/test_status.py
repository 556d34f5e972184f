from dataclasses import replace

import numpy as np
import pytest
from tests.engineering.kinematics import cases

from hubwright.engineering.kinematics import kernels
from hubwright.engineering.kinematics.build import linkage_of
from hubwright.engineering.kinematics.characteristics import characteristics
from hubwright.engineering.kinematics.instant_centres import instant_centres
from hubwright.engineering.kinematics.solve import hub_poses, rates, solve


def test_a_travel_no_link_can_reach_is_reported_and_gives_no_number() -> None:
    states = solve(cases.CORNERS["double wishbone"], [0.0, 600.0, 10.0])
    assert list(states.status) == [kernels.OK, kernels.IMPOSSIBLE, kernels.OK]
    assert np.all(np.isnan(hub_poses(states, 40.0).origin_mm[1]))
    assert np.all(np.isnan(rates(states)[1]))
    assert np.isnan(characteristics(states).scrub_mm[1])
    assert np.isnan(instant_centres(states).roll_centre_height_mm[1])
    assert np.all(np.isfinite(hub_poses(states, 40.0).origin_mm[[0, 2]]))


def test_a_tie_rod_joint_on_the_steering_axis_is_a_dead_point() -> None:
    d = cases.DOUBLE_WISHBONE
    middle = tuple(0.5 * (np.array(d.upper_outer_mm) + np.array(d.lower_outer_mm)))
    states = solve(linkage_of(replace(d, tie_outer_mm=middle)), [0.0, 20.0])
    assert kernels.OK not in states.status
    assert states.status[0] == kernels.SINGULAR


@pytest.mark.parametrize("name", ["double wishbone", "strut", "semi-trailing arm", "five link"])
def test_a_sweep_far_past_all_dead_points_never_jumps_to_another_way_of_assembling_the_links(name: str) -> None:
    linkage = cases.CORNERS[name]
    travel = np.linspace(0.0, 700.0, 1401)
    for sign in (1.0, -1.0):
        states = solve(linkage, sign * travel)
        last = int(np.flatnonzero(states.solved)[-1])
        assert last < 1400
        assert np.all(states.solved[: last + 1])
        turns = np.linalg.norm(np.diff(states.rotation[: last + 1, 0], axis=0), axis=(1, 2))
        # towards a dead point the steps grow like the root of what is left; a jump would be of order one
        assert turns.max() < 0.15


def test_the_answer_does_not_depend_on_the_order_of_the_states() -> None:
    rng = np.random.default_rng(3)
    travel, rack = rng.uniform(-80, 90, 3000), rng.uniform(-60, 60, 3000)
    order = np.lexsort((travel, np.round(rack)))
    mixed = solve(cases.CORNERS["strut"], travel, rack)
    sorted_ = solve(cases.CORNERS["strut"], travel[order], rack[order])
    np.testing.assert_array_equal(mixed.status[order], sorted_.status)
    np.testing.assert_allclose(mixed.centre_mm[order], sorted_.centre_mm, atol=1e-7)
