"""The bars and bands of the drawing are the intervals of the plan."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hubwright.drawings.bands import bands_of, common, words
from hubwright.drawings.windows import EDGE_PX, LEFT_PX, SCREEN, windows_svg, windows_table
from hubwright.findings import Interval, Window
from hubwright.jobs.answer import PlanAnswer
from hubwright.jobs.assess import assess
from hubwright.parts.job import Job

Points = Callable[[str, str], list[list[tuple[float, float]]]]
MM_PER_PX = 35.0 / (SCREEN.width_px - EDGE_PX - LEFT_PX)


@pytest.fixture(scope="module")
def plans(job: Job) -> tuple[PlanAnswer, ...]:
    return assess(job).axle("rear").plans


def spans(points: list[list[tuple[float, float]]]) -> list[tuple[float, float]]:
    found = [[(x - LEFT_PX) * MM_PER_PX for x, _ in piece] for piece in points]
    return [(min(xs), max(xs)) for xs in found]


def test_bars_stand_where_the_intervals_are(plans: tuple[PlanAnswer, ...], points_of: Points) -> None:
    svg = windows_svg(plans[1], 20.0)
    assert spans(points_of(svg, "pass-clearance, right")) == [(0.0, pytest.approx(5.50, abs=0.01))]
    fastener = next(window for window in plans[1].windows if window.question == "fastener")
    drawn = spans(points_of(svg, "pass-fastener, both sides"))
    for (low, high), interval in zip(drawn, fastener.intervals, strict=True):
        assert (low, high) == (pytest.approx(interval.low_mm, abs=0.01), pytest.approx(interval.high_mm, abs=0.01))


def test_the_band_is_what_every_row_lets_pass(plans: tuple[PlanAnswer, ...], points_of: Points) -> None:
    drawn = spans(points_of(windows_svg(plans[1], 20.0), "band-plain"))
    assert drawn == [(0.0, pytest.approx(2.5, abs=0.01)), (pytest.approx(3.5, abs=0.01), pytest.approx(5.5, abs=0.01))]


def test_no_band_is_drawn_where_nothing_passes(plans: tuple[PlanAnswer, ...]) -> None:
    svg = windows_svg(plans[0], 20.0)
    assert 'data-part="band-plain"' not in svg
    assert "nothing passes everything" in svg and "✕ no thickness passes" in svg


def test_the_wish_and_the_recommended_disc_are_marked_on_the_scale(
    plans: tuple[PlanAnswer, ...], points_of: Points
) -> None:
    svg = windows_svg(plans[1], 20.0)
    assert spans(points_of(svg, "asked for"))[0][0] == pytest.approx(20.0, abs=0.01)
    assert spans(points_of(svg, "recommended"))[0][0] == pytest.approx(5.0, abs=0.01)


def test_every_disc_has_its_verdict_in_words(plans: tuple[PlanAnswer, ...]) -> None:
    svg = windows_svg(plans[1], 20.0)
    assert "valid: 5 mm plain" in svg and "caution: 3 mm plain" in svg and "refused: 8 mm plain" in svg
    rows = {row[0]: row[1] for row in windows_table(plans[1]).rows}
    assert rows["disc 5 mm plain"] == "valid" and rows["disc 8 mm plain"] == "refused"
    assert rows["clearance, right"] == "0 to 5.5 mm"


def test_a_missing_reading_never_looks_like_a_pass() -> None:
    windows = (Window("clearance", "any", "left", (Interval(0.0, 8.0),), known=False),)
    plan = PlanAnswer((), (), windows, (), None, None, None, (), "")
    svg = windows_svg(plan)
    assert 'data-part="pass-' not in svg and "? reading missing" in svg and "not known yet" in svg
    assert not bands_of(windows, ["plain"])[0].settled


def test_intervals_are_rounded_to_the_safe_side() -> None:
    assert words((Interval(0.0, 2.59), Interval(3.51, None))) == "0 to 2.5 and from 3.6 mm"


ENDS = st.one_of(st.none(), st.integers(-5, 40).map(float))
SETS = st.lists(st.tuples(ENDS, ENDS).map(lambda ends: Interval(*ends)), max_size=4)


@given(SETS, SETS, st.integers(-10, 90).map(lambda half: half / 2))
def test_what_two_sets_share_is_what_both_hold(first: list[Interval], second: list[Interval], at_mm: float) -> None:
    both = any(one.holds(at_mm) for one in first) and any(one.holds(at_mm) for one in second)
    assert any(interval.holds(at_mm) for interval in common(first, second)) == both
