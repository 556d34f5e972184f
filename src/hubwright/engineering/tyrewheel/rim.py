"""Where the rim holds the tyre and how far it stands out itself.

Source: ISO 4000-2 (bead seat and flange); the width over the flanges is common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.errors import OutsideValidity
from hubwright.language import say
from hubwright.quantities.text import plain

OVERALL_ALLOWANCE_MM = 24.0
# The flange counts as wide as at its edge from its outer radius this far inward: a guess on the safe side.
FLANGE_DEPTH_MM = 12.0


@dataclass(frozen=True)
class Rim:
    """A rim as the tyre and the neighbours see it.

    Attributes:
        width_mm: Between the inner faces of the flanges.
        flange_radius_mm: Outermost radius of the flange.
        overall_width_mm: From outer edge to outer edge of the flanges.
        bead_seat_diameter_mm: Diameter at the bead seat.
        estimated: Names of the figures nobody measured.
    """

    width_mm: float
    flange_radius_mm: float
    overall_width_mm: float
    bead_seat_diameter_mm: float
    estimated: tuple[str, ...] = ()


def flange_radius_mm(bead_seat_diameter_mm: float, flange_height_mm: float) -> float:
    """Outer radius of the rim flange, D/2 + G (ISO 4000-2: D at the bead seat, G above it), mm."""
    return bead_seat_diameter_mm / 2.0 + flange_height_mm


def estimate_overall_width_mm(rim_width_mm: float) -> float:
    """Rim width over the flanges: the nominal width and 24 mm, seen between 22 and 27 (common practice, no source)."""
    return rim_width_mm + OVERALL_ALLOWANCE_MM


def rim_from(
    width_mm: float,
    bead_seat_diameter_mm: float,
    flange_height_mm: float,
    *,
    flange_radius_read_mm: float | None = None,
    overall_width_read_mm: float | None = None,
) -> Rim:
    """The rim from its standard figures, each overruled by a reading where there is one.

    Raises:
        OutsideValidity: when the width over the flanges was read smaller than the width between them.
    """
    overall = overall_width_read_mm if overall_width_read_mm is not None else estimate_overall_width_mm(width_mm)
    if overall < width_mm:
        raise OutsideValidity(
            "Rim shape",
            "width over the flanges",
            overall,
            say("more than the width between them, {width}", width=plain(width_mm)),
            "geometry",
        )
    radius = flange_radius_read_mm or flange_radius_mm(bead_seat_diameter_mm, flange_height_mm)
    readings = {"flange_radius_mm": flange_radius_read_mm, "overall_width_mm": overall_width_read_mm}
    estimated = tuple(name for name, read in readings.items() if read is None)
    return Rim(width_mm, radius, overall, bead_seat_diameter_mm, estimated)
