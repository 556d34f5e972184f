"""Limits of size by ISO 286 for the diameters of hub spigots and wheel bores, 30 to 120 mm."""

from __future__ import annotations

import re
from dataclasses import dataclass

from hubwright.errors import BadInput, Fault, OutsideValidity
from hubwright.language import say
from hubwright.tables.cells import number_of, text_of
from hubwright.tables.loader import Row, Table, read_table

_CLASS = re.compile(r"\s*([A-Za-z]{1,2})\s*(\d{1,2})\s*")


@dataclass(frozen=True)
class SizeLimits:
    """Limits of one tolerance class at one nominal size, as deviations from it.

    Attributes:
        tolerance_class: Such as ``H7`` or ``g6``; a capital is a hole.
        nominal_mm: Nominal size.
        lower_um: Lower limit deviation (EI or ei).
        upper_um: Upper limit deviation (ES or es).
        how_seen: How the two figures were seen.
        source: Clause.
    """

    tolerance_class: str
    nominal_mm: float
    lower_um: float
    upper_um: float
    how_seen: str
    source: str


def tolerance_um(grade: str, nominal_mm: float) -> float:
    """Width of a standard tolerance grade such as ``IT7`` at a nominal size (ISO 286-1).

    Raises:
        BadInput: for a grade the table does not have.
        OutsideValidity: for a size not over 30 or above 120 mm.
    """
    return number_of(_row(read_table("iso286_grades"), "grade", grade.strip().upper(), nominal_mm), "tolerance_um")


def size_limits(tolerance_class: str, nominal_mm: float) -> SizeLimits:
    """Limit deviations of a tolerance class such as ``H7`` or ``g6`` at a nominal size (ISO 286-1).

    A hole H runs from EI = 0 to EI + IT; a shaft from es - IT to es. A size on a border belongs to the range below it.

    Raises:
        BadInput: for a letter or grade the tables do not have.
        OutsideValidity: for a size not over 30 or above 120 mm.
    """
    match = _CLASS.fullmatch(tolerance_class)
    if match is None:
        raise BadInput(
            say("tolerance class"),
            (Fault(say("tolerance class"), say("a letter and a grade, H7"), repr(tolerance_class)),),
        )
    letter, grade = match.groups()
    deviations, grades = read_table("iso286_deviations"), read_table("iso286_grades")
    near, width = (
        _row(deviations, "letter", letter, nominal_mm),
        _row(grades, "grade", f"IT{int(grade)}", nominal_mm),
    )
    near_um, width_um = number_of(near, "deviation_um"), number_of(width, "tolerance_um")
    lower_um, upper_um = (near_um, near_um + width_um) if letter.isupper() else (near_um - width_um, near_um)
    seen = "; ".join(dict.fromkeys((text_of(near, "how_seen"), text_of(width, "how_seen"))))
    return SizeLimits(f"{letter}{int(grade)}", nominal_mm, lower_um, upper_um, seen, deviations.source)


def _row(table: Table, column: str, key: str, nominal_mm: float) -> Row:
    known = list(dict.fromkeys(text_of(row, column) for row in table.rows))
    if key not in known:
        raise BadInput(f"ISO 286 {column}", (Fault(column, say("one of {known}", known=", ".join(known)), repr(key)),))
    for row in table.rows:
        in_range = number_of(row, "size_over_mm") < nominal_mm <= number_of(row, "size_up_to_mm")
        if row[column] == key and in_range:
            return row
    raise OutsideValidity("ISO 286 table", "nominal size in mm", nominal_mm, "over 30 up to 120 mm", table.source)
