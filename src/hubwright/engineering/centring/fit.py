"""Clearance of a bore on a spigot, from limit deviations or from readings."""

from __future__ import annotations

from hubwright.engineering.validity import require_within
from hubwright.tables.iso286 import SizeLimits
from hubwright.uncertainty.band import Band

ISO286 = "ISO 286-1, fits"


def fit_clearance_um(hole: SizeLimits, shaft: SizeLimits) -> Band:
    """Diametral clearance of hole and shaft of one nominal size; negative is interference.

    Equation:
        C_min = EI - es, C_max = ES - ei; nominal is the middle.

    Source:
        ISO 286-1 (clearance and interference of a fit).

    Raises:
        OutsideValidity: when the two are not limits of the same nominal size.
    """
    require_within("the fit", ISO286, hole.nominal_mm, hole.nominal_mm, shaft_nominal_mm=shaft.nominal_mm)
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
