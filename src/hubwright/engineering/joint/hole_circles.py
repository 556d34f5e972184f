"""Two patterns of holes in one plate."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hubwright.engineering.joint.hole_reading import chord_mm
from hubwright.engineering.validity import require_not_negative
from hubwright.language import marked
from hubwright.parts.hole_circle import HoleCircle

GEOMETRY = marked("plane geometry of a circle of holes (derived)")


@dataclass(frozen=True)
class HolePattern:
    """Equally spaced round holes; ``hole_mm`` is the widest diameter that leaves material out (seat or counterbore)."""

    count: int
    circle_mm: float
    hole_mm: float


@dataclass(frozen=True)
class Ligament:
    """Least material between holes, mm; negative where holes run into each other.

    Attributes:
        between_patterns_mm: Between a hole of the first and a hole of the second pattern.
        within_first_mm: Between neighbours of the first pattern.
        within_second_mm: Between neighbours of the second pattern.
        turned_deg: Angle of the second pattern against the first.
    """

    between_patterns_mm: float
    within_first_mm: float
    within_second_mm: float
    turned_deg: float

    @property
    def least_mm(self) -> float:
        """The smallest of the three."""
        return min(self.between_patterns_mm, self.within_first_mm, self.within_second_mm)


def circle_mismatch_mm(first_circle_mm: float, second_circle_mm: float) -> float:
    """How far each fastener must float radially to join two circles of equal count, signed.

    Equation:
        (D2 - D1)/2.

    Source:
        Plane geometry (derived).
    """
    return (second_circle_mm - first_circle_mm) / 2


def clearest_turn_deg(first: HolePattern, second: HolePattern) -> float:
    """Angle of the second pattern at which its holes stand farthest from those of the first.

    Equation:
        The angles between holes repeat every 360/lcm(n1, n2); the middle of that step, 180/lcm(n1, n2), is farthest.

    Source:
        Plane geometry (derived).
    """
    return 180 / math.lcm(first.count, second.count)


def ligament(first: HolePattern, second: HolePattern, turned_deg: float) -> Ligament:
    """Material left between the holes of two patterns in one plate.

    Equation:
        centre distance^2 = r1^2 + r2^2 - 2 r1 r2 cos(angle); ligament = distance - (h1 + h2)/2, least over all pairs.

    Source:
        Law of cosines (derived).
    """
    require_not_negative("the ligament", GEOMETRY, first_hole_mm=first.hole_mm, second_hole_mm=second.hole_mm)
    r1, r2 = first.circle_mm / 2, second.circle_mm / 2
    angles = (
        math.radians(360 * i / first.count - 360 * j / second.count - turned_deg)
        for i in range(first.count)
        for j in range(second.count)
    )
    nearest = min(math.sqrt(max(0.0, r1**2 + r2**2 - 2 * r1 * r2 * math.cos(angle))) for angle in angles)
    return Ligament(
        between_patterns_mm=nearest - (first.hole_mm + second.hole_mm) / 2,
        within_first_mm=chord_mm(HoleCircle(first.count, first.circle_mm)) - first.hole_mm,
        within_second_mm=chord_mm(HoleCircle(second.count, second.circle_mm)) - second.hole_mm,
        turned_deg=turned_deg,
    )
