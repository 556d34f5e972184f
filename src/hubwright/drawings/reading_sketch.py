"""The small to-scale sketch beside one reading: where and how it is taken.

What the job knows already is drawn to scale; what nobody has read yet is drawn as on a usual car, and the description says so.
"""

from __future__ import annotations

from collections.abc import Mapping

from hubwright.drawings.reading_parts import flipped
from hubwright.drawings.scene import Scene
from hubwright.drawings.sketch_corner import across_tyre, at_brake, from_above, from_behind, marking
from hubwright.drawings.sketch_hub import hub_face, hub_section, stud_side
from hubwright.drawings.svg import svg_of
from hubwright.language import say
from hubwright.quantities.axes import Side

VIEWS = {
    "hub": hub_section, "face": hub_face, "stud": stud_side, "behind": from_behind, "above": from_above,
    "brake": at_brake, "tyre": across_tyre,
}  # fmt: skip
SIDED = ("behind", "above", "brake", "tyre")


def reading_sketch(
    view: str, what: str, read: Mapping[str, float], words: str, title: str, side: Side | None = None
) -> str:
    """The SVG of one reading.

    Args:
        view: hub, face, stud, behind, above, brake, tyre or marking.
        what: The dimension marked in it, by the names of that view.
        read: Figures of the job by name, mm or deg; missing ones are drawn as on a usual car.
        words: At the marked dimension.
        title: What is read, for the screen reader.
        side: Which corner; a left one is mirrored.
    """
    scene = reading_scene(view, what, read, words, title, side)
    return svg_of(scene)


def reading_scene(
    view: str, what: str, read: Mapping[str, float], words: str, title: str, side: Side | None = None
) -> Scene:
    """The same as a scene."""
    description = (
        say("The reading is marked in a sketch to scale; what was not read yet is drawn as on a usual car.")
        if view != "marking"
        else say("The place of the marking.")
    )
    if view == "marking":
        return marking(what, words, title, description)
    scene = VIEWS[view](what, read, words, title, description)
    if view not in SIDED or side != "left":
        return scene
    items = tuple(flipped(scene.items))
    return Scene(scene.kind, title, description, items, -scene.right, scene.bottom, -scene.left, scene.top, scene.px)
