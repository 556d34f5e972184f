"""Wheel mounting practice as makers and trade bodies print it."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.tables.cells import maybe_number, text_of
from hubwright.tables.loader import read_table


@dataclass(frozen=True)
class Practice:
    """One printed practice; lengths and distances are None where it names none."""

    topic: str
    words: str
    length_low_mm: float | None
    length_high_mm: float | None
    distance_low_km: float | None
    distance_high_km: float | None
    how_seen: str
    source: str


def practices(topic: str) -> tuple[Practice, ...]:
    """Every practice whose topic begins with ``topic``, in the order of the table; empty for none."""
    table = read_table("wheel_mounting_practice")
    return tuple(
        Practice(
            text_of(row, "topic"),
            text_of(row, "practice"),
            maybe_number(row, "length_low_mm"),
            maybe_number(row, "length_high_mm"),
            maybe_number(row, "distance_low_km"),
            maybe_number(row, "distance_high_km"),
            text_of(row, "how_seen"),
            table.source,
        )
        for row in table.rows
        if text_of(row, "topic").startswith(topic)
    )
