"""Charts of one wheel's motion: every figure against travel, and against steer where the wheel steers."""

from __future__ import annotations

from typing import Any

import numpy as np

from hubwright.drawings.marks import paragraph, shortened, tick_words, ticks, wrapped
from hubwright.drawings.scene import DASHED, Group, Item, Label, Scene, Spot, Stroke, box, line
from hubwright.drawings.svg import svg_of
from hubwright.jobs.motion_table import MotionTable, column_words
from hubwright.language import say
from hubwright.language.part_words import grade_word
from hubwright.language.words import corner_title
from hubwright.quantities.text import figure, unit, unit_mm

Floats = np.ndarray[Any, np.dtype[np.float64]]

WIDTH_PX, LEFT_PX, RIGHT_PX = 410.0, 48.0, 396.0
PLOT_PX, STEP_PX = 104.0, 158.0
FAR = 20_000.0
"""Arms longer than this (mm) are left out of the chart: the instant centre runs off to infinity there."""


def motion_svg(table: MotionTable) -> str:
    """One chart below the other, each with its own scale; a band shows the standard doubt of what was measured.

    A gap in a line is a state that could not be solved, or a figure that does not exist there.
    """
    title = say(
        "{corner}: how the wheel moves ({grade})",
        corner=corner_title(table.axle, table.side),
        grade=grade_word(table.grade),
    )
    items: list[Item] = [Label((14, -20), shortened(title, 54), 13.0, bold=True)]
    lines = [part for text in (table.reach, *table.notes, *table.unsolved) for part in wrapped(text, 380, 11.0)]
    items += paragraph((14, -38), lines[:12], 1.0, 11.0, "soft")
    top = -38 - 14.5 * len(lines[:12]) - 12
    travel = table.travel_mm / unit_mm()
    along = say("travel, {unit}; bump →", unit=unit())
    for name, values in table.by_travel.items():
        doubt = table.doubt.get(name)
        shown = None if doubt is None else doubt / per_of(name)
        items += _chart(column_words(name, unit()), along, travel, _shown(name, values), shown, top)
        top -= STEP_PX
    if {"centre_out_mm", "centre_forward_mm"} <= set(table.by_travel):
        items += _path(table, top)
        top -= STEP_PX + 40
    if table.rack_mm.size:
        order = np.argsort(table.steer_deg)
        for name, values in table.by_rack.items():
            if name == "toe_deg":
                continue
            items += _chart(
                say("{column}, parked", column=column_words(name, unit())),
                say("steer, °; left →"),
                table.steer_deg[order],
                _shown(name, values)[order],
                None,
                top,
            )
            top -= STEP_PX
    description = say(
        "{count} figures against travel from {low} to {high} {unit}.",
        count=len(table.by_travel),
        low=figure(float(table.travel_mm[0]), 0),
        high=figure(float(table.travel_mm[-1]), 0),
        unit=unit(),
    )
    return svg_of(Scene("motion", title, description, tuple(items), 0, top, WIDTH_PX, 0))


def per_of(name: str) -> float:
    """By what a column of the table is divided to stand in the unit spoken."""
    return unit_mm() if name.endswith("mm") else 1.0


def _shown(name: str, values: Floats) -> Floats:
    """A column in the unit spoken; what runs off to infinity is left out."""
    kept = np.where(np.abs(values) < FAR, values, np.nan) if name.endswith("mm") else values
    return np.asarray(kept / per_of(name))


def _chart(words: str, along: str, x: Floats, y: Floats, doubt: Floats | None, top: float) -> list[Item]:
    good = np.isfinite(y) & (np.abs(y) < FAR) & np.isfinite(x)
    if not np.any(good):
        return [Label((14, top - 12), say("{words}: does not exist here", words=words), 11.0, role="soft")]
    spread = np.zeros_like(y) if doubt is None else doubt
    low, high = float((y - spread)[good].min()), float((y + spread)[good].max())
    if high - low < 1e-3 * max(1.0, abs(high)):
        low, high = low - 0.5, high + 0.5
    low, high = low - 0.06 * (high - low), high + 0.06 * (high - low)
    x_low, x_high = float(x[np.isfinite(x)].min()), float(x[np.isfinite(x)].max())
    x_high = x_high if x_high > x_low else x_low + 1.0
    bottom = top - 16 - PLOT_PX

    def at(a: float, b: float) -> Spot:
        return (
            LEFT_PX + (RIGHT_PX - LEFT_PX) * (a - x_low) / (x_high - x_low),
            bottom + PLOT_PX * (b - low) / (high - low),
        )

    items: list[Item] = [Label((14, top - 8), words, 11.5, bold=True)]
    for value in ticks(low, high, 4):
        spot = at(x_low, value)
        items += [
            line(spot, (RIGHT_PX, spot[1]), "faint", 0.6),
            Label((LEFT_PX - 5, spot[1] - 4), tick_words(value), 10.5, "end", "soft"),
        ]
    for value in ticks(x_low, x_high, 7):
        spot = at(value, low)
        items += [
            line(spot, (spot[0], bottom - 4), "soft"),
            Label((spot[0], bottom - 15), tick_words(value), 10.5, "middle", "soft"),
        ]
    items += [
        line((LEFT_PX, bottom), (RIGHT_PX, bottom), "soft"),
        Label((RIGHT_PX, top - 8), along, 10.5, "end", "soft"),
    ]
    if x_low < 0 < x_high:
        items.append(line(at(0, low), at(0, high), "faint", 1.0, DASHED))
    if doubt is not None:
        rim = [at(float(a), float(b)) for a, b in zip(x[good], (y + doubt)[good], strict=True)]
        rim += [at(float(a), float(b)) for a, b in zip(x[good][::-1], (y - doubt)[good][::-1], strict=True)]
        items.append(Stroke(tuple(rim), "doubt", 0.6, DASHED, True, "ground", name="standard doubt"))
    items += [Stroke(run, "body", 1.8, name=words) for run in _runs(at, x, y, good)]
    return items


def _runs(at: Any, x: Floats, y: Floats, good: Any) -> list[tuple[Spot, ...]]:
    runs: list[list[Spot]] = [[]]
    for a, b, fine in zip(x, y, good, strict=True):
        if fine:
            runs[-1].append(at(float(a), float(b)))
        elif runs[-1]:
            runs.append([])
    return [tuple(run) for run in runs if len(run) > 1]


def _path(table: MotionTable, top: float) -> list[Item]:
    """Path of the wheel centre seen from behind and from the side, both scales alike across."""
    per = unit_mm()
    out, ahead = table.by_travel["centre_out_mm"] / per, table.by_travel["centre_forward_mm"] / per
    up = table.travel_mm / per
    good = np.isfinite(out)
    if good.sum() < 2:
        return []
    items: list[Item] = [Label((14, top - 8), say("wheel centre path, {unit}", unit=unit()), 11.5, bold=True)]
    tall = PLOT_PX + 40
    bottom = top - 22 - tall
    low, high = float(up[good].min()), float(up[good].max())
    high = high if high > low else low + 1.0
    wide = max(float(np.abs(out[good]).max()), float(np.abs(ahead[good]).max()), 1.0 / per) * 1.15
    for middle, values, words in ((130.0, out, say("outboard →")), (310.0, ahead, say("forward →"))):

        def spot(a: float, z: float, middle: float = middle) -> Spot:
            return (middle + 72.0 * a / wide, bottom + tall * (z - low) / (high - low))

        items.append(Stroke(box(middle - 76, bottom, middle + 76, bottom + tall), "faint", 0.8, (), True))
        items += [line(spot(0, low), spot(0, high), "faint", 1.0, DASHED)]
        items.append(
            line((middle - 76, spot(0, 0)[1]), (middle + 76, spot(0, 0)[1]), "faint", 0.8)
            if low <= 0 <= high
            else items[-1]
        )
        run = tuple(spot(float(a), float(z)) for a, z in zip(values[good], up[good], strict=True))
        items.append(Group("centre path", (Stroke(run, "body", 1.8, name=words),), words))
        for value in ticks(-wide, wide, 3):
            items.append(Label((spot(value, low)[0], bottom - 14), tick_words(value), 10.5, "middle", "soft"))
        items.append(Label((middle + 76, bottom - 28), words, 10.5, "end", "soft"))
    for value in ticks(low, high, 6):
        y = bottom + tall * (value - low) / (high - low)
        items.append(Label((LEFT_PX, y - 4), tick_words(value), 10.5, "end", "soft"))
    return items
