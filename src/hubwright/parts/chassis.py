"""Springs, steering, wheel bearing and tow ball: what the side effects are worked out from. All of it optional."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from hubwright.parts.base import Number, Text, noun
from hubwright.parts.kinds import MANY, PlainLength, Positive

Share = Annotated[Number, Field(gt=0, le=1)]
SmallAngle = Annotated[Number, Field(ge=-40, le=40)]


@noun
class Suspension:
    """How the wheels of one axle hang on the body."""

    kind: Literal["independent", "solid"] | None = Field(
        default=None, description="solid: one beam joins both wheels, so that its springs do not feel a disc"
    )
    wheel_rate_n_per_mm: Positive | None = Field(default=None, description="spring rate seen at one wheel")
    spring_rate_n_per_mm: Positive | None = Field(default=None, description="rate of one spring itself")
    motion_ratio: Annotated[Number, Field(gt=0, le=2)] | None = Field(
        default=None, description="spring travel over wheel travel"
    )
    roll_stiffness_nm_per_deg: Positive | None = Field(
        default=None, description="of the axle, springs and bar together"
    )
    arm_mm: Positive | None = Field(default=None, description="contact patch to front-view instant centre, L")
    roll_centre_height_mm: Annotated[Number, Field(ge=-300, le=800)] | None = Field(default=None)
    unsprung_mass_kg: Positive | None = Field(default=None, description="wheels, hubs and the rest, both sides")


@noun
class Steering:
    """The steering axis of one corner."""

    kingpin_inclination_deg: SmallAngle | None = Field(
        default=None, description="seen from ahead; top inboard positive"
    )
    caster_deg: SmallAngle | None = Field(default=None, description="seen from the side; top rearward positive")
    steering_arm_mm: Positive | None = Field(default=None, description="tie rod end to steering axis")
    drive_offset_mm: Annotated[Number, Field(ge=-200, le=300)] | None = Field(
        default=None, description="steering axis to wheel centre plane at axle height, wheel outboard: positive"
    )
    outer_lock_deg: Annotated[Number, Field(ge=5, le=70)] | None = Field(
        default=None, description="lock of the outer wheel in the tightest turn"
    )


@noun
class DutyPhase:
    """Part of the distance driven; the shares need not add up to one."""

    share: Share
    side_g: Annotated[Number, Field(ge=-1.5, le=1.5)] = Field(
        description="side acceleration in g; positive where this wheel is the outer one"
    )
    words: Text | None = Field(default=None, description="such as long straight roads")


@noun
class Bearing:
    """A two-row wheel bearing."""

    spread_mm: Positive | None = Field(default=None, description="between the pressure centres of both rows")
    spread_doubt_mm: PlainLength = Field(default=0.0, description="how far that may be off, plus and minus")
    load_line_mm: Annotated[Number, Field(ge=-200, le=200)] | None = Field(
        default=None, description="tyre middle plane outboard of the middle between the rows, without disc"
    )
    load_line_doubt_mm: PlainLength = Field(default=0.0, description="how far that may be off, plus and minus")
    duty: tuple[DutyPhase, ...] = Field(
        default=(), max_length=MANY, description="what the car is driven; missing: a gentle duty, marked as a guess"
    )


@noun
class Tow:
    """A trailer on the ball."""

    nose_weight_kg: Annotated[Number, Field(ge=0, le=2000)] | None = Field(default=None, description="on the ball")
    behind_axle_mm: PlainLength | None = Field(default=None, description="ball behind the rear axle")
