"""Rim diameters, flange heights and rim-to-section ratios by code."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.errors import OutsideValidity
from hubwright.tables.cells import not_known, number_of, row_where, text_of
from hubwright.tables.loader import read_table


@dataclass(frozen=True)
class RimDiameter:
    """The two diameters of one rim code.

    Attributes:
        code: Rim diameter code, the 17 of ``7.5Jx17``.
        nominal_mm: Conventional rim diameter d of UN R30, used in D = d + 2H; None where the table has no row.
        bead_seat_mm: Specified diameter at the bead seat, ISO 4000-2; None where it could not be read.
        how_seen: How each figure was seen.
        source: Both sources.
    """

    code: int
    nominal_mm: float | None
    bead_seat_mm: float | None
    how_seen: str
    source: str


@dataclass(frozen=True)
class FlangeHeight:
    """Range of the flange height above the bead seat; low equals high where the sources agree."""

    flange: str
    low_mm: float
    high_mm: float
    how_seen: str
    source: str


@dataclass(frozen=True)
class RimRatios:
    """Rim width over section width: of the measuring rim (K1) and the theoretical rim (x)."""

    measuring_ratio: float
    theoretical_ratio: float
    how_seen: str
    source: str


def rim_diameter(code: int) -> RimDiameter:
    """Diameters behind a rim diameter code.

    Raises:
        BadInput: for a code neither table has, such as 16.5 or 19.5 (other rim systems).
    """
    nominal, seat = read_table("nominal_rim_diameter"), read_table("rim_bead_seat")
    nominal_row, seat_row = row_where(nominal, "code", code), row_where(seat, "code", code)
    if nominal_row is None and seat_row is None:
        known = sorted({int(number_of(row, "code")) for table in (nominal, seat) for row in table.rows})
        raise not_known("rim diameter code", "a rim diameter code", str(code), known)
    seen = [f"{what}: {text_of(row, 'how_seen')}" for what, row in (("d", nominal_row), ("bead seat", seat_row)) if row]
    return RimDiameter(
        code=code,
        nominal_mm=None if nominal_row is None else number_of(nominal_row, "nominal_mm"),
        bead_seat_mm=None if seat_row is None else number_of(seat_row, "bead_seat_mm"),
        how_seen="; ".join(seen),
        source=f"{nominal.source}; {seat.source}",
    )


def flange_height(flange: str = "J") -> FlangeHeight:
    """Range of flange heights over all rows of the table for one flange letter.

    Raises:
        BadInput: for a flange letter the table does not have.
    """
    table = read_table("rim_flange")
    rows = [row for row in table.rows if row["flange"] == flange.strip().upper()]
    if not rows:
        raise not_known(
            "flange", "a flange letter", flange, dict.fromkeys(text_of(row, "flange") for row in table.rows)
        )
    return FlangeHeight(
        flange=flange.strip().upper(),
        low_mm=min(number_of(row, "height_low_mm") for row in rows),
        high_mm=max(number_of(row, "height_high_mm") for row in rows),
        how_seen="; ".join(dict.fromkeys(text_of(row, "how_seen") for row in rows)),
        source=table.source,
    )


def rim_ratios(aspect_pct: float) -> RimRatios:
    """Rim-to-section ratios of an aspect ratio.

    Raises:
        OutsideValidity: between and beyond the rows of the table; nothing is interpolated.
    """
    table = read_table("tyre_rim_ratios")
    for row in table.rows:
        if number_of(row, "aspect_from_pct") <= aspect_pct <= number_of(row, "aspect_to_pct"):
            measuring, theoretical = number_of(row, "measuring_ratio"), number_of(row, "theoretical_ratio")
            return RimRatios(measuring, theoretical, text_of(row, "how_seen"), table.source)
    valid = "20-25, 30-40, 45, 50-55, 60-65, 70 and 75-95"
    raise OutsideValidity("rim-to-section ratio", "aspect ratio in %", aspect_pct, valid, table.source)
