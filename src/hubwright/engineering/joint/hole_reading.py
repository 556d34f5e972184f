"""Hole circles from what a calliper can reach: the distance between two holes.

Source: geometry of a regular polygon (derived).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from hubwright.errors import OutsideValidity
from hubwright.language import marked, say
from hubwright.parts.hole_circle import HoleCircle

Over = Literal["centres", "outer edges", "inner edges"]
GEOMETRY = marked("plane geometry: chord = D sin(pi k / n)")
COMMON_CIRCLES_MM = (98.0, 100.0, 105.0, 108.0, 110.0, 112.0, 114.3, 115.0, 118.0, 120.0, 127.0, 130.0, 135.0, 139.7)


@dataclass(frozen=True)
class CircleGuess:
    """One circle a reading may mean: how far the reading is from its chord, in mm and in standard uncertainties."""

    circle: HoleCircle
    difference_mm: float
    standard_steps: float


def chord_mm(circle: HoleCircle, apart: int = 1) -> float:
    """Distance between the centres of two holes that are `apart` steps from each other, D sin(pi k / n), mm.

    Raises:
        OutsideValidity: for `apart` below 1 or beyond half the circle.
    """
    return circle.diameter_mm * _sine(circle.holes, apart)


def circle_from_reading(
    reading_mm: float, holes: int, apart: int = 1, over: Over = "centres", hole_diameter_mm: float = 0.0
) -> HoleCircle:
    """The circle a reading between two holes means.

    Args:
        reading_mm: What the calliper read.
        holes: Number of holes, 3 to 10.
        apart: 1 for neighbours, 2 for the next but one, ...; holes/2 for opposite holes.
        over: `centres`; `outer edges` (one hole diameter too much) or `inner edges` (one too little).
        hole_diameter_mm: Needed for edges.

    Raises:
        OutsideValidity: for holes or steps that do not exist, or edges without a hole diameter.
    """
    if over != "centres" and hole_diameter_mm <= 0.0:
        raise OutsideValidity("Hole circle", "hole diameter", hole_diameter_mm, "more than 0 over edges", GEOMETRY)
    shift = {"centres": 0.0, "outer edges": -hole_diameter_mm, "inner edges": hole_diameter_mm}[over]
    return HoleCircle(holes, (reading_mm + shift) / _sine(holes, apart))


def tell_circles_apart(
    chord_read_mm: float,
    u_mm: float,
    holes: int,
    apart: int = 1,
    candidates_mm: Sequence[float] = COMMON_CIRCLES_MM,
) -> tuple[CircleGuess, ...]:
    """Candidate circles, nearest first, with how well a chord over centres fits each.

    Two circles are told apart when the second is several standard uncertainties away: 5x112 and 5x114.3 differ by
    1.35 mm in the chord of neighbours and by 2.19 mm over the next hole but one. The default candidates are common
    practice, no source.
    """
    guesses = []
    for diameter in candidates_mm:
        circle = HoleCircle(holes, diameter)
        difference = chord_read_mm - chord_mm(circle, apart)
        guesses.append(CircleGuess(circle, difference, abs(difference) / u_mm))
    return tuple(sorted(guesses, key=lambda guess: abs(guess.difference_mm)))


def _sine(holes: int, apart: int) -> float:
    if not 3 <= holes <= 10:
        raise OutsideValidity("Hole circle", "holes", holes, "3 to 10", GEOMETRY)
    if not 1 <= apart <= holes // 2:
        raise OutsideValidity(
            "Hole circle", "holes apart", apart, say("{low} to {high}", low=1, high=holes // 2), GEOMETRY
        )
    return math.sin(math.pi * apart / holes)
