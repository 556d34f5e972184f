"""One corner of the car: what stands around the wheel and how it moves. Left and right apart, always."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated, Literal

from pydantic import Field

from hubwright.parts.base import READERS, Number, Text, Whole, YesNo, noun
from hubwright.parts.corner_kinds import PointKind
from hubwright.parts.hub import Hub
from hubwright.parts.kinds import (
    MANY,
    Angle,
    FittedDisc,
    Gap,
    Length,
    PlainLength,
    ProfilePoints,
    SignedLength,
    Steer,
    Travel,
)
from hubwright.parts.scan import Line, Scan
from hubwright.quantities.axes import Direction
from hubwright.quantities.reading import Reading


@noun
class GapReading:
    """The gap at one point in one state."""

    travel_mm: Travel = Field(description="bump positive, from parked height")
    steer_deg: Steer = Field(default=0.0, description="of this wheel, left turn positive; straight ahead unless said")
    gap_mm: Gap = Field(description="free air between tyre and point")
    disc_mm: FittedDisc = Field(
        default=0.0, description="thickness of the disc fitted when it was read; bare unless said"
    )
    reading_set: Whole | None = Field(default=None, alias="set", description="which round of readings it belongs to")
    car_turned: YesNo = Field(default=False, description="read after turning the car round on the same floor")


@noun
class Work:
    """Something that can be done at the point, and what it gains."""

    name: Text = Field(description="in the imperative, such as roll the arch lip")
    gain_mm: Annotated[PlainLength, Field(gt=0)] = Field(description="free air won at the critical place")


@noun
class Point:
    """One place the wheel could touch."""

    name: Text
    room: Literal["outside", "inside"] = Field(description="outside: towards the bodywork; inside: strut, arm, hose")
    kind: PointKind = Field(
        default="body",
        description="body: fixed to the car; carried: moves with the knuckle; hose: hose, cable or steering",
    )
    toward: Direction | None = Field(
        default=None, description="direction from the tyre to the point; outboard or inboard unless said"
    )
    height_mm: Length | None = Field(default=None, description="above the wheel centre when parked")
    return_mm: PlainLength | None = Field(default=None, description="how far an arch lip returns inboard")
    drop_mm: PlainLength | None = Field(default=None, description="length of a plumb line used for the readings")
    method: Text | None = Field(default=None, description="of the readings here that state none")
    u_mm: Annotated[PlainLength, Field(le=100)] | None = Field(
        default=None, description="doubt of the readings here that state none"
    )
    by: Literal["workshop", "customer"] = Field(default="workshop", description="who read here")
    work: tuple[Work, ...] = Field(default=(), max_length=MANY, description="what could be done here")
    reading: tuple[GapReading, ...] = Field(default=(), max_length=MANY, description="gaps by state")

    @property
    def direction(self) -> Direction:
        """Towards the point: as stated, else outboard or inboard by its room."""
        return self.toward or ("outboard" if self.room == "outside" else "inboard")

    def gap(self, reading: GapReading) -> Reading:
        """The gap of one reading with the doubt, method and reader of the point where it states none."""
        gap = reading.gap_mm
        return replace(
            gap,
            u=self.u_mm if gap.u is None and gap.method is None else gap.u,
            method=gap.method or self.method,
            by=READERS[1] if READERS[1] in (gap.by, self.by) else gap.by,
        )


@noun
class MotionReading:
    """Camber and half-track at one height, spring out or on the alignment lift."""

    travel_mm: Travel
    camber_deg: Angle = Field(description="negative = top inboard")
    half_track_mm: SignedLength | None = Field(default=None, description="wheel centre moved outboard since parked")


@noun
class Brake:
    """Room between wheel and brake at this corner, bare."""

    axial_gap_mm: Gap | None = Field(default=None, description="spoke back to caliper, along the axis")
    radial_gap_mm: Gap | None = Field(default=None, description="barrel to caliper, square to the axis")
    ramp_deg: Annotated[Number, Field(ge=0, le=60)] | None = Field(
        default=None,
        description="slope of the barrel over the caliper, towards the wheel's centre; 0 = straight barrel",
    )
    ramp_start_mm: PlainLength | None = Field(default=None, description="outward shift after which the slope begins")
    new_lining_mm: PlainLength | None = Field(
        default=None, description="how far new linings bring the caliper outward axially"
    )
    weight_height_mm: PlainLength | None = Field(
        default=None, description="stick-on weights in the barrel over the caliper"
    )
    caliper_mm: ProfilePoints | None = Field(
        default=None,
        description="outline of the caliper, pairs: distance from the spin axis, position outboard of the hub face",
    )


@noun
class BodyLine:
    """A named point of the body edge the wheel is seen against: flush, tucked in or poking out."""

    name: Text
    outward_mm: SignedLength = Field(description="outboard of the face the disc sits on, parked")
    height_mm: SignedLength | None = Field(default=None, description="above the wheel centre, parked")
    angle_deg: Annotated[Number, Field(ge=-180, le=180)] = Field(
        default=0.0, description="around the wheel: 0 straight up, forward positive"
    )


@noun
class Corner:
    """Readings of one corner."""

    ride_height_mm: Length | None = Field(default=None, description="wheel centre to arch edge, straight up")
    camber_deg: Angle | None = Field(default=None, description="parked; negative = top inboard")
    toe_deg: Annotated[Number, Field(ge=-10, le=10)] | None = Field(
        default=None, description="parked; positive = toe-in"
    )
    cover_mm: SignedLength | None = Field(
        default=None, description="arch edge beyond the tread at the top, parked; negative where the tread stands out"
    )
    motion: tuple[MotionReading, ...] = Field(
        default=(), max_length=MANY, description="camber and half-track by travel"
    )
    brake: Brake = Field(default_factory=Brake)
    hub: Hub | None = Field(default=None, description="what differs here from the hub of the axle")
    point: tuple[Point, ...] = Field(default=(), max_length=MANY, description="places the wheel could touch")
    body_line: tuple[BodyLine, ...] = Field(
        default=(), max_length=MANY, description="points of the body edge for flush, tuck and poke"
    )
    line: tuple[Line, ...] = Field(
        default=(), max_length=MANY, description="edges around the wheel, by clock angle or points"
    )
    scan: tuple[Scan, ...] = Field(
        default=(), max_length=MANY, description="scans and meshes of what stands around the wheel"
    )
