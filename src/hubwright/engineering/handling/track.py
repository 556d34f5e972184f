"""Track with discs, and the two figures that follow from it alone: load transfer and static stability factor."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hubwright.engineering.handling.change import Change
from hubwright.engineering.validity import require_positive
from hubwright.tables.cells import maybe_number, number_of, text_of
from hubwright.tables.loader import read_table

GRAVITY_M_S2 = 9.81
NHTSA = "NHTSA rollover resistance rating"


@dataclass(frozen=True)
class StarBand:
    """Rollover band of the NHTSA rating; a bound that is open is None."""

    stars: int
    risk_min_pct: float | None
    risk_max_pct: float | None
    ssf_min: float | None
    ssf_max: float | None
    how_seen: str


def track_change_mm(track_mm: float, left_mm: float, right_mm: float) -> Change:
    """Track before and after.

    Equation:
        T' = T + t_left + t_right (camber leaves out less than 0.1 % of t at 2 degrees).

    Source:
        Geometry (derived).
    """
    require_positive("the track", "geometry", track_mm=track_mm, with_disc_mm=track_mm + left_mm + right_mm)
    return Change(track_mm, track_mm + left_mm + right_mm)


def lateral_transfer_n(mass_kg: float, side_g: float, height_mm: float, track_mm: float) -> float:
    """Load that moves from the inner to the outer wheels.

    Equation:
        dF = m a h / T.

    Source:
        Barton & Fieldhouse, Automotive Chassis Engineering, p. 174 (each part of the transfer has this form).

    Returns:
        Newtons, for ``side_g`` in g of 9.81 m/s2.
    """
    require_positive("the load transfer", "Barton & Fieldhouse p. 174", mass_kg=mass_kg, track_mm=track_mm)
    return mass_kg * side_g * GRAVITY_M_S2 * height_mm / track_mm


def static_stability_factor(track_mm: float, height_mm: float) -> float:
    """Side acceleration in g at which a rigid car would tip.

    Equation:
        SSF = T/(2 h).

    Source:
        NHTSA rollover resistance rating (49 CFR 575), average track of both axles and height of the centre of gravity.
    """
    require_positive("the static stability factor", NHTSA, track_mm=track_mm, height_mm=height_mm)
    return track_mm / (2 * height_mm)


def rollover_risk(stability_factor: float, a: float, b: float) -> float:
    """Risk of rolling over in a single-vehicle crash, 0 to 1.

    Equation:
        P = 1/(1 + exp(a + b ln(SSF - 0.9))).

    Source:
        NHTSA rating model of 2003; a and b are in the table ``rollover_risk_model`` (from memory).

    Raises:
        OutsideValidity: for factors of 0.9 and below.
    """
    require_positive("the rollover risk", NHTSA, stability_factor_above_0_9=stability_factor - 0.9)
    return 1 / (1 + math.exp(a + b * math.log(stability_factor - 0.9)))


def star_band(stability_factor: float) -> StarBand:
    """Rollover band for a static stability factor rounded to two decimals.

    Equation:
        ssf_min <= round(SSF, 2), highest band that holds.

    Source:
        NHTSA rollover resistance rating of 2001 (table ``rollover_star_bands``, which says how it was seen).
    """
    require_positive("the rollover band", NHTSA, stability_factor=stability_factor)
    rows = sorted(read_table("rollover_star_bands").rows, key=lambda row: -number_of(row, "stars"))
    rounded = round(stability_factor, 2)
    row = next(row for row in rows if rounded >= (maybe_number(row, "ssf_min") or 0.0))
    return StarBand(
        stars=int(number_of(row, "stars")),
        risk_min_pct=maybe_number(row, "risk_min_pct"),
        risk_max_pct=maybe_number(row, "risk_max_pct"),
        ssf_min=maybe_number(row, "ssf_min"),
        ssf_max=maybe_number(row, "ssf_max"),
        how_seen=text_of(row, "how_seen"),
    )
