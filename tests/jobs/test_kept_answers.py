"""What a corner's map was asked is kept: the same answer without the map, and never an answer to another question."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

import hubwright
from hubwright.jobs import maps
from hubwright.jobs.answer import Answer

pytestmark = pytest.mark.slow
EXAMPLES = Path(__file__).resolve().parents[2] / "examples"


@pytest.fixture
def job_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("HUBWRIGHT_CACHE", str(tmp_path / "cache"))
    for name in ("roadster-front-scan.toml", "roadster-arch-left.ply", "roadster-arch-right.ply"):
        shutil.copy(EXAMPLES / name, tmp_path / name)
    return tmp_path / "roadster-front-scan.toml"


def drawn_for(path: Path, monkeypatch: pytest.MonkeyPatch) -> tuple[Answer, int]:
    """The answer, and how many maps had to be asked for it."""
    asked: list[str] = []
    real = maps.map_of_corner

    def counted(*words: object, **more: object) -> object:
        asked.append(str(words[2]))
        return real(*words, **more)  # type: ignore[arg-type]  # handed on as they came

    with monkeypatch.context() as patch:
        patch.setattr(maps, "map_of_corner", counted)
        return hubwright.assess(hubwright.load(path)), len(asked)


def test_the_second_run_gives_the_same_answer_without_the_map(job_file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    first, drawn = drawn_for(job_file, monkeypatch)
    second, again = drawn_for(job_file, monkeypatch)
    assert (drawn, again) == (2, 0)
    assert second == first


def test_another_reading_or_another_scan_is_asked_anew(job_file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    drawn_for(job_file, monkeypatch)
    text = job_file.read_text(encoding="utf-8")
    job_file.write_text(text.replace("inset_mm = ", "inset_mm = 1", 1), encoding="utf-8")
    assert drawn_for(job_file, monkeypatch)[1] == 2
    job_file.write_text(text, encoding="utf-8")
    scan = job_file.with_name("roadster-arch-left.ply")
    scan.write_bytes(scan.read_bytes() + b"\n")
    assert drawn_for(job_file, monkeypatch)[1] == 1


def test_a_damaged_entry_is_worked_out_again(job_file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    first, _ = drawn_for(job_file, monkeypatch)
    for kept in (job_file.parent / "cache").glob("*.json"):
        kept.write_text(kept.read_text(encoding="utf-8")[:-20], encoding="utf-8")
    second, drawn = drawn_for(job_file, monkeypatch)
    assert drawn == 2
    assert second == first
