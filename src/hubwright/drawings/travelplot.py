"""Axes of a chart of gap against travel."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.drawings.marks import length_ticks
from hubwright.drawings.scene import Item, Label, Spot, Stroke, box, line
from hubwright.engineering.placement import Array
from hubwright.language import say

PLOT_PX, LEFT_PX, EDGE_PX = 230.0, 40.0, 14.0
LEAST_SPAN_MM = 10.0
MOST_SPOTS = 120
DASHES: tuple[tuple[float, ...], ...] = ((), (7.0, 3.0), (2.0, 3.0), (10.0, 3.0, 2.0, 3.0), (4.0, 2.0))


@dataclass(frozen=True)
class Look:
    """How the chart is laid out.

    Attributes:
        width_px: In nominal pixels: the narrower, the larger its letters.
        notes: Whether key and sentences stand below it.
        up_to_mm: The thickest disc its axes must hold for; None = only the one drawn.
    """

    width_px: float = 410.0
    notes: bool = True
    up_to_mm: float | None = None


SCREEN = Look()


@dataclass(frozen=True)
class Plot:
    """The window of the chart: travel to the right, gap up, in nominal pixels."""

    low_travel: float
    high_travel: float
    low_gap: float
    high_gap: float
    top: float
    right_px: float

    def at(self, travel: float, gap: float) -> Spot:
        """A point of the chart; what lies beyond its lower and upper end is put there."""
        along = (travel - self.low_travel) / (self.high_travel - self.low_travel)
        inside = min(max(gap, self.low_gap), self.high_gap)
        up = (inside - self.low_gap) / (self.high_gap - self.low_gap)
        return (LEFT_PX + (self.right_px - LEFT_PX) * along, self.top - PLOT_PX * (1 - up))

    def curve(self, travel: Array, gap: Array) -> tuple[Spot, ...]:
        """A curve, thinned out, its least point kept."""
        step = max(len(travel) // MOST_SPOTS, 1)
        keep = sorted({*range(0, len(travel), step), len(travel) - 1, int(gap.argmin())})
        spots = tuple(self.at(float(travel[index]), float(gap[index])) for index in keep)
        return spots if len(spots) > 1 else (spots[0], (spots[0][0] + 0.1, spots[0][1]))


def grid(plot: Plot) -> list[Item]:
    """Lines, figures, and where the gap is none."""
    left, bottom = plot.at(plot.low_travel, plot.low_gap)
    right = plot.at(plot.high_travel, plot.high_gap)[0]
    zero = plot.at(plot.low_travel, 0.0)[1]
    items: list[Item] = [
        Stroke(box(left, bottom, right, zero), "faint", 0.0, (), True, "ground", "sparse", "contact"),
    ]
    for gap, words in length_ticks(plot.low_gap, plot.high_gap, 7):
        y = plot.at(plot.low_travel, gap)[1]
        items += [line((left, y), (right, y), "faint", 0.6), Label((left - 5, y - 4), words, 11, "end", "soft")]
    for travel, figure in length_ticks(plot.low_travel, plot.high_travel, 7):
        x = plot.at(travel, plot.low_gap)[0]
        words = say("parked") if travel == 0 else figure
        items += [line((x, bottom), (x, bottom - 4), "soft"), Label((x, bottom - 16), words, 11, "middle", "soft")]
    items += [
        line((left, bottom), (right, bottom), "soft"),
        line((left, zero), (right, zero), "bad", 1.6),
        Label((right - 4, zero - 11 if zero - bottom > 13 else zero + 4), say("contact"), 10.5, "end", "bad"),
        Label((right, bottom - 29), say("bump →"), 10.5, "end", "soft"),
    ]
    if plot.low_travel < -LEAST_SPAN_MM:
        items.append(Label((left, bottom - 29), say("← droop"), 10.5, "start", "soft"))
    return items
