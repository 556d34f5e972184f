"""Gap against travel as a clearance map has it: straight ahead, the least over all lock, and what must be left."""

from __future__ import annotations

import numpy as np

from hubwright.drawings.marks import shortened
from hubwright.drawings.scene import CHAIN, Dot, Group, Item, Label, Scene, Stroke
from hubwright.drawings.table import Table
from hubwright.drawings.travelplot import DASHES, EDGE_PX, LEAST_SPAN_MM, LEFT_PX, PLOT_PX, Look, Plot, grid
from hubwright.jobs.room_by_travel import ByTravel
from hubwright.language import say
from hubwright.language.place_words import place_word
from hubwright.quantities.text import figure, length, number, thickness, unit


def map_gap_scene(rows: tuple[ByTravel, ...], thickness_mm: float, heading: str, look: Look) -> Scene:
    """The chart of at least one obstacle with one disc.

    Thick: the least gap over all lock; thin: straight ahead; chain: what must be left; ring: the least of all, settled
    between the states of the map. Each obstacle has its own dash.
    """
    plot = _plot_of(rows, look)
    items: list[Item] = [
        Label((EDGE_PX, -20), shortened(heading, int(look.width_px / 8.9)), 14.0, bold=True),
        Label((EDGE_PX, -37), say("thick: any lock; thin: straight ahead; {unit}", unit=unit()), 11.5, "start", "soft"),
        *grid(plot),
    ]
    for index, row in enumerate(rows):
        items.append(_series(plot, row, index))
    items += _pinch(plot, rows[0])
    y = plot.top - PLOT_PX - 38.0
    words = " ".join(map_gap_sentences(rows, thickness_mm))
    return Scene("mapgap", heading, words, tuple(items), 0, y, look.width_px, 0)


def map_gap_sentences(rows: tuple[ByTravel, ...], thickness_mm: float) -> list[str]:
    """The least gap to every obstacle and what is wanted, in sentences."""
    disc = say("with {thickness}", thickness=thickness(thickness_mm)) if thickness_mm else say("without a disc")
    return [
        say(
            "{obstacle}: least {gap} {disc}, {owed} wanted.", obstacle=place_word(row.obstacle), gap=length(row.pinch_mm), disc=disc,
            owed=length(row.owed_mm),
        )
        for row in rows
    ]  # fmt: skip


def map_gap_rows(rows: tuple[ByTravel, ...], caption: str) -> Table:
    """The same as text: one row for each obstacle and travel."""
    columns = (
        say("point"),
        say("travel, {unit}", unit=unit()),
        say("straight ahead, {unit}", unit=unit()),
        say("any lock, {unit}", unit=unit()),
        say("steered, °"),
        say("needed, {unit}", unit=unit()),
    )
    found = [
        (
            place_word(row.obstacle), figure(float(travel), 0), figure(float(ahead)) if np.isfinite(ahead) else "–",
            figure(float(least)), number(float(steer), 0), figure(row.owed_mm),
        )
        for row in rows
        for travel, ahead, least, steer in zip(row.travel_mm, row.straight_mm, row.least_mm, row.steer_deg, strict=True)
    ]  # fmt: skip
    return Table(caption, columns, tuple(found))


def _plot_of(rows: tuple[ByTravel, ...], look: Look) -> Plot:
    travel = np.concatenate([row.travel_mm for row in rows])
    every = np.concatenate([part for row in rows for part in (row.least_mm, row.straight_mm, [row.owed_mm])])
    every = every[np.isfinite(every)]
    low, high = float(travel.min()), float(travel.max())
    beside = max(high - low, LEAST_SPAN_MM) * 0.06
    bottom, roof = min(float(every.min()) - 1.0, -2.0), max(float(every.max()) + 2.0, LEAST_SPAN_MM)
    return Plot(low - beside, high + beside, bottom, roof, -46.0, look.width_px - EDGE_PX)


def _series(plot: Plot, row: ByTravel, index: int) -> Group:
    dash = DASHES[index % len(DASHES)]
    ends = np.array([row.travel_mm[0], row.travel_mm[-1]])
    items: list[Item] = [Stroke(plot.curve(ends, np.full(2, row.owed_mm)), "bad", 1.0, CHAIN, name="needed")]
    known = np.isfinite(row.straight_mm)
    if known.sum() > 1:
        items.append(
            Stroke(plot.curve(row.travel_mm[known], row.straight_mm[known]), "soft", 1.0, dash, name="straight")
        )
    if len(row.travel_mm) > 1:
        items.append(Stroke(plot.curve(row.travel_mm, row.least_mm), "disc", 2.4, dash, name="any lock"))
    return Group(f"obstacle-{index + 1}", tuple(items), place_word(row.obstacle))


def _pinch(plot: Plot, row: ByTravel) -> list[Item]:
    if row.pinch_travel_mm is None:
        return []
    x, y = plot.at(row.pinch_travel_mm, row.pinch_mm)
    outer = x > (LEFT_PX + plot.right_px) / 2
    text, steer = say("pinch {gap}", gap=length(row.pinch_mm)), row.pinch_steer_deg or 0.0
    if abs(steer) >= 1.0:
        way = (
            say("{steer}° left", steer=number(abs(steer), 0))
            if steer > 0
            else say("{steer}° right", steer=number(abs(steer), 0))
        )
        text = say("{pinch}, {way}", pinch=text, way=way)
    above = y - 20 > plot.top - PLOT_PX
    spot = (x - 10 if outer else x + 10, y - 15 if above else y + 12)
    return [
        Dot((x, y), 7.0, "ink", "", 1.8, "pinch"),
        Label(spot, text, 12.0, "end" if outer else "start", "ink", True),
    ]
