"""What the small sketches of readings share: the highlighted dimension, names, mirroring, and the frame around them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from hubwright.drawings.marks import arrow
from hubwright.drawings.scene import Anchor, Dot, Group, Item, Label, Ring, Scene, Spot, Stroke, line

WIDE_PX = 380.0
"""Nominal width of a sketch; sizes of letters and arrows follow from it."""
MARKED = "disc"
"""The role of what is to be read: copper, thick, with arrowheads and a word."""


def marked(a: Spot, b: Spot, px: float, words: str, at: Spot | None = None, anchor: Anchor = "middle") -> list[Item]:
    """The dimension to take, from ``a`` to ``b``; its words stand beside its middle unless ``at`` says where."""
    length = ((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5
    place = at or ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2 + 8 * px)
    text = Label(place, words, 17.0, anchor, MARKED, True)
    if length >= 30 * px:
        heads: list[Item] = [arrow(a, b, 1.6 * px, MARKED), arrow(b, a, 1.6 * px, MARKED)]
        return [Stroke((a, b), MARKED, 2.4, name="reading"), *heads, text]
    reach = 20 * px / max(length, 1e-6)
    tail_a = (a[0] + (a[0] - b[0]) * reach, a[1] + (a[1] - b[1]) * reach)
    tail_b = (b[0] + (b[0] - a[0]) * reach, b[1] + (b[1] - a[1]) * reach)
    outside: list[Item] = [
        line(tail_a, a, MARKED, 2.4), line(tail_b, b, MARKED, 2.4), arrow(a, tail_a, 1.6 * px, MARKED),
        arrow(b, tail_b, 1.6 * px, MARKED),
    ]  # fmt: skip
    return [Stroke((a, b), MARKED, 2.4, name="reading"), *outside, text]


def feet(a: Spot, b: Spot, shift: Spot) -> tuple[list[Item], Spot, Spot]:
    """Thin lines that carry a dimension away from the thing it measures, and the two shifted ends."""
    moved_a, moved_b = (a[0] + shift[0], a[1] + shift[1]), (b[0] + shift[0], b[1] + shift[1])
    return [line(a, moved_a, MARKED, 0.9), line(b, moved_b, MARKED, 0.9)], moved_a, moved_b


def word(at: Spot, text: str, anchor: Anchor = "middle") -> Label:
    """The name of a part."""
    return Label(at, text, 15.0, anchor, "soft")


def area(points: tuple[Spot, ...], fill: str, name: str, *, hatched: bool = False) -> Stroke:
    """A part in section, or seen."""
    return Stroke(points, "ink", 1.3, (), True, fill, "rising" if hatched else None, name)


def ghost(points: tuple[Spot, ...], name: str, *, closed: bool = True) -> Stroke:
    """A part that is only there to find one's way."""
    return Stroke(points, "soft", 1.0, (5.0, 3.0), closed, "", None, name)


def axis(a: Spot, b: Spot) -> Stroke:
    """A centre line."""
    return Stroke((a, b), "soft", 0.8, (10.0, 3.0, 2.0, 3.0))


def flipped(items: Iterable[Item]) -> list[Item]:
    """The same seen in a mirror: left and right changed, words still readable."""
    swap: dict[Anchor, Anchor] = {"start": "end", "end": "start", "middle": "middle"}
    found: list[Item] = []
    for item in items:
        if isinstance(item, Stroke):
            points = tuple((-x, y) for x, y in item.points)
            found.append(
                Stroke(points, item.role, item.width_px, item.dash_px, item.closed, item.fill, item.hatch, item.name)
            )
        elif isinstance(item, Dot):
            found.append(Dot((-item.at[0], item.at[1]), item.radius_px, item.role, item.fill, item.width_px, item.name))
        elif isinstance(item, Label):
            at = (-item.at[0], item.at[1])
            found.append(Label(at, item.text, item.size_px, swap[item.anchor], item.role, item.bold, item.halo))
        elif isinstance(item, Ring):
            found.append(replace(item, at=(-item.at[0], item.at[1])))
        else:
            found.append(Group(item.name, tuple(flipped(item.items)), item.title))
    return found


def framed(
    items: Iterable[Item], box: tuple[float, float, float, float], title: str, description: str, px: float
) -> Scene:
    """The sketch in its frame: left, bottom, right, top in mm."""
    left, bottom, right, top = box
    return Scene("reading", title, description, tuple(items), left, bottom, right, top, px)
