from __future__ import annotations

import math

import pytest

from hubwright.engineering.tyrewheel.from_sizes import rim_of, tyre_of
from hubwright.engineering.tyrewheel.outline import Package, Rib, outline, standing
from hubwright.engineering.tyrewheel.sidewall import MountedTyre
from hubwright.engineering.tyrewheel.wheel import WheelShape
from hubwright.errors import OutsideValidity
from hubwright.parts.rim_size import read_rim_size
from hubwright.parts.tyre_size import read_tyre_size

RIM = rim_of(read_rim_size("8Jx18"))


def test_a_235_section_at_inset_45_on_ten_mm_reaches_82_5_out_and_152_5_in() -> None:
    tyre = tyre_of(read_tyre_size("235/40R18"), RIM, section_width_read_mm=235.0)
    shape = outline(Package(tyre, WheelShape(RIM, 45.0), 10.0))
    assert shape.outermost[1] == pytest.approx(82.5, abs=0.02)
    assert shape.innermost[1] == pytest.approx(-152.5, abs=0.02)
    assert shape.outermost[2] == "tyre"


def test_on_a_wide_rim_the_flange_is_outermost_and_is_named() -> None:
    rim = rim_of(read_rim_size("9Jx18"))
    tyre = tyre_of(read_tyre_size("215/40R18"), rim)
    radius, position, name = outline(Package(tyre, WheelShape(rim, 45.0))).outermost
    assert name == "rim flange"
    assert position == pytest.approx(-45.0 + rim.overall_width_mm / 2.0)
    assert radius <= rim.flange_radius_mm


def test_cap_spoke_rib_and_valve_are_named_where_they_stand_out(tyre: MountedTyre) -> None:
    wheel = WheelShape(
        RIM,
        45.0,
        cap=((0.0, 6.0), (35.0, 6.0)),
        spoke_face=((35.0, 2.0), (120.0, 12.0), (225.0, 90.0)),
        valve=((200.0, 95.0), (208.0, 95.0)),
    )
    shape = outline(Package(tyre, wheel, 0.0, (Rib(274.0, 2.5),)), [20.0, 60.0, 204.0, 247.0, 274.0, 300.0])
    assert list(shape.outer_part) == ["cap", "spoke", "valve", "rim flange", "protector rib", "tyre"]
    assert shape.outer_mm[4] == pytest.approx(-45.0 + 119.5 + 2.5, abs=0.02)


def test_where_there_is_nothing_the_outline_is_empty(tyre: MountedTyre) -> None:
    shape = outline(Package(tyre, WheelShape(RIM, 45.0)), [100.0, 400.0])
    assert math.isnan(shape.outer_mm[0])
    assert shape.outer_part[1] == ""


def test_radii_must_ascend(tyre: MountedTyre) -> None:
    with pytest.raises(OutsideValidity):
        outline(Package(tyre, WheelShape(RIM, 45.0)), [300.0, 250.0])


def test_poke_tuck_and_flush_are_millimetres_against_a_body_line(tyre: MountedTyre) -> None:
    shape = outline(Package(tyre, WheelShape(RIM, 45.0)))
    edge = shape.outermost[1]
    for line, word in ((edge - 6.0, "poke"), (edge, "flush"), (edge + 6.0, "tuck")):
        stand = standing(shape, line)
        assert stand.poke_mm == pytest.approx(edge - line)
        assert stand.word == word
        assert stand.part == "tyre"


def test_camber_tucks_the_top_and_pokes_the_bottom(tyre: MountedTyre) -> None:
    shape = outline(Package(tyre, WheelShape(RIM, 45.0)))
    top, side, bottom = (standing(shape, 70.0, angle, -2.0).poke_mm for angle in (0.0, 90.0, 180.0))
    assert top < side < bottom
    assert side == pytest.approx(shape.outermost[1] * math.cos(math.radians(2.0)) - 70.0)


def test_a_package_names_its_estimates_and_a_bare_wheel_has_an_outline_too(tyre: MountedTyre) -> None:
    package = Package(tyre, WheelShape(RIM, 45.0))
    assert {"tread_width_mm", "overall_width_mm"} <= set(package.estimated)
    bare = Package(None, WheelShape(RIM, 45.0))
    assert "tread_width_mm" not in bare.estimated
    assert outline(bare).outermost[2] == "rim flange"


def test_the_largest_tyre_covers_the_design_and_the_design_the_smallest() -> None:
    size = read_tyre_size("235/40R18")
    small, design, large = (tyre_of(size, RIM, which) for which in ("smallest", "design", "largest"))
    assert small.section_width_mm < design.section_width_mm < large.section_width_mm
    assert small.radius_mm < design.radius_mm < large.radius_mm
