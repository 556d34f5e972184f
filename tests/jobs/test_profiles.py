"""Wheel profiles: points in the job, in a CSV, in a DXF drawing made by another library."""

from __future__ import annotations

import math
from io import StringIO
from itertools import pairwise
from pathlib import Path

import ezdxf
import numpy as np
import pytest
from ezdxf.document import Drawing

from hubwright.engineering.tyrewheel.wheel import barrel_radius_mm
from hubwright.errors import BadInput
from hubwright.jobs.jobfile import load, parse
from hubwright.jobs.profiles import read_profile_dxf, read_profile_file
from hubwright.parts.job import Job

Points = tuple[tuple[float, float], ...]
BARREL: Points = ((219.0, 60.0), (219.0, 30.0), (203.0, 14.0), (203.0, -20.0), (217.0, -34.0), (217.0, -140.0))
JOB = """\
hubwright_job = 1
title = "x"
[request]
use = "street"
[[rear.wheel_set]]
role = "fitted"
[rear.wheel_set.wheel]
rim = "8Jx18"
profile = [{ part = "barrel", PLACE }]
"""


def job_file(folder: Path, place: str) -> Path:
    path = folder / "job.toml"
    path.write_text(JOB.replace("PLACE", place), encoding="utf-8")
    return path


def points_of(job: Job) -> Points:
    assert job.rear is not None
    points = job.rear.wheel_set[0].wheel.profile[0].points_mm
    assert points is not None
    return points


def same(found: Points, wanted: Points) -> bool:
    return len(found) == len(wanted) and bool(np.allclose(found, wanted, atol=1e-6))


def drawing(unit: int = 4) -> Drawing:
    made = ezdxf.new("R2010")
    made.header["$INSUNITS"] = unit
    return made


def data(made: Drawing) -> bytes:
    stream = StringIO()
    made.write(stream)
    return stream.getvalue().encode("utf-8")


def test_points_in_the_job_are_read_in_mm_and_in_inches() -> None:
    assert points_of(parse(JOB.replace("PLACE", "points_mm = [[219, 60], [217, -140]]"))) == ((219, 60), (217, -140))
    inches = points_of(parse(JOB.replace("PLACE", "points_in = [[8, 2], [8, -5.5]]")))
    assert inches == (pytest.approx((203.2, 50.8)), pytest.approx((203.2, -139.7)))


def test_a_csv_beside_the_job_is_read(tmp_path: Path) -> None:
    lines = ["rho_mm,y_mm", *(f"{rho},{y}" for rho, y in BARREL)]
    (tmp_path / "barrel.csv").write_text("\n".join(lines), encoding="utf-8")
    assert points_of(load(job_file(tmp_path, 'file = "barrel.csv"'))) == BARREL


@pytest.mark.parametrize("backwards", [False, True])
def test_a_polyline_comes_back_as_it_was_drawn_from_outboard_to_inboard(backwards: bool) -> None:
    made = drawing()
    made.modelspace().add_lwpolyline(BARREL[::-1] if backwards else BARREL)
    assert same(read_profile_dxf(data(made), "x.dxf"), BARREL)


def test_loose_lines_drawn_in_any_order_and_direction_become_one_chain() -> None:
    made, pairs = drawing(), list(pairwise(BARREL))
    for number in (3, 0, 4, 1, 2):
        start, end = pairs[number] if number % 2 else pairs[number][::-1]
        made.modelspace().add_line(start, end)
    assert same(read_profile_dxf(data(made), "x.dxf"), BARREL)


def test_a_drawing_in_inches_comes_back_in_mm() -> None:
    made = drawing(unit=1)
    made.modelspace().add_lwpolyline([(rho / 25.4, y / 25.4) for rho, y in BARREL])
    assert same(read_profile_dxf(data(made), "x.dxf"), BARREL)


def test_an_arc_stays_within_a_hundredth_of_its_circle() -> None:
    made = drawing()
    made.modelspace().add_arc((200.0, 0.0), 30.0, -90.0, 90.0)
    points = read_profile_dxf(data(made), "x.dxf")
    middles = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in pairwise(points)]
    assert max(abs(math.dist(middle, (200.0, 0.0)) - 30.0) for middle in middles) <= 0.0101
    assert points[0] == pytest.approx((200.0, 30.0)) and points[-1] == pytest.approx((200.0, -30.0))


def test_only_the_layer_asked_for_is_read(tmp_path: Path) -> None:
    made = drawing()
    made.modelspace().add_lwpolyline(BARREL, dxfattribs={"layer": "BARREL"})
    made.modelspace().add_line((0, 0), (50, 0), dxfattribs={"layer": "NOTES"})
    (tmp_path / "wheel.dxf").write_bytes(data(made))
    points = points_of(load(job_file(tmp_path, 'file = "wheel.dxf", layer = "BARREL"')))
    assert same(points, BARREL)
    assert barrel_radius_mm(points, 22.0) == pytest.approx(211.0)
    with pytest.raises(BadInput, match="2 apart"):
        load(job_file(tmp_path, 'file = "wheel.dxf"'))
    with pytest.raises(BadInput, match="layers BARREL, NOTES"):
        load(job_file(tmp_path, 'file = "wheel.dxf", layer = "RIM"'))


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("gone.csv", "gone.csv"),
        ("../outside.csv", "beside the job file"),
        ("/outside.csv", "beside the job file"),
        ("wheel.step", "csv or .dxf"),
        ("broken.dxf", "a DXF drawing"),
        ("broken.csv", "line 3"),
    ],
)
def test_a_file_that_cannot_be_used_is_refused_with_its_line_in_the_job(tmp_path: Path, name: str, words: str) -> None:
    folder = tmp_path / "jobs"
    folder.mkdir()
    (tmp_path / "outside.csv").write_text("rho_mm,y_mm\n1,2\n3,4\n", encoding="utf-8")
    (folder / "wheel.step").write_text("x", encoding="utf-8")
    (folder / "broken.dxf").write_text("no drawing", encoding="utf-8")
    (folder / "broken.csv").write_text("rho_mm,y_mm\n1,2\n3,x\n", encoding="utf-8")
    with pytest.raises(BadInput, match=words) as caught:
        load(job_file(folder, f'file = "{name}"'))
    assert caught.value.faults[0].line == 9
    assert caught.value.faults[0].field.endswith("profile[1].file")


def test_a_link_that_leads_out_of_the_folder_is_not_followed(tmp_path: Path) -> None:
    folder = tmp_path / "jobs"
    folder.mkdir()
    (tmp_path / "outside.csv").write_text("rho_mm,y_mm\n1,2\n3,4\n", encoding="utf-8")
    (folder / "link.csv").symlink_to(tmp_path / "outside.csv")
    with pytest.raises(BadInput, match="beside the job file"):
        read_profile_file(folder, "link.csv")


def test_a_job_that_came_as_text_is_asked_for_its_points() -> None:
    with pytest.raises(BadInput, match="without a folder"):
        parse(JOB.replace("PLACE", 'file = "barrel.csv"'))


def test_a_section_drawn_on_both_sides_of_the_axis_is_refused() -> None:
    made = drawing()
    made.modelspace().add_line((-100, 0), (100, 0))
    with pytest.raises(BadInput, match="one half of the section"):
        read_profile_dxf(data(made), "x.dxf")


def test_stiffness_in_newtons_per_mm_has_no_inch_spelling() -> None:
    text = JOB.replace("PLACE", "points_mm = [[219, 60], [217, -140]]") + "[rear.wheel_set.tyre]\n"
    job = parse(text + "vertical_stiffness_n_mm = 230\n")
    assert job.rear is not None and job.rear.wheel_set[0].tyre.vertical_stiffness_n_mm == 230
    with pytest.raises(BadInput, match="vertical_stiffness_n_in"):
        parse(text + "vertical_stiffness_n_in = 230\n")


@pytest.mark.parametrize(
    ("points", "faults"),
    [
        ("[[219, 60]]", ["points_mm: wanted two points or more; given a list of 1"]),
        ("[[219, 60, 1], [217, -140]]", ["points_mm[1]: wanted at most 2 of them; given a list of 3"]),
        (
            "[[-1, 60], [217, 'x']]",
            ["points_mm[1][1]: wanted at least 0", "points_mm[2][2]: wanted a number; given 'x'"],
        ),
    ],
)
def test_points_that_are_none_are_named_one_by_one(points: str, faults: list[str]) -> None:
    with pytest.raises(BadInput) as caught:
        parse(JOB.replace("PLACE", f"points_mm = {points}"))
    said = [str(fault) for fault in caught.value.faults]
    assert len(said) == len(faults) and all(words in text for words, text in zip(faults, said, strict=True)), said
