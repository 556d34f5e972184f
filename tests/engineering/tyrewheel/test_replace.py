from __future__ import annotations

import pytest

from hubwright.engineering.tyrewheel.figures import figures_of
from hubwright.engineering.tyrewheel.from_sizes import design_of, rim_of, tyre_of
from hubwright.engineering.tyrewheel.outline import Package, Rib
from hubwright.engineering.tyrewheel.replace import (
    PackageFigures,
    change,
    edges,
    inset_for_equal_outer_edge_mm,
    rolling_circumference_mm,
    thickness_for_equal_centre_plane_mm,
    thickness_for_equal_outer_edge_mm,
)
from hubwright.engineering.tyrewheel.sidewall import MountedTyre
from hubwright.engineering.tyrewheel.wheel import WheelShape
from hubwright.errors import OutsideValidity
from hubwright.parts.rim_size import read_rim_size
from hubwright.parts.tyre_size import read_tyre_size


def _figures(text: str, inset_mm: float, thickness_mm: float = 0.0, **more: float) -> PackageFigures:
    design = design_of(read_tyre_size(text), habit="decimal_inch")
    return PackageFigures(design.section_width_mm, inset_mm, thickness_mm, design.overall_diameter_mm, **more)


def test_edges_from_the_hub_face_follow_width_inset_and_disc() -> None:
    found = edges(PackageFigures(235.0, 45.0, 10.0, 645.0))
    assert (found.outer_mm, found.inner_mm) == (82.5, 152.5)


def test_225_45r17_to_235_40r18_grows_by_1_72_per_cent() -> None:
    old, new = _figures("225/45R17", 45.0), _figures("235/40R18", 45.0)
    assert (old.overall_diameter_mm, new.overall_diameter_mm) == pytest.approx((634.3, 645.2))
    step = change(old, new)
    assert step.diameter_percent == pytest.approx(1.72, abs=0.005)
    assert step.circumference_mm == pytest.approx(3.05 * 10.9)
    assert step.true_speed_at_100_kmh == pytest.approx(101.72, abs=0.005)
    assert rolling_circumference_mm(634.3) == pytest.approx(1934.6, abs=0.05)


def test_a_package_instead_of_itself_changes_nothing_and_unknown_stays_unknown() -> None:
    same = change(_figures("225/45R17", 45.0), _figures("225/45R17", 45.0))
    assert (same.outward_mm, same.inward_mm, same.diameter_mm) == (0.0, 0.0, 0.0)
    assert same.load_capacity_kg is None


def test_load_and_rating_differences_are_new_minus_old() -> None:
    old = _figures("225/45R17", 45.0, load_capacity_kg=630.0, wheel_rating_kg=650.0, speed_capacity_kmh=240.0)
    new = _figures("235/40R18", 45.0, load_capacity_kg=690.0, wheel_rating_kg=640.0, speed_capacity_kmh=300.0)
    step = change(old, new)
    assert (step.load_capacity_kg, step.wheel_rating_kg, step.speed_capacity_kmh) == (60.0, -10.0, 60.0)


def test_the_same_position_with_the_other_wheel_really_is_the_same_position() -> None:
    old, new = PackageFigures(225.0, 50.0, 0.0, 634.3), PackageFigures(241.0, 35.0, 0.0, 645.2)
    inset = inset_for_equal_outer_edge_mm(old, new)
    assert edges(PackageFigures(241.0, inset, 0.0, 645.2)).outer_mm == pytest.approx(edges(old).outer_mm)
    disc = thickness_for_equal_outer_edge_mm(new, old)
    assert edges(PackageFigures(225.0, 50.0, disc, 634.3)).outer_mm == pytest.approx(edges(new).outer_mm)
    assert thickness_for_equal_centre_plane_mm(new, old) == 15.0


def test_the_figures_of_a_package_come_from_whatever_is_widest(tyre: MountedTyre) -> None:
    size, rim = read_tyre_size("235/40R18 95Y"), rim_of(read_rim_size("8Jx18"))
    plain = figures_of(Package(tyre, WheelShape(rim, 45.0), 5.0), size, 690.0)
    assert plain.width_mm == pytest.approx(239.0, abs=0.01)
    assert (plain.inset_mm, plain.thickness_mm, plain.overall_diameter_mm) == (45.0, 5.0, 645.0)
    assert (plain.load_capacity_kg, plain.speed_capacity_kmh, plain.wheel_rating_kg) == (690.0, 300.0, 690.0)
    ribbed = figures_of(Package(tyre, WheelShape(rim, 45.0), ribs=(Rib(tyre.widest_radius_mm, 2.0),)))
    assert ribbed.width_mm == pytest.approx(243.0, abs=0.01)
    assert ribbed.load_capacity_kg is None
    wide = rim_of(read_rim_size("9Jx18"))
    stretched = tyre_of(read_tyre_size("215/40R18"), wide)
    assert figures_of(Package(stretched, WheelShape(wide, 45.0))).width_mm == wide.overall_width_mm
    with pytest.raises(OutsideValidity):
        figures_of(Package(None, WheelShape(rim, 45.0)))
