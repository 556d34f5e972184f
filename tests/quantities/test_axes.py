"""Signs of the corner axes, and the one mirror."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hubwright.quantities.axes import spin_axis, to_left


@given(st.floats(-20, 20), st.floats(-60, 60))
def test_the_spin_axis_has_length_one_and_points_outboard(camber_deg: float, steer_deg: float) -> None:
    axis = spin_axis(camber_deg, steer_deg)
    assert math.hypot(*axis) == pytest.approx(1.0)
    assert axis[1] > 0


def test_negative_camber_lifts_the_outboard_end_of_the_axis() -> None:
    """ISO 8855: camber negative = top inboard, so the axle's outboard end points up."""
    assert spin_axis(-2.0, 0.0)[2] == pytest.approx(math.sin(math.radians(2.0)))


def test_a_left_turn_swings_the_axle_end_of_the_left_wheel_rearward_and_of_the_right_wheel_forward() -> None:
    """A left turn carries the front of every wheel to the left: outboard on the left car side, inboard on the right."""
    assert spin_axis(0.0, to_left("left", 30.0))[0] == pytest.approx(-0.5)
    assert spin_axis(0.0, to_left("right", 30.0))[0] == pytest.approx(0.5)
