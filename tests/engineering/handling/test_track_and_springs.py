from __future__ import annotations

from dataclasses import replace

import pytest

from hubwright.engineering.handling.change import Change
from hubwright.engineering.handling.cornering import (
    Axle,
    Car,
    axle_transfer,
    cornering_changes,
    roll_arm_mm,
    roll_rad,
    with_disc,
)
from hubwright.engineering.handling.suspension import (
    lever_factor,
    parked_drop_mm,
    roll_centre_change_mm,
    roll_stiffness_change,
    roll_stiffness_nm_per_rad,
    wheel_rate_change,
)
from hubwright.engineering.handling.track import lateral_transfer_n, track_change_mm
from hubwright.errors import OutsideValidity

FRONT = Axle(1550, 700, 60, 25_000, 90, 310, 2000)
REAR = Axle(1550, 600, 120, 18_000, 80, 310, 2000)
CAR = Car(FRONT, REAR, 560)


def test_15_mm_per_side_widen_1550_by_1_94_percent_and_take_1_90_off_the_transfer() -> None:
    track = track_change_mm(1550, 15, 15)
    assert track.fraction == pytest.approx(0.0194, abs=0.00005)
    transfer = Change(*(lateral_transfer_n(1000, 0.5, 550, mm) for mm in (track.standard, track.with_disc)))
    assert transfer.fraction == pytest.approx(-0.0190, abs=0.00005)


def test_15_mm_on_a_lever_of_2000_soften_the_wheel_by_1_48_and_stiffen_roll_by_2_37_percent() -> None:
    assert wheel_rate_change(25, 2000, 15).fraction == pytest.approx(-0.0148, abs=0.00005)
    stiffness = roll_stiffness_change(roll_stiffness_nm_per_rad(25, 1550), 1550, 2000, 15)
    assert stiffness.fraction == pytest.approx(0.0237, abs=0.00005)
    # Second method: the changed rate and the changed track through K = k T^2/2.
    softer = wheel_rate_change(25, 2000, 15).with_disc
    assert stiffness.with_disc == pytest.approx(roll_stiffness_nm_per_rad(softer, 1580))


def test_a_solid_axle_keeps_springs_roll_centre_and_height() -> None:
    assert wheel_rate_change(25, None, 15).difference == 0
    assert roll_stiffness_change(20_000, 1550, None, 15).difference == 0
    assert roll_centre_change_mm(200, 1550, None, 15).difference == 0
    assert parked_drop_mm(3500, 25, None, 15) == 0


def test_the_parked_body_sinks_by_what_the_longer_lever_takes() -> None:
    # 3500 N x 15/2015 = 26.05 N less lift at 25 x (2000/2015)^2 = 24.63 N/mm: 1.06 mm.
    assert parked_drop_mm(3500, 25, 2000, 15) == pytest.approx(1.06, abs=0.005)


def test_a_lever_that_ends_inside_the_wheel_is_refused() -> None:
    with pytest.raises(OutsideValidity):
        lever_factor(-100, 15)


def test_the_roll_centre_follows_the_line_through_the_instant_centre() -> None:
    # Second method: instant centre at (2000, h) from the contact patch; the line cut at the middle of the car.
    found = roll_centre_change_mm(60, 1550, 2000, 15)
    instant_height = 60 * 2000 / 775
    assert found.with_disc == pytest.approx(instant_height / 2015 * 790)


def test_a_change_from_nothing_has_no_fraction() -> None:
    assert Change(0, 5).fraction is None
    assert Change(-8, 7).difference == 15
    assert Change(-8, 7).fraction == pytest.approx(15 / 8)


def test_no_disc_changes_nothing_and_discs_all_round_lower_transfer_and_roll() -> None:
    still = cornering_changes(CAR, 0, 0, 0.5)
    assert still.front_transfer_n.difference == still.roll_deg.difference == still.front_share.difference == 0
    wider = cornering_changes(CAR, 15, 15, 0.5)
    assert wider.front_transfer_n.difference < 0
    assert wider.rear_transfer_n.difference < 0
    assert wider.roll_deg.difference < 0


@pytest.mark.parametrize("thickness", [0, 15])
def test_the_transfer_of_both_axles_balances_the_overturning_moment(thickness: float) -> None:
    # Second method: moments about the ground of all masses, the body's shifted sideways by its roll.
    car = Car(with_disc(FRONT, thickness), with_disc(REAR, thickness), 560)
    roll, acceleration = roll_rad(car, 0.5), 0.5 * 9.81
    body = 1300 * (acceleration * 560 + 9.81 * roll_arm_mm(car) * roll)
    rest = (90 + 80) * acceleration * 310
    carried = sum(axle_transfer(axle, 0.5, roll).total_n * axle.track_mm for axle in (car.front, car.rear))
    assert carried == pytest.approx(body + rest)


def test_discs_on_solid_axles_lower_transfer_at_that_end_and_move_the_balance_the_other_way() -> None:
    car = Car(replace(FRONT, arm_mm=None), replace(REAR, arm_mm=None), 560)
    only_front, only_rear = cornering_changes(car, 20, 0, 0.5), cornering_changes(car, 0, 20, 0.5)
    assert only_front.front_share.difference < 0 < only_rear.front_share.difference
    assert only_front.rear_transfer_n.difference == 0


def test_discs_on_independent_axles_stiffen_their_end_so_its_share_hardly_moves() -> None:
    # The stiffer end takes more of the roll moment, the wider track less load for it: nearly even.
    only_front = cornering_changes(CAR, 15, 0, 0.5)
    assert abs(only_front.front_share.difference) < 0.005
