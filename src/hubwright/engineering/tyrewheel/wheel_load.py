"""What a wheel rated with one tyre may carry with a larger one."""

from __future__ import annotations

import math

from hubwright.errors import OutsideValidity

FRICTION = 0.9


def rating_on_tyre_kg(
    rating_kg: float, rated_circumference_mm: float, circumference_mm: float, inset_mm: float
) -> float:
    """Wheel load at which the bending moment of the wheel is that of its rating, kg; never more than the rating.

    Equation: M = S F (mu r + e), so F = F_r (mu r_r + e) / (mu r + e), with r = circumference / 2 pi, mu = 0.9 and e
    the inset without its sign.

    Holds for the rotating bending test only; the radial test and the maker's own limits are not in it.

    Source: UN R124 annex 6 (bending moment, from memory); the ratio is derived.

    Raises:
        OutsideValidity: for a rating or circumference that is not positive.
    """
    if min(rating_kg, rated_circumference_mm, circumference_mm) <= 0.0:
        given = (rating_kg, rated_circumference_mm, circumference_mm)
        raise OutsideValidity("Wheel rating", "rating and circumferences", given, "positive figures", "UN R124 annex 6")
    rated, used = (FRICTION * c / (2.0 * math.pi) + abs(inset_mm) for c in (rated_circumference_mm, circumference_mm))
    return rating_kg * min(1.0, rated / used)
