"""The chart shows the curves the verdicts rest on."""

from __future__ import annotations

import copy
from collections.abc import Callable
from typing import Any
from xml.etree import ElementTree

import pytest

from hubwright.drawings.gapchart import PLOT_PX, gap_chart_svg, gap_table
from hubwright.jobs.jobfile import adapter
from hubwright.parts.job import Job

Points = Callable[[str, str], list[list[tuple[float, float]]]]


def circles(svg: str, name: str) -> list[tuple[float, float]]:
    root = ElementTree.fromstring(svg)
    found = [item for item in root.iter("{http://www.w3.org/2000/svg}circle") if item.get("data-part") == name]
    return [(float(item.attrib["cx"]), -float(item.attrib["cy"])) for item in found]


def test_the_disc_lowers_the_curve_by_its_thickness_and_the_ring_sits_on_its_lowest_place(
    job: Job, points_of: Points
) -> None:
    svg = gap_chart_svg(job, "rear", "right", 5, with_work=True)
    bare, fitted = points_of(svg, "bare")[0], points_of(svg, "with disc")[0]
    needed = points_of(svg, "needed")[0]
    px_per_mm = (bare[0][1] - fitted[0][1]) / (5 * 0.99958)
    assert (bare[0][1] - needed[0][1]) / px_per_mm == pytest.approx(31.0 - 11.0, abs=0.01)
    assert circles(svg, "pinch")[0] == min(fitted, key=lambda spot: spot[1])
    assert bare[0][1] - bare[-1][1] < PLOT_PX


def test_the_pinch_and_the_shortfall_are_in_words(job: Job) -> None:
    assert "pinch 11.5 mm" in gap_chart_svg(job, "rear", "right", 5, with_work=True)
    assert "21.5 mm short" in gap_chart_svg(job, "rear", "right", 20)
    rows = gap_table(job, "rear", "right", 20).rows
    assert ("arch lip, inner edge", "bump 46 mm (read)", "9.5", "−10.5", "11.0", "−21.5") in rows


def test_readings_carry_bars_of_their_doubt(job: Job) -> None:
    svg = gap_chart_svg(job, "rear", "right", 5)
    assert svg.count('data-part="reading"') == 3
    assert "read 24.0 mm ± 1.0 mm" in svg


def test_several_points_are_numbered(tree: dict[str, Any]) -> None:
    more = copy.deepcopy(tree)
    inside = {"name": "strut", "room": "inside", "kind": "carried", "reading": [{"travel_mm": 0, "gap_mm": 12}]}
    more["rear"]["right"]["point"] = [*more["rear"]["right"]["point"], inside]
    svg = gap_chart_svg(adapter().validate_python(more), "rear", "right", 5)
    assert 'data-part="point-2"' in svg and "2 strut: least" in svg


def test_a_corner_without_readings_says_so(tree: dict[str, Any]) -> None:
    bare = copy.deepcopy(tree)
    del bare["rear"]["left"]["point"]
    assert "No gap was read on the rear left" in gap_chart_svg(adapter().validate_python(bare), "rear", "left", 5)
