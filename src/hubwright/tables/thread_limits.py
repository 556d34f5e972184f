"""Limits of size of threads in use, 6g outside and 6H inside."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.tables.cells import maybe_number, number_of, row_where, text_of
from hubwright.tables.loader import read_table


@dataclass(frozen=True)
class LimitsOfSize:
    """The limits one thread's row gives; the internal ones are None where the row leaves them empty."""

    thread: str
    pitch_mm: float
    bolt_major_min_mm: float
    bolt_major_max_mm: float
    bolt_pitch_min_mm: float
    bolt_pitch_max_mm: float
    nut_minor_max_mm: float | None
    nut_pitch_max_mm: float | None
    how_seen: str
    source: str


def limits_of_size(designation: str) -> LimitsOfSize | None:
    """The row of a thread such as ``M14x1.5`` (ISO 965); None where the table has none."""
    table = read_table("thread_limits_6g6h")
    row = row_where(table, "thread", designation)
    if row is None:
        return None
    return LimitsOfSize(
        designation,
        number_of(row, "pitch_mm"),
        number_of(row, "d_min_mm"),
        number_of(row, "d_max_mm"),
        number_of(row, "d2_min_mm"),
        number_of(row, "d2_max_mm"),
        maybe_number(row, "minor_internal_max_mm"),
        maybe_number(row, "pitch_internal_max_mm"),
        text_of(row, "how_seen"),
        table.source,
    )
