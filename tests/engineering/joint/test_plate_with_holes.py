"""Bolt circles and bolted discs."""

from __future__ import annotations

import math

import pytest

from hubwright.engineering.joint.adapter import inner_joint, stud_room
from hubwright.engineering.joint.hole_circles import (
    HolePattern,
    circle_mismatch_mm,
    clearest_turn_deg,
    ligament,
)


def test_joining_112_to_108_needs_2_mm_of_float() -> None:
    assert circle_mismatch_mm(112, 108) == -2


def test_two_equal_patterns_turned_half_a_step_leave_what_the_chord_says() -> None:
    pattern = HolePattern(5, 112, 14)
    between = ligament(pattern, pattern, clearest_turn_deg(pattern, pattern))
    assert between.turned_deg == 36
    assert between.between_patterns_mm == pytest.approx(112 * math.sin(math.radians(18)) - 14)
    assert ligament(pattern, pattern, 0).between_patterns_mm == -14


@pytest.mark.parametrize("counts", [(5, 5), (4, 5), (4, 6), (6, 5)])
def test_no_other_turn_leaves_more_material(counts: tuple[int, int]) -> None:
    first, second = HolePattern(counts[0], 100, 14), HolePattern(counts[1], 120, 22)
    best = ligament(first, second, clearest_turn_deg(first, second)).between_patterns_mm
    others = [ligament(first, second, step * 0.5).between_patterns_mm for step in range(720)]
    assert best >= max(others) - 1e-9
    assert best == pytest.approx(max(others), abs=0.05)


def test_a_13_mm_counterbore_in_25_mm_leaves_a_web_of_12() -> None:
    joint = inner_joint(25, 13, 13)
    assert (joint.web_mm, joint.head_below_face_mm) == (12, 0)


@pytest.mark.parametrize(("thickness", "depth", "room"), [(25, 12, 4), (25, 0, -8), (35, 0, 0)])
def test_original_studs_must_find_room_behind_the_wheel(thickness: float, depth: float, room: float) -> None:
    # Studs 33 mm proud, 12 mm thick; a ring 12 deep and 22 wide, or a flat wheel.
    found = stud_room(
        stud_mm=33,
        stud_diameter_mm=12,
        thickness_mm=thickness,
        pocket_depth_mm=depth,
        pocket_width_mm=22,
        stud_circle_mm=139.7,
        pocket_circle_mm=139.7,
        pocket_angle_deg=None,
    )
    assert found.depth_room_mm == room
    assert (found.side_room_mm, found.radial_room_mm) == (None, 5)


def test_a_pocket_ring_on_another_circle_comes_closer_by_half_the_difference() -> None:
    room = stud_room(
        stud_mm=33,
        stud_diameter_mm=12,
        thickness_mm=25,
        pocket_depth_mm=12,
        pocket_width_mm=22,
        stud_circle_mm=114.3,
        pocket_circle_mm=120,
        pocket_angle_deg=None,
    )
    assert room.radial_room_mm == pytest.approx(5 - 2.85)


def test_a_stud_turned_away_from_its_pocket_meets_the_wall() -> None:
    rooms = [
        stud_room(
            stud_mm=33,
            stud_diameter_mm=12,
            thickness_mm=25,
            pocket_depth_mm=12,
            pocket_width_mm=22,
            stud_circle_mm=139.7,
            pocket_circle_mm=139.7,
            pocket_angle_deg=angle,
        ).side_room_mm
        for angle in (0, 3, 6)
    ]
    assert rooms[0] == 5
    assert rooms[1] is not None and 1 < rooms[1] < 2
    assert rooms[2] is not None and rooms[2] < 0
