"""Hard points of each type of suspension: rest places in vehicle axes (X forward, Y left, Z up), mm.

All points are read at the height that is travel 0, rack in the middle. A right corner is entered with its own readings
(Y negative), never with a copy of the left one, unless the reading person says they are the same: `mirror_hardpoints`.
``rack_direction`` is that of a positive rack move: (0, 1, 0) for a rack across the car that moves to the left.

Source: geometry; the types are those of the trade.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import Any, Literal

from hubwright.engineering.kinematics.linkage import Point, Wheel, as_point
from hubwright.quantities.axes import mirrored

ACROSS: Point = (0.0, 1.0, 0.0)


@dataclass(frozen=True)
class DoubleWishbone:
    """Two wishbones and a tie rod, or a toe link: ``rack_direction`` None where nothing steers."""

    wheel: Wheel
    upper_front_mm: Point
    upper_rear_mm: Point
    upper_outer_mm: Point
    lower_front_mm: Point
    lower_rear_mm: Point
    lower_outer_mm: Point
    tie_inner_mm: Point
    tie_outer_mm: Point
    rack_direction: Point | None = ACROSS


@dataclass(frozen=True)
class Strut:
    """A wishbone (or two links), a telescopic strut clamped to the carrier, and a tie rod.

    ``strut_top_mm`` is the centre of the top mount; ``strut_lower_mm`` any second point on the line along which the
    strut slides, belonging to the carrier. The steering axis runs from the lower ball joint to the top mount.
    ``rack_direction`` None where nothing steers.
    """

    wheel: Wheel
    strut_top_mm: Point
    strut_lower_mm: Point
    lower_front_mm: Point
    lower_rear_mm: Point
    lower_outer_mm: Point
    tie_inner_mm: Point
    tie_outer_mm: Point
    rack_direction: Point | None = ACROSS


@dataclass(frozen=True)
class Link:
    """One link of a multi-link suspension: end on the body, end on carrier or axle."""

    name: str
    inner_mm: Point
    outer_mm: Point


@dataclass(frozen=True)
class FiveLink:
    """Five links to one carrier; ``steered`` names the one the rack moves, None for none."""

    wheel: Wheel
    links: tuple[Link, Link, Link, Link, Link]
    steered: str | None = None
    rack_direction: Point = ACROSS


@dataclass(frozen=True)
class SwingArm:
    """A carrier hinged to the body: trailing arm (hinge line across the car), semi-trailing arm (askew)."""

    wheel: Wheel
    pivot_inner_mm: Point
    pivot_outer_mm: Point


@dataclass(frozen=True)
class TwistBeam:
    """Two stiff trailing arms joined by a beam that twists but does not bend.

    ``shear_centre_mm`` is the shear centre of the beam's section, in the middle of the car: the two halves turn against
    each other about the line across the car through it.
    """

    left: Wheel
    right: Wheel
    mount_left_mm: Point
    mount_right_mm: Point
    shear_centre_mm: Point


@dataclass(frozen=True)
class WattLinkage:
    """A crank with two links that guides a beam axle sideways.

    ``crank_on`` says what carries the crank's pivot; the links run from the crank's ends to the other one of the two.
    """

    pivot_mm: Point
    crank_end_a_mm: Point
    crank_end_b_mm: Point
    far_end_a_mm: Point
    far_end_b_mm: Point
    crank_on: Literal["axle", "body"]
    pivot_axis: Point = (1.0, 0.0, 0.0)


@dataclass(frozen=True)
class LiveAxle:
    """A rigid axle on links, with both wheels.

    ``links`` are those along the car, with or without a Panhard rod, which is a link like any other; ``watt`` adds a
    Watt linkage. Four constraints hold the axle; with more (four links and a Panhard rod, the commonest layout) the
    rubber must give, and the pose is the one with the least sum of squares of all the links' length errors.
    """

    left: Wheel
    right: Wheel
    links: tuple[Link, ...]
    watt: WattLinkage | None = None


Hardpoints = DoubleWishbone | Strut | FiveLink | SwingArm | TwistBeam | LiveAxle
Corner = DoubleWishbone | Strut | FiveLink | SwingArm


def mirror_hardpoints(points: Corner) -> Corner:
    """The same corner on the other side of the car, for the case that somebody vouches for both sides being alike.

    The rack's own direction is not mirrored: one rack serves both sides and moves both tie rods the same way.
    """
    changes: dict[str, Any] = {}
    for item in fields(points):
        value = getattr(points, item.name)
        if item.name.endswith("_mm"):
            changes[item.name] = as_point(mirrored(value))
        elif isinstance(value, Wheel):
            other: Literal["left", "right"] = "left" if value.side == "right" else "right"
            changes[item.name] = replace(value, side=other, centre_mm=as_point(mirrored(value.centre_mm)))
        elif item.name == "links":
            changes[item.name] = tuple(
                Link(one.name, as_point(mirrored(one.inner_mm)), as_point(mirrored(one.outer_mm))) for one in value
            )
    return replace(points, **changes)
