from __future__ import annotations

import math

import GTC
import numpy as np
import pytest

from hubwright.engineering.joint.preload import TorqueRecord, preload_n, preload_range, torque_arm_mm
from hubwright.engineering.joint.seat import (
    BallSeat,
    ConeSeat,
    FlatSeat,
    FloatingWasherSeat,
    bearing_diameter_mm,
    friction_arm_mm,
)
from hubwright.errors import OutsideValidity
from hubwright.tables.threads import thread
from hubwright.uncertainty.band import Band, exactly

M12 = thread("M12x1.5")


def record(low: float, nominal: float, high: float, **more: float) -> TorqueRecord:
    friction = Band(low, nominal, high)
    return TorqueRecord(110, more.get("tool", 0.0), friction, friction, 1.8, more.get("prevailing", 0.0))


def test_a_cone_of_60_degrees_rubs_at_twice_its_contact_radius() -> None:
    assert friction_arm_mm(ConeSeat(17, 60)) == pytest.approx(17)
    assert friction_arm_mm(ConeSeat(17, 180)) == pytest.approx(8.5)


def test_a_ball_seat_lies_between_flat_and_cone_and_grows_with_its_contact_circle() -> None:
    # Normal at asin(9/14) = 40.0 degrees to the axis: 9/cos(40.0) = 11.75.
    assert friction_arm_mm(BallSeat(18, 14)) == pytest.approx(11.75, abs=0.005)
    assert friction_arm_mm(BallSeat(18, 1e6)) == pytest.approx(9)


def test_a_loose_washer_turns_where_it_turns_more_easily() -> None:
    washer = FloatingWasherSeat(FlatSeat(12.5, 24), ConeSeat(19, 60))
    assert friction_arm_mm(washer) == friction_arm_mm(FlatSeat(12.5, 24))
    assert bearing_diameter_mm(washer) == 19


@pytest.mark.parametrize("seat", [FlatSeat(24, 12), BallSeat(28, 14), ConeSeat(17, 0)])
def test_a_seat_that_cannot_be_is_refused(seat: FlatSeat | BallSeat | ConeSeat) -> None:
    with pytest.raises(OutsideValidity):
        friction_arm_mm(seat)


@pytest.mark.parametrize(("seat", "expected_kn"), [
    (FlatSeat(13.4, 20.0), (64, 48, 38)),
    (ConeSeat(16.1, 60), (44, 32, 26)),
])  # fmt: skip
def test_110_newton_metres_on_m12_fine_leave_a_wide_range(
    seat: FlatSeat | ConeSeat, expected_kn: tuple[int, int, int]
) -> None:
    # Derived beforehand from the torque equation at mu 0.10, 0.14, 0.18, rounded to 1 kN.
    band = preload_range(record(0.10, 0.14, 0.18), M12, seat).from_friction_n
    assert (band.high, band.nominal, band.low) == pytest.approx([kn * 1000 for kn in expected_kn], abs=600)


def test_the_range_holds_friction_and_scatter_and_does_not_multiply_them() -> None:
    found = preload_range(record(0.10, 0.14, 0.18), M12, ConeSeat(16.1, 60))
    assert found.from_scatter_n.high / found.from_scatter_n.low == pytest.approx(1.8)
    assert found.envelope_n.low == min(found.from_friction_n.low, found.from_scatter_n.low)
    assert found.envelope_n.high == max(found.from_friction_n.high, found.from_scatter_n.high)


def test_oil_on_a_thread_tightened_to_a_dry_figure_raises_the_clamp() -> None:
    dry = preload_range(record(0.14, 0.17, 0.24), M12, ConeSeat(16.1, 60))
    oiled = preload_range(record(0.08, 0.11, 0.16), M12, ConeSeat(16.1, 60))
    assert oiled.from_friction_n.nominal > 1.4 * dry.from_friction_n.nominal


def test_a_locking_thread_takes_its_torque_before_any_clamp() -> None:
    seat = ConeSeat(16.1, 60)
    locked = preload_range(record(0.14, 0.14, 0.14, prevailing=10), M12, seat).from_friction_n
    plain = preload_range(record(0.14, 0.14, 0.14), M12, seat).from_friction_n
    assert locked.nominal / plain.nominal == pytest.approx(100 / 110)
    with pytest.raises(OutsideValidity, match="torque_left_for_clamping_nm"):
        preload_range(record(0.14, 0.14, 0.14, prevailing=110), M12, seat)


def test_drawn_friction_stays_inside_the_range_and_fills_it() -> None:
    # Second method: JCGM 101 Monte Carlo over rectangular friction and tool error.
    seat = ConeSeat(16.1, 60)
    band = preload_range(record(0.10, 0.14, 0.18, tool=0.04), M12, seat).from_friction_n
    draw = np.random.default_rng(11)
    mu_g, mu_k = draw.uniform(0.10, 0.18, (2, 200_000))
    torque = draw.uniform(110 * 0.96, 110 * 1.04, 200_000)
    forces = torque * 1000 / (1.5 / (2 * math.pi) + M12.d2_mm * mu_g / math.sqrt(3) + friction_arm_mm(seat) * mu_k)
    assert band.low <= forces.min()
    assert forces.max() <= band.high
    assert forces.min() < band.low * 1.02
    assert forces.max() > band.high * 0.98


def test_first_order_propagation_agrees_with_small_friction_bands() -> None:
    # Second method: GTC (JCGM 100) with u = half width, signs added as numbers gives the half width of the range.
    seat_arm = friction_arm_mm(ConeSeat(16.1, 60))
    mu_g, mu_k = GTC.ureal(0.14, 0.001), GTC.ureal(0.14, 0.001)
    force = 110_000 / (1.5 / (2 * math.pi) + M12.d2_mm * mu_g / math.sqrt(3) + seat_arm * mu_k)
    half = abs(GTC.component(force, mu_g)) + abs(GTC.component(force, mu_k))
    band = preload_range(record(0.139, 0.14, 0.141), M12, ConeSeat(16.1, 60)).from_friction_n
    assert band.nominal == pytest.approx(GTC.value(force))
    assert band.width / 2 == pytest.approx(half, rel=0.001)


def test_no_function_of_the_joint_gives_a_torque() -> None:
    from hubwright.engineering import joint

    folder = next(iter(joint.__path__))
    import ast
    from pathlib import Path

    names = [
        node.name
        for path in Path(folder).glob("*.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.FunctionDef)
    ]
    assert "preload_n" in names
    assert not [name for name in names if name.endswith("_nm")]


def test_friction_beyond_one_is_refused() -> None:
    with pytest.raises(OutsideValidity, match="thread_friction"):
        torque_arm_mm(M12, 1.2, 10, 0.1)
    assert preload_n(0, M12, 0.1, 10, 0.1) == 0
    assert exactly(0.1).width == 0
