"""Room over the caliper from the outlines of wheel and caliper."""

from __future__ import annotations

import pytest

import hubwright
from hubwright.checks import brake
from hubwright.checks.house import house_of
from hubwright.findings import Evidence, Finding, Verdict
from hubwright.parts.job import Job

JOB = """\
hubwright_job = 1
title = "x"
[request]
use = "street"
[[rear.wheel_set]]
role = "fitted"
[rear.wheel_set.wheel]
rim = "8Jx18 ET45"
profile = [
  { part = "spoke back", points_mm = [[80, 6], [200, 6]] },
  { part = "barrel", points_mm = [[220, 40], [220, -40], [200, -60], [200, -100]] },
]
[rear.left.brake]
new_lining_mm = 1
caliper_mm = [[100, -2], [180, -2], [198, -10], [198, -50]]
"""


def job(text: str = JOB) -> Job:
    return hubwright.parse(text)


def judged(thickness_mm: float, text: str = JOB) -> Finding:
    found = job(text)
    assert found.rear is not None
    return brake.judge(found.rear, "left", house_of(found), thickness_mm)


def test_axial_room_is_spoke_minus_caliper_minus_new_linings_and_grows_with_the_disc() -> None:
    assert judged(0.0).working[0].text == "spokes: 7.0 mm"
    assert judged(5.0).working[0].text == "spokes: 12.0 mm"


def test_the_barrel_comes_down_on_the_caliper_as_the_wheel_moves_out() -> None:
    # The caliper ends at -50, the barrel begins to fall at -40 and meets 200 mm at -60: at -50 it is 210, at -55 it is 205.
    assert judged(0.0).working[1].text == "barrel: 12.0 mm"
    assert judged(5.0).working[1].text == "barrel: 7.0 mm"


def test_a_thick_disc_is_refused_and_a_thin_one_only_predicted() -> None:
    good, bad = judged(5.0), judged(25.0)
    assert (good.verdict, good.evidence) == (Verdict.PASS, Evidence.PREDICTED)
    assert bad.verdict is Verdict.FAIL and bad.margin_mm is not None and bad.margin_mm < 0


def test_a_weight_over_the_caliper_takes_its_thickness() -> None:
    text = JOB.replace("profile = [", "weight = [{ position_mm = -20, width_mm = 20, thickness_mm = 12 }]\nprofile = [")
    assert judged(0.0, text).working[1].text == "barrel: 10.0 mm"


def test_the_window_ends_where_the_verdict_turns() -> None:
    found = job()
    assert found.rear is not None
    house = house_of(found)
    window = brake.window_of(found.rear, "left", house)
    high = window.intervals[-1].high_mm
    assert high is not None and window.known
    assert judged(high).verdict is Verdict.PASS
    assert judged(high + 0.2).verdict is Verdict.FAIL


def test_a_feeler_goes_before_the_outlines() -> None:
    text = JOB.replace("new_lining_mm = 1", "axial_gap_mm = 4\nradial_gap_mm = 5\nramp_deg = 0")
    assert judged(0.0, text).evidence is Evidence.MEASURED


@pytest.mark.parametrize("gone", ["spoke back", "barrel"])
def test_without_one_of_the_lines_the_room_is_unknown(gone: str) -> None:
    lines = [line for line in JOB.splitlines() if f'"{gone}"' not in line]
    assert judged(0.0, "\n".join(lines)).verdict is Verdict.UNKNOWN
