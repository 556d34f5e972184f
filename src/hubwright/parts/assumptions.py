"""Engineering assumptions a shop may replace. One that is stated here no longer counts as a guess of the program."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from hubwright.parts.base import Number, Text, noun
from hubwright.parts.kinds import MANY

Friction = Annotated[Number, Field(ge=0.02, le=0.6)]
Factor = Annotated[Number, Field(ge=0, le=10)]
Grip = Annotated[Number, Field(gt=0, le=2)]


@noun
class Assumptions:
    """Missing ones are taken from tables or guesses and printed as such. A range is two figures, low and high."""

    tightened_with: Text | None = Field(default=None, description="method as the table of tightening factors names it")
    wrench_percent: Annotated[Number, Field(ge=0, le=30)] | None = Field(
        default=None, description="how far the wrench may be off, percent"
    )
    face_friction: tuple[Friction, ...] = Field(
        default=(), max_length=2, description="hub face against disc, disc against wheel"
    )
    roughness_um: Annotated[Number, Field(gt=0, lt=160)] | None = Field(
        default=None, description="roughness Rz of the clamped faces, for embedding"
    )
    grip: tuple[Grip, ...] = Field(default=(), max_length=2, description="tyre grip in braking, driving and cornering")
    kerb_factors: tuple[Factor, ...] = Field(
        default=(), max_length=3, description="kerb: vertical, sideways and fore-aft force over the wheel's load"
    )
    hat_rise_k: Annotated[Number, Field(ge=0, le=600)] | None = Field(
        default=None, description="brake disc hat warmer than when tightened"
    )
    rest_rise_k: Annotated[Number, Field(ge=0, le=400)] | None = Field(
        default=None, description="wheel, disc and bolts warmer than when tightened"
    )
    side_g: Annotated[Number, Field(gt=0, le=1.5)] | None = Field(
        default=None, description="side acceleration the bend is looked at with, in g"
    )
    seat_error_deg: Annotated[Number, Field(ge=0, le=5)] | None = Field(
        default=None, description="seat out of square with the thread"
    )
    notes: tuple[Text, ...] = Field(default=(), max_length=MANY, description="where the shop has them from")
