"""Winter wheels and spare keep their air over the discs too, or it is said before they go on."""

from __future__ import annotations

from pathlib import Path

import hubwright
from hubwright.jobs.answer import DiscAnswer

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "estate-full-data.toml"


def front_5_mm(old: str = "", new: str = "") -> DiscAnswer:
    text = EXAMPLE.read_text(encoding="utf-8")
    assert old in text
    stays = text.replace('discs = "come off"', 'discs = "stay"', 1).replace(old, new, 1)
    plan = hubwright.assess(hubwright.parse(stays)).axle("front").plan
    return next(disc for disc in plan.discs if disc.thickness_mm == 5)


def test_a_winter_set_of_known_size_is_judged_on_the_same_gaps() -> None:
    found = [item.sentence for item in front_5_mm().every if item.question == "clearance"]
    assert sum(sentence.startswith("winter wheels: ") for sentence in found) == 2
    assert not any("winter wheels" in reason and "air" in reason for reason in front_5_mm().reasons)


def test_a_winter_set_far_further_out_is_a_caution_that_names_it() -> None:
    disc = front_5_mm('rim = "6.5Jx16"\ninset_mm = 46', 'rim = "6.5Jx16"\ninset_mm = 15')
    assert disc.status == "caution"
    found = [item for item in disc.every if item.question == "clearance" and item.sentence.startswith("winter wheels")]
    assert any("short" in item.sentence and "before the winter wheels goes on" in item.todo for item in found)


def test_a_winter_set_without_its_size_is_not_taken_as_good() -> None:
    disc = front_5_mm('rim = "6.5Jx16"\ninset_mm = 46', "inset_mm = 46")
    assert disc.status == "caution"
    assert any(
        item.sentence.startswith("winter wheels: whether they keep their air is not known") for item in disc.every
    )
