"""Everything a clearance map knows around a wheel, as the wheel sees it, for the section of a corner."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from hubwright.checks.house import House
from hubwright.checks.mapped import gaps
from hubwright.drawings.scene import Spot
from hubwright.jobs.mapping import MappedCorner
from hubwright.language import say
from hubwright.language.place_words import place_word
from hubwright.quantities.text import length

Floats = np.ndarray[Any, np.dtype[np.float64]]
AROUND_MM = 40.0
"""How far beyond wheel and tyre, over all discs, the lines are drawn."""


@dataclass(frozen=True)
class Line:
    """How near one obstacle ever comes, in the hub frame: outboard and distance from the spin axis, mm."""

    name: str
    points: tuple[Spot, ...]


@dataclass(frozen=True)
class Nearest:
    """The least gap with one disc: from the obstacle to the tyre in the hub frame, with what is left and what is owed."""

    start: Spot
    end: Spot
    air_mm: float
    owed_mm: float
    words: str


def lines_of(mapped: MappedCorner, thickest_mm: float) -> tuple[Line, ...]:
    """The lines of every obstacle near enough to be drawn.

    Args:
        mapped: The map.
        thickest_mm: The thickest disc looked at.
    """
    rho, y = mapped.outline.rho_mm, mapped.outline.y_mm
    low, high = float(y.min()) - AROUND_MM, float(y.max()) + thickest_mm + AROUND_MM
    base, roof = float(rho.min()), float(rho.max()) + AROUND_MM
    found = []
    for layer in mapped.ready.drawn.layers:
        for chain in np.unique(layer.chain):
            rows = layer.chain == chain
            spots = [(float(b), float(a)) for a, b in zip(layer.rho_mm[rows], layer.y_mm[rows], strict=True)]
            for run in _within(spots, (low, base, high, roof)):
                found.append(Line(layer.name, run))
    return tuple(found)


def nearest_of(mapped: MappedCorner, house: House, thickness_mm: float) -> Nearest | None:
    """Where the least gap with one disc is, on the line of its obstacle; None where nothing is within reach."""
    told = gaps(mapped.room, house, thickness_mm)[0]
    layer = next((layer for layer in mapped.ready.drawn.layers if layer.name == told.neighbour.name), None)
    if layer is None or told.air.place_mm is None or len(layer.rho_mm) == 0:
        return None
    section = np.column_stack([mapped.outline.y_mm + thickness_mm, mapped.outline.rho_mm])
    line = np.column_stack([layer.y_mm, layer.rho_mm])
    start, end = _nearest(line, np.concatenate([section, section[:1]]))
    owed = told.margin_mm + told.guard_mm + told.give_mm
    words = say(
        "M: {name}, {state}, by the map: {air} of air, {owed} needed.", name=place_word(told.neighbour.name), state=told.state,
        air=length(told.air_mm), owed=length(owed),
    )  # fmt: skip
    return Nearest(start, end, told.air_mm, owed, words)


def _nearest(points: Floats, ring: Floats) -> tuple[Spot, Spot]:
    """The point of a line nearest to a closed outline, and the place there: corners of one against sides of the other."""
    best: tuple[float, Floats, Floats] | None = None
    for ours, theirs, turned in ((points, ring, False), (ring, points, True)):
        if len(theirs) < 2:
            continue
        start, along = theirs[:-1], theirs[1:] - theirs[:-1]
        squared = np.maximum((along**2).sum(axis=1), 1e-12)
        share = np.clip(((ours[:, None] - start) * along).sum(axis=2) / squared, 0.0, 1.0)
        foot = start + share[:, :, None] * along
        away = np.hypot(*(ours[:, None] - foot).transpose(2, 0, 1))
        i, j = np.unravel_index(int(away.argmin()), away.shape)
        pair = (foot[i, j], ours[i]) if turned else (ours[i], foot[i, j])
        if best is None or away[i, j] < best[0]:
            best = (float(away[i, j]), *pair)
    assert best is not None  # a section has sides
    return (float(best[1][0]), float(best[1][1])), (float(best[2][0]), float(best[2][1]))


def _within(spots: list[Spot], edges: tuple[float, float, float, float]) -> list[tuple[Spot, ...]]:
    left, low, right, top = edges
    runs: list[list[Spot]] = [[]]
    for x, y in spots:
        if left <= x <= right and low <= y <= top:
            runs[-1].append((x, y))
        elif runs[-1]:
            runs.append([])
    return [tuple(run) for run in runs if len(run) > 1]
