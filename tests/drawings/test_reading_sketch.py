"""Sketches beside readings: each is a sound drawing, what is known is to scale, and left is right seen in a mirror."""

from __future__ import annotations

import math
import re

import pytest

from hubwright.drawings.reading_sketch import SIDED, reading_scene, reading_sketch
from hubwright.drawings.scene import Group, Item, Stroke
from hubwright.web.sheet.catalogue import OF_AXLE, OF_CORNER, OF_FITTED

SKETCHES = sorted(
    {(one.view, one.what or one.key.rpartition(".")[2]) for one in (*OF_AXLE, *OF_CORNER, *OF_FITTED)}
    | {("behind", what) for what in ("gap", "inside", "above", "height", "return")}
    | {("above", what) for what in ("rearward", "forward", "outboard", "inboard", "lock")}
    | {("tyre", "half_width_mm")}
)


def marks(items: tuple[Item, ...]) -> list[Stroke]:
    """The thick copper line of what is to be read."""
    inner = [mark for item in items if isinstance(item, Group) for mark in marks(item.items)]
    return [item for item in items if isinstance(item, Stroke) and item.name == "reading"] + inner


@pytest.mark.parametrize(("view", "what"), SKETCHES)
def test_every_reading_of_the_sheet_has_a_sketch_with_its_place_marked(view: str, what: str) -> None:
    svg = reading_sketch(view, what, {"turn_deg": 30.0}, "?", "title", "left")
    assert "<title" in svg and "<desc" in svg and 'role="img"' in svg
    assert 'data-part="reading"' in svg
    assert "nan" not in svg and "inf" not in re.sub("inf[a-z]", "", svg)


@pytest.mark.parametrize(
    ("view", "what", "length_mm"),
    [
        ("hub", "spigot_length_mm", 17.5), ("hub", "nose_length_mm", 8.0), ("hub", "flange_thickness_mm", 11.0),
        ("hub", "bore_chamfer_mm", 2.5), ("hub", "spigot_diameter_mm", 72.6), ("stud", "stud_length_mm", 45.0),
        ("stud", "length_mm", 33.0), ("stud", "engagement_mm", 9.0), ("brake", "axial_gap_mm", 9.0),
        ("tyre", "inset_mm", 35.0), ("behind", "ride_height_mm", 340.0),
    ],
)  # fmt: skip
def test_what_is_known_is_drawn_to_scale(view: str, what: str, length_mm: float) -> None:
    scene = reading_scene(
        view, what.removesuffix("_mm") if view == "behind" else what, {what: length_mm}, "?", "t", "right"
    )
    (mark,) = marks(scene.items)
    assert math.dist(*mark.points) == pytest.approx(length_mm, abs=0.01)


@pytest.mark.parametrize(("view", "what"), [pair for pair in SKETCHES if pair[0] in SIDED])
def test_left_is_right_seen_in_a_mirror(view: str, what: str) -> None:
    left, right = (reading_scene(view, what, {}, "?", "t", side) for side in ("left", "right"))
    assert (left.left, left.right) == (-right.right, -right.left)
    assert [tuple((-x, y) for x, y in mark.points) for mark in marks(left.items)] == [
        mark.points for mark in marks(right.items)
    ]
