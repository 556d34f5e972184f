"""Gaps beyond the readings: the calliper where it was used, else the sidewall by size and rim, else nothing."""

from __future__ import annotations

import numpy as np
import pytest

import hubwright
from hubwright.checks.gaps import GapCurve, curves_of
from hubwright.checks.half_widths import MEMBRANE_DOUBT_MM
from hubwright.checks.outlines import built
from hubwright.engineering.tyrewheel.surface import half_width_mm
from hubwright.findings import Evidence
from hubwright.parts.wheel import Tyre, Wheel

JOB = """\
hubwright_job = 1
title = "x"
[request]
use = "street"
[rear]
bump_travel_mm = 70
motion = [{ travel_mm = 0, camber_deg = 0, half_track_mm = 0 }, { travel_mm = 70, camber_deg = 0, half_track_mm = 0 }]
[[rear.wheel_set]]
role = "fitted"
wheel = { rim = "8Jx18", inset_mm = 45 }
tyre = { designation = "235/40R18 95W", TYRE }
[[rear.left.point]]
name = "lip"
room = "outside"
height_mm = 305
u_mm = 1
reading = [READINGS]
"""
PARKED = "{ travel_mm = 0, gap_mm = 30 }"
BOTH = f"{PARKED}, {{ travel_mm = 70, gap_mm = 28 }}"


def curve(readings: str = PARKED, tyre: str = "section_width_mm = 239", text: str = JOB) -> GapCurve:
    job = hubwright.parse(text.replace("TYRE", tyre).replace("READINGS", readings))
    assert job.rear is not None
    return curves_of(job.rear, "left", job.rear.left.point[0], 60.0)[0]


def test_a_parked_gap_is_carried_to_full_bump_by_the_outline_of_the_tyre() -> None:
    found = curve(tyre="section_width_mm = { value = 239, u = 0.5 }")
    tyre = built(Wheel(rim="8Jx18 ET45"), Tyre(designation="235/40R18 95W", section_width_mm=reading(239))).tyre
    wanted = 30.0 - (half_width_mm(tyre, 305.0 - found.travel_mm) - half_width_mm(tyre, 305.0))
    assert found.travel_mm[-1] >= 53.0
    inside = 305.0 - found.travel_mm >= tyre.carcass.bead_radius_mm
    assert np.allclose(found.gap_mm[inside], wanted[inside], atol=1e-9)
    assert found.gap_mm.min() < 20.0 < found.gap_mm[-1]


def reading(value: float) -> object:
    from hubwright.quantities.reading import Reading

    return Reading((value,))


def test_what_the_outline_carries_is_predicted_and_says_that_it_is_a_guess() -> None:
    found = curve()
    assert found.evidence[0] is Evidence.MEASURED and set(found.evidence[20:]) == {Evidence.PREDICTED}
    assert "guess" in found.model and "tread width" in found.model
    assert found.doubt_mm[-1] >= np.hypot(1.0, MEMBRANE_DOUBT_MM)


def test_a_section_nobody_read_costs_more_doubt() -> None:
    assert curve(tyre="free_radius_mm = 322").doubt_mm[-1] > curve().doubt_mm[-1] + 0.5


def test_readings_are_met_whatever_the_outline_says() -> None:
    found = curve(BOTH)
    assert np.interp([0.0, 70.0], found.travel_mm, found.gap_mm) == pytest.approx([30.0, 28.0])
    middle = found.evidence[len(found.evidence) // 2]
    assert middle is Evidence.PREDICTED


def test_half_widths_over_the_whole_travel_go_before_the_outline() -> None:
    halves = "half_width = [{ radius_mm = 305, half_width_mm = 108 }, { radius_mm = 235, half_width_mm = 104 }]"
    assert curve(tyre=halves).model == "local half width, camber and half-track by travel"


def test_half_widths_over_a_part_bend_the_outline() -> None:
    halves = "half_width = [{ radius_mm = 305, half_width_mm = 109 }, { radius_mm = 280, half_width_mm = 119 }]"
    found = curve(tyre=halves)
    assert "membrane" in found.model
    at_25 = float(np.interp(25.0, found.travel_mm, found.gap_mm))
    assert at_25 == pytest.approx(30.0 - (119 - 109))


@pytest.mark.parametrize(
    "change",
    [("235/40R18 95W", "nonsense"), ('rim = "8Jx18"', 'rim = "8Jx17"'), ("height_mm = 305", "height_mm = 340")],
)
def test_without_an_outline_at_the_height_of_the_point_nothing_is_carried(change: tuple[str, str]) -> None:
    found = curve(text=JOB.replace(*change))
    assert found.travel_mm.tolist() == [0.0]
    assert "straight lines" in found.model
