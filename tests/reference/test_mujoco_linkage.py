"""A general multibody engine (MuJoCo) closes the same wishbones with its own equality constraints."""

import numpy as np
import pytest
from tests.engineering.kinematics import cases

from hubwright.engineering.kinematics.solve import solve, wheel_poses


@pytest.mark.slow
def test_the_wheel_goes_where_a_multibody_engine_takes_it_within_a_hundredth_of_a_micrometre() -> None:
    pytest.importorskip("mujoco")
    from tests.engineering.kinematics.mujoco_linkage import model_of, solve_by_engine

    travel, rack = (a.ravel() for a in np.meshgrid(np.linspace(-80, 90, 12), np.linspace(-60, 60, 9)))
    states = solve(cases.CORNERS["double wishbone"], travel, rack)
    centres, turns = solve_by_engine(model_of(cases.DOUBLE_WISHBONE), travel, rack)
    assert np.all(states.solved)
    np.testing.assert_allclose(wheel_poses(states).centre_mm, centres, rtol=0.0, atol=1e-5)
    np.testing.assert_allclose(states.rotation[:, 0], turns, rtol=0.0, atol=1e-7)
