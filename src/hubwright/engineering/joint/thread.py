"""Thread geometry from nominal diameter and pitch: metric (coarse and fine) and unified."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hubwright.engineering.validity import require_ascending, require_positive

ISO = "ISO 68-1 and ISO 724 (diameters), ISO 898-1 9.1.6.1 (stress area)"
ASME = "ASME B1.1 (unified inch threads: diameters, tensile stress area)"


@dataclass(frozen=True)
class Thread:
    """Basic sizes of one 60 degree thread.

    Attributes:
        diameter_mm: Nominal diameter d.
        pitch_mm: Pitch P, from thread to thread.
        pitch_diameter_mm: d2.
        core_diameter_mm: d3, root of the bolt thread.
        nut_bore_mm: D1, basic minor diameter of the nut thread.
        stress_area_mm2: As, the area that carries pull.
    """

    diameter_mm: float
    pitch_mm: float
    pitch_diameter_mm: float
    core_diameter_mm: float
    nut_bore_mm: float
    stress_area_mm2: float

    @property
    def stress_diameter_mm(self) -> float:
        """Diameter of the circle with the stress area, d0 (VDI 2230: dS)."""
        return math.sqrt(4 * self.stress_area_mm2 / math.pi)

    @property
    def core_area_mm2(self) -> float:
        """Area of the root circle, Ad3."""
        return math.pi / 4 * self.core_diameter_mm**2


def metric_thread(diameter_mm: float, pitch_mm: float) -> Thread:
    """Basic sizes of an ISO metric thread, coarse or fine.

    Equation:
        H = sqrt(3)/2 P; d2 = d - 3/4 H; D1 = d - 5/4 H; d3 = D1 - H/6; As = pi/4 ((d2 + d3)/2)^2.

    Source:
        ISO 68-1 and ISO 724 (d2, D1); ISO 898-1 9.1.6.1 (d3, As).

    Raises:
        OutsideValidity: when a size is not positive or the pitch is too coarse to leave a core.
    """
    require_positive("the metric thread profile", ISO, diameter_mm=diameter_mm, pitch_mm=pitch_mm)
    require_ascending("the metric thread profile", ISO, twice_pitch_mm=2 * pitch_mm, diameter_mm=diameter_mm)
    H = math.sqrt(3) / 2 * pitch_mm
    d2 = diameter_mm - 0.75 * H
    D1 = diameter_mm - 1.25 * H
    d3 = D1 - H / 6
    As = math.pi / 4 * ((d2 + d3) / 2) ** 2
    return Thread(diameter_mm, pitch_mm, d2, d3, D1, As)


def unified_thread(diameter_mm: float, pitch_mm: float) -> Thread:
    """Basic sizes of a unified inch thread (UNF, UNC), sizes given in mm: 1/2-20 is 12.7 and 1.27.

    Equation:
        H = sqrt(3)/2 P; d2 = d - 3/4 H; D1 = d - 5/4 H; d3 = d - 11/8 H; At = pi/4 (d - 0.9743 P)^2.

    Source:
        ASME B1.1 (basic diameters, rounded root UNR for d3, tensile stress area).

    Raises:
        OutsideValidity: as `metric_thread`.
    """
    require_positive("the unified thread profile", ASME, diameter_mm=diameter_mm, pitch_mm=pitch_mm)
    require_ascending("the unified thread profile", ASME, twice_pitch_mm=2 * pitch_mm, diameter_mm=diameter_mm)
    H = math.sqrt(3) / 2 * pitch_mm
    d2 = diameter_mm - 0.75 * H
    D1 = diameter_mm - 1.25 * H
    d3 = diameter_mm - 1.375 * H
    At = math.pi / 4 * (diameter_mm - 0.9743 * pitch_mm) ** 2
    return Thread(diameter_mm, pitch_mm, d2, d3, D1, At)
