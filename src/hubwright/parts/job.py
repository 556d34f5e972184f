"""The job file as a whole: one car's visit."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from hubwright.parts.base import Day, Number, Text, Whole, YesNo, noun
from hubwright.parts.chassis import Bearing, Steering, Suspension, Tow
from hubwright.parts.corner import Corner, MotionReading
from hubwright.parts.hardpoints import HardPoints
from hubwright.parts.hub import Fastener, Hub, TorqueRecord
from hubwright.parts.kinds import MANY, DiscThickness, Length, Positive, Steer, Track
from hubwright.parts.shop import DiscKind, Shop
from hubwright.parts.wheel import OfferedPackage, WheelSet
from hubwright.quantities.axes import Side

JOB_VERSION = 1
Use = Literal["street", "track", "laden", "off-road"]
AxleName = Literal["front", "rear"]


@noun
class Car:
    """The car as it stands in the workshop."""

    description: Text | None = Field(default=None, description="what it is, in words")
    plate: Text | None = None
    frame: Literal["unibody", "ladder"] | None = Field(default=None, description="ladder: body on a separate frame")
    category: Literal["passenger", "off-road", "goods"] | None = Field(default=None, description="as registered")
    seats: Annotated[Whole, Field(ge=1, le=100)] | None = None
    wheelbase_mm: Positive | None = None
    suspension: Literal["springs", "air"] | None = None
    suspension_mode: Text | None = Field(default=None, description="air suspension: the mode the car was read in")
    springs_age_days: Annotated[Number, Field(ge=0)] | None = Field(
        default=None, description="days on the road since springs were changed"
    )
    mass_kg: Annotated[Number, Field(gt=100, le=12000)] | None = Field(default=None, description="as driven")
    cg_height_mm: Annotated[Number, Field(gt=100, le=2500)] | None = Field(
        default=None, description="centre of gravity above the road"
    )
    top_speed_kmh: Annotated[Number, Field(gt=0, le=500)] | None = Field(default=None, description="by the papers")
    tow: Tow = Field(default_factory=Tow)
    level_floor: YesNo | None = Field(default=None, description="whether the floor was checked level")
    speedometer_lead_percent: Annotated[Number, Field(ge=-20, le=40)] | None = Field(
        default=None, description="how much too high the speedometer shows with the fitted tyres, read on the road"
    )


@noun
class Request:
    """What is asked, where the car is driven and how."""

    reason: Text | None = None
    use: Use = Field(description="decides the margins")
    countries: tuple[Text, ...] = Field(
        default=(), max_length=MANY, description="whose law is asked, such as DE or AU-NSW"
    )


@noun
class Wish:
    """What the customer wants on this axle, per side."""

    aim: Literal["thickness", "widest", "least"] = Field(
        default="thickness", description="a stated disc, the widest that fits, or the thinnest"
    )
    thickness_mm: DiscThickness | None = Field(default=None, description="the disc asked for, per side")
    discs: tuple[DiscKind, ...] = Field(
        default=(), description="kinds of disc that may be used; missing = any on the shelf"
    )


@noun
class Compliance:
    """How far the loaded outer wheel gives, from a rig or a book."""

    side_force_kn: Annotated[Number, Field(ge=0, le=30)]
    camber_deg_per_kn: Annotated[Number, Field(ge=0, le=5)]
    lateral_mm_per_kn: Annotated[Number, Field(ge=0, le=20)]


@noun
class Axle:
    """One axle: what both sides share by construction, and each corner's own readings."""

    track_mm: Track | None = Field(default=None, description="as it stands")
    largest_series_track_mm: Track | None = Field(
        default=None, description="largest track the maker lists for this axle"
    )
    series_tyre: Text | None = Field(default=None, description="tyre by the placard, such as 225/45R17 91W")
    series_rim: Text | None = Field(default=None, description="widest series rim, such as 7.5Jx17 ET47")
    axle_load_kg: Positive | None = Field(default=None, description="permitted load of this axle, from the plate")
    steered: YesNo | None = Field(default=None, description="missing: the front axle is, the rear axle is not")
    original: YesNo = Field(default=True, description="false when the whole axle was exchanged")
    steer_max_deg: Annotated[Steer, Field(gt=0)] | None = Field(
        default=None, description="largest angle of either wheel, size only"
    )
    bump_travel_mm: Length | None = Field(default=None, description="parked to full bump, spring out")
    droop_travel_mm: Length | None = Field(default=None, description="parked to full droop")
    parked_load_kg: Positive | None = Field(default=None, description="of the axle as the car is driven")
    plate_load_kg: Positive | None = Field(default=None, description="greatest load of the axle by the plate")
    driven: YesNo | None = None
    wheel_drive_nm: Positive | None = Field(
        default=None, description="greatest drive at one wheel in first gear; missing: what the tyre's grip can take"
    )
    suspension: Suspension = Field(default_factory=Suspension)
    steering: Steering = Field(default_factory=Steering)
    bearing: Bearing = Field(default_factory=Bearing)
    scrub_radius_mm: Annotated[Number, Field(ge=-200, le=300)] | None = Field(
        default=None, description="contact outboard: positive"
    )
    wish: Wish | None = None
    hub: Hub = Field(default_factory=Hub)
    fastener: Fastener | None = Field(default=None, description="as fitted with the fitted wheels")
    torque: tuple[TorqueRecord, ...] = Field(default=(), max_length=MANY, description="published torque records")
    compliance: Compliance | None = None
    motion: tuple[MotionReading, ...] = Field(
        default=(), max_length=MANY, description="camber and half-track by travel where both sides are known to agree"
    )
    wheel_set: tuple[WheelSet, ...] = Field(default=(), max_length=MANY, description="fitted, winter, spare")
    package: tuple[OfferedPackage, ...] = Field(
        default=(), max_length=MANY, description="wheels with tyres offered on this axle in place of the fitted ones"
    )
    hardpoints: HardPoints | None = Field(default=None, description="places of the links, springs and loads")
    left: Corner = Field(default_factory=Corner)
    right: Corner = Field(default_factory=Corner)

    def corner(self, side: Side) -> Corner:
        """The corner on one side."""
        return self.left if side == "left" else self.right

    def hub_at(self, side: Side) -> Hub:
        """The hub on one side: what the corner states, else what the axle states."""
        own = self.corner(side).hub
        if own is None:
            return self.hub
        stated = {name: value for name, value in vars(own).items() if value is not None}
        return Hub(**{**vars(self.hub), **stated})

    @property
    def fitted(self) -> WheelSet | None:
        """The wheel set fitted now; None when the job names none."""
        return next((wheel_set for wheel_set in self.wheel_set if wheel_set.role == "fitted"), None)


@noun
class Job:
    """One car's visit. Anything may be missing; missing is never zero."""

    hubwright_job: Literal[1] = Field(description="version of this file format")
    title: Text
    date: Day | None = Field(default=None, description="day of the visit; rules are looked up for it")
    car: Car = Field(default_factory=Car)
    request: Request
    front: Axle | None = None
    rear: Axle | None = None
    shop: Shop = Field(default_factory=Shop)

    @property
    def axles(self) -> tuple[tuple[AxleName, Axle], ...]:
        """The axles the job says something about, front first."""
        named: tuple[tuple[AxleName, Axle | None], ...] = (("front", self.front), ("rear", self.rear))
        return tuple((name, axle) for name, axle in named if axle is not None)

    def is_steered(self, name: AxleName) -> bool:
        """Whether the axle steers: as stated, else the front does."""
        axle = self.front if name == "front" else self.rear
        return name == "front" if axle is None or axle.steered is None else axle.steered
