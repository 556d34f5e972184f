"""Flush, tucked in or poking out: the wheel against named points of the body edge, in mm per side."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from hubwright.language import say
from hubwright.language.part_words import part_word
from hubwright.language.words import side_word
from hubwright.parts.job import Axle
from hubwright.quantities.axes import SIDES
from hubwright.quantities.text import length

if TYPE_CHECKING:
    from hubwright.checks.outlines import Built


@dataclass(frozen=True)
class BodyStanding:
    """How one wheel stands to one point of the body, parked.

    Attributes:
        side, name: The point.
        poke_mm: Beyond it outboard positive, tucked in negative.
        word: flush, tuck or poke.
        part: What of the wheel stands outermost there, and at which radius.
        radius_mm: That radius.
        flush_disc_mm: The disc per side that would make it flush, not rounded; negative where none does.
        sentence: The same in words.
    """

    side: str
    name: str
    poke_mm: float
    word: str
    part: str
    radius_mm: float
    flush_disc_mm: float
    sentence: str


def standings(axle: Axle, built: Built, thickness_mm: float = 0.0) -> tuple[BodyStanding, ...]:
    """How wheel and tyre stand to every body line of an axle, left first; the camber is the parked one, else upright."""
    from hubwright.engineering.tyrewheel.outline import standing  # noqa: PLC0415 - compiled sums load slowly

    shape = built.outline(thickness_mm)
    found = []
    for side in SIDES:
        corner = axle.corner(side)
        camber = corner.camber_deg.value if corner.camber_deg else 0.0
        for line in corner.body_line:
            seen = standing(shape, line.outward_mm.value, line.angle_deg, camber)
            flush = thickness_mm - seen.poke_mm / math.cos(math.radians(camber))
            words = say(
                "{side}, {line}: {stands} ({part})",
                side=side_word(side),
                line=line.name,
                stands=standing_words(seen.poke_mm, flush=seen.word == "flush"),
                part=part_word(seen.part),
            )
            found.append(
                BodyStanding(side, line.name, seen.poke_mm, seen.word, seen.part, seen.radius_mm, flush, words)
            )
    return tuple(found)


def standing_words(poke_mm: float, *, flush: bool) -> str:
    """``flush``, ``8.0 mm poke`` or ``3.0 mm tuck``."""
    if flush:
        return say("flush")
    by = length(abs(poke_mm))
    return say("{by} poke", by=by) if poke_mm > 0 else say("{by} tuck", by=by)
