from __future__ import annotations

import pytest

from hubwright.engineering.tyrewheel.from_sizes import rim_of
from hubwright.engineering.tyrewheel.wheel import (
    Weight,
    WheelShape,
    barrel_radius_mm,
    brake_side_parts,
    estimate_barrel,
    part_from,
    wheel_parts,
)
from hubwright.errors import OutsideValidity
from hubwright.parts.rim_size import read_rim_size

RIM = rim_of(read_rim_size("8Jx18"))
BARREL = estimate_barrel(RIM, 45.0)


def test_what_nobody_measured_is_missing_and_not_invented() -> None:
    wheel = WheelShape(RIM, 45.0, spoke_face=((40.0, 20.0), (210.0, 40.0)))
    assert [part.name for part in wheel_parts(wheel)] == ["rim flange", "rim flange", "spoke"]
    assert wheel.missing == ("pad_diameter_mm", "bore_diameter_mm", "spoke_back", "cap", "valve", "barrel")


def test_pad_bore_and_chamfer_join_without_a_step() -> None:
    wheel = WheelShape(RIM, 45.0, pad_diameter_mm=150.0, bore_diameter_mm=66.6, bore_chamfer_mm=3.0, bore_depth_mm=20.0)
    parts = {part.name: part for part in wheel_parts(wheel)}
    assert parts["pad"].rho_mm[0] == pytest.approx(parts["bore"].rho_mm[0]) == pytest.approx(36.3)
    assert parts["bore"].rho_mm[1:] == pytest.approx([33.3, 33.3])
    assert parts["bore"].y_mm == pytest.approx([0.0, 3.0, 20.0])


def test_the_drop_well_is_the_tightest_place_of_the_barrel() -> None:
    middle = -45.0 + RIM.width_mm / 2.0 - 50.0
    assert barrel_radius_mm(BARREL, middle) == pytest.approx(231.0 - 6.0 - 17.3)
    assert barrel_radius_mm(BARREL, -45.0 - RIM.width_mm / 2.0) == pytest.approx(225.0)
    with pytest.raises(OutsideValidity):
        barrel_radius_mm(BARREL, 200.0)


def test_a_stick_on_weight_takes_its_thickness_from_the_brake() -> None:
    wheel = WheelShape(RIM, 45.0, barrel=BARREL, weights=(Weight(-100.0, 20.0, 5.0),))
    weight = next(part for part in brake_side_parts(wheel) if part.name == "weight")
    assert weight.rho_mm.min() == pytest.approx(barrel_radius_mm(BARREL, -100.0) - 5.0)
    assert {part.name for part in brake_side_parts(wheel)} == {"barrel", "weight"}
    with pytest.raises(OutsideValidity):
        wheel_parts(WheelShape(RIM, 45.0, weights=(Weight(-100.0),)))


def test_a_profile_needs_two_points_and_no_negative_radius() -> None:
    for points in (((1.0, 2.0),), ((-1.0, 2.0), (3.0, 4.0))):
        with pytest.raises(OutsideValidity):
            part_from("spoke", points)
