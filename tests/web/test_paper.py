"""Paper from the page: the same sheets as from the command line, matched with the record."""

from __future__ import annotations

import io
import re
from hashlib import sha256
from html import unescape

import pypdf
import pytest
from tests.web.conftest import Page, example, words_of

from hubwright.store.cupboard import Cupboard


def text_of(data: bytes) -> str:
    return "\n".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(data)).pages)


def test_a_sheet_carries_job_revision_and_the_beginning_of_the_files_hash(page: Page, job_id: str) -> None:
    printed = page.get(f"/jobs/{job_id}/paper/job-card.pdf")
    assert printed.headers["content-type"] == "application/pdf"
    text = text_of(printed.content)
    assert job_id in text
    assert "Revision 1" in text
    assert sha256(example("hatchback-rear-flush")).hexdigest()[:12] in text


@pytest.mark.parametrize("name", ["hatchback-rear-flush", "compact-front-lock"])
def test_the_page_offers_what_the_job_has_something_for_and_all_of_it_prints(
    page: Page, cupboard: Cupboard, name: str
) -> None:
    job = cupboard.add(example(name), "Ann").job_id
    shown = page.get(f"/jobs/{job}/paper")
    assert "Job card" in words_of(shown)
    offered = [unescape(found) for found in re.findall(r'href="(/jobs/[^"]*/paper/[^"]*)"', shown.text)]
    assert len(offered) > 12
    for address in offered:
        printed = page.get(address)
        assert printed.status_code == 200, address
        assert len(printed.content) > 100


def test_a_drawing_for_machines_shows_one_axle_so_each_has_its_own(page: Page, cupboard: Cupboard) -> None:
    job = cupboard.add(example("compact-front-lock"), "Ann").job_id
    shown = words_of(page.get(f"/jobs/{job}/paper?units=inch"))
    assert "DXF · Front axle" in shown and "SVG · Rear axle" in shown
    front, rear = (page.get(f"/jobs/{job}/paper/disc-drawing.dxf?axle={axle}").content for axle in ("front", "rear"))
    assert front != rear


def test_a_sheet_speaks_as_it_was_asked_to(page: Page, job_id: str) -> None:
    metric = text_of(page.get(f"/jobs/{job_id}/paper/job-card.pdf").content)
    inch = text_of(page.get(f"/jobs/{job_id}/paper/job-card.pdf?units=inch&paper=letter").content)
    assert "mm" in metric
    assert " in" in inch and inch != metric


@pytest.mark.parametrize(
    ("query", "field"), [("paper=a9", "paper"), ("units=ell", "units"), ("t=abc", "t"), ("axle=mid", "axle")]
)
def test_odd_wishes_are_told_by_field(page: Page, job_id: str, query: str, field: str) -> None:
    answer = page.get(f"/jobs/{job_id}/paper/job-card.pdf?{query}")
    assert answer.status_code == 422
    assert f"#f-{field}" in answer.text


def test_a_sheet_nobody_knows_is_not_there(page: Page, job_id: str) -> None:
    for name in ("novel.pdf", "job-card.exe", "job-card.xlsx"):
        assert page.get(f"/jobs/{job_id}/paper/{name}").status_code == 404, name


def test_the_job_cards_of_a_day_come_in_one_file(page: Page, cupboard: Cupboard, job_id: str) -> None:
    cupboard.add(example("hatchback-rear-flush").replace(b"DEMO 101", b"DEMO 999"), "Ann")
    cupboard.add(example("saloon-studs"), "Ann")  # another day
    assert words_of(page.get("/paper?on=2026-05-04")).count("Lowered hatchback") == 2
    text = text_of(page.get("/paper/day.pdf?on=2026-05-04").content)
    assert "DEMO 101" in text and "DEMO 999" in text and "DEMO 104" not in text
    assert page.get("/paper/day.pdf?on=2001-01-01").status_code == 422
