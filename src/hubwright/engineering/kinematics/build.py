"""From hard points to the table of rows: each type in one short function.

Source: geometry of rigid links (derived).
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from hubwright.engineering.kinematics.hardpoints import (
    DoubleWishbone,
    FiveLink,
    Hardpoints,
    LiveAxle,
    Strut,
    SwingArm,
    TwistBeam,
    WattLinkage,
)
from hubwright.engineering.kinematics.linkage import (
    NOWHERE,
    Arm,
    Linkage,
    Point,
    Row,
    Wheel,
    across,
    as_point,
    drive,
    hinge,
    link,
    pin,
)
from hubwright.errors import BadInput, Fault
from hubwright.language import say
from hubwright.language.part_words import link_word


def linkage_of(points: Hardpoints) -> Linkage:
    """The linkage of any type of suspension.

    Args:
        points: Hard points in vehicle axes, mm.

    Raises:
        BadInput: naming the point where the geometry cannot be (a link without length, a hinge line that is a point).
    """
    match points:
        case DoubleWishbone():
            return _double_wishbone(points)
        case Strut():
            return _strut(points)
        case FiveLink():
            return _five_link(points)
        case SwingArm():
            return _swing_arm(points)
        case TwistBeam():
            return _twist_beam(points)
        case LiveAxle():
            return _live_axle(points)


def _wishbone(name: str, front: Point, rear: Point, outer: Point) -> list[Row]:
    """A revolute arm: its outer point keeps its distance from two points of the hinge line."""
    _apart(f"{name} hinge line", front, rear)
    return [link(f"{name} front", front, outer), link(f"{name} rear", rear, outer)]


def _double_wishbone(p: DoubleWishbone) -> Linkage:
    rows = [
        *_wishbone("upper wishbone", p.upper_front_mm, p.upper_rear_mm, p.upper_outer_mm),
        *_wishbone("lower wishbone", p.lower_front_mm, p.lower_rear_mm, p.lower_outer_mm),
        link("tie rod", p.tie_inner_mm, p.tie_outer_mm, moves=p.rack_direction or NOWHERE),
        drive(0, p.wheel),
    ]
    arms = {
        "upper": Arm(p.upper_front_mm, p.upper_rear_mm, p.upper_outer_mm),
        "lower": Arm(p.lower_front_mm, p.lower_rear_mm, p.lower_outer_mm),
    }
    kingpin = (p.lower_outer_mm, p.upper_outer_mm)
    return Linkage("double wishbone", tuple(rows), (p.wheel,), kingpin=kingpin, arms=arms)


def _strut(p: Strut) -> Linkage:
    _apart("strut line", p.strut_lower_mm, p.strut_top_mm)
    _, one, two = across(np.subtract(p.strut_top_mm, p.strut_lower_mm))
    slides = [
        Row("strut", "plane", 1, 0, p.strut_lower_mm, p.strut_top_mm, along=as_point(side)) for side in (one, two)
    ]
    rows = [
        *_wishbone("lower wishbone", p.lower_front_mm, p.lower_rear_mm, p.lower_outer_mm),
        *slides,
        link("tie rod", p.tie_inner_mm, p.tie_outer_mm, moves=p.rack_direction or NOWHERE),
        drive(0, p.wheel),
    ]
    return Linkage(
        "strut",
        tuple(rows),
        (p.wheel,),
        kingpin=(p.lower_outer_mm, p.strut_top_mm),
        kingpin_in_body=(True, False),
        arms={"lower": Arm(p.lower_front_mm, p.lower_rear_mm, p.lower_outer_mm)},
    )


def _five_link(p: FiveLink) -> Linkage:
    if p.steered is not None and p.steered not in [one.name for one in p.links]:
        names = ", ".join(one.name for one in p.links)
        raise BadInput(say("hard points"), (Fault("steered", say("one of {known}", known=names), p.steered),))
    rows = [
        link(one.name, one.inner_mm, one.outer_mm, moves=p.rack_direction if one.name == p.steered else NOWHERE)
        for one in p.links
    ]
    return Linkage("five link", (*rows, drive(0, p.wheel)), (p.wheel,))


def _swing_arm(p: SwingArm) -> Linkage:
    _apart("hinge line", p.pivot_inner_mm, p.pivot_outer_mm)
    unit, one, two = across(np.subtract(p.pivot_outer_mm, p.pivot_inner_mm))
    rows = [
        *pin("inner pivot", 0, 1, p.pivot_inner_mm, (unit, one, two)),
        *pin("outer pivot", 0, 1, p.pivot_outer_mm, (one, two)),
        drive(0, p.wheel),
    ]
    return Linkage("swing arm", tuple(rows), (p.wheel,))


def _twist_beam(p: TwistBeam) -> Linkage:
    """Two halves hinged on the line across the car through the shear centre.

    Held by plain ball joints at both mounts the halves could not twist at all beyond the first order (the mounts would
    have to move apart by the square of the twist); the rubber takes it, alike on both sides: one ``mean`` row instead
    of two fixed mounts sideways.
    """
    along, up, sideways = (1.0, 0.0, 0.0), (0.0, 0.0, 1.0), (0.0, 1.0, 0.0)
    rows = [
        *pin("left mount", 0, 1, p.mount_left_mm, (along, up)),
        *pin("right mount", 0, 2, p.mount_right_mm, (along, up)),
        Row("mounts sideways", "mean", 1, 2, p.mount_left_mm, p.mount_right_mm, along=sideways),
        *hinge("beam", 1, 2, p.shear_centre_mm, sideways),
    ]
    wheels = _numbered(p.left, p.right, (1, 2))
    drives = [drive(k, wheel) for k, wheel in enumerate(wheels)]
    return Linkage("twist beam", (*rows, *drives), wheels, bodies=2)


def _live_axle(p: LiveAxle) -> Linkage:
    wheels = _numbered(p.left, p.right, (1, 1))
    bound = len(p.links) + (p.watt is not None) > 4
    rows = [link(one.name, one.inner_mm, one.outer_mm, gives=bound) for one in p.links]
    if p.watt is not None:
        rows += _watt(p.watt)
    drives = [drive(k, wheel) for k, wheel in enumerate(wheels)]
    return Linkage("live axle", (*rows, *drives), wheels, bodies=1 if p.watt is None else 2)


def _watt(p: WattLinkage) -> list[Row]:
    carrier, other = (1, 0) if p.crank_on == "axle" else (0, 1)
    return [
        *hinge("Watt crank", carrier, 2, p.pivot_mm, p.pivot_axis),
        Row("Watt link a", "distance", other, 2, p.far_end_a_mm, p.crank_end_a_mm),
        Row("Watt link b", "distance", other, 2, p.far_end_b_mm, p.crank_end_b_mm),
    ]


def _numbered(left: Wheel, right: Wheel, bodies: tuple[int, int]) -> tuple[Wheel, Wheel]:
    return replace(left, body=bodies[0]), replace(right, body=bodies[1])


def _apart(name: str, one: Point, other: Point) -> None:
    if np.linalg.norm(np.subtract(one, other)) < 1.0:
        raise BadInput(
            say("hard points"),
            (Fault(link_word(name), say("two points at least 1 mm apart"), say("points in one place")),),
        )
