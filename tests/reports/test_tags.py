"""A PDF a screen reader can read: title, language, headings in their order, a text for every picture."""

from __future__ import annotations

import io
from collections.abc import Iterator
from typing import Any

import pypdf
import pytest
from tests.reports.press import content, demo, identity, pdf, squeezed, whole_pdf

from hubwright.reports import Options, kinds_for, print_together
from hubwright.reports.content import Block, Heading, Together
from hubwright.reports.kinds import KINDS
from hubwright.reports.printing import Order

FLUSH = "hatchback-rear-flush"


def elements(data: bytes) -> Iterator[tuple[str, Any]]:
    """Every element of the tree of tags, in reading order: its name and itself."""

    def walk(item: Any) -> Iterator[tuple[str, Any]]:
        found = item.get_object() if hasattr(item, "get_object") else item
        if isinstance(found, list):
            for part in found:
                yield from walk(part)
        elif isinstance(found, dict):
            if "/S" in found:
                yield str(found["/S"]), found
            if "/K" in found:
                yield from walk(found["/K"])

    yield from walk(pypdf.PdfReader(io.BytesIO(data)).trailer["/Root"]["/StructTreeRoot"])


def headings(blocks: tuple[Block, ...]) -> list[str]:
    found = []
    for block in blocks:
        if isinstance(block, Heading):
            found.append(block.text)
        elif isinstance(block, Together):
            found += headings(block.blocks)
    return found


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind != "inspection"])
def test_every_sheet_keeps_the_rules_of_pdf_ua(kind: str) -> None:
    assert kind in kinds_for(demo(FLUSH)[1])
    data = pdf(FLUSH, kind)
    assert b"pdfuaid:part" in data


@pytest.mark.parametrize(("language", "title"), [("en", "Torque sheet"), ("de", "Drehmomentblatt")])
def test_title_and_language_of_the_file_are_those_of_the_sheet(language: str, title: str) -> None:
    reader = pypdf.PdfReader(io.BytesIO(pdf(FLUSH, "torque", Options(language=language))))
    assert reader.metadata is not None
    assert reader.metadata.title == title
    assert str(reader.trailer["/Root"]["/Lang"]) == language
    assert reader.trailer["/Root"]["/ViewerPreferences"]["/DisplayDocTitle"].value is True


@pytest.mark.parametrize("kind", ["job-card", "hand-over"])
def test_the_sheet_is_the_first_heading_and_what_stands_on_it_the_second(kind: str) -> None:
    data = pdf(FLUSH, kind)
    levels = [name for name, _ in elements(data) if name.startswith("/H") and name[2:].isdigit()]
    assert levels[0] == "/H1"
    assert levels[1:] == ["/H2"] * len(headings(content(FLUSH, kind).blocks))
    outline = [item.title for item in flat(pypdf.PdfReader(io.BytesIO(data)).outline)]
    assert [squeezed(text) for text in outline[1:]] == [
        squeezed(text) for text in headings(content(FLUSH, kind).blocks)
    ]


def flat(items: Any) -> Iterator[Any]:
    for item in items:
        if isinstance(item, list):
            yield from flat(item)
        else:
            yield item


def test_every_picture_has_a_text() -> None:
    figures = [found for name, found in elements(whole_pdf(FLUSH, "job-card")) if name == "/Figure"]
    assert len(figures) >= 6
    assert all(str(found.get("/Alt", "")).strip() for found in figures)


def test_tables_have_head_cells() -> None:
    names = [name for name, _ in elements(pdf(FLUSH, "torque"))]
    assert names.count("/Table") == names.count("/THead") > 1
    assert "/TH" in names


def test_among_many_sheets_the_job_is_the_first_heading() -> None:
    job, answer = demo(FLUSH)
    orders = [Order(kind, job, answer, identity(FLUSH)) for kind in ("torque", "parts")]
    data = print_together(orders).data
    assert b"pdfuaid:part" in data
    levels = [name for name, _ in elements(data) if name.startswith("/H") and name[2:].isdigit()]
    assert levels[:3] == ["/H1", "/H2", "/H3"]
    assert levels.count("/H1") == 1
    assert levels.count("/H2") == 2
