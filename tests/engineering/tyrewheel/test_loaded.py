from __future__ import annotations

import pytest

from hubwright.engineering.tyrewheel.loaded import estimate_vertical_stiffness_n_mm, under_load, without_air
from hubwright.engineering.tyrewheel.sidewall import MountedTyre
from hubwright.errors import OutsideValidity


def test_the_stiffness_estimate_rises_with_pressure_and_is_of_the_usual_size() -> None:
    # 205/55R16 at 2.3 bar: 200 to 260 N/mm is the usual range (common practice, no source).
    usual = estimate_vertical_stiffness_n_mm(230.0, 55.0, 214.0, 632.0)
    assert 200.0 < usual < 260.0
    assert estimate_vertical_stiffness_n_mm(300.0, 55.0, 214.0, 632.0) > usual


def test_the_stiffness_estimate_is_refused_outside_its_range() -> None:
    for pressure, aspect in ((20.0, 55.0), (230.0, 95.0)):
        with pytest.raises(OutsideValidity):
            estimate_vertical_stiffness_n_mm(pressure, aspect, 214.0, 632.0)


def test_a_loaded_tyre_sinks_by_load_over_stiffness_and_bulges_at_the_ground(tyre: MountedTyre) -> None:
    loaded = under_load(tyre, 4500.0, 250.0)
    assert loaded.deflection_mm == pytest.approx(18.0)
    assert loaded.loaded_radius_mm == pytest.approx(tyre.radius_mm - 18.0)
    assert 0.0 < loaded.bulge_mm < 18.0
    assert under_load(tyre, 0.0, 250.0).bulge_mm == pytest.approx(0.0, abs=1e-9)
    with pytest.raises(OutsideValidity):
        under_load(tyre, 4500.0, 0.0)


def test_a_flat_tyre_rests_near_the_flange_and_its_bound_holds_for_every_loaded_shape(tyre: MountedTyre) -> None:
    flat = without_air(tyre)
    assert tyre.carcass.bead_radius_mm < flat.axle_height_mm < tyre.radius_mm
    assert flat.drop_mm == pytest.approx(tyre.radius_mm - flat.axle_height_mm)
    deep = under_load(tyre, 30.0, 1.0).contact
    assert deep.section_width_mm / 2.0 < flat.half_width_most_mm
