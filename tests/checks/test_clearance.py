"""Clearance: what is known of the gap over the whole travel and lock, and what a disc leaves of it."""

from __future__ import annotations

import numpy as np
import pytest
from tests.checks.bench import axle, house, point

from hubwright.checks.clearance import judge, room_of, window_of
from hubwright.findings import Evidence, Finding, Verdict, Window
from hubwright.parts.job import Axle
from hubwright.quantities.axes import Side

SWEPT = ((0, 40), (20, 30), (35, 24), (50, 26), (70, 30))
MOTION = [
    {"travel_mm": 0, "camber_deg": -1.667, "half_track_mm": 0},
    {"travel_mm": 46, "camber_deg": -2.369, "half_track_mm": 1.0},
    {"travel_mm": 71, "camber_deg": -2.75, "half_track_mm": 1.6},
]
TYRE = {
    "half_width": [
        {"radius_mm": 318, "half_width_mm": 104},
        {"radius_mm": 272, "half_width_mm": 119.5},
        {"radius_mm": 247, "half_width_mm": 115},
    ]
}
MODELLED = {"motion": MOTION, "bump_travel_mm": 71, "wheel_set": [{"role": "fitted", "tyre": TYRE}]}


def finding(on: Axle, thickness_mm: float, *, steered: bool = False, side: Side = "left") -> Finding:
    rules = house()
    return judge(room_of(on, side, rules, steered=steered, with_work=False), rules, thickness_mm)


def window(on: Axle, *, steered: bool = False, with_work: bool = False) -> Window:
    return window_of(room_of(on, "left", house(), steered=steered, with_work=with_work))


def test_the_pinch_is_found_in_mid_travel_though_both_ends_have_more_room() -> None:
    found = finding(axle(point("outside", *SWEPT)), 10.0)
    assert found.case is not None
    assert found.case.state == "bump 35 mm"
    assert found.verdict is Verdict.PASS
    assert found.margin_mm == pytest.approx(24 - 10 - 10, abs=0.1)


def test_a_parked_reading_and_a_model_find_the_same_pinch_as_the_swept_readings() -> None:
    """Derived: parked 29.0 less 14.5 at +46 mm leaves 14.5; less the margin of 10, 4.5 (and what the model may err)."""
    swept = axle(point("outside", (0, 29.0), (46, 14.5), (71, 19.0), height_mm=318), **MODELLED)
    parked = axle(point("outside", (0, 29.0), height_mm=318), **MODELLED)
    read, predicted = (room_of(on, "left", house(), steered=False, with_work=False) for on in (swept, parked))
    at = np.array([0.0, 46.0, 71.0])
    for room in (read, predicted):
        curve = room.swept[0].curve
        assert np.interp(at, curve.travel_mm, curve.gap_mm) == pytest.approx([29.0, 14.5, 19.0], abs=0.1)
        assert not room.missing
    assert read.swept[0].curve.evidence[-1] is Evidence.MEASURED
    assert predicted.swept[0].curve.evidence[-1] is Evidence.PREDICTED
    assert finding(parked, 2.0).margin_mm < finding(swept, 2.0).margin_mm


def test_with_a_model_a_reading_at_full_bump_alone_is_carried_back_to_parked_over_the_pinch() -> None:
    """Derived: 19.0 at +71 mm is 29.0 parked and 14.5 at +46 mm by the same shape."""
    room = room_of(
        axle(point("outside", (71, 19.0), height_mm=318), **MODELLED), "left", house(), steered=False, with_work=False
    )
    curve = room.swept[0].curve
    assert not room.missing
    assert np.interp([0, 46, 71], curve.travel_mm, curve.gap_mm) == pytest.approx([29.0, 14.5, 19.0], abs=0.1)


def test_a_parked_reading_alone_is_no_answer_but_can_refuse() -> None:
    on = axle(point("outside", (0, 16.5)))
    assert finding(on, 5.0).verdict is Verdict.UNKNOWN
    assert finding(on, 8.0).verdict is Verdict.FAIL
    assert not window(on).known


def test_full_bump_alone_is_no_answer_either() -> None:
    assert finding(axle(point("outside", (70, 40))), 3.0).verdict is Verdict.UNKNOWN
    assert finding(axle(point("outside", (0, 40), (70, 40))), 3.0).verdict is Verdict.PASS


def test_nothing_read_is_unknown() -> None:
    found = finding(axle(), 3.0)
    assert (found.verdict, found.evidence, found.margin_mm) == (Verdict.UNKNOWN, Evidence.NONE, None)


def test_between_two_readings_far_apart_a_sidewall_may_bulge() -> None:
    """Derived: half of 70 mm squared over 2 x 60 mm takes 10.2 mm off the straight line in the middle."""
    curve = room_of(axle(point("outside", (0, 40), (70, 40))), "left", house(), steered=False, with_work=False).swept[0]
    assert curve.curve.gap_mm.min() == pytest.approx(40 - 35**2 / 120, abs=0.01)


def test_a_tyre_read_over_too_few_radii_still_meets_its_readings() -> None:
    short = {**MODELLED, "wheel_set": [{"role": "fitted", "tyre": {"half_width": TYRE["half_width"][:2]}}]}
    on = axle(point("outside", (0, 29.0), (46, 14.5), (71, 19.0), height_mm=318), **short)
    curve = room_of(on, "left", house(), steered=False, with_work=False).swept[0].curve
    assert np.interp([0, 46, 71], curve.travel_mm, curve.gap_mm) == pytest.approx([29.0, 14.5, 19.0])


def test_the_inside_gives_a_least_thickness_and_the_outside_a_most() -> None:
    """Derived: strut 3 mm away, 5 wanted: from 2 mm on; lip 24 mm away in mid travel, 10 wanted: up to 14."""
    strut = point("inside", (0, 3.0), (70, 3.0), name="strut", kind="carried")
    found = window(axle(point("outside", *SWEPT), strut), with_work=False)
    assert found.intervals[0].high_mm == pytest.approx(14.0, abs=0.1)
    assert not found.allows(1.9)
    assert strut.reading
    assert found.intervals[0].low_mm is not None
    assert found.intervals[0].low_mm >= 2.0


def test_camber_takes_the_disc_up_as_well_as_out() -> None:
    """Derived: 20 mm at -2 deg take 0.70 mm from a gap above the wheel."""
    on = axle(point("outside", *SWEPT, toward="up"), camber_deg=-2.0)
    assert finding(on, 0.0).margin_mm - finding(on, 20.0).margin_mm == pytest.approx(0.70, abs=0.005)


def test_a_left_turn_brings_the_left_wheel_nearer_to_what_stands_behind_it_and_the_right_one_away() -> None:
    """Derived: 15 sin 37 deg = 9.0 mm of the 14 mm to the liner; 5 mm take 3.0."""
    liner = point("outside", (0, 14.0, 37.0), toward="rearward")
    ahead = point("outside", *SWEPT, name="ahead")
    for thickness, left in ((15.0, 5.0), (5.0, 11.0)):
        on = axle(ahead, liner, steer_max_deg=37)
        margin = finding(on, thickness, steered=True).margin_mm
        assert margin == pytest.approx(min(left - 10, 24 - thickness - 10), abs=0.1)
    mirror = Axle(bump_travel_mm=70, steer_max_deg=37, right={"point": [ahead, liner]})
    room = room_of(mirror, "right", house(), steered=True, with_work=False)
    assert (room.swept[1].slack_at(15.0) > room.swept[1].slack_mm).all()


def test_a_steered_axle_not_read_at_lock_is_not_settled() -> None:
    straight = axle(point("outside", *SWEPT), steer_max_deg=37)
    assert finding(straight, 3.0, steered=False).verdict is Verdict.PASS
    assert finding(straight, 3.0, steered=True).verdict is Verdict.UNKNOWN
    strut = point("inside", (0, 30.0, 37.0), name="strut", kind="carried")
    assert (
        finding(axle(point("outside", *SWEPT), strut, steer_max_deg=37), 3.0, steered=True).verdict is Verdict.UNKNOWN
    )


def test_work_counts_only_in_the_plan_that_does_it() -> None:
    rolled = point("outside", *SWEPT, work=[{"name": "roll", "gain_mm": 7}])
    assert window(axle(rolled)).intervals[0].high_mm == pytest.approx(14.0, abs=0.1)
    assert window(axle(rolled), with_work=True).intervals[0].high_mm == pytest.approx(21.0, abs=0.1)


def test_the_give_of_the_loaded_wheel_is_owed_in_bump_at_the_height_of_the_lip() -> None:
    """Derived: at 300 - 35 = 265 mm above the centre 265 sin 1.25 deg - 2.0 = 3.78 mm."""
    give = {"side_force_kn": 5, "camber_deg_per_kn": 0.25, "lateral_mm_per_kn": 0.4}
    stiff = axle(point("outside", *SWEPT, height_mm=300))
    soft = axle(point("outside", *SWEPT, height_mm=300), compliance=give)
    owed = finding(stiff, 5.0).margin_mm - finding(soft, 5.0).margin_mm
    assert owed == pytest.approx(3.78, abs=0.1)


def test_one_stated_reading_makes_the_whole_answer_a_caution() -> None:
    stated = point("outside", (0, 60), (70, 60), name="bumper", by="customer")
    assert finding(axle(point("outside", *SWEPT)), 5.0).verdict is Verdict.PASS
    assert finding(axle(point("outside", *SWEPT), stated), 5.0).verdict is Verdict.CAUTION


def test_with_readings_missing_only_what_no_doubt_can_mend_refuses() -> None:
    doubtful = point("outside", (0, 15.0), name="a", u_mm=6.0)
    sure = point("outside", (0, 14.0), name="b")
    assert finding(axle(doubtful), 3.0).verdict is Verdict.UNKNOWN
    found = finding(axle(doubtful, sure), 5.0)
    assert found.verdict is Verdict.FAIL
    assert found.case is not None
    assert found.case.item == "b"


def read_twice(first_mm: float, second_mm: float, *, u_mm: float = 0.5) -> Axle:
    """The same place read bare and then with a 5 mm disc fitted, work on offer."""
    both = [
        {"travel_mm": travel, "gap_mm": gap, "disc_mm": disc}
        for travel in (0, 2)
        for gap, disc in ((first_mm, 0.0), (second_mm, 5.0))
    ]
    work = [{"name": "roll the lip", "gain_mm": 7.0}]
    return axle(point("outside", (0, 1.0), u_mm=u_mm, reading=both, work=work, height_mm=0.0), bump_travel_mm=2)


def test_bare_and_fitted_readings_that_agree_are_averaged() -> None:
    assert finding(read_twice(30.0, 25.4), 0.0).margin_mm == pytest.approx(30.2 - 10.0, abs=0.7)


def test_readings_from_before_and_after_work_are_never_averaged_the_least_air_counts() -> None:
    on = read_twice(20.0, 21.0)  # 26 bare after the lip was rolled
    assert finding(on, 0.0).margin_mm == pytest.approx(20.0 - 0.5 - 10.0, abs=0.02)
    rolled = window(on, with_work=True).intervals[0].high_mm
    assert rolled == pytest.approx(20.0 + 7.0 - 0.5 - 10.0, abs=0.02)


def test_a_fitted_reading_tighter_than_the_bare_one_counts_alone() -> None:
    assert finding(read_twice(30.0, 20.0), 0.0).margin_mm == pytest.approx(25.0 - 0.5 - 10.0, abs=0.02)
