"""Hard points that no suspension can have: links without length, too few links, ends on the wrong side."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from math import dist

from hubwright.jobs.lines import Path
from hubwright.language import say
from hubwright.parts.hardpoints import CornerPoints, HardPoints, LinkPoints, Place, Watt
from hubwright.quantities.axes import SIDES
from hubwright.quantities.text import plain

APART_MM = 1.0
"""Nearer than this two readings are the same point."""
AXLE_LINKS = 4
"""Links that a live axle needs to be held but for its two travels; a Watt linkage is one."""
Found = tuple[Path, str, str, str]
"""Where, wanted, given, what to do."""
PAIRS = (
    ("upper_front_mm", "upper_rear_mm"), ("upper_front_mm", "upper_outer_mm"), ("upper_rear_mm", "upper_outer_mm"),
    ("lower_front_mm", "lower_rear_mm"), ("lower_front_mm", "lower_outer_mm"), ("lower_rear_mm", "lower_outer_mm"),
    ("tie_inner_mm", "tie_outer_mm"), ("strut_top_mm", "strut_lower_mm"), ("pivot_inner_mm", "pivot_outer_mm"),
)  # fmt: skip


def impossible_points(suspension: HardPoints, path: Path) -> Iterator[Found]:
    """What cannot be, of points that are all there."""
    for side in SIDES:
        points = suspension.points(side)
        if points is not None:
            yield from _corner(points, (*path, side))
            yield from _links(points.link, (*path, side, "link"))
            yield from _steered(points, (*path, side))
    yield from _links(suspension.link, (*path, "link"))
    if suspension.watt is not None:
        yield from _watt(suspension.watt, (*path, "watt"))
    held = len(suspension.link) + (suspension.watt is not None)
    if suspension.kind == "live axle" and 0 < held < AXLE_LINKS:
        wanted = say("four links and more for a live axle, a Panhard rod or a Watt linkage among them")
        yield (*path, "link"), wanted, str(held), say("Add the link that holds the axle sideways, or the missing one.")
    left, right = suspension.mount_left_mm, suspension.mount_right_mm
    if left is not None and right is not None and left[1] - right[1] < APART_MM:
        given = say("Y {left} and {right}", left=plain(left[1]), right=plain(right[1]))
        todo = say("Check the axes: X forward, Y left, Z up.")
        yield (*path, "mount_left_mm"), say("a mount further left (Y) than the right one"), given, todo


def _corner(points: CornerPoints, path: Path) -> Iterator[Found]:
    for one, other in PAIRS:
        a, b = getattr(points, one), getattr(points, other)
        if a is not None and b is not None and dist(a, b) < APART_MM:
            yield _in_one_place((*path, one), other)


def _links(links: tuple[LinkPoints, ...], path: Path) -> Iterator[Found]:
    for number, link in enumerate(links):
        if dist(link.inner_mm, link.outer_mm) < APART_MM:
            yield _in_one_place((*path, number, "inner_mm"), "outer_mm")
    for (_, one), (number, other) in combinations(enumerate(links), 2):
        if one.name == other.name:
            given = say("{name} twice", name=repr(other.name))
            yield (*path, number, "name"), say("each link once"), given, say("Give it another name.")


def _steered(points: CornerPoints, path: Path) -> Iterator[Found]:
    names = [link.name for link in points.link]
    if points.steered_link is not None and names and points.steered_link not in names:
        wanted = say("the name of one of the links: {names}", names=", ".join(names))
        yield (*path, "steered_link"), wanted, points.steered_link, ""


def _watt(watt: Watt, path: Path) -> Iterator[Found]:
    ends: tuple[tuple[str, str, Place, Place], ...] = (
        ("crank_end_a_mm", "pivot_mm", watt.crank_end_a_mm, watt.pivot_mm),
        ("crank_end_b_mm", "pivot_mm", watt.crank_end_b_mm, watt.pivot_mm),
        ("crank_end_b_mm", "crank_end_a_mm", watt.crank_end_b_mm, watt.crank_end_a_mm),
        ("far_end_a_mm", "crank_end_a_mm", watt.far_end_a_mm, watt.crank_end_a_mm),
        ("far_end_b_mm", "crank_end_b_mm", watt.far_end_b_mm, watt.crank_end_b_mm),
    )
    for one, other, a, b in ends:
        if dist(a, b) < APART_MM:
            yield _in_one_place((*path, one), other)


def _in_one_place(path: Path, other: str) -> Found:
    wanted = say("at least 1 mm away from {other}", other=other)
    return path, wanted, say("the same place"), say("Read both ends again.")
