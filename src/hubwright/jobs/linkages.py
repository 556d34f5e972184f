"""From the hard points of a job to the linkage the sums solve."""

from __future__ import annotations

from typing import Any

from hubwright.engineering.kinematics import hardpoints as hp
from hubwright.engineering.kinematics.build import linkage_of
from hubwright.engineering.kinematics.linkage import Linkage, Wheel
from hubwright.parts.hardpoints import NEEDED, WHOLE_AXLE, CornerPoints, HardPoints
from hubwright.quantities.axes import SIDES, Side

CLASS = {
    "double wishbone": hp.DoubleWishbone,
    "strut": hp.Strut,
    "swing arm": hp.SwingArm,
}


def linkage_at(suspension: HardPoints, side: Side, *, steered: bool) -> tuple[Linkage, int] | None:
    """The linkage that holds the wheel on one side, and which of its wheels it is; None where nobody read this side.

    A side is mirrored from the other one only where the job says that both are the same construction.

    Raises:
        BadInput: hard points that cannot be.
    """
    if suspension.kind in WHOLE_AXLE:
        return linkage_of(_whole(suspension)), SIDES.index(side)
    own = suspension.points(side)
    if own is not None:
        return linkage_of(_corner(suspension, own, side, steered)), 0
    other: Side = "left" if side == "right" else "right"
    twin = suspension.points(other)
    if twin is None or not suspension.same_both_sides:
        return None
    return linkage_of(hp.mirror_hardpoints(_corner(suspension, twin, other, steered))), 0


def wheel_of(points: CornerPoints, side: Side) -> Wheel:
    """The wheel of one corner at rest."""
    return Wheel(side, points.wheel_centre_mm, points.loaded_radius_mm, points.camber_deg, points.toe_deg)


def _corner(suspension: HardPoints, points: CornerPoints, side: Side, steered: bool) -> hp.Corner:
    wheel = wheel_of(points, side)
    rack = suspension.rack_direction if steered else None
    if suspension.kind == "five link":
        one, two, three, four, five = (hp.Link(x.name, x.inner_mm, x.outer_mm) for x in points.link)
        return hp.FiveLink(
            wheel, (one, two, three, four, five), points.steered_link if steered else None, suspension.rack_direction
        )
    figures: dict[str, Any] = {name: getattr(points, name) for name in NEEDED[suspension.kind]}
    if suspension.kind in ("double wishbone", "strut"):
        figures["rack_direction"] = rack
    made: hp.Corner = CLASS[suspension.kind](wheel=wheel, **figures)
    return made


def _whole(suspension: HardPoints) -> hp.TwistBeam | hp.LiveAxle:
    assert suspension.left is not None and suspension.right is not None
    left, right = wheel_of(suspension.left, "left"), wheel_of(suspension.right, "right")
    if suspension.kind == "twist beam":
        assert suspension.mount_left_mm and suspension.mount_right_mm and suspension.shear_centre_mm
        return hp.TwistBeam(
            left, right, suspension.mount_left_mm, suspension.mount_right_mm, suspension.shear_centre_mm
        )
    links = tuple(hp.Link(one.name, one.inner_mm, one.outer_mm) for one in suspension.link)
    watt = None if suspension.watt is None else hp.WattLinkage(**vars(suspension.watt))
    return hp.LiveAxle(left, right, links, watt)
