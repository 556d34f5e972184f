"""The section is to scale, says what is not known, and is the same every time."""

from __future__ import annotations

import copy
import math
from collections.abc import Callable
from typing import Any
from xml.etree import ElementTree

import pytest

from hubwright.checks.clearance import room_of
from hubwright.checks.house import house_of
from hubwright.drawings.corner import axle_of
from hubwright.drawings.outline import outline_of
from hubwright.drawings.places import places_of, surface_mm
from hubwright.drawings.section import section_scene, section_svg, section_table
from hubwright.drawings.table import table_html
from hubwright.errors import OutsideValidity
from hubwright.jobs.jobfile import adapter
from hubwright.parts.job import Job

Points = Callable[[str, str], list[list[tuple[float, float]]]]


def distance(points: list[tuple[float, float]]) -> float:
    return math.dist(points[0], points[-1])


@pytest.mark.parametrize(
    ("view", "name", "mm"),
    [
        ("corner", "section width", 239.0),
        ("corner", "inset", 45.0),
        ("corner", "lip height", 318.0),
        ("corner", "gap B", 11.5),
        ("corner", "gap A", 26.0),
        ("hub", "disc", 0.0),
        ("hub", "spigot length", 12.5),
        ("hub", "pilot left", 4.5),
        ("hub", "chamfer", 3.0),
    ],
)
def test_a_mm_of_the_car_is_a_mm_of_the_drawing(job: Job, points_of: Points, view: Any, name: str, mm: float) -> None:
    svg = section_svg(job, "rear", "right", 5, with_work=True, view=view)
    lengths = [distance(points) for points in points_of(svg, name)]
    if name == "disc":
        xs = [x for points in points_of(svg, name) for x, _ in points]
        lengths, mm = [max(xs) - min(xs)], 5.0
    assert min(abs(length - mm) for length in lengths) < 0.06


def test_the_gap_drawn_ends_on_the_tyre(job: Job, points_of: Points) -> None:
    svg = section_svg(job, "rear", "right", 5, with_work=True)
    outer = [spot for piece in points_of(svg, "tyre, outer side") for spot in piece]
    for name in ("gap A", "gap B"):
        end = points_of(svg, name)[0][-1]
        below = max((spot for spot in outer if spot[1] <= end[1]), key=lambda spot: spot[1])
        above = min((spot for spot in outer if spot[1] >= end[1]), key=lambda spot: spot[1])
        share = (end[1] - below[1]) / (above[1] - below[1])
        assert below[0] + share * (above[0] - below[0]) == pytest.approx(end[0], abs=0.15)


@pytest.mark.parametrize("thickness", [0.0, 5.0, 20.0])
def test_the_wheel_moves_outboard_by_the_disc_and_the_bodywork_stays(
    job: Job, points_of: Points, thickness: float
) -> None:
    bare, moved = (section_svg(job, "rear", "right", t) for t in (0.0, thickness))
    camber = math.radians(1.667)
    for (x0, y0), (x1, y1) in zip(points_of(bare, "tread")[0], points_of(moved, "tread")[0], strict=True):
        assert x1 - x0 == pytest.approx(thickness * math.cos(camber), abs=2e-3)
        assert y1 - y0 == pytest.approx(thickness * math.sin(camber), abs=2e-3)
    lip = "arch lip, parked"
    assert points_of(bare, lip) == points_of(moved, lip)


def test_left_is_the_mirror_of_right_where_the_readings_agree(tree: dict[str, Any], points_of: Points) -> None:
    same = copy.deepcopy(tree)
    same["rear"]["left"] = same["rear"]["right"]
    job = adapter().validate_python(same)
    left, right = (section_svg(job, "rear", side, 5) for side in ("left", "right"))
    for name in ("tyre", "disc", "arch lip, parked", "spigot"):
        for one, other in zip(points_of(left, name), points_of(right, name), strict=True):
            assert one == [(pytest.approx(-x, abs=2e-3), pytest.approx(y)) for x, y in other]


def test_the_paper_width_is_a_usual_scale_of_the_view(job: Job) -> None:
    scene = section_scene(job, "rear", "right", 5)
    assert scene.paper_mm is not None
    factor = scene.paper_mm / (scene.right - scene.left)
    assert factor in (pytest.approx(0.4), pytest.approx(0.5))
    assert "Scale 1:2" in section_svg(job, "rear", "right", 5)


def test_a_point_on_an_upright_wheel_stands_the_gap_beyond_the_half_width(tree: dict[str, Any]) -> None:
    upright = copy.deepcopy(tree)
    upright["rear"]["motion"] = [{**item, "camber_deg": 0.0} for item in upright["rear"]["motion"]]
    job = adapter().validate_python(upright)
    axle = axle_of(job, "rear")
    assert axle is not None
    outline = outline_of(axle.fitted)
    room = room_of(axle, "right", house_of(job), steered=False, with_work=False)
    places, left_out = places_of(axle, room, outline, 0.0)
    parked = next(place for place in places if place.parked)
    assert parked.at == (pytest.approx(104 + 24 - 45), pytest.approx(318))
    assert left_out == ()


def test_a_leaning_tyre_stands_out_by_its_half_width_and_its_lean(job: Job) -> None:
    outline = outline_of(job.rear.fitted if job.rear else None)
    upright, leaning = (surface_mm(outline, 272.0, camber, 1.0) for camber in (0.0, -2.369))
    assert upright == pytest.approx(119.5, abs=0.05)
    assert leaning - upright == pytest.approx(-272 * math.sin(math.radians(2.369)), abs=0.3)


def test_what_is_not_measured_is_named_and_not_given_a_figure(tree: dict[str, Any]) -> None:
    bare = copy.deepcopy(tree)
    del bare["rear"]["wheel_set"][0]["wheel"]["inset_mm"]
    del bare["rear"]["hub"]["spigot_length_mm"]
    job = adapter().validate_python(bare)
    corner = section_svg(job, "rear", "right", 5)
    assert "Not measured: inset." in corner
    assert 'data-part="inset"' not in corner
    close = section_svg(job, "rear", "right", 5, view="hub")
    assert 'data-part="spigot length"' not in close and "pilot left" not in close
    rows = {row[0]: row[1:] for row in section_table(job, "rear", "right", 5).rows}
    assert rows["inset"] == rows["spigot length"] == ("not measured", "not measured")


def test_a_screen_reader_hears_title_description_and_a_table(job: Job) -> None:
    svg = section_svg(job, "rear", "right", 5, with_work=True)
    root = ElementTree.fromstring(svg)
    named = {element.get("id"): "".join(element.itertext()) for element in root[:2]}
    assert root.get("role") == "img"
    assert [bool(named[name]) for name in root.attrib["aria-labelledby"].split()] == [True, True]
    assert "bump 46 mm, least margin: 11.5 mm of air, 11.0 mm needed" in " ".join(named.values())
    html = table_html(section_table(job, "rear", "right", 5, with_work=True))
    assert '<th scope="row">pilot left in the wheel</th><td>4.5 mm</td>' in html


def test_a_side_and_a_point_of_view_are_said(job: Job) -> None:
    assert "← outboard" in section_svg(job, "rear", "left", 5)
    assert "outboard →" in section_svg(job, "rear", "right", 5)
    assert "seen from behind" in section_svg(job, "rear", "right", 5)


def test_an_axle_the_job_does_not_know_gives_a_picture_that_says_so(job: Job) -> None:
    assert "says nothing about the front axle" in section_svg(job, "front", "left", 5)


@pytest.mark.parametrize("thickness", [-1.0, 151.0, math.nan, math.inf])
def test_a_thickness_no_disc_has_is_refused(job: Job, thickness: float) -> None:
    with pytest.raises(OutsideValidity):
        section_svg(job, "rear", "left", thickness)
