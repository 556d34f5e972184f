"""Clearance of a bore on a spigot, from limit deviations or from readings."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.engineering.validity import require_within
from hubwright.uncertainty.band import Band

ISO286 = "ISO 286-1, fits"


@dataclass(frozen=True)
class Deviations:
    """Lower and upper limit deviation from the nominal size, micrometres (ISO 286-2 tables)."""

    lower_um: float
    upper_um: float


def fit_clearance_um(hole: Deviations, shaft: Deviations) -> Band:
    """Diametral clearance of hole and shaft of one nominal size; negative is interference.

    Equation:
        C_min = EI - es, C_max = ES - ei; nominal is the middle.

    Source:
        ISO 286-1 (clearance and interference of a fit).
    """
    require_within("the fit", ISO286, hole.lower_um, float("inf"), hole_upper_um=hole.upper_um)
    require_within("the fit", ISO286, shaft.lower_um, float("inf"), shaft_upper_um=shaft.upper_um)
    least, most = hole.lower_um - shaft.upper_um, hole.upper_um - shaft.lower_um
    return Band(least, (least + most) / 2, most)


def measured_clearance_mm(bore_mm: float, u_bore_mm: float, spigot_mm: float, u_spigot_mm: float, k: float) -> Band:
    """Diametral clearance from two readings with their standard uncertainties.

    Equation:
        C = D - d +- k sqrt(u_D^2 + u_d^2).

    Source:
        JCGM 100:2008 eq. 10 (law of propagation, uncorrelated).
    """
    doubt = k * (u_bore_mm**2 + u_spigot_mm**2) ** 0.5
    return Band(bore_mm - spigot_mm - doubt, bore_mm - spigot_mm, bore_mm - spigot_mm + doubt)
