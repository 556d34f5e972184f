"""Job files of a small car with every kind of suspension at the rear, invented; lips by clock angle, an arm's end beside the tyre."""

from __future__ import annotations

BASE = """hubwright_job = 1
title = "Rear axle with {kind}"
date = 2026-05-04

[car]
description = "Small car, invented"
frame = "unibody"
category = "passenger"

[request]
reason = "rear wheels further out"
use = "street"
countries = ["DE"]

[[shop.disc]]
thickness_mm = 5
kind = "plain"
[[shop.disc]]
thickness_mm = 15
kind = "lipped"

[rear]
track_mm = 1480
bump_travel_mm = {{ value = 60, u = 1.0, method = "tape" }}
droop_travel_mm = {{ value = 50, u = 1.0, method = "tape" }}
wish = {{ aim = "thickness", thickness_mm = 15 }}

[rear.hardpoints]
{points}

[rear.hub]
bolt_circle = "4x100"
spigot_diameter_mm = 54.1
spigot_length_mm = 10

[[rear.wheel_set]]
role = "fitted"
[rear.wheel_set.wheel]
rim = "6.5Jx16"
inset_mm = 42
bore_mm = 54.1
[rear.wheel_set.tyre]
designation = "195/50R16 84V"

{corners}
"""
CORNER = """
[rear.{side}]
ride_height_mm = 355
camber_deg = -1.4
[[rear.{side}.line]]
name = "arch lip"
clock_deg = [-60, -40, -20, 0, 20, 40, 60]
radius_mm = [375, 372, 369, 368, 369, 372, 375]
outboard_mm = [52, 58, 62, 64, 62, 58, 52]
u_mm = 1.0
[[rear.{side}.line]]
name = "end of the arm"
kind = "carried"
region = "inside"
points_mm = [[-30, {y1}, -215], [20, {y2}, -225]]
u_mm = 0.5
"""
ENDS = {"left": (622, 626), "right": (-622, -626)}
WHEEL = """[rear.hardpoints.{side}]
wheel_centre_mm = [0, {y}, 0]
loaded_radius_mm = 305
camber_deg = -1.4
toe_deg = 0.15
"""
LEFT, RIGHT = WHEEL.format(side="left", y=740), WHEEL.format(side="right", y=-740)
LINK = '[[rear.hardpoints.{where}]]\nname = "{name}"\ninner_mm = {inner}\nouter_mm = {outer}\n'


def _links(where: str, *links: tuple[str, list[float], list[float]]) -> str:
    return "".join(LINK.format(where=where, name=name, inner=inner, outer=outer) for name, inner, outer in links)


LOWER = (
    ("lower left", [480, 480, -70], [-10, 500, -100]),
    ("lower right", [480, -480, -70], [-10, -500, -100]),
)
UPPER = ("upper", [380, 0, 130], [20, 0, 120])
UPPER_PAIR = (("upper left", [380, 420, 130], [20, 380, 120]), ("upper right", [380, -420, 130], [20, -380, 120]))
PANHARD = ("Panhard rod", [-150, -520, 40], [-150, 500, 30])
WATT = """[rear.hardpoints.watt]
pivot_mm = [-160, 0, 20]
crank_end_a_mm = [-160, 0, 100]
crank_end_b_mm = [-160, 0, -60]
far_end_a_mm = [-160, 450, {far}]
far_end_b_mm = [-160, -450, -60]
crank_on = "{crank}"
"""
SAME = "same_both_sides = true\n"
POINTS: dict[str, str] = {
    "five link": 'kind = "five link"\n' + SAME + LEFT + _links(
        "left.link",
        ("upper front", [110, 480, 130], [40, 680, 145]),
        ("upper rear", [-120, 470, 120], [-50, 675, 135]),
        ("lower front", [330, 470, -60], [30, 700, -120]),
        ("lower rear", [-110, 330, -110], [-40, 700, -130]),
        ("toe link", [-190, 390, -20], [-150, 690, -30]),
    ),
    "semi-trailing arm": 'kind = "swing arm"\n' + SAME + LEFT
    + "pivot_inner_mm = [330, 250, 10]\npivot_outer_mm = [430, 620, 25]\n",
    "twist beam": 'kind = "twist beam"\nmount_left_mm = [430, 560, 30]\nmount_right_mm = [430, -560, 30]\n'
    "shear_centre_mm = [250, 0, 60]\n" + LEFT + RIGHT,
    "live axle, Panhard rod": 'kind = "live axle"\n' + LEFT + RIGHT + _links("link", *LOWER, UPPER, PANHARD),
    "live axle, four links and Panhard rod": 'kind = "live axle"\n' + LEFT + RIGHT
    + _links("link", *LOWER, *UPPER_PAIR, PANHARD),
    "live axle, Watt linkage": 'kind = "live axle"\n' + LEFT + RIGHT + _links("link", *LOWER, UPPER)
    + WATT.format(far=100, crank="axle"),
    "live axle, Watt linkage on the body": 'kind = "live axle"\n' + LEFT + RIGHT + _links("link", *LOWER, UPPER)
    + WATT.format(far=98, crank="body"),
}  # fmt: skip


def job_text(kind: str, points: str | None = None) -> str:
    """The job file of one kind."""
    corners = "".join(CORNER.format(side=side, y1=ends[0], y2=ends[1]) for side, ends in ENDS.items())
    return BASE.format(kind=kind, points=POINTS[kind] if points is None else points, corners=corners)
