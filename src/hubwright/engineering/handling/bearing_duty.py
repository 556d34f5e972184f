"""Bearing life with a disc over life without, for a duty that can be seen and changed. A comparison, not a promise."""

from __future__ import annotations

from dataclasses import dataclass, replace

from hubwright.engineering.handling.bearing_life import equivalent_load_n, joined_life, mean_load_n
from hubwright.engineering.handling.bearing_rows import BearingUnit, RowLoads, row_loads
from hubwright.engineering.handling.change import Change
from hubwright.engineering.validity import require_positive
from hubwright.uncertainty.band import Band, over_grid


@dataclass(frozen=True)
class Phase:
    """A part of the distance: its share, and the side acceleration; positive where this wheel is the outer one."""

    share: float
    side_g: float


@dataclass(frozen=True)
class BearingWheel:
    """The wheel on the bearing.

    Attributes:
        static_n: Wheel load standing.
        radius_mm: Height of the axle.
        height_over_track: Centre of gravity height over track, for the load that a bend brings to the outer wheel.
    """

    static_n: float
    radius_mm: float
    height_over_track: float


@dataclass(frozen=True)
class BearingChange:
    """Life ratio, and where it comes from.

    Attributes:
        life_ratio: Life with disc over standard life.
        outboard_load_n: Mean equivalent load of the outboard row.
        inboard_load_n: The same, inboard row.
        rows_standard: Row loads phase by phase, standard.
        rows_with_disc: The same with disc.
    """

    life_ratio: float
    outboard_load_n: Change
    inboard_load_n: Change
    rows_standard: tuple[RowLoads, ...]
    rows_with_disc: tuple[RowLoads, ...]


GENTLE_ROAD = (Phase(0.90, 0.0), Phase(0.05, 0.15), Phase(0.05, -0.15))
"""Long straight roads and gentle bends: an assumption to be seen and edited (common practice, no source)."""


def phase_loads(
    unit: BearingUnit, wheel: BearingWheel, duty: tuple[Phase, ...], thickness_mm: float
) -> tuple[RowLoads, ...]:
    """Row loads of every phase.

    Equation:
        F_z = W (1 + 2 a h/T), F_y = a F_z, a in g and positive on the outer wheel.

    Source:
        Load transfer m a h/T (Barton & Fieldhouse p. 174) with axle mass 2 W/g; side force in step with wheel load
        (derived).
    """
    loads = []
    for phase in duty:
        vertical_n = wheel.static_n * (1 + 2 * phase.side_g * wheel.height_over_track)
        loads.append(row_loads(unit, vertical_n, phase.side_g * vertical_n, wheel.radius_mm, thickness_mm))
    return tuple(loads)


def bearing_change(
    unit: BearingUnit, wheel: BearingWheel, duty: tuple[Phase, ...], thickness_mm: float
) -> BearingChange:
    """Life with a disc over life without, at the same duty.

    Equation:
        L ~ (sum_rows P_m^(p e))^(-1/e) with P_m = (sum q_i P_i^p)^(1/p); ratio = L(t)/L(0). C cancels.

    Source:
        ISO 281:2007 for life and equivalent load; duty and spread are assumptions of the caller. The outer wheel of
        hard bends is relieved by a disc, so a duty with much hard cornering shows little loss or even a gain.

    Raises:
        OutsideValidity: for shares that are not positive in sum, or a bearing without spread.
    """
    require_positive("the bearing duty", "definition", shares=sum(phase.share for phase in duty))
    before, after = (phase_loads(unit, wheel, duty, t) for t in (0.0, thickness_mm))
    means_before, means_after = (_row_means(unit, loads, duty) for loads in (before, after))
    return BearingChange(
        life_ratio=_life(unit, means_after) / _life(unit, means_before),
        outboard_load_n=Change(means_before[0], means_after[0]),
        inboard_load_n=Change(means_before[1], means_after[1]),
        rows_standard=before,
        rows_with_disc=after,
    )


def life_ratio_band(
    unit: BearingUnit,
    wheel: BearingWheel,
    duty: tuple[Phase, ...],
    *,
    thickness_mm: float,
    spread_mm: Band,
    load_line_mm: Band,
    side_factor: Band,
) -> Band:
    """Life ratio over what is not known: spread, load line, and a factor on all side accelerations of the duty.

    Equation:
        as `bearing_change`, least and greatest over an even grid of 5 points each.

    Source:
        ISO 281:2007 and plain sampling. A band over assumptions, not a confidence interval.
    """

    def ratio(spread: float, load_line: float, factor: float) -> float:
        changed = replace(unit, spread_mm=spread, load_line_mm=load_line)
        scaled = tuple(Phase(phase.share, phase.side_g * factor) for phase in duty)
        return bearing_change(changed, wheel, scaled, thickness_mm).life_ratio

    return over_grid(ratio, 5, spread_mm, load_line_mm, side_factor)


def _row_means(unit: BearingUnit, loads: tuple[RowLoads, ...], duty: tuple[Phase, ...]) -> tuple[float, float]:
    shares = tuple(phase.share for phase in duty)

    def mean(pairs: list[tuple[float, float]]) -> float:
        equivalent = tuple(
            equivalent_load_n(radial, thrust, unit.radial_factor, unit.thrust_factor, unit.thrust_limit)
            for radial, thrust in pairs
        )
        return mean_load_n(equivalent, shares, unit.life_exponent)

    return (
        mean([(each.outboard_radial_n, each.outboard_thrust_n) for each in loads]),
        mean([(each.inboard_radial_n, each.inboard_thrust_n) for each in loads]),
    )


def _life(unit: BearingUnit, means: tuple[float, float]) -> float:
    """Life in units of C^p; a row without any load is left out."""
    lives = tuple(mean**-unit.life_exponent for mean in means if mean > 0)
    return joined_life(lives, unit.spread_exponent)
