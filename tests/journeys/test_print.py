"""Pages printed by the browser: the figures are there, what only a screen needs is not."""

from __future__ import annotations

import io
import os
import shutil
import subprocess
from pathlib import Path
from unicodedata import normalize

import pytest
from pypdf import PdfReader
from tests.journeys.browser import SHOTS
from tests.journeys.conftest import People
from tests.journeys.server import Site
from tests.journeys.steps import demo_job

pytestmark = pytest.mark.slow


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("effects", ["5 mm per side", "20 mm per side"]),
        ("law", ["Not legal advice", "1577.94"]),
        ("fasteners/rear", ["M14x1.5", "33", "Torque on record"]),
        ("history", ["revision 1"]),
    ],
)
def test_a_printed_page_holds_its_figures_and_no_buttons(
    plain_site: Site, people: People, name: str, words: list[str], tmp_path: Path
) -> None:
    ann = people(plain_site, "Ann")
    ann.page.goto(f"{plain_site.address}{demo_job(plain_site, 'hatchback')}/{name}")
    data = ann.page.pdf(format="A4")
    reader = PdfReader(io.BytesIO(data))
    text = normalize("NFKC", " ".join(" ".join(page.extract_text() for page in reader.pages).split()))
    assert "Lowered hatchback, rear wheels flush" in text
    assert [word for word in words if word not in text] == []
    assert "Skip to the content" not in text
    assert "People" not in text
    assert len(reader.pages) <= 8
    assert _inked(data, tmp_path, name.replace("/", "-")) == len(reader.pages)


def _inked(data: bytes, folder: Path, name: str) -> int:
    """How many pages are not blank; pictures of them go where the environment names a folder for looking at."""
    if shutil.which("pdftoppm") is None:
        pytest.skip("pdftoppm is not installed (Debian package poppler-utils)")
    (folder / "page.pdf").write_bytes(data)
    subprocess.run(["pdftoppm", "-r", "50", "-gray", "page.pdf", "gray"], cwd=folder, check=True)
    if os.environ.get(SHOTS):
        target = Path(os.environ[SHOTS]) / f"print-{name}"
        subprocess.run(["pdftoppm", "-r", "70", "-png", "page.pdf", str(target)], cwd=folder, check=True)
    pages = [path.read_bytes() for path in sorted(folder.glob("gray*.pgm"))]
    return sum(min(page[page.index(b"255\n") + 4 :]) < 128 for page in pages)
