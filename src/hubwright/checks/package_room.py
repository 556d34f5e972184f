"""Room around an offered package: the gaps read with the fitted wheels, less what its outline stands out further."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from hubwright.checks.clearance import QUESTION, Room, Swept, swept_of
from hubwright.checks.gaps import SAME_STEER_DEG, GapCurve
from hubwright.checks.half_widths import WIDTH_TOLERANCE
from hubwright.checks.house import House
from hubwright.checks.outlines import Built
from hubwright.engineering.placement import Array
from hubwright.engineering.tyrewheel.outline import outline
from hubwright.engineering.tyrewheel.rim import FLANGE_DEPTH_MM
from hubwright.findings import Evidence, wanted
from hubwright.language import say
from hubwright.parts.job import Axle
from hubwright.parts.wheel import Tyre

INSET_DOUBT_MM = 0.5
"""Of the inset as marked; a guess."""
GRID_MM = 0.5


@dataclass(frozen=True)
class Face:
    """Outermost and innermost position over the radius; beyond the tread edge that of the tread edge."""

    built: Built

    @property
    def low_mm(self) -> float:
        """Where the rim flange begins."""
        return self.built.wheel.rim.flange_radius_mm - FLANGE_DEPTH_MM + 0.01

    @property
    def edge_mm(self) -> float:
        """Radius of the tread edge."""
        return self.built.tyre.tread_edge[0]

    def at(self, radius_mm: Array) -> tuple[Array, Array]:
        """Outer and inner position in the hub frame, without a disc, mm."""
        places, back = np.unique(np.clip(radius_mm, self.low_mm, self.edge_mm), return_inverse=True)
        shape = outline(self.built.package, places)
        return shape.outer_mm[back], shape.inner_mm[back]


@dataclass(frozen=True)
class Swap:
    """What the offered package takes from a gap, by the place of the point, mm; positive takes room.

    Attributes:
        old, new: Faces of both packages.
        outward_mm, inward_mm: The most over all radii both have, never a gain.
        growth_mm: Of the radius, never a gain.
        doubt_mm: Standard uncertainty of the difference of both outlines.
        taken_as: What the offered tyre is taken for, in words.
    """

    old: Face
    new: Face
    outward_mm: float
    inward_mm: float
    growth_mm: float
    doubt_mm: float
    taken_as: str

    def differences(self, radius_mm: Array) -> tuple[Array, Array]:
        """How much further out and in the new package stands at each radius."""
        (old_out, old_in), (new_out, new_in) = self.old.at(radius_mm), self.new.at(radius_mm)
        return np.asarray(new_out - old_out), np.asarray(old_in - new_in)


def swap_of(old: Built, new: Built, old_tyre: Tyre, new_tyre: Tyre) -> Swap:
    """How two packages differ.

    Args:
        old: The fitted one, with which the gaps were read.
        new: The offered one; where its tyre was not measured, drawn up as the largest tyre of its size.
        old_tyre: What was read of the fitted tyre, for the doubt.
        new_tyre: The same of the offered one.
    """
    first, second = Face(old), Face(new)
    low, high = max(first.low_mm, second.low_mm), min(first.edge_mm, second.edge_mm)
    radii = np.arange(low, max(high, low + GRID_MM), GRID_MM)
    (old_out, old_in), (new_out, new_in) = first.at(radii), second.at(radii)
    doubt = np.sqrt(
        _width_doubt(old, old_tyre, unread=True) ** 2
        + _width_doubt(new, new_tyre, unread=False) ** 2
        + 2 * INSET_DOUBT_MM**2
    )
    return Swap(
        first,
        second,
        max(0.0, float((new_out - old_out).max())),
        max(0.0, float((old_in - new_in).max())),
        max(0.0, new.tyre.radius_mm - old.tyre.radius_mm),
        float(doubt),
        "measured" if new_tyre.section_width_mm is not None else "largest",
    )


def _width_doubt(built: Built, tyre: Tyre, *, unread: bool) -> float:
    """Doubt of a half width: of the reading, or of a size within its tolerance (none where the largest was taken)."""
    if tyre.section_width_mm is not None:
        return tyre.section_width_mm.doubt / 2
    return float(WIDTH_TOLERANCE * built.tyre.section_width_mm / 2 / np.sqrt(3)) if unread else 0.0


def room_with(axle: Axle, room: Room, swap: Swap, house: House) -> Room:
    """The room left around the offered package. Every gap in it is predicted; nothing in it can release a car."""
    swept = tuple(_swept(axle, item, swap, house) for item in room.swept)
    return Room(room.side, swept, room.missing)


def room_unknown(room: Room, why: str) -> Room:
    """The room around a package nobody can draw up: the readings stand for the fitted wheels only."""
    how = say("{why} Or fit the package and read the gaps.", why=why)
    return Room(
        room.side,
        (),
        (wanted(say("outline of both packages"), how, QUESTION, 9.0, room.side), *room.missing),
    )


def _swept(axle: Axle, item: Swept, swap: Swap, house: House) -> Swept:
    curve = item.curve
    taken = _taken(curve, swap)
    evidence = tuple(e if e is Evidence.STATED else Evidence.PREDICTED for e in curve.evidence)
    moved = replace(
        curve,
        gap_mm=curve.gap_mm - taken,
        doubt_mm=np.hypot(curve.doubt_mm, swap.doubt_mm),
        evidence=evidence,
        model=_model_words(curve.model, swap),
    )
    return swept_of(axle, moved, house, with_work=item.gain_mm > 0)


def _model_words(model: str, swap: Swap) -> str:
    if swap.taken_as == "measured":
        return say("{model}; less what the offered package stands out further, its tyre taken as measured", model=model)
    return say(
        "{model}; less what the offered package stands out further, its tyre taken as the largest tyre of its size "
        "(UN R30 6.1.4, 6.1.5)",
        model=model,
    )


def _taken(curve: GapCurve, swap: Swap) -> Array:
    """Room the package takes at every travel.

    Where the place on the tyre is known (point of known height, wheel straight ahead) it is the difference of the
    outlines there; elsewhere the largest difference over all radii, and no gain counts.
    """
    point = curve.point
    share = np.abs(curve.push)
    across = np.sqrt(np.clip(1.0 - share**2, 0.0, 1.0))
    sideways = point.direction in ("outboard", "inboard")
    if not sideways or point.height_mm is None or abs(curve.steer_deg) > SAME_STEER_DEG:
        worst = np.where(curve.push >= 0, swap.outward_mm, swap.inward_mm)
        return np.asarray(share * worst + across * swap.growth_mm)
    travel = np.zeros_like(curve.travel_mm) if point.kind == "carried" else curve.travel_mm
    radius = np.abs(point.height_mm.value - travel)
    outward, inward = swap.differences(radius)
    taken = np.where(curve.push >= 0, outward, inward)
    above = radius > swap.old.edge_mm
    return np.asarray(share * taken + np.where(above, swap.growth_mm, 0.0))
