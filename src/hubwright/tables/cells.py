"""Typed reading of table cells, and the fault for a name a table does not know."""

from __future__ import annotations

from collections.abc import Iterable

from hubwright.errors import BadDataFile, BadInput, Fault
from hubwright.language import say
from hubwright.tables.loader import Row, Table


def text_of(row: Row, name: str) -> str:
    """Text in column ``name``; an empty cell gives an empty text."""
    cell = row[name]
    return "" if cell is None else str(cell)


def maybe_number(row: Row, name: str) -> float | None:
    """Number in column ``name``; None where the table has an empty cell."""
    cell = row[name]
    if cell is None or isinstance(cell, int | float):
        return cell
    raise BadDataFile("table", name, say("a column of numbers"), repr(cell))


def number_of(row: Row, name: str) -> float:
    """Number in column ``name``.

    Raises:
        BadDataFile: where the cell is empty or holds text.
    """
    number = maybe_number(row, name)
    if number is None:
        raise BadDataFile("table", name, say("a number"), say("an empty cell"))
    return float(number)


def row_where(table: Table, column: str, value: str | float) -> Row | None:
    """The first row whose cell in ``column`` equals ``value``; None where there is none."""
    return next((row for row in table.rows if row[column] == value), None)


def not_known(field: str, wanted: str, given: str, known: Iterable[object], todo: str = "") -> BadInput:
    """The refusal of a text a table does not know, with everything it does know."""
    listed = ", ".join(str(item) for item in known)
    return BadInput(
        say(field),
        (Fault(say(field), say("{wanted}: one of {known}", wanted=say(wanted), known=listed), repr(given), say(todo)),),
    )
