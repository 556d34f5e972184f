"""What is kept in memory is bounded by its weight, and a reading that touches no map draws none anew."""

from __future__ import annotations

import shutil
from dataclasses import dataclass
from pathlib import Path
from threading import Event

import pytest

import hubwright
from hubwright.checks.house import house_of
from hubwright.jobs import mapping, scans
from hubwright.jobs.held import LIGHT_BYTES, held, weight_of
from hubwright.jobs.mapping import MappedCorner, map_of_corner
from hubwright.web.later import KEPT_BYTES, Later

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
MIB = 1024 * 1024


@dataclass(frozen=True)
class Heavy:
    held_bytes: int


def test_a_thing_weighs_what_it_says_or_how_long_it_is() -> None:
    assert weight_of(Heavy(5 * MIB)) == LIGHT_BYTES + 5 * MIB
    assert weight_of(b"x" * MIB) == LIGHT_BYTES + MIB
    assert weight_of((Heavy(MIB), "ab")) == 3 * LIGHT_BYTES + MIB + 2
    assert weight_of(None) == weight_of(3.5) == LIGHT_BYTES


def test_what_was_asked_longest_ago_goes_first_and_the_newest_stays_however_heavy() -> None:
    kept = held(10 * MIB, 100)
    for name in "abc":
        kept[name] = Heavy(3 * MIB)
    assert kept["a"]  # asked again
    kept["d"] = Heavy(3 * MIB)
    assert sorted(map(str, kept)) == ["a", "c", "d"]
    kept["giant"] = Heavy(99 * MIB)
    assert list(kept) == ["giant"]


def test_light_things_are_bounded_by_their_count() -> None:
    kept = held(MIB, 8)
    for number in range(20):
        kept[number] = number
    assert sorted(kept) == list(range(12, 20))


def test_what_is_worked_out_beside_the_requests_is_let_go_of_by_weight() -> None:
    later, done = Later(), Event()
    asked = [0]

    def make() -> Heavy:
        asked[0] += 1
        return Heavy(KEPT_BYTES // 3)

    for key in "abcd":
        later.of(key, make, lambda _: None).within(None)
    later.of("d", make, lambda _: None).within(None)
    assert asked[0] == 4
    later.of("a", make, lambda _: done.set()).within(None)
    assert asked[0] == 5
    assert done.wait(10)


@pytest.mark.slow
def test_a_reading_that_touches_no_scan_and_no_motion_lays_nothing_out_and_draws_nothing_anew(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("HUBWRIGHT_CACHE", "")
    for name in ("_laid", "_asked"):  # whatever else ran before
        monkeypatch.setattr(mapping, name, held(mapping.HELD_BYTES, mapping.HELD_THINGS))
    laid: list[str] = []
    real = scans.place_scan
    monkeypatch.setattr(scans, "place_scan", lambda *words: laid.append(str(words[2])) or real(*words))
    text = (EXAMPLES / "roadster-front-scan.toml").read_text(encoding="utf-8")

    def corner(folder: str, text: str) -> MappedCorner:
        path = tmp_path / folder / "job.toml"
        path.parent.mkdir()
        path.write_text(text, encoding="utf-8")
        for side in ("left", "right"):
            shutil.copy(EXAMPLES / f"roadster-arch-{side}.ply", path.parent)
        job = hubwright.load(path)
        mapped = map_of_corner(job, "front", "left", house_of(job))
        assert mapped is not None
        return mapped

    first = corner("first", text.replace("DEMO 222", "DEMO 801"))
    again = corner("again", text.replace("DEMO 222", "DEMO 802"))
    assert again.ready is first.ready
    assert again.obstacles is first.obstacles
    assert laid.count("left") == 1
    moved = corner("moved", text.replace("camber_deg = -1.0", "camber_deg = -1.3"))
    assert moved.ready is not first.ready
    name = first.obstacles[0].name
    assert moved.room.settle(name, 0.0, -1e9).gap_mm != first.room.settle(name, 0.0, -1e9).gap_mm
