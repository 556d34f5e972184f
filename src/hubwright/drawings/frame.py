"""From the hub frame to the paper: leaning with the camber, mirrored for a left corner seen from behind."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hubwright.drawings.hubparts import Part
from hubwright.drawings.scene import DASHED, Anchor, Group, Item, Label, Scene, Spot, Stroke, line
from hubwright.parts.hub import Hub
from hubwright.parts.job import Axle
from hubwright.parts.shop import StockDisc
from hubwright.parts.wheel import Wheel
from hubwright.quantities.axes import Side
from hubwright.quantities.text import plain, unit, unit_mm

SCALES: tuple[tuple[str, float], ...] = (
    ("5:1", 5.0), ("2:1", 2.0), ("1:1", 1.0), ("1:2", 0.5), ("1:2.5", 0.4), ("1:5", 0.2), ("1:10", 0.1),
)  # fmt: skip
"""Scales of ISO 5455, and 1:2.5."""
PAPER_MM = 180.0
BARS, BARS_IN = (200.0, 100.0, 50.0, 20.0, 10.0, 5.0, 2.0), (8.0, 4.0, 2.0, 1.0, 0.5, 0.25, 0.125)
"""Lengths a scale bar may have, in the unit spoken."""


Edges = tuple[float, float, float, float]
"""Left, bottom, right, top."""


@dataclass(frozen=True)
class Layout:
    """How a to-scale view is laid out.

    Attributes:
        paper_mm: The width it may have on paper.
        notes: Whether its notes stand below it.
        width_px: Its width in nominal pixels: the narrower, the larger its letters beside what is drawn.
        edges: What is shown, user units, so that pictures of several discs lie over each other; None = all that is drawn.
        only: Groups that are drawn; empty = all.
    """

    paper_mm: float = PAPER_MM
    notes: bool = True
    width_px: float = 430.0
    edges: Edges | None = None
    only: tuple[str, ...] = ()

    def draws(self, group: str) -> bool:
        """Whether a group is drawn."""
        return not self.only or group in self.only


SCREEN = Layout()


@dataclass(frozen=True)
class Setting:
    """One corner with one disc, ready to be drawn."""

    side: Side
    axle: Axle
    hub: Hub
    wheel: Wheel
    disc: StockDisc | None
    thickness_mm: float


@dataclass(frozen=True)
class Frame:
    """Turns (outboard, radius) in the hub frame into paper: x to the right, y up, mm.

    Seen from behind, so a right wheel has its outboard side to the right and a left wheel to the left. The spin axis
    rises outboard by the negative of the camber (negative = top inboard). Source: axes of ISO 8855; derived.
    """

    side: Side
    camber_deg: float = 0.0

    @property
    def sign(self) -> float:
        """+1 where outboard is to the right."""
        return 1.0 if self.side == "right" else -1.0

    @property
    def outer(self) -> Anchor:
        """How text is set that runs outboard."""
        return "start" if self.side == "right" else "end"

    @property
    def inner(self) -> Anchor:
        """How text is set that runs inboard."""
        return "end" if self.side == "right" else "start"

    def at(self, spot: Spot) -> Spot:
        """One point on paper."""
        lean = math.radians(self.camber_deg)
        out = spot[0] * math.cos(lean) + spot[1] * math.sin(lean)
        return (self.sign * out, -spot[0] * math.sin(lean) + spot[1] * math.cos(lean))

    def all(self, spots: tuple[Spot, ...]) -> tuple[Spot, ...]:
        """Several points on paper."""
        return tuple(self.at(spot) for spot in spots)

    def part(self, part: Part) -> Group:
        """An area of a half section; what is not known is dashed and not hatched."""
        points = self.all(part.points)
        if len(points) == 2:
            return Group(part.name, (Stroke(points, part.role, 1.3),))
        hatch = part.hatch if part.known else None
        dashed = bool(part.sure) or not part.known
        width = 0.9 if dashed else 1.3
        area = Stroke(points, part.role, width, DASHED if dashed else (), True, part.fill, hatch, part.name)
        sure = (Stroke(self.all(part.sure), part.role, 1.4),) if part.sure and part.known else ()
        return Group(part.name, (area, *sure))

    def line(self, a: Spot, b: Spot, role: str = "ink", width_px: float = 1.0, dash: tuple[float, ...] = ()) -> Stroke:
        """A straight line between two points of the hub frame."""
        return line(self.at(a), self.at(b), role, width_px, dash)


def scale_of(width_mm: float, most_mm: float = PAPER_MM) -> tuple[str, float]:
    """The largest usual scale at which the drawing is at most so wide (180 mm), and its width on paper, mm."""
    for name, factor in SCALES:
        if width_mm * factor <= most_mm:
            return name, width_mm * factor
    return SCALES[-1][0], width_mm * SCALES[-1][1]


def scale_bar(left: float, y: float, px: float) -> tuple[Item, ...]:
    """A bar of a round length, right at any size of the picture."""
    per = unit_mm()
    steps = BARS if per == 1.0 else BARS_IN
    units = next((step for step in steps[:-1] if step * per <= 110 * px), steps[-1])
    length = units * per
    ends = [line((x, y - 3 * px), (x, y + 3 * px), "ink", 1.2) for x in (left, left + length)]
    bar = Stroke(((left, y), (left + length, y)), "ink", 1.6, name="scale bar")
    return (bar, *ends, Label((left + length + 6 * px, y - 4 * px), f"{plain(units)} {unit()}", 11.0))


def headed(
    kind: str,
    title: str,
    description: str,
    items: tuple[Item, ...],
    edges: Edges,
    px: float,
    most_mm: float = PAPER_MM,
) -> Scene:
    """A to-scale scene with its width on paper."""
    left, bottom, right, top = edges
    return Scene(kind, title, description, items, left, bottom, right, top, px, scale_of(right - left, most_mm)[1])
