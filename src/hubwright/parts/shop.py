"""The shop: its policy and what lies on its shelf."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from hubwright.parts.assumptions import Assumptions
from hubwright.parts.base import Number, Text, YesNo, noun
from hubwright.parts.kinds import MANY, DiscThickness, PlainLength, Positive

DiscKind = Literal["plain", "lipped", "bolted"]
Seat = Literal["cone", "ball", "flat"]


@noun
class Margins:
    """Free air that must be left, by kind of neighbour. A missing one is taken from the use of the car."""

    body_mm: PlainLength | None = Field(default=None, description="tyre to bodywork fixed to the car")
    carried_mm: PlainLength | None = Field(default=None, description="wheel and tyre to parts carried by the knuckle")
    caliper_mm: PlainLength | None = Field(default=None, description="wheel to brake caliper")
    hose_mm: PlainLength | None = Field(default=None, description="tyre to hoses, cables and steering parts")


@noun
class Policy:
    """House rules. Every one is a shop default that may be edited and is printed with the answer."""

    doubt_k: Annotated[Number, Field(ge=0, le=5)] = Field(
        default=1.645, description="worst side of a guarded decision in standard uncertainties (one-sided 95 %: 1.645)"
    )
    margins: Margins = Field(default_factory=Margins, description="margins that differ from those of the use")
    least_pilot_mm: PlainLength = Field(
        default=4.0, description="least cylindrical pilot left in an alloy wheel (common practice)"
    )
    least_pilot_steel_mm: PlainLength = Field(default=4.0, description="least pilot left in a steel wheel (guess)")
    lip_beyond_spigot_mm: PlainLength = Field(
        default=1.0, description="a lipped disc is thicker than the spigot by this much"
    )
    least_lip_wall_mm: PlainLength = Field(
        default=2.5, description="least wall of a disc lip (common practice 2.5 to 3)"
    )
    lip_nose_clearance_mm: PlainLength = Field(
        default=0.5, description="least diameter of air around a nose in a lip (guess)"
    )
    engagement_floor_d: Positive = Field(default=0.8, description="hard floor of engagement in thread diameters")
    engagement_wanted_steel_d: Positive = Field(default=1.0, description="wanted engagement in a steel hub")
    engagement_wanted_aluminium_d: Positive = Field(
        default=1.5, description="wanted engagement in an aluminium hub (guess)"
    )
    tip_clearance_mm: PlainLength = Field(default=3.0, description="bolt tip to anything that stands behind the flange")
    next_length_within_mm: PlainLength = Field(
        default=5.0, description="how much longer than needed a stock fastener may be"
    )
    largest_bolt_through_mm: Positive | None = Field(
        default=None, description="thickest disc fitted with through bolts; none = no limit"
    )
    least_web_mm: PlainLength = Field(
        default=10.0, description="least material under the inner nuts of a bolted adapter"
    )
    pocket_spare_mm: PlainLength = Field(
        default=1.0, description="least air around a proud stud in a wheel pocket (guess)"
    )
    sidewall_curvature_mm: Annotated[Number, Field(ge=10, le=1000)] = Field(
        default=60.0, description="least radius of curvature assumed of a sidewall between two readings (guess)"
    )
    side_ride_height_mm: PlainLength = Field(
        default=15.0, description="left-right ride height difference that is questioned"
    )
    settle_days: Annotated[Number, Field(ge=0, le=365)] = Field(
        default=7, description="days on the road before new springs count as settled (common practice)"
    )
    circle_conversion: Literal["refused", "allowed"] = Field(
        default="refused", description="adapters from one hole circle to another"
    )
    least_ligament_mm: PlainLength = Field(
        default=5.0, description="least material between the holes of two overlapping circles (guess)"
    )
    equal_sides: YesNo = Field(default=True, description="the same thickness left and right")


@noun
class StockDisc:
    """One disc on the shelf."""

    thickness_mm: DiscThickness = Field(description="per side")
    kind: DiscKind = Field(description="plain, lipped (with its own spigot) or bolted (adapter with its own fasteners)")
    name: Text | None = Field(default=None, description="the shop's own name for it")
    bolt_circle: Text | None = Field(default=None, description="such as 5x112; missing = fits any")
    lip_outer_mm: Positive | None = Field(default=None, description="outside diameter of the disc lip")
    lip_inner_mm: Positive | None = Field(default=None, description="inside diameter of the disc lip")
    lip_length_mm: PlainLength | None = Field(default=None, description="length of the disc lip")
    counterbore_mm: PlainLength | None = Field(default=None, description="depth of the counterbore for the inner nuts")
    inner_height_mm: Positive | None = Field(default=None, description="height the inner nuts or bolt heads need")
    wheel_circle: Text | None = Field(
        default=None, description="adapter: hole circle on the wheel side; missing = that of the hub side"
    )
    inner_hole_mm: Positive | None = Field(default=None, description="adapter: widest bore of the inner joint's holes")
    outer_hole_mm: Positive | None = Field(default=None, description="adapter: widest bore of the wheel side's holes")
    turned_deg: Annotated[Number, Field(ge=0, le=180)] | None = Field(
        default=None, description="adapter: angle between a hole of one circle and the nearest of the other"
    )
    material: Literal["steel", "aluminium"] | None = Field(default=None, description="of the disc")
    outer_diameter_mm: Positive | None = Field(default=None, description="outside of the disc")
    hub_chamfer_mm: PlainLength | None = Field(default=None, description="chamfer of the bore on the hub's side")
    bore_mm: Positive | None = Field(default=None, description="bore on the hub's side")
    bore_class: Text | None = Field(default=None, description="ISO 286 class of that bore, such as H7")
    lip_class: Text | None = Field(default=None, description="ISO 286 class of the lip, such as g6")
    concentricity_mm: PlainLength | None = Field(default=None, description="lip to bore, full dial reading")
    screw_pocket_mm: PlainLength | None = Field(default=None, description="depth of the pocket for a retaining screw")


@noun
class StockFastener:
    """One sort of fastener on the shelf, in its lengths."""

    kind: Literal["bolt", "nut", "stud"]
    thread: Text = Field(description="such as M14x1.5 or 1/2-20")
    seat: Seat | None = Field(default=None, description="cone, ball or flat; studs have none")
    seat_radius_mm: Positive | None = Field(default=None, description="radius of a ball seat")
    lengths_mm: tuple[Positive, ...] = Field(
        default=(), max_length=MANY, description="lengths kept: bolts by their seat's reference, studs overall"
    )
    closed_depth_mm: Positive | None = Field(default=None, description="inside depth of a closed nut; missing = open")


@noun
class Shop:
    """Policy and shelf. Without a shelf the default series is looked through and marked as such."""

    name: Text | None = Field(default=None, description="printed on paper")
    policy: Policy = Field(default_factory=Policy)
    assumptions: Assumptions = Field(default_factory=Assumptions, description="engineering assumptions of the shop")
    disc: tuple[StockDisc, ...] = Field(default=(), max_length=MANY, description="stock discs")
    fastener: tuple[StockFastener, ...] = Field(default=(), max_length=MANY, description="stock fasteners")


DEFAULT_DISCS: tuple[StockDisc, ...] = (
    *(StockDisc(thickness_mm=t, kind="plain") for t in (3, 5, 8, 10)),
    *(StockDisc(thickness_mm=t, kind="lipped") for t in (12, 15, 18, 20, 25, 30)),
)
"""Looked through when the shop states no shelf: a usual series, common practice, no source."""
