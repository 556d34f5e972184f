"""Who carries how much: axle loads with a trailer, tyres and wheels against them."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hubwright.engineering.validity import require_not_negative, require_positive
from hubwright.language import marked

STATICS = marked("statics of a lever (derived)")


@dataclass(frozen=True)
class AxleLoads:
    """Load on each axle, kg."""

    front_kg: float
    rear_kg: float


@dataclass(frozen=True)
class Sufficiency:
    """What an axle's tyres or wheels may carry against what they must; ``spare`` is negative where they may not."""

    capacity_kg: float
    demand_kg: float

    @property
    def spare_kg(self) -> float:
        """Capacity minus demand."""
        return self.capacity_kg - self.demand_kg


def tow_change_kg(nose_kg: float, behind_axle_mm: float, wheelbase_mm: float) -> AxleLoads:
    """How a trailer's nose weight changes the axle loads.

    Equation:
        rear + N (1 + b/l), front - N b/l.

    Source:
        Statics of a lever (derived).

    Args:
        nose_kg: N, load on the tow ball.
        behind_axle_mm: b, ball behind the rear axle.
        wheelbase_mm: l.
    """
    require_positive("the tow lever", STATICS, wheelbase_mm=wheelbase_mm)
    require_not_negative("the tow lever", STATICS, nose_kg=nose_kg, behind_axle_mm=behind_axle_mm)
    lifted = nose_kg * behind_axle_mm / wheelbase_mm
    return AxleLoads(-lifted, nose_kg + lifted)


def with_trailer(plate: AxleLoads, change: AxleLoads) -> AxleLoads:
    """Axle loads with the trailer on the ball.

    Equation:
        plate + change, axle by axle.

    Source:
        Statics of a lever (derived).
    """
    return AxleLoads(plate.front_kg + change.front_kg, plate.rear_kg + change.rear_kg)


def axle_sufficiency(each_kg: float, count: int, factor: float, axle_kg: float) -> Sufficiency:
    """Tyres or wheels of one axle against its load.

    Equation:
        capacity = n factor m_each.

    Source:
        UN R30 (load index is the load one tyre carries; factor for speed, camber or twin use comes from its rules).
    """
    require_positive("load capacity", "UN R30", each_kg=each_kg, count=count, factor=factor)
    return Sufficiency(count * factor * each_kg, axle_kg)


def speed_spare_kmh(symbol_kmh: float, top_kmh: float) -> float:
    """Speed of the tyre's symbol above the car's greatest speed; negative where it is too slow.

    Equation:
        spare = symbol speed - greatest speed.

    Source:
        UN R30 (definition of the speed symbol).
    """
    return symbol_kmh - top_kmh


def wheel_rating_at_kg(
    rating_kg: float, rated_circumference_mm: float, circumference_mm: float, inset_mm: float
) -> float:
    """Wheel rating with a tyre of another rolling circumference, at the same tested bending moment.

    Equation:
        M = S F (mu r + d): F' = F (mu r_0 + d)/(mu r + d), mu = 0.9, d = inset; never more than the rating.

    Source:
        UN R124 annex 6 (rotating bending test; from memory). The disc stands behind the wheel and does not enter.

    Raises:
        OutsideValidity: when an outset is so deep that the moment has no arm.
    """
    r_0, r = rated_circumference_mm / (2 * math.pi), circumference_mm / (2 * math.pi)
    arm_0, arm = 0.9 * r_0 + inset_mm, 0.9 * r + inset_mm
    require_positive("the wheel rating", "UN R124 annex 6", rating_kg=rating_kg, arm_rated_mm=arm_0, arm_mm=arm)
    return rating_kg * min(1.0, arm_0 / arm)
