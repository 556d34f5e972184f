"""The hub and what holds the wheel to it."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from hubwright.parts.base import Day, Number, Text, YesNo, noun
from hubwright.parts.kinds import MANY, Diameter, Length, PlainLength, Positive, SmallLength, Turns
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
    thread_strength_mpa: Positive | None = Field(
        default=None, description="tensile strength of what the thread is cut in (the nut, for studs)"
    )
    face_outer_mm: Positive | None = Field(default=None, description="outside of the ring the wheel or disc sits on")
    face_inner_mm: Positive | None = Field(default=None, description="inside of that ring; missing: the spigot")
    fillet_mm: PlainLength | None = Field(default=None, description="radius at the foot of the spigot")
    screw_proud_mm: PlainLength | None = Field(
        default=None, description="head of the brake disc's retaining screw above the seating face; 0 = flush"
    )
    spigot_class: Text | None = Field(default=None, description="ISO 286 class of the spigot, such as g6")
    runout_pilot_mm: PlainLength | None = Field(default=None, description="dial reading on the spigot, full swing")
    runout_face_mm: PlainLength | None = Field(default=None, description="dial reading on the face, full swing")
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
    seat_contact_diameter_mm: Positive | None = Field(
        default=None, description="circle on which a cone or ball touches; smudge it with marker and measure"
    )
    seat_angle_deg: Annotated[Number, Field(ge=20, le=180)] | None = Field(
        default=None, description="included angle of a cone; missing: 60 (common practice)"
    )
    seat_outer_mm: Positive | None = Field(default=None, description="flat seat: outside of the bearing ring")
    seat_inner_mm: Positive | None = Field(default=None, description="flat seat: inside of the bearing ring")
    washer_outer_mm: Positive | None = Field(
        default=None, description="loose washer under the head or nut: outside of the ring it turns on"
    )
    shank_length_mm: PlainLength | None = Field(default=None, description="plain shank between seat and thread")
    shank_diameter_mm: Positive | None = Field(default=None, description="diameter of that shank")
    lubrication: Text | None = Field(default=None, description="as found or as applied, such as clean and dry")
    friction: tuple[Annotated[Number, Field(ge=0.02, le=0.6)], ...] = Field(
        default=(), max_length=2, description="thread and seat, low and high, where a test was made"
    )


@noun
class TorqueRecord:
    """A torque somebody published for this car, wheel and fastener. It is shown, never computed or scaled."""

    torque_nm: Annotated[Number, Field(gt=0, le=1500)]
    source: Text = Field(description="where it stands")
    lubrication: Text = Field(description="the state it holds for, such as clean and dry")
    stages: tuple[Annotated[Number, Field(gt=0, le=1500)], ...] = Field(
        default=(), max_length=MANY, description="stages in N*m where published"
    )
    recheck: Text | None = Field(default=None, description="when to check again, as published")
    vehicle: Text | None = Field(default=None, description="which vehicle it was published for")
    wheel: Text | None = Field(default=None, description="which wheel")
    fastener: Text | None = Field(default=None, description="which bolt or nut")
    order: Text | None = Field(default=None, description="order of tightening, as published")
    date: Day | None = Field(default=None, description="of the publication or of looking it up")
