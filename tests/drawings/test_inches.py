"""Scales of drawings speak the reader's unit."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from tests.jobs.trees import EXAMPLES

import hubwright
from hubwright.drawings.bands import words
from hubwright.drawings.frame import scale_bar
from hubwright.drawings.gapchart import gap_chart_svg, gap_table
from hubwright.drawings.marks import length_ticks
from hubwright.drawings.motion_charts import motion_svg
from hubwright.drawings.motion_rows import motion_rows
from hubwright.drawings.scene import Label, Stroke
from hubwright.drawings.section import section_svg
from hubwright.drawings.windows import windows_svg
from hubwright.findings import Interval
from hubwright.jobs.assess import assess
from hubwright.jobs.motion_table import motion_table
from hubwright.parts.job import Job
from hubwright.quantities.text import speaking

MILLIMETRES = re.compile(r"(?<![\d(])\b[\d.]+ mm\b(?!\))|, mm\b|\bin mm\b|mm per side")
"""A length in mm that is not the name of a disc, such as ``0.20 in (5 mm)``."""


def labels(svg: str) -> list[str]:
    return re.findall(r"<text[^>]*>([^<]*)</text>", svg)


def test_ticks_are_round_in_the_unit_spoken() -> None:
    assert [text for _, text in length_ticks(0, 25, 6)] == ["0", "5", "10", "15", "20", "25"]
    with speaking("inch"):
        found = length_ticks(0, 25.4, 6)
    assert [text for _, text in found] == ["0", "0.2", "0.4", "0.6", "0.8", "1"]
    assert found[-1][0] == pytest.approx(25.4)


def test_a_scale_bar_is_as_long_as_it_says() -> None:
    for system, factor in (("metric", 1.0), ("inch", 25.4)):
        with speaking("inch" if system == "inch" else "metric"):
            for px in (0.05, 0.2, 1.0, 2.5):
                items = scale_bar(0.0, 0.0, px)
                bar = next(item for item in items if isinstance(item, Stroke) and item.name == "scale bar")
                text = next(item.text for item in items if isinstance(item, Label))
                assert bar.points[1][0] == pytest.approx(float(text.split()[0]) * factor)
                assert text.endswith(" in" if system == "inch" else " mm")


def test_ranges_in_inches_are_rounded_to_the_safe_side() -> None:
    with speaking("inch"):
        assert words((Interval(13.0, 15.4),)) == "0.52 to 0.60 in"
    assert words((Interval(13.0, 15.4),)) == "13.0 to 15.4 mm"


@pytest.mark.parametrize(
    "drawn",
    [
        lambda job: windows_svg(assess(job).axle("rear").plan, 20.0, "Rear axle"),
        lambda job: gap_chart_svg(job, "rear", "right", 5.0, with_work=True),
        lambda job: section_svg(job, "rear", "left", 5.0),
        lambda job: section_svg(job, "rear", "left", 5.0, view="hub"),
    ],
    ids=["windows", "gaps", "corner", "hub"],
)
def test_no_label_of_a_drawing_is_in_mm_for_a_reader_of_inches(drawn: Callable[[Job], str], job: Job) -> None:
    with speaking("inch"):
        svg = drawn(job)
    assert [text for text in labels(svg) if MILLIMETRES.search(text)] == []
    assert any(re.search(r"\bin\b", text) for text in labels(svg))


def test_the_rows_of_a_chart_are_in_the_unit_of_their_heads(job: Job) -> None:
    metric = gap_table(job, "rear", "right", 5.0)
    with speaking("inch"):
        inch = gap_table(job, "rear", "right", 5.0)
    assert metric.columns[2] == "bare, mm"
    assert inch.columns[2] == "bare, in"
    for one, other in zip(metric.rows, inch.rows, strict=True):
        assert float(other[2]) * 25.4 == pytest.approx(float(one[2]), abs=0.2)


def test_the_motion_of_a_wheel_is_in_inches_for_a_reader_of_inches() -> None:
    table = motion_table(hubwright.load(EXAMPLES / "estate-full-data.toml"), "front", "left")
    with speaking("inch"):
        svg, rows = motion_svg(table), motion_rows(table)
    assert not [text for text in labels(svg) if text.endswith(", mm") or "mm;" in text]
    assert "half-track change, in" in labels(svg)
    assert "half-track change, in" in rows.columns
    metric = motion_rows(table)
    column = metric.columns.index("half-track change, mm")
    for one, other in zip(metric.rows, rows.rows, strict=True):
        assert float(other[column].replace("\u2212", "-")) * 25.4 == pytest.approx(
            float(one[column].replace("\u2212", "-")), abs=0.14
        )
