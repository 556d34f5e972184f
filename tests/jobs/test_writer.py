"""Job files are written whole or not at all."""

from __future__ import annotations

import os
import tomllib
from pathlib import Path

import pytest

from hubwright.errors import BadInput
from hubwright.jobs.jobfile import parse
from hubwright.jobs.writer import edited, write_whole

TEXT = """\
# top
hubwright_job = 1
title = "x" # the title
[request]
use = "street"

[[rear.left.point]] # first
name = "lip"
room = "outside"
reading = [
  { travel_mm = 0, gap_mm = 29.0 }, # parked
]
"""


def test_an_item_is_appended_and_the_comments_stay() -> None:
    text = edited(TEXT, "rear.left.point[1].reading[+]", "{ travel_mm = 46, gap_mm = 14.5 }")
    for comment in ("# top", "# the title", "# first", "# parked"):
        assert comment in text
    job = parse(text)
    assert job.rear is not None
    assert [reading.travel_mm for reading in job.rear.left.point[0].reading] == [0, 46]


def test_a_table_is_appended_to_a_list_of_tables() -> None:
    text = edited(TEXT, "rear.left.point[+]", '{ name = "liner", room = "outside" }')
    job = parse(text)
    assert job.rear is not None
    assert [point.name for point in job.rear.left.point] == ["lip", "liner"]
    assert text.count("[[rear.left.point]]") == 2


def test_a_table_that_is_not_there_yet_is_made() -> None:
    job = parse(edited(TEXT, "front.right.ride_height_mm", "352"))
    assert job.front is not None and job.front.right.ride_height_mm is not None


@pytest.mark.parametrize(
    "field", ["rear.left.point[9].name", "title.x", "rear.left.point[0].name", "a b", "rear.left.point[+].name"]
)
def test_a_field_that_cannot_be_found_is_refused(field: str) -> None:
    with pytest.raises(BadInput):
        edited(TEXT, field, "1")


def test_a_write_that_fails_leaves_the_old_file_and_nothing_else(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "job.toml"
    path.write_text(TEXT, encoding="utf-8")

    def full_disk(handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full_disk)
    with pytest.raises(OSError, match="No space"):
        write_whole(path, "new")
    assert path.read_text(encoding="utf-8") == TEXT
    assert [item.name for item in tmp_path.iterdir()] == ["job.toml"]


def test_the_mode_of_the_file_stays(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text(TEXT, encoding="utf-8")
    path.chmod(0o640)
    write_whole(path, TEXT)
    assert path.stat().st_mode & 0o777 == 0o640


def test_a_table_is_made_inside_an_inline_table() -> None:
    text = 'wheel_set = [{ role = "fitted", wheel = { rim = "8Jx18" } }]\n'
    made = edited(text, "wheel_set[1].tyre.designation", '"235/40R18 95W"')
    assert tomllib.loads(made)["wheel_set"][0]["tyre"] == {"designation": "235/40R18 95W"}
