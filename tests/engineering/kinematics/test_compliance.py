import pytest

from hubwright.engineering.kinematics.compliance import compliance_move
from hubwright.errors import OutsideValidity


def test_the_top_of_the_loaded_outer_wheel_moves_outboard_and_its_foot_inboard() -> None:
    assert compliance_move(5.0, 0.25, 0.4, 320.0) == pytest.approx(5.0, abs=0.05)
    assert compliance_move(5.0, 0.25, 0.4, -320.0) == pytest.approx(-9.0, abs=0.05)


def test_a_lip_below_the_top_of_the_tyre_sees_less_of_it() -> None:
    assert compliance_move(5.0, 0.25, 0.4, 250.0) < compliance_move(5.0, 0.25, 0.4, 320.0)


def test_a_force_that_would_lean_the_wheel_out_of_proportion_is_outside_the_sum() -> None:
    with pytest.raises(OutsideValidity, match="side_force_kn"):
        compliance_move(30.0, 0.25, 0.4, 320.0)
