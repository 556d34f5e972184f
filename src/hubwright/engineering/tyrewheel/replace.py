"""One package instead of another: what moves, by how much. Sums only; whether it may is said elsewhere.

Source: ETRTO (circumference 3.05 D), UN R39 5.3 (speedometer), UN R30 annex 4 (load index); geometry derived.
"""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.errors import OutsideValidity

CIRCUMFERENCE_PER_DIAMETER = 3.05


@dataclass(frozen=True)
class PackageFigures:
    """What the sums need of a package, mm, kg and km/h; None where nobody knows.

    `width_mm` is the widest half twice over: the section width, or the width over the flanges where the rim is wider.
    """

    width_mm: float
    inset_mm: float
    thickness_mm: float
    overall_diameter_mm: float
    load_capacity_kg: float | None = None
    speed_capacity_kmh: float | None = None
    wheel_rating_kg: float | None = None


@dataclass(frozen=True)
class Edges:
    """Outermost and innermost position from the hub face; both positive figures away from it, mm."""

    outer_mm: float
    inner_mm: float


@dataclass(frozen=True)
class Change:
    """New minus old. Positive `outward_mm` takes outside room, positive `inward_mm` takes inside room.

    Attributes:
        outward_mm: Outer edge farther outboard.
        inward_mm: Inner edge farther inboard.
        centre_plane_mm: Rim centre plane farther outboard.
        diameter_mm: Overall diameter.
        diameter_percent: The same as a share.
        radius_mm: Half of it: what the arch above and the brake-side barrel feel.
        circumference_mm: Rolling circumference.
        true_speed_at_100_kmh: True speed when the speedometer of the old package shows what was 100 km/h.
        load_capacity_kg: Per tyre; None where one is unknown.
        wheel_rating_kg: Per wheel; None where one is unknown.
        speed_capacity_kmh: None where one is unknown.
    """

    outward_mm: float
    inward_mm: float
    centre_plane_mm: float
    diameter_mm: float
    diameter_percent: float
    radius_mm: float
    circumference_mm: float
    true_speed_at_100_kmh: float
    load_capacity_kg: float | None
    wheel_rating_kg: float | None
    speed_capacity_kmh: float | None


def edges(figures: PackageFigures) -> Edges:
    """Outer edge w/2 + t - e and inner edge w/2 - t + e from the hub face (geometry), mm."""
    half, plane = figures.width_mm / 2.0, figures.thickness_mm - figures.inset_mm
    return Edges(half + plane, half - plane)


def change(old: PackageFigures, new: PackageFigures) -> Change:
    """What changes when `new` replaces `old`."""
    before, after = edges(old), edges(new)
    diameter = new.overall_diameter_mm - old.overall_diameter_mm
    share = diameter / old.overall_diameter_mm
    return Change(
        after.outer_mm - before.outer_mm,
        after.inner_mm - before.inner_mm,
        (new.thickness_mm - new.inset_mm) - (old.thickness_mm - old.inset_mm),
        diameter,
        100.0 * share,
        diameter / 2.0,
        rolling_circumference_mm(new.overall_diameter_mm) - rolling_circumference_mm(old.overall_diameter_mm),
        100.0 * (1.0 + share),
        _minus(new.load_capacity_kg, old.load_capacity_kg),
        _minus(new.wheel_rating_kg, old.wheel_rating_kg),
        _minus(new.speed_capacity_kmh, old.speed_capacity_kmh),
    )


def rolling_circumference_mm(overall_diameter_mm: float) -> float:
    """Rolling circumference of a radial tyre, 3.05 D (ETRTO), mm."""
    return CIRCUMFERENCE_PER_DIAMETER * overall_diameter_mm


def indicated_speed_limits_kmh(true_speed_kmh: float) -> tuple[float, float]:
    """Least and greatest speed a speedometer may show: 0 <= V1 - V2 <= V2/10 + 4 (UN R39 5.4, V1 shown, V2 true).

    Raises:
        OutsideValidity: for a negative speed.
    """
    if true_speed_kmh < 0.0:
        raise OutsideValidity("Speedometer", "true speed", true_speed_kmh, "0 and more", "UN R39 5.4")
    return true_speed_kmh, true_speed_kmh + true_speed_kmh / 10.0 + 4.0


def indicated_speed_kmh(
    true_speed_kmh: float, old_diameter_mm: float, new_diameter_mm: float, lead_percent: float = 0.0
) -> float:
    """What the speedometer shows with the new tyres: V2 (1 + lead/100) D_old / D_new (geometry).

    Args:
        true_speed_kmh: True speed.
        old_diameter_mm: Overall diameter the speedometer was read with.
        new_diameter_mm: Overall diameter now.
        lead_percent: How much too high it showed with the old tyres.
    """
    return true_speed_kmh * (1.0 + lead_percent / 100.0) * old_diameter_mm / new_diameter_mm


def inset_for_equal_outer_edge_mm(old: PackageFigures, new: PackageFigures) -> float:
    """The inset at which the new wheel, on its own disc, has its outer edge where the old one has it, mm."""
    return new.inset_mm + edges(new).outer_mm - edges(old).outer_mm


def thickness_for_equal_outer_edge_mm(old: PackageFigures, new: PackageFigures) -> float:
    """The disc per side at which the new wheel has its outer edge where the old one has it, mm; negative: none does."""
    return new.thickness_mm + edges(old).outer_mm - edges(new).outer_mm


def thickness_for_equal_centre_plane_mm(old: PackageFigures, new: PackageFigures) -> float:
    """The disc per side at which both rims have the same centre plane (same track), mm; negative: none does."""
    return new.inset_mm + old.thickness_mm - old.inset_mm


def _minus(new: float | None, old: float | None) -> float | None:
    return None if new is None or old is None else new - old
