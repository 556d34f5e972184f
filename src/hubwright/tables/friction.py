"""Friction coefficient classes, and which class a state of lubrication in words stands for."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.errors import BadInput
from hubwright.tables.cells import maybe_number, not_known, number_of, text_of
from hubwright.tables.loader import read_table

OPEN_END = 0.45
"""High end of a class whose row has none; a guess."""
WORDS = (
    ("A", ("wax", "mos2", "molybdenum", "solid lubricant", "anti-seize", "antiseize", "copper paste", "ceramic")),
    ("B", ("oil", "grease", "paste", "lubricat", "delivery")),
    ("D", ("rust", "blasted", "degreased")),
    ("C", ("dry", "bare", "phosphat", "zinc", "clean")),
)
"""Words of a record and the class they are taken for, looked through from above; our own reading, a guess."""
WITHOUT = ("not lubricat", "unlubricat", "no lubric", "without lubric", "no oil", "without oil", "no grease",
           "without grease", "not oiled", "not greased", "no paste", "without paste", "oil-free", "oil free")  # fmt: skip


@dataclass(frozen=True)
class FrictionClass:
    """Range of the coefficient of friction of one class; ``open_end`` says that its high end is our guess."""

    name: str
    low: float
    high: float
    typical: str
    open_end: bool
    source: str


def friction_class(name: str) -> FrictionClass:
    """The class with a letter (VDI 2230, friction coefficient classes).

    Raises:
        BadInput: for a letter the table does not have.
    """
    table = read_table("friction_classes")
    for row in table.rows:
        if row["friction_class"] == name.strip().upper():
            high = maybe_number(row, "friction_max")
            return FrictionClass(
                text_of(row, "friction_class"),
                number_of(row, "friction_min"),
                OPEN_END if high is None else high,
                text_of(row, "typical"),
                high is None,
                table.source,
            )
    raise not_known("friction class", "a friction class", name, [text_of(row, "friction_class") for row in table.rows])


def class_of_words(lubrication: str) -> FrictionClass | None:
    """The class that a state of lubrication in words is taken for; None where no word is understood.

    ``class B`` or ``friction class B`` is taken at its word.
    """
    words = lubrication.lower()
    if "class " in words:
        try:
            return friction_class(words.rpartition("class ")[2][:1])
        except BadInput:
            return None
    if any(word in words for word in WITHOUT):
        return friction_class("C")
    name = next((letter for letter, known in WORDS if any(word in words for word in known)), None)
    return None if name is None else friction_class(name)
