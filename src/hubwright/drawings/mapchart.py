"""The meridian map as a picture: tyre section with and without disc, and every obstacle over every state, to scale."""

from __future__ import annotations

from typing import Any

import numpy as np

from hubwright.drawings.frame import headed, scale_bar
from hubwright.drawings.marks import paragraph, shortened, wrapped
from hubwright.drawings.scene import DASHED, Dot, Item, Label, Spot, Stroke, line
from hubwright.drawings.svg import svg_of
from hubwright.jobs.room_table import RoomTable
from hubwright.language import say
from hubwright.language.part_words import grade_word
from hubwright.language.place_words import place_word
from hubwright.language.words import corner_title
from hubwright.quantities.text import length, thickness

Floats = np.ndarray[Any, np.dtype[np.float64]]

MARGIN_MM = 70.0
DASHES: tuple[tuple[float, ...], ...] = ((), (7.0, 3.0), (2.0, 3.0), (10.0, 3.0, 2.0, 3.0))


def map_svg(room: RoomTable) -> str:
    """Distance from the spin axis upward, place along it (outboard to the right), mm, one scale for both.

    Thin: the section without a disc; thick: with it; lines around: the nearest places of every obstacle over all
    states of the map, as the middle of the section sees them; cross: where the least gap is.
    """
    outline, disc = room.mapped.outline, room.with_disc[0].thickness_mm
    rho, y = outline.rho_mm, outline.y_mm
    left, right = float(y.min()) - MARGIN_MM, float(y.max()) + MARGIN_MM + disc
    low, top = float(rho.min()) - 20.0, float(rho.max()) + MARGIN_MM + 20.0
    px = (right - left) / 400.0

    def spots(shift: float) -> tuple[Spot, ...]:
        return tuple((float(b) + shift, float(a)) for a, b in zip(rho, y, strict=True))

    items: list[Item] = [Stroke(spots(0.0), "soft", 1.0, DASHED if disc else (), True, "rubber", name="tyre section")]
    if disc:
        items.append(Stroke(spots(disc), "disc", 2.2, (), True, name="tyre section with disc"))
    for number, layer in enumerate(room.mapped.ready.drawn.layers):
        for chain in np.unique(layer.chain):
            rows = layer.chain == chain
            inside = [(float(b), float(a)) for a, b in zip(layer.rho_mm[rows], layer.y_mm[rows], strict=True)]
            for run in _within(inside, (left, low, right, top)):
                items.append(Stroke(run, "body", 1.8, DASHES[number % len(DASHES)], name=layer.name))
    items += _pinch(room, px)
    items += [
        line((left, low), (right, low), "soft", 0.8),
        line((0.0, low), (0.0, low + 12 * px), "ink", 1.2),
        Label((0.0, low + 15 * px), say("hub face"), 11.5, "middle", "soft"),
        Label((right - 4 * px, low + 5 * px), say("outboard →"), 11.5, "end", "soft"),
    ]
    title = say("{corner}: clearance map", corner=corner_title(room.axle, room.side))
    words = _words(room)
    lines = [part for text in words for part in wrapped(text, 385, 11.5)]
    floor = low - 20 * px - 15.5 * px * len(lines) - 24 * px
    items += [Label((left + 6 * px, top - 16 * px), shortened(title, 50), 14.0, bold=True)]
    items += paragraph((left + 6 * px, low - 20 * px), lines, px, 11.5)
    items += scale_bar(left + 8 * px, floor + 10 * px, px)
    return svg_of(headed("map", title, " ".join(words), tuple(items), (left, floor, right, top), px))


def _pinch(room: RoomTable, px: float) -> list[Item]:
    """Where the least gap of the disc looked at is, in the half-plane of its own state."""
    row = room.with_disc[0]
    place = half_plane(room)
    if place is None:
        return []
    y, rho = place
    r = 6 * px
    return [
        line((y - r, rho - r), (y + r, rho + r), "bad", 2.0),
        line((y - r, rho + r), (y + r, rho - r), "bad", 2.0),
        Dot((y, rho), 9.0, "bad", "", 1.2, "least gap"),
        Label((y, rho + 14 * px), length(row.gap_mm), 12.0, "middle", "bad", True),
    ]


def half_plane(room: RoomTable) -> Spot | None:
    """Place along the axis and distance from it of the governing place, in its own state."""
    row = room.with_disc[0]
    if row.place_mm is None:
        return None
    place = np.array(row.place_mm)
    if row.travel_mm is None or row.steer_deg is None:
        return float(place[1]), float(np.hypot(place[0], place[2]))
    origin, axis = pose_of(room, row.travel_mm, row.steer_deg)
    away = place - origin
    y = float(away @ axis)
    return y, float(np.linalg.norm(away - y * axis))


def pose_of(room: RoomTable, travel_mm: float, steer_deg: float) -> tuple[Floats, Floats]:
    """Hub-face centre and spin axis in one state, corner axes."""
    mapped = room.mapped
    centre, axis, _ = mapped.motion.solve(np.array([travel_mm]), np.array([mapped.second_at(travel_mm, steer_deg)]))
    parked = mapped.motion.parked()
    inset = float((mapped.hub_mm - parked[0]) @ parked[1])
    return centre[0] + inset * axis[0], axis[0]


def _within(points: list[Spot], edges: tuple[float, float, float, float]) -> list[tuple[Spot, ...]]:
    left, low, right, top = edges
    runs: list[list[Spot]] = [[]]
    for x, y in points:
        if left <= x <= right and low <= y <= top:
            runs[-1].append((x, y))
        elif runs[-1]:
            runs.append([])
    return [tuple(run) for run in runs if len(run) > 1]


def _words(room: RoomTable) -> list[str]:
    row = room.with_disc[0]
    disc = say("with {thickness}", thickness=thickness(row.thickness_mm)) if row.thickness_mm else say("without a disc")
    return [
        say(
            "{package}; motion from {grade}; {states} states.",
            package=room.package,
            grade=grade_word(room.grade),
            states=room.states,
        ),
        say(
            "Least gap {disc}: {gap} to {obstacle}; {owed} wanted.",
            disc=disc,
            gap=length(row.gap_mm),
            obstacle=place_word(row.obstacle),
            owed=length(row.owed_mm),
        ),
        say("Lines: the nearest place of each obstacle over all travel and lock. Dashed: without a disc.")
        if row.thickness_mm
        else say("Lines: the nearest place of each obstacle over all travel and lock."),
    ]
