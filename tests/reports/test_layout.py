"""Where things stand on the pages: no page left nearly empty, no caution alone, what belongs together stays together."""

from __future__ import annotations

import io
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import pypdf
import pytest
from tests.reports.press import content, demo, identity, pages, pdf, plain, squeezed, whole_pdf

from hubwright.reports import Options, answered
from hubwright.reports.content import Block, Checklist, Notice, Table, Together

FLUSH, ADAPTER, LOCK = "hatchback-rear-flush", "off-roader-adapter", "compact-front-lock"
GERMAN, INCH = Options(language="de"), Options(paper="letter", units="inch")


def lowest(data: bytes) -> list[float]:
    """How far down each page its text reaches above the foot: 0 = bottom, 1 = top."""
    found = []
    for page in pypdf.PdfReader(io.BytesIO(data)).pages:
        heights: list[float] = []

        def seen(text: str, cm: list[float], tm: list[float], *_: Any, into: list[float] = heights) -> None:
            height = tm[5] * cm[3] + cm[5]
            if text.strip() and height > 60:
                into.append(height)

        page.extract_text(visitor_text=seen)
        found.append(min(heights) / float(page.mediabox.height))
    return found


@pytest.mark.slow
@pytest.mark.parametrize("options", [GERMAN, INCH], ids=["german", "inch"])
@pytest.mark.parametrize("name", [FLUSH, LOCK])
def test_no_page_of_a_card_but_the_last_ends_in_its_upper_half(name: str, options: Options) -> None:
    assert max(lowest(whole_pdf(name, "job-card", options))[:-1]) < 0.5


@pytest.mark.parametrize("options", [Options(), GERMAN], ids=["english", "german"])
def test_the_torque_sheet_of_one_axle_is_one_page(options: Options) -> None:
    assert len(pages(pdf(FLUSH, "torque", options))) == 1


@pytest.mark.parametrize("kind", ["torque", "refusal", "hand-over", "mail-order", "disc-drawing"])
def test_the_cautions_stay_with_what_is_signed(kind: str) -> None:
    last = content(FLUSH, kind).blocks[-1]
    assert isinstance(last, Together)
    assert any(isinstance(block, Notice) and block.texts == demo(FLUSH)[1].cautions for block in last.blocks)
    assert len(last.blocks) > 1


def test_measuring_begins_with_the_cautions() -> None:
    for kind in ("measuring", "measuring-blank"):
        assert any(isinstance(block, Notice) for block in content(FLUSH, kind).blocks[:2])


def every(blocks: tuple[Block, ...]) -> Iterator[Block]:
    for block in blocks:
        yield block
        if isinstance(block, Together):
            yield from every(block.blocks)


def test_the_boxes_of_all_fasteners_of_a_wheel_stand_on_one_page() -> None:
    job, _ = demo(ADAPTER)
    assert job.rear is not None
    other = replace(job, rear=replace(job.rear, hub=replace(job.rear.hub, bolt_circle="10x225", chord_mm=None)))
    answer = answered(other, Options())
    for page in pages(plain("torque", other, answer, identity(ADAPTER))):
        assert ("Initials" in page) <= (squeezed("1 2 3 4 5 6 7 8 9 10") in page)


def test_an_adapter_has_lines_and_a_check_of_its_own_for_the_inner_joint() -> None:
    tables = [block for block in every(content(ADAPTER, "torque").blocks) if isinstance(block, Table)]
    again = next(table for table in tables if table.columns[0].title == "Check again")
    assert [row[0].partition(".")[0] for row in again.rows] == ["Outer joint", "Inner joint, wheels off"]
    assert any(squeezed("Inner joint: source, looked up by") in page for page in pages(pdf(ADAPTER, "torque")))


def test_a_list_to_tick_is_not_torn() -> None:
    for page in pages(pdf(FLUSH, "job-card", GERMAN)):
        for block in every(content(FLUSH, "job-card", GERMAN).blocks):
            if isinstance(block, Checklist) and squeezed(block.title) in page:
                assert all(squeezed(step.text) in page for step in block.steps), block.title
