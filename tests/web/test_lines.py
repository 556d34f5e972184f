"""Edges, outlines and curves: each row goes into the job as it is read; what is wrong is told and nothing is stored."""

from __future__ import annotations

from typing import Any

import pytest
from tests.web.conftest import Page, example, words_of

from hubwright.jobs.jobfile import parse
from hubwright.parts.corner import Corner
from hubwright.store.cupboard import Cupboard

LIP = ((-40, 342, 58), (0, 349, 70), (45, 343, 60))


def row(page: Page, job_id: str, at: str, *cells: dict[str, Any], **more: Any) -> Any:
    fields = {f"c{number}:{key}": text for number, one in enumerate(cells) for key, text in one.items()}
    return page.form(f"/jobs/{job_id}/lines/rear", {"what": "row", "at": at, **fields, **more})


def lip(page: Page, job_id: str) -> None:
    for number, (clock, radius, outboard) in enumerate(LIP):
        at = "clock|right.line[1]" if number else "clock|right.line[+]"
        name = {} if number else {"v:rear.right.line[+].name": "arch lip"}
        cells = {"clock_deg": clock, "radius_mm": radius, "outboard_mm": outboard}
        assert row(page, job_id, at, cells, **name).status_code == 303


def right(cupboard: Cupboard, job_id: str) -> Corner:
    axle = parse(cupboard.job(job_id).text).rear
    assert axle is not None
    return axle.right


def test_an_edge_grows_row_by_row_and_each_row_is_a_revision(page: Page, cupboard: Cupboard, job_id: str) -> None:
    lip(page, job_id)
    edge = right(cupboard, job_id).line[0]
    assert (edge.name, tuple(zip(edge.clock_deg, edge.radius_mm, edge.outboard_mm, strict=True))) == ("arch lip", LIP)
    assert cupboard.job(job_id).revision == 1 + len(LIP)
    shown = page.get(f"/jobs/{job_id}/lines/rear", params={"at": "clock|right.line[1]"})
    assert shown.text.count('data-part="row"') == 2 * len(LIP)  # from outside and from behind


def test_a_row_can_be_changed_put_between_and_taken_out(page: Page, cupboard: Cupboard, job_id: str) -> None:
    lip(page, job_id)
    at, base = "clock|right.line[1]", {"base": 4}
    row(page, job_id, at, {"clock_deg": "-20", "radius_mm": "346", "outboard_mm": "66"}, place=2)
    assert right(cupboard, job_id).line[0].clock_deg == (-40, -20, 0, 45)
    row(page, job_id, at, {"clock_deg": "0", "radius_mm": "350,5", "outboard_mm": "70"}, row=3, base=5)
    assert right(cupboard, job_id).line[0].radius_mm == (342, 346, 350.5, 343)
    page.form(f"/jobs/{job_id}/lines/rear", {"what": "drop", "at": at, "row": 1, "base": 6})
    assert right(cupboard, job_id).line[0].clock_deg == (-20, 0, 45)
    page.form(f"/jobs/{job_id}/lines/rear", {"what": "out", "at": at, **base, "base": 7})
    assert right(cupboard, job_id).line == ()


def test_two_people_who_add_rows_to_one_edge_both_have_them_in_it(page: Page, cupboard: Cupboard, job_id: str) -> None:
    lip(page, job_id)
    for clock in (60, 75):  # both saw revision 4
        row(page, job_id, "clock|right.line[1]", {"clock_deg": clock, "radius_mm": 340, "outboard_mm": 50}, base=4)
    assert right(cupboard, job_id).line[0].clock_deg == (-40, 0, 45, 60, 75)
    assert cupboard.asides(job_id) == ()


def test_a_row_sent_twice_arrives_once(page: Page, cupboard: Cupboard, job_id: str) -> None:
    lip(page, job_id)
    for _ in range(2):
        cells = {"clock_deg": 60, "radius_mm": 340, "outboard_mm": 50}
        answer = row(page, job_id, "clock|right.line[1]", cells, key="k" * 32)
        assert answer.status_code == 303
    assert right(cupboard, job_id).line[0].clock_deg == (-40, 0, 45, 60)


def test_everything_wrong_with_a_row_is_told_at_its_box(page: Page, cupboard: Cupboard, job_id: str) -> None:
    answer = row(page, job_id, "clock|right.line[+]", {"clock_deg": "400", "radius_mm": "", "outboard_mm": "6x"})
    assert answer.status_code == 422
    words = words_of(answer)
    assert "wanted a number from -360 ° to 360 °; given 400" in words.replace("\u2212", "-")
    assert "wanted a figure; given nothing" in words
    assert "given 6x" in words
    assert 'value="400"' in answer.text
    assert cupboard.job(job_id).revision == 1


def test_the_first_two_points_of_an_outline_go_in_together(page: Page, cupboard: Cupboard, job_id: str) -> None:
    row(page, job_id, "caliper|right.brake", {"0": 90, "1": -6}, {"0": 150, "1": -8})
    row(page, job_id, "caliper|right.brake", {"0": 176, "1": -14})
    assert right(cupboard, job_id).brake.caliper_mm == ((90, -6), (150, -8), (176, -14))


def test_a_line_of_the_wheel_can_come_from_an_attached_table(page: Page, cupboard: Cupboard, job_id: str) -> None:
    cupboard.attach(job_id, b"rho_mm,y_mm\n40,32\n120,36\n215,44\n", "face.csv", "Ann")
    base = "v:rear.wheel_set[1].wheel.profile[+]"
    new = "profile|wheel_set[1].wheel.profile[+]"
    answer = row(page, job_id, new, **{f"{base}.part": "spoke face", f"{base}.file": "face.csv"})
    assert answer.status_code == 303
    axle = parse(cupboard.job(job_id).text).rear
    assert axle is not None and axle.fitted is not None
    assert axle.fitted.wheel.profile[0].points_mm == ((40, 32), (120, 36), (215, 44))
    wrong = row(page, job_id, new, **{f"{base}.part": "cap", f"{base}.file": "gone.csv"})
    assert wrong.status_code == 422
    assert "Attach it under Files first." in words_of(wrong)


@pytest.mark.parametrize("units", ["metric", "inch"])
def test_inches_become_mm_at_the_door_of_a_row(page: Page, cupboard: Cupboard, job_id: str, units: str) -> None:
    figure = "2 1/2" if units == "inch" else "63,5"
    cells = {"name": "arch edge", "outward_mm": figure}
    row(page, job_id, "body|right.body_line", cells, system=units)
    outward = right(cupboard, job_id).body_line[0].outward_mm
    assert outward.value == 63.5


def test_every_curve_of_every_kind_has_its_page(page: Page, cupboard: Cupboard) -> None:
    job_id = cupboard.add(example("estate-other-wheels"), "Ann").job_id
    for at in ("caliper|left.brake", "body|left.body_line", "profile|package[1].wheel.profile[4]", "motion|motion"):
        assert '<h2 id="so-far">' in page.get(f"/jobs/{job_id}/lines/rear", params={"at": at}).text


def test_the_script_is_answered_with_the_revision_or_the_faults(page: Page, job_id: str) -> None:
    lip(page, job_id)
    address, accept = f"/jobs/{job_id}/lines/rear", {"accept": "application/json"}
    fields = {"what": "row", "at": "clock|right.line[1]", "c0:clock_deg": "60", "c0:radius_mm": "340"}
    refused = page.form(address, fields, headers=accept)
    assert refused.status_code == 422
    assert refused.json()["faults"][0]["words"] == "Wanted a figure; given nothing."
    stored = page.form(address, {**fields, "c0:outboard_mm": "50"}, headers=accept)
    assert stored.json() == {"revision": 5, "aside": None, "questions": []}
