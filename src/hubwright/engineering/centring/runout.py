"""Off centre by how much, and what that does: run-out, imbalance, force at speed."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hubwright.engineering.validity import require_not_negative, require_positive
from hubwright.language import marked

GEOMETRY = marked("geometry and mechanics of a body turning off centre (derived)")


@dataclass(frozen=True)
class OffCentre:
    """Distance between the wheel's own axis and the axle's, mm.

    Attributes:
        worst_mm: All steps pointing one way.
        likely_mm: Steps pointing anywhere: root of the sum of squares.
    """

    worst_mm: float
    likely_mm: float


def off_centre(clearances_mm: tuple[float, ...], eccentricities_mm: tuple[float, ...]) -> OffCentre:
    """Stack of fits and machining errors from hub to wheel.

    Equation:
        e_i = C_i/2 for a fit with diametral clearance C_i, or as given; worst = sum e_i, likely = sqrt(sum e_i^2).

    Source:
        Geometry (derived). An interference counts as zero. Where cone seats centre the wheel the fits do not add:
        give the eccentricity of the seats instead.

    Args:
        clearances_mm: Greatest diametral clearance of every fit in the chain.
        eccentricities_mm: Eccentricity of every part, such as lip to bore of a disc (half its concentricity).
    """
    require_not_negative(
        "off centre", GEOMETRY, **{f"eccentricity_{i}_mm": value for i, value in enumerate(eccentricities_mm)}
    )
    steps = [max(0.0, clearance) / 2 for clearance in clearances_mm] + list(eccentricities_mm)
    return OffCentre(sum(steps), math.sqrt(sum(step**2 for step in steps)))


def radial_runout_mm(eccentricity_mm: float) -> float:
    """Full indicator reading of a true round off centre.

    Equation:
        TIR = 2 e.

    Source:
        Geometry (derived).
    """
    return 2 * eccentricity_mm


def static_imbalance_gmm(mass_kg: float, eccentricity_mm: float) -> float:
    """Static imbalance of a balanced wheel mounted off centre.

    Equation:
        U = m e.

    Source:
        ISO 21940-1 (definition of unbalance), g*mm.
    """
    require_not_negative("imbalance", GEOMETRY, mass_kg=mass_kg, eccentricity_mm=eccentricity_mm)
    return mass_kg * 1000 * eccentricity_mm


def imbalance_force_n(imbalance_gmm: float, speed_kmh: float, rolling_radius_mm: float) -> float:
    """Turning force of an imbalance at road speed.

    Equation:
        F = U omega^2, omega = v/r.

    Source:
        Mechanics (derived).

    Returns:
        Newtons, for U in g*mm, speed in km/h, radius in mm.
    """
    require_positive("the imbalance force", GEOMETRY, rolling_radius_mm=rolling_radius_mm)
    omega = speed_kmh / 3.6 / (rolling_radius_mm / 1000)
    return imbalance_gmm * 1e-6 * omega**2
