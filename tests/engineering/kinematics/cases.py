"""Invented suspensions of every type, vehicle axes, mm. None is a car that exists."""

from __future__ import annotations

from dataclasses import replace

from hubwright.engineering.kinematics.build import linkage_of
from hubwright.engineering.kinematics.hardpoints import (
    DoubleWishbone,
    FiveLink,
    Link,
    LiveAxle,
    Strut,
    SwingArm,
    TwistBeam,
    WattLinkage,
)
from hubwright.engineering.kinematics.linkage import Linkage, Wheel

FRONT = Wheel("left", (0.0, 750.0, 0.0), 310.0, -0.5, 0.1)
REAR_LEFT = Wheel("left", (0.0, 740.0, 0.0), 305.0, -1.4, 0.15)
REAR_RIGHT = replace(REAR_LEFT, side="right", centre_mm=(0.0, -740.0, 0.0))

DOUBLE_WISHBONE = DoubleWishbone(
    FRONT,
    upper_front_mm=(70.0, 440.0, 190.0),
    upper_rear_mm=(-150.0, 450.0, 180.0),
    upper_outer_mm=(-15.0, 655.0, 185.0),
    lower_front_mm=(190.0, 370.0, -120.0),
    lower_rear_mm=(-210.0, 380.0, -105.0),
    lower_outer_mm=(10.0, 715.0, -140.0),
    tie_inner_mm=(-140.0, 390.0, -60.0),
    tie_outer_mm=(-130.0, 700.0, -75.0),
)
STRUT = Strut(
    FRONT,
    strut_top_mm=(-25.0, 570.0, 560.0),
    strut_lower_mm=(0.0, 620.0, 120.0),
    lower_front_mm=(60.0, 350.0, -95.0),
    lower_rear_mm=(-260.0, 360.0, -90.0),
    lower_outer_mm=(5.0, 700.0, -125.0),
    tie_inner_mm=(-150.0, 350.0, -20.0),
    tie_outer_mm=(-140.0, 680.0, -30.0),
)
_D = DOUBLE_WISHBONE
WISHBONES_AS_FIVE_LINKS = FiveLink(
    FRONT,
    (
        Link("upper front", _D.upper_front_mm, _D.upper_outer_mm),
        Link("upper rear", _D.upper_rear_mm, _D.upper_outer_mm),
        Link("lower front", _D.lower_front_mm, _D.lower_outer_mm),
        Link("lower rear", _D.lower_rear_mm, _D.lower_outer_mm),
        Link("tie rod", _D.tie_inner_mm, _D.tie_outer_mm),
    ),
    steered="tie rod",
)
FIVE_LINK = FiveLink(
    REAR_LEFT,
    (
        Link("upper front", (110.0, 480.0, 130.0), (40.0, 680.0, 145.0)),
        Link("upper rear", (-120.0, 470.0, 120.0), (-50.0, 675.0, 135.0)),
        Link("lower front", (330.0, 470.0, -60.0), (30.0, 700.0, -120.0)),
        Link("lower rear", (-110.0, 330.0, -110.0), (-40.0, 700.0, -130.0)),
        Link("toe link", (-190.0, 390.0, -20.0), (-150.0, 690.0, -30.0)),
    ),
)
TRAILING_ARM = SwingArm(REAR_LEFT, (420.0, 450.0, 20.0), (420.0, 640.0, 20.0))
SEMI_TRAILING_ARM = SwingArm(REAR_LEFT, (330.0, 250.0, 10.0), (430.0, 620.0, 25.0))
TWIST_BEAM = TwistBeam(
    REAR_LEFT,
    REAR_RIGHT,
    mount_left_mm=(430.0, 560.0, 30.0),
    mount_right_mm=(430.0, -560.0, 30.0),
    shear_centre_mm=(250.0, 0.0, 60.0),
)
_LOWER = (
    Link("lower left", (480.0, 480.0, -70.0), (-10.0, 500.0, -100.0)),
    Link("lower right", (480.0, -480.0, -70.0), (-10.0, -500.0, -100.0)),
)
PANHARD = Link("Panhard rod", (-150.0, -520.0, 40.0), (-150.0, 500.0, 30.0))
WATT = WattLinkage(
    pivot_mm=(-160.0, 0.0, 20.0),
    crank_end_a_mm=(-160.0, 0.0, 100.0),
    crank_end_b_mm=(-160.0, 0.0, -60.0),
    far_end_a_mm=(-160.0, 450.0, 100.0),
    far_end_b_mm=(-160.0, -450.0, -60.0),
    crank_on="axle",
)
THREE_LINKS_PANHARD = LiveAxle(
    REAR_LEFT, REAR_RIGHT, (*_LOWER, Link("upper", (380.0, 0.0, 130.0), (20.0, 0.0, 120.0)), PANHARD)
)
THREE_LINKS_WATT = replace(THREE_LINKS_PANHARD, links=THREE_LINKS_PANHARD.links[:3], watt=WATT)
THREE_LINKS_WATT_ON_BODY = replace(
    THREE_LINKS_WATT, watt=replace(WATT, crank_on="body", far_end_a_mm=(-160.0, 450.0, 98.0))
)
FOUR_LINKS_PANHARD = LiveAxle(
    REAR_LEFT,
    REAR_RIGHT,
    (
        *_LOWER,
        Link("upper left", (380.0, 420.0, 130.0), (20.0, 380.0, 120.0)),
        Link("upper right", (380.0, -420.0, 130.0), (20.0, -380.0, 120.0)),
        PANHARD,
    ),
)
CORNERS: dict[str, Linkage] = {
    "double wishbone": linkage_of(DOUBLE_WISHBONE),
    "strut": linkage_of(STRUT),
    "five link": linkage_of(FIVE_LINK),
    "steered five link": linkage_of(WISHBONES_AS_FIVE_LINKS),
    "trailing arm": linkage_of(TRAILING_ARM),
    "semi-trailing arm": linkage_of(SEMI_TRAILING_ARM),
}
AXLES: dict[str, Linkage] = {
    "twist beam": linkage_of(TWIST_BEAM),
    "live axle, Panhard rod": linkage_of(THREE_LINKS_PANHARD),
    "live axle, Watt linkage": linkage_of(THREE_LINKS_WATT),
    "live axle, Watt linkage on the body": linkage_of(THREE_LINKS_WATT_ON_BODY),
    "live axle, four links and Panhard rod": linkage_of(FOUR_LINKS_PANHARD),
}
