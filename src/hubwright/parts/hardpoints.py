"""Hard points of one axle's suspension, its springs and the loads it carries, as they come in a job file.

Places are in vehicle axes (ISO 8855: X forward, Y left, Z up) from any one origin, read parked with the rack in the
middle. A right corner has its own readings (Y negative) unless the job says that both sides are the same construction.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from hubwright.parts.base import Number, Text, YesNo, noun
from hubwright.parts.kinds import MANY, Positive, Travel
from hubwright.quantities.axes import Side

SuspensionKind = Literal["double wishbone", "strut", "five link", "swing arm", "twist beam", "live axle"]
Coordinate = Annotated[Number, Field(ge=-10000, le=10000)]
Place = tuple[Coordinate, Coordinate, Coordinate]
Load = Annotated[Number, Field(ge=0, le=10000)]

NEEDED: dict[str, tuple[str, ...]] = {
    "double wishbone": (
        "upper_front_mm", "upper_rear_mm", "upper_outer_mm", "lower_front_mm", "lower_rear_mm", "lower_outer_mm",
        "tie_inner_mm", "tie_outer_mm",
    ),
    "strut": (
        "strut_top_mm", "strut_lower_mm", "lower_front_mm", "lower_rear_mm", "lower_outer_mm", "tie_inner_mm",
        "tie_outer_mm",
    ),
    "five link": ("link",),
    "swing arm": ("pivot_inner_mm", "pivot_outer_mm"),
    "twist beam": ("mount_left_mm", "mount_right_mm", "shear_centre_mm"),
    "live axle": ("link",),
}  # fmt: skip
"""What each construction needs beside the wheel: of each corner, or for the last two of the axle."""
WHOLE_AXLE = ("twist beam", "live axle")


@noun
class LinkPoints:
    """One link: end on the body, end on carrier or axle."""

    name: Text
    inner_mm: Place
    outer_mm: Place


@noun
class Spring:
    """The spring of one wheel by its ends; its rate at the wheel follows from how it is worked."""

    rate_n_per_mm: Positive
    body_end_mm: Place
    moving_end_mm: Place
    on: Literal["carrier", "upper", "lower"] = Field(default="carrier", description="what its moving end stands on")


@noun
class CornerPoints:
    """Hard points of one corner; which of them are needed follows from the kind of suspension."""

    wheel_centre_mm: Place = Field(description="centre of the rim, the point whose height is the travel")
    loaded_radius_mm: Annotated[Number, Field(gt=100, le=800)] = Field(description="wheel centre to ground")
    camber_deg: Annotated[Number, Field(ge=-15, le=15)] = Field(default=0.0, description="parked; negative = top in")
    toe_deg: Annotated[Number, Field(ge=-10, le=10)] = Field(default=0.0, description="parked; positive = toe-in")
    upper_front_mm: Place | None = None
    upper_rear_mm: Place | None = None
    upper_outer_mm: Place | None = None
    lower_front_mm: Place | None = None
    lower_rear_mm: Place | None = None
    lower_outer_mm: Place | None = None
    tie_inner_mm: Place | None = Field(default=None, description="of the tie rod, or of the toe link")
    tie_outer_mm: Place | None = None
    strut_top_mm: Place | None = Field(default=None, description="centre of the top mount")
    strut_lower_mm: Place | None = Field(default=None, description="any second point on the strut's sliding line")
    pivot_inner_mm: Place | None = None
    pivot_outer_mm: Place | None = None
    link: tuple[LinkPoints, ...] = Field(default=(), max_length=MANY, description="five link: the five links")
    steered_link: Text | None = Field(default=None, description="five link: name of the one the rack moves")
    spring: Spring | None = None


@noun
class Watt:
    """A crank with two links that guides a live axle sideways."""

    pivot_mm: Place
    crank_end_a_mm: Place
    crank_end_b_mm: Place
    far_end_a_mm: Place
    far_end_b_mm: Place
    crank_on: Literal["axle", "body"]


@noun
class BumpStop:
    """A progressive stop at the wheel, from its drawing or a press."""

    free_mm: Annotated[Number, Field(ge=-100, le=300)] = Field(description="wheel travel from parked until it touches")
    squeeze_mm: tuple[Annotated[Number, Field(ge=0, le=300)], ...] = Field(description="rising from 0")
    force_n: tuple[Annotated[Number, Field(ge=0, le=200000)], ...] = Field(description="at the wheel, rising from 0")


@noun
class LoadCase:
    """What stands on the two wheels in one way of using the car, by scales or by sums."""

    name: Text = Field(description="such as plate load, trailer, braking, cornering")
    left_kg: Load = Field(description="on the ground under the left wheel")
    right_kg: Load


@noun
class Springing:
    """Springs, bar and stops of an axle at the wheels."""

    wheel_rate_n_per_mm: Positive | None = Field(default=None, description="missing: from the spring's own ends")
    bar_n_per_mm: Annotated[Number, Field(ge=0, le=1000)] = Field(
        default=0.0, description="force on each wheel per mm of height difference"
    )
    parked_left_kg: Load = Field(description="on the ground under the left wheel, as it stands")
    parked_right_kg: Load
    unsprung_wheel_kg: Load = Field(default=0.0, description="of that, what does not stand on the spring; each wheel")
    bump_stop: BumpStop | None = None
    case: tuple[LoadCase, ...] = Field(default=(), max_length=MANY, description="loads to find the travel of")
    kerb_mm: Annotated[Number, Field(gt=0, le=300)] | None = Field(default=None, description="kerb struck by one wheel")
    kerb_speed_kmh: Annotated[Number, Field(gt=0, le=120)] = 20.0


@noun
class HardPoints:
    """How the wheels of one axle are held."""

    kind: SuspensionKind
    same_both_sides: YesNo = Field(
        default=False, description="somebody vouches that the right side is the left side mirrored; then give one side"
    )
    rack_travel_mm: Annotated[Number, Field(gt=0, le=200)] | None = Field(
        default=None, description="of the rack from the middle to each lock; missing = from the lock angle"
    )
    rack_direction: Place = Field(default=(0.0, 1.0, 0.0), description="of a positive rack move")
    bump_mm: Travel | None = Field(default=None, description="travel looked at where no limit was read; an estimate")
    droop_mm: Annotated[Number, Field(ge=0, le=500)] | None = Field(default=None, description="as bump_mm, downward")
    left: CornerPoints | None = None
    right: CornerPoints | None = None
    mount_left_mm: Place | None = Field(default=None, description="twist beam")
    mount_right_mm: Place | None = None
    shear_centre_mm: Place | None = Field(default=None, description="twist beam: of its section, in the middle")
    link: tuple[LinkPoints, ...] = Field(
        default=(), max_length=MANY, description="live axle: its links, a Panhard rod among them"
    )
    watt: Watt | None = None
    springs: Springing | None = None

    def points(self, side: Side) -> CornerPoints | None:
        """The hard points as typed for one side."""
        return self.left if side == "left" else self.right
