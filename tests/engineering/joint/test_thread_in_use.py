"""Stripping, bending, engagement."""

from __future__ import annotations

from dataclasses import replace

import pytest

from hubwright.engineering.joint.bending import misplaced_hole_stress_mpa, seat_angle_stress_mpa, slip_stress_mpa
from hubwright.engineering.joint.engagement import (
    bolt_engagement_mm,
    closed_nut_room_mm,
    required_length_mm,
    stud_engagement_mm,
    stud_reach_mm,
)
from hubwright.engineering.joint.strip import (
    StripStrength,
    ThreadLimits,
    shear_area_bands_mm2,
    strength_reduction,
    strip_strength,
)
from hubwright.errors import OutsideValidity
from hubwright.tables.threads import thread, turns

# M14x1.5 6g/6H: ISO 965 limits (6g read in a copy, 6H from memory).
M14 = ThreadLimits(1.5, 13.732, 13.968, 12.854, 12.994, 12.376, 12.676, 13.026, 13.216)


def test_a_steel_hub_at_one_diameter_outlasts_the_bolt_and_an_aluminium_one_does_not() -> None:
    def strength(hub_mpa: float, hub_ratio: float, engaged_mm: float = 14.0) -> StripStrength:
        return strip_strength(
            M14,
            engaged_mm=engaged_mm,
            stress_area_mm2=thread("M14x1.5").stress_area_mm2,
            bolt_strength_mpa=1040,
            nut_strength_mpa=hub_mpa,
            bolt_shear_ratio=0.62,
            nut_shear_ratio=hub_ratio,
        )

    steel, aluminium = strength(800, 0.6), strength(260, 0.7)
    assert steel.nut_thread_n.low > steel.bolt_break_n
    assert aluminium.nut_thread_n.high < aluminium.bolt_break_n
    assert strength(800, 0.6, 7.0).nut_thread_n.nominal == pytest.approx(steel.nut_thread_n.nominal / 2)
    assert steel.bolt_thread_n.low < steel.bolt_thread_n.nominal < steel.bolt_thread_n.high


def test_tolerances_alone_move_the_stripping_area_by_several_percent() -> None:
    bolt, nut = shear_area_bands_mm2(M14, 1.0)
    assert bolt.low == pytest.approx(22.64, abs=0.01)
    assert nut.low == pytest.approx(30.14, abs=0.01)
    assert bolt.high / bolt.low > 1.1


def test_bending_of_threads_costs_a_tenth_of_both_when_they_are_alike() -> None:
    # The two curves of the source meet at 0.897 for equal strength.
    assert strength_reduction(1, 1) == (0.897, 0.897)
    assert strength_reduction(1, 1.0001)[0] == pytest.approx(0.897, abs=0.001)
    assert strength_reduction(1, 0.9999)[1] == pytest.approx(0.897, abs=0.001)
    assert strength_reduction(1, 5)[0] == pytest.approx(1.187, abs=0.001)
    assert strength_reduction(1, 0.39) == (0.897, 1.0)


def test_threads_that_do_not_overlap_are_refused() -> None:
    with pytest.raises(OutsideValidity, match="tooth_thickness_mm"):
        shear_area_bands_mm2(replace(M14, nut_minor_max_mm=15), 14)


def test_a_longer_stud_minds_a_crooked_seat_less_and_a_slipped_face_more() -> None:
    size = thread("M12x1.5")
    assert seat_angle_stress_mpa(size, 40, 0.5, 205_000) < seat_angle_stress_mpa(size, 20, 0.5, 205_000)
    assert slip_stress_mpa(size, 40, 2000) == pytest.approx(2 * slip_stress_mpa(size, 20, 2000))
    # Half a degree over 40 mm: E d3 theta/(2 l) = 205 000 x 10.16 x 0.008727/80.
    assert seat_angle_stress_mpa(size, 40, 0.5, 205_000) == pytest.approx(227.2, abs=0.1)
    # 2 kN over 40 mm: M = 40 N*m, W = pi 10.16^3/32 = 102.96 mm3.
    assert slip_stress_mpa(size, 40, 2000) == pytest.approx(40_000 / 102.96, rel=0.001)
    # A shift of 6 E I delta/l^2 is the moment of Q l/2 with Q = 12 E I delta/l^3.
    shift = 0.1
    inertia_over_d3 = size.d3_mm**3 / 64 * 3.141592653589793
    side = 12 * 205_000 * inertia_over_d3 * size.d3_mm * shift / 40**3
    assert misplaced_hole_stress_mpa(size, 40, shift, 205_000) == pytest.approx(slip_stress_mpa(size, 40, side))


def test_eight_tenths_of_a_diameter_are_7_47_turns_of_m14_fine() -> None:
    assert turns(0.8 * 14, thread("M14x1.5")) == pytest.approx(7.47, abs=0.005)


@pytest.mark.parametrize(("length", "engaged"), [(27, 8.5), (30, 11.5), (33, 14.5), (35, 16.5)])
def test_engagement_behind_a_5_mm_disc_follows_the_bolt_length(length: float, engaged: float) -> None:
    assert bolt_engagement_mm(13.5, 27, length, 5) == engaged
    assert bolt_engagement_mm(13.5, 27, required_length_mm(27, 5), 5) == 13.5


@pytest.mark.parametrize(("thickness", "engaged"), [(0, 19), (3, 16), (5, 14), (8, 11), (10, 9)])
def test_a_stud_loses_one_millimetre_per_millimetre_of_disc(thickness: float, engaged: float) -> None:
    assert stud_engagement_mm(38, 1.5, 6.5, 11, thickness) == engaged


def test_a_longer_stud_bottoms_in_a_closed_nut() -> None:
    assert closed_nut_room_mm(24, stud_reach_mm(58, 6.5, 11, 0)) == pytest.approx(-16.5)
    assert closed_nut_room_mm(24, stud_reach_mm(58, 6.5, 11, 15)) == pytest.approx(-1.5)
