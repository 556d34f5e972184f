"""Two packages written in one line each, one in place of the other."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.checks.outlines import Built, built
from hubwright.checks.package_law import lead_window_percent
from hubwright.engineering.tyrewheel.figures import figures_of
from hubwright.engineering.tyrewheel.outline import Package, outline, standing
from hubwright.engineering.tyrewheel.replace import (
    Change,
    Edges,
    PackageFigures,
    change,
    edges,
    indicated_speed_kmh,
    indicated_speed_limits_kmh,
    inset_for_equal_outer_edge_mm,
    thickness_for_equal_centre_plane_mm,
    thickness_for_equal_outer_edge_mm,
)
from hubwright.errors import BadInput, Fault
from hubwright.language import say
from hubwright.parts.package_text import read_package
from hubwright.parts.wheel import Tyre, Wheel


@dataclass(frozen=True)
class Side:
    """One of the two packages, by its designations, with its disc.

    Attributes:
        text: As written.
        thickness_mm: Disc per side.
        figures, edges: See `hubwright.engineering.tyrewheel.replace`.
        outermost: What stands farthest outboard.
        poke_mm: Beyond the body line, tucked in negative; None without one.
        standing: flush, tuck or poke; None without a body line.
        estimated: What nobody measured.
    """

    text: str
    thickness_mm: float
    figures: PackageFigures
    edges: Edges
    outermost: str
    poke_mm: float | None
    standing: str | None
    estimated: tuple[str, ...]


@dataclass(frozen=True)
class Comparison:
    """New in place of old; what a designation cannot say is missing: wheel lines, ratings, tyres as they really are.

    Attributes:
        old, new: Both packages.
        body_line_mm: Outboard of the hub face; None = not given.
        change: New minus old.
        same_outer_disc_mm: Disc under the new wheel at which its outer edge is where the old one is; negative: none.
        same_outer_inset_mm: Inset of the new wheel, on its own disc, that does the same.
        same_track_disc_mm: Disc at which the track stays.
        speedometer_lead_percent: How much too high the speedometer must show now to be lawful after, least and most.
        indicated_at_100_kmh: At a true 100, for the lead given; None without one.
        indicated_limits_kmh: What it may show at a true 100.
    """

    old: Side
    new: Side
    body_line_mm: float | None
    change: Change
    same_outer_disc_mm: float
    same_outer_inset_mm: float
    same_track_disc_mm: float
    speedometer_lead_percent: tuple[float, float]
    indicated_at_100_kmh: float | None
    indicated_limits_kmh: tuple[float, float]


def package_of(text: str, thickness_mm: float = 0.0) -> tuple[Built, Package]:
    """A package from its line of text, and the same on its disc.

    Raises:
        BadInput: with every piece not understood, or for a disc that is not from 0 to 150 mm.
        OutsideValidity: where tyre and rim do not go together.
    """
    if not 0.0 <= thickness_mm <= 150.0:
        raise BadInput(say("disc"), (Fault("disc", say("0 to 150 mm"), f"{thickness_mm:g}"),))
    size = read_package(text)
    shape = built(Wheel(rim=size.rim.text), Tyre(designation=size.tyre.text))
    return shape, Package(shape.tyre, shape.wheel, thickness_mm)


def compare_packages(
    old: str,
    new: str,
    *,
    old_disc_mm: float = 0.0,
    disc_mm: float = 0.0,
    lead_percent: float | None = None,
    body_line_mm: float | None = None,
) -> Comparison:
    """What changes when one package takes the place of another.

    Args:
        old: Such as ``225/45R17 91W on 7.5Jx17 ET47``.
        new: Such as ``235/40R18 95W on 8Jx18 ET45``.
        old_disc_mm: Disc per side under the old wheel.
        disc_mm: Disc per side under the new wheel.
        lead_percent: How much too high the speedometer shows with the old tyres.
        body_line_mm: A point of the body edge, outboard of the hub face, the wheel upright.

    Raises:
        BadInput: see `package_of`.
        OutsideValidity: where tyre and rim do not go together.
    """
    first, second = _side(old, old_disc_mm, body_line_mm), _side(new, disc_mm, body_line_mm)
    a, b = first.figures, second.figures
    shown = None
    if lead_percent is not None:
        shown = indicated_speed_kmh(100.0, a.overall_diameter_mm, b.overall_diameter_mm, lead_percent)
    return Comparison(
        first,
        second,
        body_line_mm,
        change(a, b),
        thickness_for_equal_outer_edge_mm(a, b),
        inset_for_equal_outer_edge_mm(a, b),
        thickness_for_equal_centre_plane_mm(a, b),
        lead_window_percent(a.overall_diameter_mm, b.overall_diameter_mm),
        shown,
        indicated_speed_limits_kmh(100.0),
    )


def _side(text: str, thickness_mm: float, body_line_mm: float | None) -> Side:
    shape, package = package_of(text, thickness_mm)
    figures = figures_of(package, shape.tyre_size)
    seen = outline(package)
    stands = standing(seen, body_line_mm) if body_line_mm is not None else None
    return Side(
        read_package(text).text,
        thickness_mm,
        figures,
        edges(figures),
        seen.outermost[2],
        stands.poke_mm if stands else None,
        stands.word if stands else None,
        shape.guessed,
    )
