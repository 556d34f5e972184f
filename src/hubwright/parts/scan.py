"""What stands around a wheel as a shape: scans and meshes in files of their own, and lines read with a rule."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from hubwright.parts.base import Number, Text, YesNo, noun
from hubwright.parts.corner_kinds import PointKind
from hubwright.parts.hardpoints import Coordinate, Place
from hubwright.parts.kinds import MANY

UNIT_MM = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4}
Doubt = Annotated[Number, Field(ge=0, le=100)]


@noun
class LeftOut:
    """A ball cut out of a scan: a hand, a tool, whatever does not belong to the car or goes with the wheel."""

    centre: Place = Field(description="picked, in the file's own units and axes")
    radius_mm: Annotated[Number, Field(gt=0, le=2000)]


@noun
class Scan:
    """A scan or mesh of what stands around the wheel, in a file beside the job file.

    Without picks the file must be in the vehicle axes of the hard points. With picks (in the file's own units and axes)
    it is laid on the parked hub: centre of the face a disc sits on, that face's plane, and a direction forward.
    """

    name: Text
    file: Text = Field(description="relative to the job file: .ply .obj .stl .gltf .glb, or .csv with x_mm,y_mm,z_mm")
    unit: Literal["mm", "cm", "m", "in"] = Field(description="of the file; none of these formats is sure to say")
    kind: PointKind = Field(default="body", description="body: fixed to the car; carried: with the knuckle; hose")
    region: Literal["outside", "inside"] = Field(
        default="outside", description="towards the bodywork, or strut and arms"
    )
    hub_centre: Place | None = Field(default=None, description="picked: centre of the hub face")
    hub_circle: tuple[Place, ...] = Field(
        default=(),
        max_length=MANY,
        description="picked instead of the centre: three points and more on a circle round the hub, at any depth",
    )
    hub_plane: tuple[Place, ...] = Field(
        default=(),
        max_length=MANY,
        description="picked: three points and more on the hub face; without normal counter-clockwise as seen from outside",
    )
    normal: Place | None = Field(
        default=None,
        description="outboard along the spin axis: instead of the plane, or beside it to say which side of it is outboard",
    )
    forward: Place | None = Field(default=None, description="picked: any direction that points forward")
    shift_mm: Place = Field(default=(0.0, 0.0, 0.0), description="added to a file that lies in vehicle axes elsewhere")
    u_mm: Doubt | None = Field(default=None, description="doubt of its points; missing = their own noise, for points")
    axis_free_mm: Annotated[Number, Field(gt=0, le=1000)] | None = Field(
        default=None,
        description="left out: hub and brake, nearer to the spin axis than this, to 150 mm inboard of the hub face",
    )
    left_out: tuple[LeftOut, ...] = Field(default=(), max_length=MANY, description="balls cut out of it")
    outliers: YesNo | None = Field(default=None, description="whether to take outliers out; missing = only from points")


@noun
class Line:
    """An edge around the wheel: arch lip, liner, bumper corner.

    Either by clock angle round the parked wheel centre (0 straight up, 90 level to the rear) with distance and place
    outboard of the hub face, or by points in the vehicle axes of the hard points.
    """

    name: Text
    kind: PointKind = "body"
    region: Literal["outside", "inside"] = "outside"
    clock_deg: tuple[Annotated[Number, Field(ge=-360, le=360)], ...] = ()
    radius_mm: tuple[Annotated[Number, Field(gt=0, le=1500)], ...] = Field(default=(), description="from the centre")
    outboard_mm: tuple[Coordinate, ...] = Field(default=(), max_length=MANY, description="of the hub face")
    points_mm: tuple[Place, ...] = ()
    u_mm: Doubt = Field(default=1.0, description="doubt of its points")
