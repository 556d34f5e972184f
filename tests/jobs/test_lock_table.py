"""Gaps at lock: left and right mirror each other, no disc changes nothing, a disc acts along the steered axis."""

from __future__ import annotations

import math

import pytest
from tests.web.conftest import ROOT

from hubwright.jobs.from_above import seen_from_above
from hubwright.jobs.jobfile import load
from hubwright.jobs.lock_table import LockGap, lock_views

JOB = load(ROOT / "examples" / "compact-front-lock.toml")


def gaps(thickness_mm: float) -> list[LockGap]:
    return [gap for view in lock_views(JOB, "front", thickness_mm) for gap in view.gaps]


def test_without_a_disc_every_gap_is_as_it_was_read() -> None:
    assert all(gap.gap_mm == gap.bare_mm for gap in gaps(0.0))


def test_a_disc_takes_its_share_along_the_steered_axis() -> None:
    """15 mm at 37 degrees: 9.03 mm fore and aft, 11.98 mm sideways."""
    for gap in gaps(15.0):
        share = math.sin(math.radians(37)) if gap.toward in ("forward", "rearward") else math.cos(math.radians(37))
        assert gap.bare_mm - gap.gap_mm == pytest.approx(15.0 * share, abs=0.03)


def test_left_and_right_mirror_each_other() -> None:
    found = lock_views(JOB, "front", 15.0)
    left = {(view.steer_deg, gap.point): gap.gap_mm for view in found if view.side == "left" for gap in view.gaps}
    right = {(-view.steer_deg, gap.point): gap.gap_mm for view in found if view.side == "right" for gap in view.gaps}
    assert left.keys() == right.keys()
    assert all(left[key] == pytest.approx(right[key]) for key in left)


def test_a_wheel_from_above_is_as_long_as_its_tyre_and_stands_by_its_inset() -> None:
    assert JOB.front is not None and JOB.front.fitted is not None
    section = seen_from_above(JOB.front.fitted)
    assert section is not None
    lengths, places = zip(*section, strict=True)
    assert max(lengths) == pytest.approx(-min(lengths))
    assert max(lengths) > 280
    assert min(places) < -100 < 0 < max(places) + 100
