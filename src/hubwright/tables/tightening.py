"""Scatter of tightening methods, and the order in which fasteners are tightened."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.tables.cells import not_known, number_of, row_where, text_of
from hubwright.tables.loader import read_table


@dataclass(frozen=True)
class TighteningMethod:
    """Tightening factor alpha_A (greatest over least preload) of one method, low and high end."""

    name: str
    factor_low: float
    factor_high: float
    how_seen: str
    source: str


def tightening_method(name: str) -> TighteningMethod:
    """The method by its name in the table (VDI 2230, tightening factors).

    Raises:
        BadInput: for a method the table does not have, listing those it has.
    """
    table = read_table("tightening_factor")
    for row in table.rows:
        if text_of(row, "method").lower() == " ".join(name.lower().split()):
            low, high = number_of(row, "factor_min"), number_of(row, "factor_max")
            return TighteningMethod(text_of(row, "method"), low, high, text_of(row, "how_seen"), table.source)
    raise not_known("method", "a method of tightening", name, [text_of(row, "method") for row in table.rows])


def tightening_order(fasteners: int) -> str | None:
    """Order for so many fasteners per wheel (common practice, no source); None where the table has no row."""
    row = row_where(read_table("tightening_order"), "fasteners", fasteners)
    return None if row is None else text_of(row, "order")
