"""What a hole circle is called: `5x112`, `6x139.7`, `5x4.5in`."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.errors import BadInput
from hubwright.language import say
from hubwright.parts.reader import Reader, number
from hubwright.quantities.text import plain
from hubwright.quantities.units import MM_PER_INCH


@dataclass(frozen=True)
class HoleCircle:
    """Number of holes, evenly spaced, and the diameter of the circle through their centres."""

    holes: int
    diameter_mm: float


def read_hole_circle(text: str) -> HoleCircle:
    """The hole circle written in `text`, mm unless it says `in` or `"`.

    Raises:
        BadInput: naming the piece that was not understood; a small figure without a unit is asked for its unit.
    """
    reader = Reader(text, "hole_circle")
    holes = int(reader.need(r"(\d{1,2})(?!\d)", "holes", say("a number of holes such as 5"))[1])
    if not 3 <= holes <= 10:
        reader.refuse("holes", say("3 to 10"), str(holes))
    reader.need(r"[x×/*]", "separator", say("x between holes and diameter"))
    size = number(reader.need(r"(\d{1,3}(?:[.,]\d{1,3})?)", "diameter", say("a diameter such as 112 or 4.5in"))[1])
    unit = reader.take(r"(mm|inches|inch|in|\"|″)(?![A-Z])")
    if reader.rest:
        reader.refuse("marks", say("nothing after the diameter but mm or in"), reader.rest)
    if unit is None and size < 20.0:
        reader.refuse("diameter", say("a unit: {size}in if it is inches", size=f"{size:g}"), plain(size))
    diameter = size if unit is None or unit[1].lower() == "mm" else size * MM_PER_INCH
    if not 50.0 <= diameter <= 400.0:
        reader.refuse("diameter", say("50 to 400 mm"), f"{plain(diameter)} mm")
    return HoleCircle(holes, diameter)


def hole_circle_or_none(text: str | None) -> HoleCircle | None:
    """The hole circle written in `text`; None where nothing, or nothing readable, is written (questioned elsewhere)."""
    if text is None:
        return None
    try:
        return read_hole_circle(text)
    except BadInput:
        return None
