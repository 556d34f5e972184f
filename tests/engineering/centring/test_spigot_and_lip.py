from __future__ import annotations

import pytest

from hubwright.engineering.centring.hub_face import fillet_standoff_mm, retaining_screw_room_mm
from hubwright.engineering.centring.lip import Lip, Nose, lip_room, overlap_wall_mm
from hubwright.engineering.centring.spigot import (
    plain_engagement_mm,
    thickest_plain_mm,
    thinnest_lipped_mm,
)
from hubwright.errors import OutsideValidity


def test_a_5_mm_disc_leaves_4_and_a_half_of_12_and_a_half() -> None:
    assert plain_engagement_mm(12.5, 5, 3) == 4.5


@pytest.mark.parametrize(("thickness", "left"), [(3, 4.5), (5, 2.5), (8, -0.5), (10, -2.5)])
def test_a_short_spigot_is_used_up_by_middling_discs(thickness: float, left: float) -> None:
    assert plain_engagement_mm(10, thickness, 2.5) == left


def test_between_the_thickest_plain_and_the_thinnest_lipped_disc_lies_a_gap() -> None:
    assert thickest_plain_mm(10, 2.5, 4) == 3.5
    assert thinnest_lipped_mm(10, 1) == 11


def test_a_spigot_shorter_than_nothing_is_asked_outside_validity() -> None:
    with pytest.raises(OutsideValidity):
        plain_engagement_mm(-1, 5, 3)


def test_a_nose_of_52_passes_a_lip_of_53_with_half_a_millimetre_all_round() -> None:
    lip = Lip(outer_diameter_mm=66.6, inner_diameter_mm=53.0, length_mm=8)
    room = lip_room(
        lip,
        spigot_mm=10,
        thickness_mm=12,
        nose=Nose(52, 6),
        bore_depth_mm=20,
        bore_chamfer_mm=2.5,
        cap_room_mm=15,
    )
    assert room.wall_mm == pytest.approx(6.8)
    assert room.nose_reach_mm == 4
    assert room.nose_side_mm == 0.5
    assert (room.bore_depth_mm, room.cap_mm, room.grip_mm) == (12, 7, 5.5)


def test_the_cap_must_clear_whichever_stands_out_farther_lip_or_nose() -> None:
    def cap(nose_beyond_mm: float) -> float | None:
        room = lip_room(
            Lip(66.6, 53.0, 8),
            spigot_mm=10,
            thickness_mm=12,
            nose=Nose(52, nose_beyond_mm),
            bore_depth_mm=20,
            bore_chamfer_mm=2.5,
            cap_room_mm=15,
        )
        return room.cap_mm

    assert (cap(6), cap(16)) == (7, 1)


def test_a_nose_that_ends_inside_the_disc_asks_nothing_of_the_lip() -> None:
    room = lip_room(
        Lip(66.6, 40.0, 8),
        spigot_mm=10,
        thickness_mm=20,
        nose=Nose(52, 6),
        bore_depth_mm=20,
        bore_chamfer_mm=2.5,
        cap_room_mm=None,
    )
    assert room.nose_reach_mm == -4
    assert room.nose_side_mm is None
    assert room.cap_mm is None


def test_a_wheel_bored_73_1_takes_a_lip_round_a_hub_of_66_6() -> None:
    assert overlap_wall_mm(73.1, 66.6) == pytest.approx(3.25)


def test_a_chamfer_as_deep_as_the_fillet_seats_and_a_sharp_bore_does_not() -> None:
    assert fillet_standoff_mm(2, 2, 0) == 0
    assert fillet_standoff_mm(2, 0, 0) == 2
    # Bore edge 0.05 mm from the spigot meets the fillet at 2 - sqrt(4 - 1.95^2) = 1.556 mm, 0.556 beyond its chamfer.
    assert fillet_standoff_mm(2, 1, 0.05) == pytest.approx(0.556, abs=0.0005)


@pytest.mark.parametrize(("r", "c", "g"), [(2.0, 0.8, 0.1), (2.0, 0.2, 0.8), (3.0, 1.0, 0.0)])
def test_the_stand_off_is_where_a_sampled_fillet_touches_the_chamfer(r: float, c: float, g: float) -> None:
    # Second method: lift the disc until no sampled point of the fillet lies inside it.
    heights = []
    for i in range(20_001):
        x = r * i / 20_000
        if x < g:
            continue
        fillet = r - (r**2 - (r - x) ** 2) ** 0.5
        disc_under_side = max(0.0, c - (x - g))
        heights.append(fillet - disc_under_side)
    assert fillet_standoff_mm(r, c, g) == pytest.approx(max(heights), abs=1e-3)


def test_a_screw_head_without_a_pocket_lifts_the_disc() -> None:
    assert retaining_screw_room_mm(1.5, 0) == -1.5
    assert retaining_screw_room_mm(1.5, 2.5) == 1
