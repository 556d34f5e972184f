"""The hub and what holds the wheel to it."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from hubwright.parts.base import Number, Text, YesNo, noun
from hubwright.parts.kinds import Diameter, Length, Positive, SmallLength, Turns
from hubwright.parts.shop import Seat


@noun
class Hub:
    """The face the disc sits on, its spigot, and the threads in or on it."""

    bolt_circle: Text | None = Field(default=None, description="holes and circle diameter, such as 5x112")
    chord_mm: Length | None = Field(default=None, description="centre to centre of two neighbouring holes")
    spigot_diameter_mm: Diameter | None = Field(default=None, description="centring cylinder")
    spigot_length_mm: SmallLength | None = Field(
        default=None, description="useful cylinder from the seating face (brake disc fitted), without its chamfer"
    )
    nose_diameter_mm: SmallLength | None = Field(default=None, description="axle end standing out beyond the spigot")
    nose_length_mm: SmallLength | None = Field(
        default=None, description="how far it stands out beyond the spigot; 0 = none"
    )
    hat_thickness_mm: SmallLength | None = Field(
        default=None, description="brake disc hat between hub flange and wheel"
    )
    flange_thickness_mm: SmallLength | None = Field(default=None, description="thread length in the hub flange")
    free_behind_mm: SmallLength | None = Field(default=None, description="air behind the flange up to the first part")
    blind_depth_mm: SmallLength | None = Field(default=None, description="thread depth where the hole has a bottom")
    material: Literal["steel", "aluminium"] | None = Field(
        default=None, description="what the thread is cut in; missing: steel"
    )
    stud_length_mm: SmallLength | None = Field(default=None, description="stud from the bare hub flange to its tip")
    stud_lead_mm: SmallLength | None = Field(default=None, description="part of the stud tip without full thread")
    stud_proud_mm: SmallLength | None = Field(
        default=None, description="stud beyond the seating face (brake disc fitted)"
    )


@noun
class Fastener:
    """Bolts or nuts as fitted to one wheel set.

    Length reference by seat: cone and ball from the end of the seat to the tip, flat from under the flange.
    """

    kind: Literal["bolt", "nut"]
    thread: Text | None = Field(default=None, description="such as M14x1.5 or 1/2-20")
    seat: Seat | None = Field(default=None, description="cone, ball or flat")
    seat_radius_mm: Positive | None = Field(default=None, description="radius of a ball seat")
    length_mm: SmallLength | None = Field(default=None, description="bolt: by its seat's reference")
    engagement_mm: SmallLength | None = Field(default=None, description="thread engaged now, brake disc fitted")
    engagement_turns: Turns | None = Field(default=None, description="the same as turns counted, brake disc fitted")
    closed_depth_mm: SmallLength | None = Field(default=None, description="closed nut: inside depth")
    open_end: YesNo | None = Field(default=None, description="nut: true when the stud may come out of its end")
    property_class: Text | None = Field(default=None, description="such as 10.9")


@noun
class TorqueRecord:
    """A torque somebody published for this car, wheel and fastener. It is shown, never computed or scaled."""

    torque_nm: Annotated[Number, Field(gt=0, le=1500)]
    source: Text = Field(description="where it stands")
    lubrication: Text = Field(description="the state it holds for, such as clean and dry")
    stages: tuple[Annotated[Number, Field(gt=0, le=1500)], ...] = Field(
        default=(), description="stages in N*m where published"
    )
    recheck: Text | None = Field(default=None, description="when to check again, as published")
