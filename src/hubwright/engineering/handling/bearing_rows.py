"""How a two-row wheel bearing shares the forces of one wheel between its rows."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.engineering.validity import require_not_negative, require_positive
from hubwright.language import marked

STATICS = marked("statics of a shaft on two rows, no preload, stiff ring (derived)")


@dataclass(frozen=True)
class BearingUnit:
    """A two-row angular contact unit, rows back to back.

    Attributes:
        spread_mm: Between the pressure centres of the two rows, on the axis.
        load_line_mm: Tyre's middle plane outboard of the middle between them, standard wheel without disc.
        thrust_limit: e of one row (ISO 281); also its own thrust per radial load.
        radial_factor: X of one row above that limit.
        thrust_factor: Y of one row above that limit.
        life_exponent: p, 3 for balls, 10/3 for rollers.
        spread_exponent: Weibull slope that joins two rows to one life, 10/9 for balls, 9/8 for rollers.
    """

    spread_mm: float
    load_line_mm: float
    thrust_limit: float
    radial_factor: float
    thrust_factor: float
    life_exponent: float = 3.0
    spread_exponent: float = 10 / 9


@dataclass(frozen=True)
class RowLoads:
    """Forces on each row, N: size of the radial force, and the thrust each row feels."""

    outboard_radial_n: float
    inboard_radial_n: float
    outboard_thrust_n: float
    inboard_thrust_n: float


def ball_unit(spread_mm: float, load_line_mm: float) -> BearingUnit:
    """Ball unit of 40 degrees contact angle.

    Equation:
        e = 1.14, X = 0.35, Y = 0.57.

    Source:
        ISO 281:2007 table 3, single row angular contact (from memory).
    """
    return BearingUnit(spread_mm, load_line_mm, 1.14, 0.35, 0.57)


def row_loads(unit: BearingUnit, vertical_n: float, inward_n: float, radius_mm: float, thickness_mm: float) -> RowLoads:
    """Radial force and thrust of both rows for one state of the wheel.

    Equation:
        R_o = F_z/2 + (F_z (x + t) - F_y r)/s, R_i = F_z - R_o; own thrust S = e |R|;
        thrust: outboard max(S_o, S_i + F_y), inboard max(S_i, S_o - F_y).

    Source:
        Statics (derived); thrust of a back-to-back pair without preload as in bearing makers' rules (common practice;
        the outboard row takes a push towards the car).

    Args:
        unit: The bearing.
        vertical_n: F_z on the tyre.
        inward_n: F_y on the tyre, positive towards the car (outer wheel of a bend).
        radius_mm: r, axle height.
        thickness_mm: t, per side.
    """
    require_positive("the bearing rows", STATICS, spread_mm=unit.spread_mm, radius_mm=radius_mm)
    require_not_negative("the bearing rows", STATICS, vertical_n=vertical_n)
    tilt_n = (vertical_n * (unit.load_line_mm + thickness_mm) - inward_n * radius_mm) / unit.spread_mm
    outboard, inboard = abs(vertical_n / 2 + tilt_n), abs(vertical_n / 2 - tilt_n)
    own_outboard, own_inboard = unit.thrust_limit * outboard, unit.thrust_limit * inboard
    return RowLoads(
        outboard_radial_n=outboard,
        inboard_radial_n=inboard,
        outboard_thrust_n=max(own_outboard, own_inboard + inward_n),
        inboard_thrust_n=max(own_inboard, own_outboard - inward_n),
    )
