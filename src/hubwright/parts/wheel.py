"""Wheels and tyres, as sets that take turns on one axle."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from hubwright.language import say
from hubwright.language.place_words import wheels_word
from hubwright.parts.base import Number, Text, noun
from hubwright.parts.hub import Fastener
from hubwright.parts.kinds import (
    MANY,
    Diameter,
    Length,
    PlainLength,
    Positive,
    ProfilePoints,
    Radius,
    SignedLength,
    SmallLength,
)
from hubwright.parts.shop import Seat

LinePart = Literal["spoke face", "spoke back", "cap", "valve", "barrel", "brake side", "other"]


@noun
class ProfileLine:
    """One line of the wheel as it turns about its axis, from points or from a file beside the job file."""

    part: LinePart = Field(
        description="spoke face, cap, valve: outermost; spoke back, barrel (outboard to inboard), brake side: to the brake"
    )
    points_mm: ProfilePoints | None = Field(
        default=None, description="pairs: distance from the spin axis, position outboard of the mounting face"
    )
    file: Text | None = Field(
        default=None,
        description="CSV (rho_mm,y_mm) or DXF (x = distance from the axis, y outboard) beside the job file",
    )
    layer: Text | None = Field(default=None, description="layer of the DXF; missing = all of them")


@noun
class BalanceWeight:
    """A balance weight stuck to the inside of the barrel."""

    position_mm: Annotated[Number, Field(ge=-500, le=500)] = Field(
        description="its middle, outboard of the mounting face: positive"
    )
    width_mm: Annotated[PlainLength, Field(gt=0, le=200)] = 20.0
    thickness_mm: Annotated[PlainLength, Field(gt=0, le=50)] = 5.0


@noun
class Wheel:
    """One wheel as it meets the hub."""

    rim: Text | None = Field(default=None, description="rim designation, such as 8Jx18")
    inset_mm: SignedLength | None = Field(
        default=None, description="rim centre plane inboard of the mounting face: positive"
    )
    material: Literal["alloy", "steel"] = Field(default="alloy", description="decides the least pilot")
    bolt_circle: Text | None = Field(default=None, description="such as 5x112")
    bore_mm: Diameter | None = Field(default=None, description="centre bore")
    bore_chamfer_mm: SmallLength | None = Field(default=None, description="axial depth of the chamfer at the bore")
    bore_depth_mm: SmallLength | None = Field(
        default=None, description="cylindrical depth of the bore behind the chamfer"
    )
    cap_room_mm: SmallLength | None = Field(default=None, description="mounting face to the inside of the centre cap")
    pad_to_thread_mm: SmallLength | None = Field(
        default=None, description="mounting face to where the nut's thread starts"
    )
    relief_depth_mm: SmallLength | None = Field(
        default=None, description="depth of the pockets in the mounting face; 0 = flat"
    )
    relief_width_mm: SmallLength | None = Field(default=None, description="width of the pockets across the bolt circle")
    seat: Seat | None = Field(default=None, description="the seat cut into the wheel")
    seat_radius_mm: Positive | None = Field(default=None, description="radius of a ball seat")
    relief_angle_deg: PlainLength | None = Field(
        default=None,
        description="angle between an original stud and the middle of the nearest pocket; missing = a ring",
    )
    relief_circle_mm: Positive | None = Field(default=None, description="circle through the middle of the pockets")
    bore_class: Text | None = Field(default=None, description="ISO 286 class of the bore, such as H8")
    mass_kg: Positive | None = Field(default=None, description="wheel with tyre")
    rating_kg: Positive | None = Field(default=None, description="load rating of the wheel as cast in or certified")
    rated_circumference_mm: Positive | None = Field(default=None, description="rolling circumference of that rating")
    overall_width_mm: Length | None = Field(default=None, description="measured over the rim flanges")
    flange_radius_mm: Length | None = Field(default=None, description="spin axis to the outside of the rim flange")
    pad_diameter_mm: SmallLength | None = Field(default=None, description="outside diameter of the mounting face")
    load_rating_kg: Positive | None = Field(default=None, description="wheel load stamped in or stated on paper")
    rating_circumference_mm: Positive | None = Field(
        default=None, description="largest rolling circumference the wheel load is stated for"
    )
    profile: tuple[ProfileLine, ...] = Field(default=(), max_length=MANY, description="lines measured on the wheel")
    weight: tuple[BalanceWeight, ...] = Field(default=(), max_length=MANY, description="weights stuck in the barrel")


@noun
class HalfWidth:
    """Half the tyre's width at one radius, from the rim centre plane to the outside."""

    radius_mm: Radius
    half_width_mm: Annotated[PlainLength, Field(gt=0)]


@noun
class Tyre:
    """The tyre as marked and as measured."""

    designation: Text | None = Field(default=None, description="such as 235/40R18 95W")
    section_width_mm: Length | None = Field(default=None, description="widest section with protector, inflated")
    free_radius_mm: Length | None = Field(default=None, description="unloaded radius")
    half_width: tuple[HalfWidth, ...] = Field(
        default=(), max_length=MANY, description="calliper readings of the outer half at several radii"
    )
    approved_rim_widths_mm: tuple[Positive, ...] = Field(
        default=(), max_length=MANY, description="rim widths the tyre maker allows, from his table"
    )
    tread_width_mm: Length | None = Field(default=None, description="across the tread from edge to edge")
    shoulder_drop_mm: SmallLength | None = Field(
        default=None, description="how much nearer to the axis the tread edge lies than the crown"
    )
    tread_depth_mm: SmallLength | None = Field(default=None, description="main groove now")
    new_tread_depth_mm: SmallLength | None = Field(default=None, description="main groove when new")
    pressure_kpa: Annotated[Number, Field(ge=0, le=1000)] | None = Field(default=None, description="cold")
    vertical_stiffness_n_mm: Annotated[Number, Field(gt=0, le=5000)] | None = Field(
        default=None, description="wheel load over deflection, in N/mm"
    )


@noun
class WheelSet:
    """Wheels that take turns on this axle: the ones fitted, the winter set, the spare."""

    role: Literal["fitted", "winter", "spare", "other"]
    name: Text | None = Field(default=None, description="what people call it")
    wheel: Wheel = Field(default_factory=Wheel)
    tyre: Tyre = Field(default_factory=Tyre)
    fastener: Fastener | None = Field(default=None, description="its fasteners; missing = those of the fitted set")
    discs: Literal["stay", "come off"] = Field(
        default="stay", description="whether the discs stay when this set is fitted"
    )

    @property
    def title(self) -> str:
        """How the set is called in sentences."""
        names = {"fitted": say("fitted wheels"), "winter": say("winter wheels"), "spare": say("spare")}
        return wheels_word(self.name or "") or names.get(self.role) or say("other wheels")


@noun
class OfferedPackage:
    """Wheel and tyre offered on this axle in place of the fitted ones."""

    name: Text | None = Field(default=None, description="what people call it")
    wheel: Wheel = Field(default_factory=Wheel)
    tyre: Tyre = Field(default_factory=Tyre)
    fastener: Fastener | None = Field(
        default=None, description="its fasteners; missing = those of the fitted set, their engagement not known"
    )

    @property
    def title(self) -> str:
        """How the package is called in sentences."""
        tyre, rim = self.tyre.designation, self.wheel.rim
        written = say("{tyre} on {rim}", tyre=tyre, rim=rim) if tyre and rim else tyre or rim
        return wheels_word(self.name or "") or written or say("offered package")
