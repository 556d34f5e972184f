"""What a drawing is made of, before it becomes SVG or anything else: strokes, dots, labels, groups.

Coordinates are x to the right and y up, in user units: mm for to-scale views, nominal pixels for charts. Widths of
strokes, sizes of letters and of dots are in nominal pixels, so that they look alike at every scale.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Literal, TypeAlias

Spot: TypeAlias = tuple[float, float]
Anchor = Literal["start", "middle", "end"]
Hatch = Literal["rising", "falling", "dots", "sparse"]

DASHED = (5.0, 3.0)
CHAIN = (10.0, 3.0, 2.0, 3.0)


@dataclass(frozen=True)
class Stroke:
    """A line through points, or an area where ``closed``.

    Attributes:
        points: At least two.
        role: What it stands for; decides its colour (see `hubwright.drawings.style`). Empty = no line.
        width_px: Of the line.
        dash_px: On, off, on, off; empty = solid.
        closed: Whether the last point is joined to the first.
        fill: Role whose colour fills it; empty = not filled.
        hatch: Pattern drawn over the filling, in the colour of ``role``; never colour alone.
        name: What the area is, for tests, scripts and a later export.
    """

    points: tuple[Spot, ...]
    role: str = "ink"
    width_px: float = 1.0
    dash_px: tuple[float, ...] = ()
    closed: bool = False
    fill: str = ""
    hatch: Hatch | None = None
    name: str = ""


@dataclass(frozen=True)
class Dot:
    """A circle of constant size."""

    at: Spot
    radius_px: float
    role: str = "ink"
    fill: str = ""
    width_px: float = 1.0
    name: str = ""


@dataclass(frozen=True)
class Ring:
    """A circle to scale: its radius is in user units."""

    at: Spot
    radius: float
    role: str = "ink"
    width_px: float = 1.0
    dash_px: tuple[float, ...] = ()
    name: str = ""


@dataclass(frozen=True)
class Label:
    """A line of text. With ``halo`` it stays readable over lines."""

    at: Spot
    text: str
    size_px: float = 11.0
    anchor: Anchor = "start"
    role: str = "ink"
    bold: bool = False
    halo: bool = True


@dataclass(frozen=True)
class Group:
    """Things that belong together, with a name and, for whoever points at it or hears it read, a title."""

    name: str
    items: tuple[Item, ...]
    title: str = ""


Item: TypeAlias = Stroke | Dot | Ring | Label | Group


@dataclass(frozen=True)
class Scene:
    """A drawing.

    Attributes:
        kind: Short name, used in ids and class names.
        title, description: For the screen reader.
        items: Back to front.
        left, bottom, right, top: What is shown, user units.
        px: Length of one nominal pixel in user units.
        paper_mm: Width on paper at the stated scale, for to-scale views; None = as wide as there is room.
    """

    kind: str
    title: str
    description: str
    items: tuple[Item, ...]
    left: float
    bottom: float
    right: float
    top: float
    px: float = 1.0
    paper_mm: float | None = None


def layers(scene: Scene, *names: str) -> Scene:
    """Only the groups of a scene that bear one of the names, for pictures that are laid over each other."""
    return replace(scene, items=tuple(item for item in scene.items if isinstance(item, Group) and item.name in names))


def line(a: Spot, b: Spot, role: str = "ink", width_px: float = 1.0, dash_px: tuple[float, ...] = ()) -> Stroke:
    """A straight line."""
    return Stroke((a, b), role, width_px, dash_px)


def box(left: float, bottom: float, right: float, top: float) -> tuple[Spot, ...]:
    """The corners of an upright rectangle."""
    return ((left, bottom), (right, bottom), (right, top), (left, top))


def spots_of(items: Iterable[Item]) -> Iterator[Spot]:
    """Every point of every item, to find how much room they need."""
    for item in items:
        if isinstance(item, Group):
            yield from spots_of(item.items)
        elif isinstance(item, Stroke):
            yield from item.points
        elif isinstance(item, Ring):
            x, y = item.at
            yield from ((x - item.radius, y - item.radius), (x + item.radius, y + item.radius))
        else:
            yield item.at
