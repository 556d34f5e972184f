"""Clearance margins by use of the car: the defaults a shop may replace with its own."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.tables.cells import not_known, number_of, text_of
from hubwright.tables.loader import Row, read_table


@dataclass(frozen=True)
class Margins:
    """Free air to keep for one use, in every state of suspension and steering."""

    use: str
    tyre_to_body_mm: float
    tyre_to_carried_parts_mm: float
    wheel_to_caliper_mm: float
    tyre_to_hose_or_steering_mm: float
    how_seen: str
    source: str


def uses() -> tuple[str, ...]:
    """Every use `margins` takes."""
    return tuple(use for row in read_table("margins").rows for use in _names(row))


def margins(use: str) -> Margins:
    """Margins of a use; ``laden``, ``van`` and ``towing`` share one row.

    Raises:
        BadInput: for a use the table does not have; there is no default.
    """
    table = read_table("margins")
    wanted = use.strip().lower()
    for row in table.rows:
        if wanted in _names(row):
            return Margins(
                use=wanted,
                tyre_to_body_mm=number_of(row, "tyre_to_body_mm"),
                tyre_to_carried_parts_mm=number_of(row, "tyre_to_carried_parts_mm"),
                wheel_to_caliper_mm=number_of(row, "wheel_to_caliper_mm"),
                tyre_to_hose_or_steering_mm=number_of(row, "tyre_to_hose_or_steering_mm"),
                how_seen=text_of(row, "how_seen"),
                source=table.source,
            )
    raise not_known("use", "a use of the car", use, uses())


def _names(row: Row) -> list[str]:
    others = [name.strip() for name in text_of(row, "also").split(",") if name.strip()]
    return [text_of(row, "use"), *others]
