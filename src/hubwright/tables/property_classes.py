"""Strength classes of bolts and studs (ISO 898-1)."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.errors import OutsideValidity
from hubwright.language import say
from hubwright.quantities.text import plain, pointed
from hubwright.tables.cells import maybe_number, not_known, number_of, text_of
from hubwright.tables.loader import Row, read_table

LARGEST_D_MM = 39.0
SMALLEST_D_MM = 1.6


@dataclass(frozen=True)
class PropertyClass:
    """What a strength class promises at one diameter: least values, and the range of hardness."""

    name: str
    tensile_min_mpa: float
    yield_min_mpa: float
    proof_mpa: float
    hardness_min_hv: float
    hardness_max_hv: float
    elongation_min_pct: float
    source: str


def property_classes() -> tuple[str, ...]:
    """Names of the classes in the table, each once."""
    return tuple(dict.fromkeys(text_of(row, "property_class") for row in read_table("bolt_property_classes").rows))


def property_class(name: str, d_mm: float) -> PropertyClass:
    """Strength class at a thread diameter (ISO 898-1 table 3; M1.6 to M39, from memory).

    Raises:
        BadInput: for a class the table does not have.
        OutsideValidity: for a diameter the class is not defined for.
    """
    table = read_table("bolt_property_classes")
    wanted = name.strip()
    if wanted not in property_classes():
        raise not_known("property class", "a strength class as stamped on the head", name, property_classes())
    for row in table.rows:
        if row["property_class"] == wanted and _holds(row, d_mm):
            return PropertyClass(
                name=wanted,
                tensile_min_mpa=number_of(row, "tensile_min_mpa"),
                yield_min_mpa=number_of(row, "yield_min_mpa"),
                proof_mpa=number_of(row, "proof_mpa"),
                hardness_min_hv=number_of(row, "hardness_min_hv"),
                hardness_max_hv=number_of(row, "hardness_max_hv"),
                elongation_min_pct=number_of(row, "elongation_min_pct"),
                source=table.source,
            )
    valid = (
        "1.6 to 16 mm"
        if wanted == "9.8"
        else say("{low} to {high} mm", low=pointed(str(SMALLEST_D_MM)), high=plain(LARGEST_D_MM))
    )
    raise OutsideValidity(say("strength class {name}", name=wanted), "thread diameter in mm", d_mm, valid, table.source)


def _holds(row: Row, d_mm: float) -> bool:
    over_mm, up_to_mm = maybe_number(row, "d_over_mm"), maybe_number(row, "d_up_to_mm")
    above = d_mm >= SMALLEST_D_MM if over_mm is None else d_mm > over_mm
    return above and d_mm <= (LARGEST_D_MM if up_to_mm is None else up_to_mm)
