"""One package over the other: to scale, and the dimensions are the differences."""

from __future__ import annotations

import math
from collections.abc import Callable
from pathlib import Path
from xml.etree import ElementTree

import pytest

import hubwright
from hubwright.drawings.compare import compare_svg, package_svg
from hubwright.errors import BadInput
from hubwright.jobs.compare import compare_packages
from hubwright.parts.job import Job

Points = Callable[[str, str], list[list[tuple[float, float]]]]
OLD, NEW = "225/45R17 91W on 7.5Jx17 ET47", "235/40R18 95W on 8Jx18 ET45"
EXAMPLES = Path(__file__).resolve().parents[2] / "examples"


@pytest.fixture(scope="module")
def offered() -> Job:
    return hubwright.load(EXAMPLES / "estate-other-wheels.toml")


@pytest.mark.parametrize("disc_mm", [0.0, 5.0, 20.0])
def test_every_dimension_is_as_long_as_the_change_it_names(points_of: Points, disc_mm: float) -> None:
    svg = compare_svg(OLD, NEW, 0.0, disc_mm)
    change = compare_packages(OLD, NEW, disc_mm=disc_mm).change
    for name, wanted in (
        ("outer", change.outward_mm),
        ("inner", change.inward_mm),
        ("radius", change.radius_mm),
        ("centre plane", change.centre_plane_mm),
    ):
        (a, b) = points_of(svg, name)[0]
        assert math.dist(a, b) == pytest.approx(abs(wanted), abs=0.05), name


def test_both_tyres_are_drawn_at_their_own_radius_and_edges(points_of: Points) -> None:
    found = compare_packages(OLD, NEW)
    new, old = points_of(compare_svg(OLD, NEW), "tyre")
    for points, side in ((new, found.new), (old, found.old)):
        assert max(y for _, y in points) == pytest.approx(side.figures.overall_diameter_mm / 2, abs=0.02)
        assert max(x for x, _ in points) == pytest.approx(side.edges.outer_mm, abs=0.05)
        assert -min(x for x, _ in points) == pytest.approx(side.edges.inner_mm, abs=0.05)


def test_the_body_line_stands_as_far_off_as_the_answer_says(points_of: Points, offered: Job) -> None:
    answer = hubwright.assess(offered).axle("rear").packages[0]
    (a, b) = points_of(package_svg(offered, "rear", "left", 0), "stands")[0]
    assert math.dist(a, b) == pytest.approx(-answer.standing[0].poke_mm, abs=0.02)
    assert "tuck 25.2" in package_svg(offered, "rear", "left", 0)


def test_what_was_measured_on_the_wheel_is_drawn_and_the_schematic_barrel_is_not(
    points_of: Points, offered: Job
) -> None:
    svg = package_svg(offered, "rear", "left", 0)
    assert points_of(svg, "spoke")[0][0] == (32.0, 40.0)
    assert "schematic" not in svg and "schematic" in package_svg(offered, "rear", "left", 1)


def test_no_text_runs_out_of_the_picture(offered: Job) -> None:
    for svg in (compare_svg(OLD, NEW, 0, 5, 80.0), package_svg(offered, "rear", "right", 1)):
        root = ElementTree.fromstring(svg)
        left, _, width, _ = (float(part) for part in root.attrib["viewBox"].split())
        for text in root.iter("{http://www.w3.org/2000/svg}text"):
            long = 0.56 * float(text.attrib["font-size"]) * len(text.text or "")
            x, anchor = float(text.attrib["x"]), text.attrib["text-anchor"]
            start = x - {"start": 0.0, "middle": long / 2, "end": long}[anchor]
            assert left <= start and start + long <= left + width, text.text


def test_a_package_nobody_can_draw_up_becomes_a_sentence(offered: Job) -> None:
    job = hubwright.parse(
        (EXAMPLES / "estate-other-wheels.toml").read_text(encoding="utf-8").replace('rim = "8Jx18 ET45"\n', "")
    )
    assert "designation is missing" in package_svg(job, "rear", "left", 0)
    assert "says nothing about the front axle" in package_svg(offered, "front", "left", 0)


def test_bad_text_is_refused_by_its_piece() -> None:
    with pytest.raises(BadInput, match=r"tyre\.construction"):
        compare_svg("225/45Q17 on 7.5Jx17 ET47", NEW)
