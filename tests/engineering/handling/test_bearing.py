from __future__ import annotations

import pytest

from hubwright.engineering.handling.bearing_duty import (
    GENTLE_ROAD,
    BearingWheel,
    Phase,
    bearing_change,
    life_ratio_band,
    phase_loads,
)
from hubwright.engineering.handling.bearing_rows import ball_unit, row_loads
from hubwright.errors import OutsideValidity
from hubwright.uncertainty.band import Band, exactly

UNIT = ball_unit(60, 3)
WHEEL = BearingWheel(static_n=4000, radius_mm=320, height_over_track=0.36)
STRAIGHT = (Phase(1.0, 0.0),)


def test_15_mm_of_disc_leave_0_58_to_0_68_of_the_bearing_life_under_a_gentle_duty() -> None:
    # Derived beforehand for spread 60 and load line 3 mm; the duty is nine tenths straight, gentle bends both ways.
    found = bearing_change(UNIT, WHEEL, GENTLE_ROAD, 15)
    assert 0.58 <= found.life_ratio <= 0.68
    assert 0.4 <= bearing_change(UNIT, WHEEL, GENTLE_ROAD, 25).life_ratio <= 0.5
    assert found.outboard_load_n.difference > 0


def test_straight_ahead_each_row_carries_its_lever_share() -> None:
    # Load line 3 + 15 of a spread of 60: outboard 0.5 + 18/60 of the wheel load.
    rows = row_loads(UNIT, 4000, 0, 320, 15)
    assert rows.outboard_radial_n == pytest.approx(4000 * 0.8)
    assert rows.inboard_radial_n == pytest.approx(4000 * 0.2)


def test_forces_and_moments_on_the_rows_balance_in_a_bend() -> None:
    # Outer wheel: side force towards the car tips the rows against the load line; the outboard row takes the thrust.
    vertical, side = 5000.0, 3000.0
    rows = row_loads(UNIT, vertical, side, 320, 15)
    outboard, inboard = -rows.outboard_radial_n, rows.inboard_radial_n
    assert outboard + inboard == pytest.approx(vertical)
    assert (outboard - inboard) * 30 == pytest.approx(vertical * 18 - side * 320)
    assert rows.outboard_thrust_n - rows.inboard_thrust_n == pytest.approx(side)


def test_straight_life_follows_the_closed_form_of_two_rows() -> None:
    # Thrust of the lighter row is that of the heavier: P_light = 0.35 R + 0.57 x 1.14 R_heavy when that is more.
    def life(heavy: float, light: float) -> float:
        light = max(light, 0.35 * light + 0.57 * 1.14 * heavy)
        return (heavy ** (10 / 3) + light ** (10 / 3)) ** -0.9

    expected = life(0.8, 0.2) / life(0.55, 0.45)
    assert bearing_change(UNIT, WHEEL, STRAIGHT, 15).life_ratio == pytest.approx(expected)


def test_a_bend_loads_the_outer_wheel_by_its_share_of_the_transfer_and_its_side_force() -> None:
    # 4000 N standing, h/T 0.36, 0.5 g: outer 4000 (1 + 0.36) = 5440 N and 2720 N towards the car.
    outer, inner = phase_loads(UNIT, WHEEL, (Phase(0.5, 0.5), Phase(0.5, -0.5)), 15)
    assert outer.inboard_radial_n - outer.outboard_radial_n == pytest.approx(5440)
    assert outer.outboard_thrust_n - outer.inboard_thrust_n == pytest.approx(2720)
    assert inner.inboard_thrust_n - inner.outboard_thrust_n == pytest.approx(1280)


def test_no_disc_leaves_the_life_as_it_was() -> None:
    assert bearing_change(UNIT, WHEEL, GENTLE_ROAD, 0).life_ratio == 1


def test_the_band_over_the_assumptions_holds_the_nominal_and_widens_with_them() -> None:
    def band(spread: Band, line: Band, factor: Band) -> Band:
        return life_ratio_band(
            UNIT, WHEEL, GENTLE_ROAD, thickness_mm=15, spread_mm=spread, load_line_mm=line, side_factor=factor
        )

    sure = band(exactly(60), exactly(3), exactly(1))
    wide = band(Band(50, 60, 70), Band(0, 3, 6), Band(0.8, 1, 1.2))
    assert sure.width == 0
    assert wide.low < sure.nominal < wide.high
    assert wide.nominal == sure.nominal


def test_a_duty_without_any_distance_is_refused() -> None:
    with pytest.raises(OutsideValidity, match="shares"):
        bearing_change(UNIT, WHEEL, (), 15)
