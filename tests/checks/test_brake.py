"""Brake room: a disc gives spokes room one to one and may take room from the barrel."""

from __future__ import annotations

import pytest
from tests.checks.bench import axle, house

from hubwright.checks import brake
from hubwright.findings import Verdict
from hubwright.parts.corner import Brake

RAMP = Brake(axial_gap_mm=6, radial_gap_mm=5, ramp_deg=15, ramp_start_mm=0.5)


def verdict(room: Brake, thickness_mm: float) -> Verdict:
    return brake.judge(axle(brake=room), "left", house(), thickness_mm).verdict


def test_a_slope_of_the_barrel_gives_a_most() -> None:
    """Derived: 5 - 3 = 2 mm to spare over tan 15 deg after 0.5 mm: 7.96 mm; 5 mm of disc cost 1.21 mm."""
    window = brake.window_of(axle(brake=RAMP), "left", house())
    assert window.intervals[0].high_mm == pytest.approx(7.96, abs=0.01)
    found = brake.judge(axle(brake=RAMP), "left", house(), 5.0)
    assert found.margin_mm == pytest.approx(5 - 1.21 - 3, abs=0.01)
    assert (verdict(RAMP, 7.9), verdict(RAMP, 8.0)) == (Verdict.PASS, Verdict.FAIL)


def test_spokes_too_near_need_a_disc_and_new_linings_a_thicker_one() -> None:
    """Derived: 1 mm there, 3 wanted: from 2 mm on; with linings that bring the caliper out 1.5: from 3.5 on."""
    near = Brake(axial_gap_mm=1, radial_gap_mm=20, ramp_deg=0)
    worn = Brake(axial_gap_mm=1, radial_gap_mm=20, ramp_deg=0, new_lining_mm=1.5)
    assert [verdict(near, t) for t in (1.9, 2.0)] == [Verdict.FAIL, Verdict.PASS]
    assert [verdict(worn, t) for t in (3.4, 3.5)] == [Verdict.FAIL, Verdict.PASS]
    assert brake.window_of(axle(brake=worn), "left", house()).intervals[0].low_mm == pytest.approx(3.5)


def test_weights_in_the_barrel_and_stated_doubt_are_owed() -> None:
    room = Brake(axial_gap_mm=20, radial_gap_mm={"value": 6, "u": 0.5}, ramp_deg=0, weight_height_mm=2.4)
    assert brake.judge(axle(brake=room), "left", house(), 3.0).margin_mm == pytest.approx(6 - 2.4 - 3 - 0.5)


def test_no_room_over_the_caliper_refuses_every_disc() -> None:
    tight = Brake(axial_gap_mm=6, radial_gap_mm=2, ramp_deg=15, ramp_start_mm=0.5)
    assert brake.window_of(axle(brake=tight), "left", house()).intervals == ()
    assert verdict(tight, 3.0) is Verdict.FAIL


@pytest.mark.parametrize(
    "room",
    [Brake(), Brake(axial_gap_mm=6), Brake(radial_gap_mm=6), Brake(radial_gap_mm=6, ramp_deg=15), Brake(ramp_deg=0)],
)
def test_what_was_not_read_is_unknown_and_asked_for(room: Brake) -> None:
    assert verdict(room, 5.0) is Verdict.UNKNOWN
    window = brake.window_of(axle(brake=room), "left", house())
    assert not window.known
    assert window.missing


def test_a_slope_too_small_to_measure_is_a_straight_barrel() -> None:
    room = Brake(axial_gap_mm=6, radial_gap_mm=5, ramp_deg=1e-320, ramp_start_mm=0)
    assert brake.window_of(axle(brake=room), "left", house()).intervals[0].high_mm is None
