"""The kinds of rows a job can hold: what a row says, where it stands in the job file, and how it is read."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from hubwright.language import marked

Shape = Literal["columns", "points", "tables"]
"""In the file: lists side by side, one list of points, or one table for each row."""


@dataclass(frozen=True)
class Column:
    """One figure of a row.

    Attributes:
        key: Of the list or of the row's table; of a point its number from 0.
        label: In English.
        field: Below the item, the field whose unit and limits it has.
        needed: Whether a row cannot do without it.
    """

    key: str
    label: str
    field: str
    needed: bool = True


@dataclass(frozen=True)
class Kind:
    """One kind of rows.

    Attributes:
        key: In addresses.
        title, how: What it is, and how it is read, in English.
        shape: How it stands in the file.
        field: Of points: the key of their list, below the item.
        columns: Of a row.
        head: Fields of the item beside its rows.
        more: Such fields that stand behind a fold.
        least: Rows the file cannot do without: the first ones go in together.
        view: Of the sketch; empty = none.
        add: How the button to a new one is called, in English; empty where there is exactly one of it.
    """

    key: str
    title: str
    how: str
    shape: Shape
    columns: tuple[Column, ...]
    field: str = ""
    head: tuple[str, ...] = ()
    more: tuple[str, ...] = ()
    least: int = 1
    view: str = ""
    add: str = ""


EDGE_HEAD = ("name", "kind", "region", "u_mm")
CLOCK = Kind(
    "clock", marked("Edge by clock angle"),
    marked(
        "Arch lip, liner or bumper edge. Go round the wheel with a rule from the wheel centre: the clock angle (0 straight up, 90 "
        "level to the rear), the distance from the centre, and how far outboard of the hub face the edge stands."
    ),
    "columns",
    (
        Column("clock_deg", marked("Clock angle"), "clock_deg"),
        Column("radius_mm", marked("From the wheel centre"), "radius_mm"),
        Column("outboard_mm", marked("Outboard of the hub face"), "outboard_mm"),
    ),
    head=EDGE_HEAD, view="clock", add=marked("Add an edge read by clock angle"),
)  # fmt: skip
PLACES = Kind(
    "places", marked("Edge by places in the car"),
    marked(
        "Points along the edge in the vehicle axes of the hard points: X forward, Y to the left, Z up, from the origin the hard "
        "points have."
    ),
    "points",
    (
        Column("0", marked("X, forward"), "points_mm"), Column("1", marked("Y, to the left"), "points_mm"),
        Column("2", marked("Z, up"), "points_mm"),
    ),
    field="points_mm", head=EDGE_HEAD, view="places", add=marked("Add an edge read as places in the car"),
)  # fmt: skip
CALIPER = Kind(
    "caliper", marked("Outline of the caliper"),
    marked(
        "Straight edge over the hub face, wheel off: at each corner of the caliper the distance from the spin axis, and how far "
        "outboard of the hub face it stands (inboard is negative)."
    ),
    "points",
    (
        Column("0", marked("From the spin axis"), "caliper_mm"), Column("1", marked("Outboard of the hub face"), "caliper_mm"),
    ),
    field="caliper_mm", least=2, view="section",
)  # fmt: skip
PROFILE = Kind(
    "profile", marked("Line of the wheel"),
    marked(
        "Wheel on the bench, mounting face down: along spokes, cap or barrel the distance from the spin axis, and the position "
        "outboard of the mounting face (inboard is negative). Or attach a CSV or DXF under Files and name it."
    ),
    "points",
    (
        Column("0", marked("From the spin axis"), "points_mm"),
        Column("1", marked("Outboard of the mounting face"), "points_mm"),
    ),
    field="points_mm", head=("part",), more=("file", "layer"), least=2, view="section", add=marked("Add a line of the wheel"),
)  # fmt: skip
HALF = Kind(
    "half", marked("Half widths of the tyre"),
    marked("Straight edge against the sidewall, square to the axis, to the rim centre plane; radius from the axis."),
    "tables",
    (
        Column("radius_mm", marked("At the radius"), "radius_mm"),
        Column("half_width_mm", marked("Half width of the tyre"), "half_width_mm"),
    ),
    view="half",
)  # fmt: skip
WEIGHTS = Kind(
    "weights", marked("Balance weights in the barrel"),
    marked("Wheel off: the middle of each weight from the mounting face, inboard negative, and its size."),
    "tables",
    (
        Column("position_mm", marked("Middle, outboard of the mounting face"), "position_mm"),
        Column("width_mm", marked("Width along the axis"), "width_mm", False),
        Column("thickness_mm", marked("Thickness"), "thickness_mm", False),
    ),
)  # fmt: skip
BODY = Kind(
    "body", marked("Body edge for flush, tuck and poke"),
    marked(
        "Plumb line or straight edge at the body edge, car parked: how far outboard of the hub face, how high above the wheel "
        "centre, and where around the wheel (0 straight up, forward positive)."
    ),
    "tables",
    (
        Column("name", marked("Place on the body edge"), "name"),
        Column("outward_mm", marked("Outboard of the hub face"), "outward_mm"),
        Column("height_mm", marked("Above the wheel centre"), "height_mm", False),
        Column("angle_deg", marked("Around the wheel"), "angle_deg", False),
    ),
    view="body",
)  # fmt: skip
MOTION = Kind(
    "motion", marked("Camber and half-track by travel, both sides alike"),
    marked(
        "Only where both sides are known to agree, from a book or a rig. What was read on this car stands on the measuring sheet, "
        "left and right apart, and comes before this."
    ),
    "tables",
    (
        Column("travel_mm", marked("Travel"), "travel_mm"), Column("camber_deg", marked("Camber"), "camber_deg"),
        Column("half_track_mm", marked("Wheel centre moved outboard"), "half_track_mm", False),
    ),
)  # fmt: skip
DUTY = Kind(
    "duty", marked("What the car is driven, for the bearings"),
    marked("Shares of the distance with their side acceleration; without them a gentle duty counts, marked as a guess."),
    "tables",
    (
        Column("share", marked("Share of the distance, 0 to 1"), "share"),
        Column("side_g", marked("Side acceleration in g, outer wheel positive"), "side_g"),
        Column("words", marked("In words"), "words", False),
    ),
)  # fmt: skip
CASES = Kind(
    "cases", marked("Loads to find the travel of"),
    marked("By scales or by sums: what stands on the ground under each wheel in one way of using the car."),
    "tables",
    (
        Column("name", marked("Way of using the car"), "name"), Column("left_kg", marked("Under the left wheel"), "left_kg"),
        Column("right_kg", marked("Under the right wheel"), "right_kg"),
    ),
)  # fmt: skip
KINDS = {
    kind.key: kind for kind in (CLOCK, PLACES, CALIPER, PROFILE, HALF, WEIGHTS, BODY, MOTION, DUTY, CASES)
}  # fmt: skip
