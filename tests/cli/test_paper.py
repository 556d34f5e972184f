"""``hubwright paper``: files, the store, many at once, and clear refusals."""

from __future__ import annotations

import io
from pathlib import Path

import pypdf
import pytest
from tests.jobs.trees import EXAMPLES
from typer.testing import CliRunner, Result

from hubwright.cli.commands import app

FLUSH, STUDS = EXAMPLES / "hatchback-rear-flush.toml", EXAMPLES / "saloon-studs.toml"


def ran(*words: object) -> Result:
    return CliRunner().invoke(app, ["paper", *map(str, words)])


def text_of(file: Path) -> str:
    return "".join(
        "".join(page.extract_text().split()) for page in pypdf.PdfReader(io.BytesIO(file.read_bytes())).pages
    )


def test_one_sheet_goes_into_one_file(tmp_path: Path) -> None:
    file = tmp_path / "card.pdf"
    done = ran(FLUSH, "--sheet", "job-card", "--output", file, "--paper", "letter", "--units", "inch")
    assert done.exit_code == 0, done.output
    assert "0.20in(5mm)plaindisc" in text_of(file)


def test_sheets_of_a_day_go_into_one_file_with_a_bookmark_for_each_job(tmp_path: Path) -> None:
    file = tmp_path / "day.pdf"
    assert ran(FLUSH, STUDS, "--sheet", "torque", "--sheet", "parts", "--output", file).exit_code == 0
    outline = pypdf.PdfReader(file).outline
    assert len([item for item in outline if not isinstance(item, list)]) == 2
    sheets = [[one for one in item if not isinstance(one, list)] for item in outline if isinstance(item, list)]
    assert [len(titles) for titles in sheets] == [2, 2]


def test_all_writes_every_sheet_there_is_something_for_in_every_format(tmp_path: Path) -> None:
    assert ran(STUDS, "--all", tmp_path / "out").exit_code == 0
    names = {file.name.removeprefix("saloon-studs-") for file in (tmp_path / "out").iterdir()}
    assert names == {
        "job-card.pdf", "torque.pdf", "parts.pdf", "parts.xlsx", "parts.csv", "hand-over.pdf", "refusal.pdf",
        "inspection.pdf", "disc-drawing.pdf", "disc-drawing-rear.dxf", "disc-drawing-rear.svg", "measuring.pdf",
        "measuring-blank.pdf", "mail-order.pdf",
    }  # fmt: skip


def test_the_list_names_the_sheets(tmp_path: Path) -> None:
    done = ran(FLUSH, "--list")
    assert done.exit_code == 0
    assert done.output.startswith("hatchback-rear-flush: job-card, torque, parts, hand-over, refusal")


def test_a_job_of_the_store_is_printed_with_its_revision_customer_and_appointment(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("HUBWRIGHT_DATA", str(tmp_path / "data"))
    name = CliRunner().invoke(app, ["store", "add", str(FLUSH), "--customer", "M. Example"]).output.strip()
    CliRunner().invoke(app, ["store", "enter", name, "@due", "2026-06-01"])
    file = tmp_path / "over.pdf"
    done = ran(name, "--sheet", "hand-over", "--output", file, "--address", "https://shop.example")
    assert done.exit_code == 0, done.output
    text = text_of(file)
    for words in (f"Job{name}", "Revision2", "M.Example", "2026-06-01"):
        assert words in text


@pytest.mark.slow
def test_a_job_of_the_store_without_its_scans_says_so_on_the_sheet_and_with_them_uses_them(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("HUBWRIGHT_DATA", str(tmp_path / "data"))
    runner, scanned = CliRunner(), EXAMPLES / "roadster-front-scan.toml"
    name = runner.invoke(app, ["store", "add", str(scanned)]).output.strip()
    file = tmp_path / "card.pdf"
    assert ran(name, "--sheet", "job-card", "--output", file).exit_code == 0
    assert "Ascanismissing" in text_of(file)
    for scan in EXAMPLES.glob("roadster-arch-*.ply"):
        assert runner.invoke(app, ["store", "attach", name, str(scan)]).exit_code == 0
    done = ran(name, "--sheet", "job-card", "--output", file)
    assert done.exit_code == 0, done.output
    text = text_of(file)
    assert "Ascanismissing" not in text
    assert "bymap" in text


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((FLUSH,), "--output: wanted a file to write"),
        ((FLUSH, "--sheet", "napkin", "--output", "x.pdf"), "sheet: wanted one of job-card, torque"),
        ((FLUSH, "--output", "x.odt"), "format: wanted one of pdf, xlsx, csv, dxf, svg"),
        ((FLUSH, "--sheet", "parts", "--sheet", "torque", "--output", "x.csv"), "ends with .pdf for several sheets"),
        (
            (FLUSH, "--sheet", "disc-drawing", "--disc", "20", "--output", "x.dxf"),
            "clearance: wanted a disc that passes",
        ),
        ((FLUSH, "--sheet", "torque", "--axle", "middle", "--output", "x.pdf"), "--axle: wanted front or rear"),
        ((FLUSH, "--all", "x", "--output", "y.pdf"), "--all: wanted a folder and neither"),
        ((FLUSH, "--sheet", "torque", "--output", "none/x.pdf"), "wanted a place that can be written"),
        (("none.toml", "--list"), "the file: wanted a job file that can be read"),
        ((FLUSH, "--list", "--address", "javascript:x"), "address: wanted an address that begins with http"),
    ],
)
def test_a_refusal_names_what_was_wanted_and_leaves_with_2(
    words: tuple[object, ...], said: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    done = ran(*words)
    assert done.exit_code == 2
    assert said in done.output
    assert not list(tmp_path.glob("*.*"))
