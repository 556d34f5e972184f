"""What the typed readers refuse, and the few things they decide."""

from __future__ import annotations

import pytest

from hubwright.errors import BadInput, OutsideValidity
from hubwright.tables.iso286 import size_limits, tolerance_um
from hubwright.tables.margins import margins, uses
from hubwright.tables.property_classes import property_class
from hubwright.tables.rims import flange_height, rim_diameter, rim_ratios
from hubwright.tables.threads import thread
from hubwright.tables.tyre_indices import load_index, speed_symbol


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("M14", "only M14"),
        ("M14x1.5 LH", "LH"),
        ("M14x15", "15"),
        ("M1000x4", "1000"),
        ("W12", "W12"),
        ("1/2", "only 1/2"),
        ("1/2-13", "1/2-13"),
        ("1/2-20 UNC", "UNC"),
        ("", "''"),
    ],
)
def test_a_thread_not_understood_is_refused_by_the_part_and_with_those_known(text, part):
    with pytest.raises(BadInput) as caught:
        thread(text)
    (fault,) = caught.value.faults
    assert part in fault.given
    assert "Known threads" in fault.todo


def test_a_missing_pitch_is_answered_with_the_pitches_of_that_diameter():
    with pytest.raises(BadInput, match=r"Known threads: M12x1.25, M12x1.5, M12x1.75;"):
        thread("M12")


def test_the_strength_of_8_8_changes_above_16_mm_and_that_of_10_9_does_not():
    assert [property_class("8.8", d).yield_min_mpa for d in (14, 16, 16.1)] == [640, 640, 660]
    assert property_class("10.9", 12).yield_min_mpa == property_class("10.9", 20).yield_min_mpa == 940


def test_strength_classes_are_refused_where_the_standard_does_not_define_them():
    with pytest.raises(BadInput, match=r"8\.8, 9\.8, 10\.9, 12\.9"):
        property_class("10.8", 14)
    for name, d_mm in (("9.8", 18), ("10.9", 1.5), ("10.9", 40)):
        with pytest.raises(OutsideValidity):
            property_class(name, d_mm)


def test_the_second_load_index_of_a_pair_is_for_twin_tyres():
    both = load_index(" 121/119 ")
    assert (both.single_kg, both.dual_kg) == (1450, 1360)
    assert load_index("91").dual_kg is None


@pytest.mark.parametrize("text", ["", "91V", "127", "119/121", "91/"])
def test_a_load_index_the_table_does_not_have_is_refused(text):
    with pytest.raises(BadInput):
        load_index(text)


@pytest.mark.parametrize("text", ["", "ZR", "(Y)", "O"])
def test_a_speed_symbol_the_table_does_not_have_is_refused(text):
    with pytest.raises(BadInput):
        speed_symbol(text)


def test_a_rim_diameter_not_read_is_none_and_one_of_another_system_is_refused():
    assert rim_diameter(11).bead_seat_mm is None
    assert rim_diameter(28).nominal_mm is None
    with pytest.raises(BadInput):
        rim_diameter(31)
    with pytest.raises(BadInput):
        flange_height("K")
    with pytest.raises(OutsideValidity):
        rim_ratios(57)


def test_the_flange_height_of_j_keeps_both_figures_that_are_in_use():
    assert (flange_height("J").low_mm, flange_height("J").high_mm) == (17.3, 17.5)
    assert (flange_height("b").low_mm, flange_height("b").high_mm) == (14.1, 14.5)


def test_sizes_and_classes_outside_the_iso_286_tables_are_refused():
    assert tolerance_um("IT7", 50) == 25
    for nominal_mm in (30, 120.1):
        with pytest.raises(OutsideValidity):
            tolerance_um("IT7", nominal_mm)
    for name in ("z6", "G7", "H12", "7H"):
        with pytest.raises(BadInput):
            size_limits(name, 60)


def test_van_and_towing_share_the_margins_of_a_laden_car_and_no_use_is_a_default():
    assert {margins(use).tyre_to_body_mm for use in ("laden", "van", "towing")} == {15}
    assert margins("street").tyre_to_carried_parts_mm == 5
    assert set(uses()) == {"street", "track", "laden", "van", "towing", "off-road"}
    with pytest.raises(BadInput):
        margins("")
