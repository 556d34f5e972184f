"""A figure and how it is known. Drawings show what was read, what was taken from a marking, and what is only assumed."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from hubwright.language import marked_as, say, say_as
from hubwright.quantities.reading import Reading
from hubwright.quantities.text import length, number, unit_mm


class Standing(StrEnum):
    """How a figure is known. Only assumed shapes are dashed; what is not measured is named so."""

    READ = "read"
    MARKED = "by its marking"
    ASSUMED = "assumed"
    MISSING = "not measured"


@dataclass(frozen=True)
class Figure:
    """One figure of a drawing.

    Attributes:
        what: What it is, in words.
        value: In its unit; what is drawn where it was not measured.
        standing: How it is known.
        unit: mm or °.
    """

    what: str
    value: float
    standing: Standing
    unit: str = "mm"

    @property
    def known(self) -> bool:
        """Whether it was read or marked, so that it is drawn solid."""
        return self.standing in (Standing.READ, Standing.MARKED)

    @property
    def words(self) -> str:
        """The value with its unit; what was not measured has none."""
        if self.standing is Standing.MISSING:
            return say("not measured")
        if self.unit == "°":
            return f"{number(self.value, 2)}°"
        return length(self.value, 0 if abs(self.value - round(self.value)) < 0.05 and unit_mm() == 1.0 else 1)


def read(what: str, reading: Reading | None, drawn: float = 0.0, unit: str = "mm") -> Figure:
    """A reading as a figure; where there is none, what is drawn in its place, named as not measured."""
    if reading is None:
        return Figure(what, drawn, Standing.MISSING, unit)
    return Figure(what, reading.value, Standing.READ, unit)


WORDS = {
    Standing.READ: marked_as("figure", "read"),
    Standing.MARKED: marked_as("figure", "by its marking"),
    Standing.ASSUMED: marked_as("figure", "assumed"),
    Standing.MISSING: marked_as("figure", "not measured"),
}


def figure_word(standing: Standing) -> str:
    """How a figure is known."""
    return say_as("figure", WORDS[standing])
