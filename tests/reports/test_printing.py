"""What holds for every sheet: it matches the record, it is the same each time, it takes any text."""

from __future__ import annotations

import hashlib
import io
import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pypdf
import pytest
from tests.reports.press import (
    METRIC,
    content,
    demo,
    identity,
    pages,
    pdf,
    plain,
    sentences,
    squeezed,
    stands,
    whole_pdf,
)

import hubwright.reports
from hubwright.errors import BadInput
from hubwright.reports import Identity, Options, answered, kinds_for, print_sheet, print_together
from hubwright.reports.printing import Order

SCENARIOS = (
    "hatchback-rear-flush", "coupe-front-dead-zone", "saloon-studs", "off-roader-adapter", "compact-front-lock",
    "estate-full-data", "mail-order-plumb-line",
)  # fmt: skip
PDF_KINDS = ("job-card", "torque")
HOSTILE = (
    '#read("/etc/passwd")', "]", "$x^2$ [b] *b* _i_ `r` <l> @r // c /* */ \\ = h", "'\"", "שלום مرحبا", "\U0001f6de wheel",
    "x" * 400, "\x1b[31m", "a\u2028b", "#{panic()}", "../../../etc/passwd",
)  # fmt: skip


@pytest.mark.parametrize("name", SCENARIOS)
@pytest.mark.parametrize("kind", PDF_KINDS)
def test_every_text_of_a_sheet_stands_on_its_pages(name: str, kind: str) -> None:
    if kind not in kinds_for(demo(name)[1]):
        pytest.skip("the answer has nothing for this sheet")
    data = pdf(name, kind)
    missing = [text for text in sentences(content(name, kind)) if not stands(text, data)]
    assert not missing


@pytest.mark.parametrize("kind", PDF_KINDS)
def test_every_page_says_which_of_how_many_and_from_which_record(kind: str) -> None:
    found, job = pages(pdf(SCENARIOS[0], kind)), demo(SCENARIOS[0])[0]
    assert job.car.plate
    own = identity(SCENARIOS[0])
    for number, page in enumerate(found, start=1):
        for text in (
            f"Page {number} of {len(found)}", job.title, job.car.plate, "Revision 3", f"Job {own.job_id}",
            own.short_hash, "hubwright 0.1.0", "Left and right as seen from the driver's seat", "NOT RELEASED", "A wheel that comes off can kill",
        ):  # fmt: skip
            assert squeezed(text) in page, text


@pytest.mark.parametrize("kind", PDF_KINDS)
def test_a_sheet_carries_the_cautions_of_the_answer(kind: str) -> None:
    data = pdf(SCENARIOS[0], kind)
    assert [text for text in demo(SCENARIOS[0])[1].cautions if not stands(text, data)] == []


def hashes() -> list[str]:
    """Of every format, each read without a clock: a process that starts a second later must find the same."""
    wanted = [
        ("job-card", "pdf"),
        ("torque", "pdf"),
        ("parts", "xlsx"),
        ("disc-drawing", "dxf"),
        ("disc-drawing", "svg"),
    ]
    made = [whole_pdf(SCENARIOS[0], kind, Options(format=ending)) for kind, ending in wanted]  # type: ignore[arg-type]
    return [hashlib.sha256(data).hexdigest() for data in made]


def test_another_process_prints_the_same_bytes() -> None:
    script = "from tests.reports.test_printing import hashes; print(hashes())"
    root = Path(__file__).resolve().parents[2]
    command = [sys.executable, "-c", f"import sys; sys.path[:0] = ['src', '.']; {script}"]
    surroundings = {**os.environ, "PYTHONHASHSEED": "7"}
    said = subprocess.run(command, cwd=root, env=surroundings, capture_output=True, text=True, check=True).stdout
    assert said.strip() == str(hashes())


def test_a_sheet_from_a_file_says_that_it_has_no_revision() -> None:
    job, answer = demo(SCENARIOS[0])
    assert stands("from a file, no revision", plain("torque", job, answer, Identity("0" * 64)))


def test_name_and_address_of_the_shop_stand_on_every_sheet_that_begins_with_facts() -> None:
    job, answer = demo(SCENARIOS[0])
    identity = Identity("0" * 64, workshop=("Wheel Room", "1 Example Lane", "12345 Sometown"))
    for kind in ("job-card", "hand-over", "torque"):
        assert stands("Wheel Room, 1 Example Lane, 12345 Sometown", plain(kind, job, answer, identity))


def test_the_day_in_the_file_is_that_of_the_job_and_no_clock_is_read() -> None:
    made = pypdf.PdfReader(io.BytesIO(whole_pdf(SCENARIOS[0], "job-card"))).metadata
    assert made is not None
    assert made.creation_date is not None
    assert made.creation_date.date() == demo(SCENARIOS[0])[0].date


@pytest.mark.parametrize("text", HOSTILE)
def test_a_hostile_text_is_printed_as_text(text: str) -> None:
    job, answer = demo(SCENARIOS[0])
    job = replace(job, car=replace(job.car, plate=text[:400], description=text))
    answer = replace(answer, title=text)
    data = plain("job-card", job, answer, identity(SCENARIOS[0]))
    assert not stands("root:x:0", data)
    letters = "".join(sign for sign in text if sign.isascii() and sign.isprintable())
    assert stands(letters, data)
    assert len(pages(data)) >= len(pages(pdf(SCENARIOS[0], "job-card")))


@pytest.mark.parametrize("text", HOSTILE)
def test_a_hostile_name_of_a_point_in_drawings_and_tables_spoils_no_sheet(text: str) -> None:
    job, _ = demo(SCENARIOS[0])
    assert job.rear is not None
    sides = (replace(side, point=(replace(side.point[0], name=text),)) for side in (job.rear.left, job.rear.right))
    left, right = sides
    odd = replace(job, rear=replace(job.rear, left=left, right=right), shop=replace(job.shop, name=text))
    answer = answered(odd, METRIC)
    for kind in ("job-card", "inspection", "hand-over"):
        assert print_sheet(kind, odd, answer, identity(SCENARIOS[0])).data.startswith(b"%PDF")


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_paper_has_the_size_asked_for(paper: str) -> None:
    options = Options(paper="a4" if paper == "a4" else "letter")
    page = pypdf.PdfReader(io.BytesIO(pdf(SCENARIOS[0], "torque", options))).pages[0]
    size = (round(float(page.mediabox.width)), round(float(page.mediabox.height)))
    assert size == {"a4": (595, 842), "letter": (612, 792)}[paper]


def test_sheets_of_several_jobs_go_into_one_file_with_bookmarks_and_their_own_page_numbers() -> None:
    orders = []
    for name in SCENARIOS[:2]:
        job, answer = demo(name)
        orders += [Order(kind, job, answer, identity(name)) for kind in ("job-card", "torque")]
    reader = pypdf.PdfReader(io.BytesIO(print_together(orders).data))
    chapters = [item.title for item in reader.outline if isinstance(item, pypdf.generic.Destination)]
    assert chapters == [demo(name)[0].title for name in SCENARIOS[:2]]
    first = [squeezed(page.extract_text()) for page in reader.pages]
    assert sum("Page1of" in page for page in first) == len(orders)


def test_the_fonts_are_the_ones_whose_hash_is_written_down() -> None:
    folder = Path(hubwright.reports.__file__).parent / "fonts"
    written = (folder / "README.md").read_text(encoding="utf-8")
    fonts = sorted(folder.glob("*.ttf"))
    assert len(fonts) == 3
    for font in (*fonts, folder / "signs.txt"):
        assert hashlib.sha256(font.read_bytes()).hexdigest() in written


def test_a_file_uses_no_font_of_the_machine() -> None:
    used = set()
    for page in pypdf.PdfReader(io.BytesIO(whole_pdf(SCENARIOS[0], "job-card"))).pages:
        fonts = page["/Resources"].get_object().get("/Font", {})  # type: ignore[union-attr]
        used |= {str(font.get_object()["/BaseFont"]).split("+")[-1] for font in fonts.values()}
    assert used <= {"NotoSans-Regular", "NotoSans-Bold", "DejaVuSansMono", "DejaVuSansMono-Bold", "DroidSansFallback"}


def test_an_unknown_sheet_or_option_is_refused_with_what_there_is() -> None:
    job, answer = demo(SCENARIOS[0])
    with pytest.raises(BadInput, match="job-card"):
        print_sheet("napkin", job, answer, identity(SCENARIOS[0]))
    with pytest.raises(BadInput, match="one of a4, letter"):
        Options(paper="a5")  # type: ignore[arg-type]
    with pytest.raises(BadInput, match="begins with http"):
        Identity("0" * 64, address="javascript:alert(1)")


def test_the_code_holds_the_address_of_the_job_or_else_what_names_it() -> None:
    assert Identity("ab" * 32, "k7m2", 3, "https://shop.example/").code_text == "https://shop.example/jobs/k7m2"
    assert Identity("ab" * 32, "k7m2", 3).code_text == f"hubwright job k7m2 revision 3 sha256 {'ab' * 32}"
    assert Identity("ab" * 32).code_text == f"hubwright sha256 {'ab' * 32}"
