"""Fasteners drawn to scale: what is drawn is what was read, at every length."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from tests.web.conftest import ROOT

from hubwright.drawings.adapterview import adapter_svg
from hubwright.drawings.boltview import fastener_svg
from hubwright.drawings.lengths_chart import lengths_svg
from hubwright.jobs.fastener_table import FastenerTable, fastener_table
from hubwright.jobs.jobfile import load
from hubwright.jobs.trying import tried
from hubwright.parts.hub import Hub
from hubwright.quantities.reading import Reading


def table(name: str, thickness_mm: float) -> FastenerTable:
    job = load(ROOT / "examples" / f"{name}.toml")
    return fastener_table(job, "rear", tried(job, thickness_mm).disc)


def along(svg: str, part: str) -> tuple[float, float]:
    """First and last place of a part along the axis, mm from the seating face."""
    xs = [
        float(x)
        for path in re.findall(rf'd="M([^"]*?)Z?"[^>]*data-part="{part}"', svg)
        for x in re.findall(r"(-?[\d.]+) -?[\d.]+", path)
    ]
    return min(xs), max(xs)


@pytest.mark.parametrize("length_mm", [27.0, 33.0, 50.0])
def test_the_tip_of_a_bolt_is_drawn_as_deep_as_it_engages(length_mm: float) -> None:
    answer = table("hatchback-rear-flush", 5).joints[0]
    row = next(one for one in answer.rows if one.length_mm == length_mm)
    svg = fastener_svg(answer, row, 5.0)
    assert along(svg, "bolt")[0] == pytest.approx(-row.engaged_mm, abs=1e-3)
    low, high = along(svg, "thread in use")
    assert high - low == pytest.approx(min(row.engaged_mm, 15.0), abs=1e-3)  # the flange has 15 mm of thread
    assert along(svg, "disc") == pytest.approx((0.0, 5.0))
    assert along(svg, "what stands behind")[1] == pytest.approx(-15.0 - 4.0)


def test_a_stud_ends_in_its_nut_where_the_readings_say() -> None:
    answer = table("saloon-studs", 5).joints[0]
    row = answer.rows[0]
    svg = fastener_svg(answer, row, 5.0)
    assert along(svg, "stud")[1] == pytest.approx(38.0 - 6.5)
    assert along(svg, "closed end")[0] == pytest.approx(5.0 + 11.0 + 24.0)
    low, high = along(svg, "thread in use")
    assert (low, high - low) == pytest.approx((16.0, 14.0))


def test_an_adapter_shows_web_proud_stud_and_pocket_to_scale() -> None:
    alloy, spare = table("off-roader-adapter", 25).joints
    assert alloy.adapter is not None and spare.adapter is not None
    svg = adapter_svg(alloy.adapter, alloy.title)
    assert along(svg, "original stud")[1] == pytest.approx(33.0)
    assert along(svg, "inner nut") == pytest.approx((12.0, 25.0))
    assert "it cannot be mounted" in adapter_svg(spare.adapter, spare.title)


def test_every_length_within_reach_has_its_mark_on_the_scale() -> None:
    answer = table("hatchback-rear-flush", 5).joints[0]
    svg = lengths_svg(answer)
    assert svg.count('data-part="refused"') == 3  # 27, 28 and 35 mm
    assert svg.count('data-part="caution"') == 1
    assert svg.count('data-part="valid"') == 1
    assert "Off the scale: 38, 40, 43, 45, 48, 50 mm." in svg


def test_hubs_that_differ_from_side_to_side_are_shown_apart() -> None:
    assert [joint.side for joint in table("hatchback-rear-flush", 5).joints] == ["both"]
    job = load(ROOT / "examples" / "hatchback-rear-flush.toml")
    assert job.rear is not None
    own = replace(job.rear.left, hub=Hub(flange_thickness_mm=Reading((12.0,))))
    other = replace(job, rear=replace(job.rear, left=own))
    found = fastener_table(other, "rear", tried(other, 5).disc)
    assert [joint.side for joint in found.joints] == ["left", "right"]
    assert [joint.most_mm for joint in found.joints] == [13.0, 16.0]
