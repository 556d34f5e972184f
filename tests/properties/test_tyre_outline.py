from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp
from tests.properties.tyrewheel_cases import carcasses

from hubwright.engineering.tyrewheel.outline import Package, outline
from hubwright.engineering.tyrewheel.rim import Rim
from hubwright.engineering.tyrewheel.sidewall import Carcass, MountedTyre, mount
from hubwright.engineering.tyrewheel.surface import bend_to_readings, half_width_mm, widest
from hubwright.engineering.tyrewheel.wheel import WheelShape

INCH = 25.4
steps_of_rim = st.floats(-2.0, 1.5)


def _wheel(tyre: MountedTyre, inset_mm: float) -> WheelShape:
    width, top = tyre.rim_width_mm, tyre.carcass.bead_radius_mm
    return WheelShape(Rim(width, top, width + 24.0, 2.0 * (top - 17.5)), inset_mm)


def _by_arc_length(tyre: MountedTyre) -> tuple[float, float]:
    """End of the ply after its whole length, from the differential equations along the arc."""
    c, b, e = tyre.carcass, tyre.phi_bead_rad, tyre.phi_belt_rad
    K = (c.belt_edge_radius_mm**2 - c.bead_radius_mm**2) / (np.sin(b) - np.sin(e))
    start = (c.bead_radius_mm, tyre.rim_width_mm / 2.0, b)
    way = solve_ivp(
        lambda s, v: (np.cos(v[2]), np.sin(v[2]), -2.0 * v[0] / K), (0.0, c.ply_length_mm), start, rtol=1e-10, atol=1e-9
    )
    return float(way.y[0, -1]), float(way.y[1, -1])


@given(carcasses(), steps_of_rim)
def test_the_ply_keeps_its_length_and_meets_rim_and_belt_within_a_hundredth(carcass: Carcass, step_in: float) -> None:
    tyre = mount(carcass, carcass.known_rim_width_mm + step_in * INCH)
    r, y = _by_arc_length(tyre)
    assert r == pytest.approx(carcass.belt_edge_radius_mm, abs=0.01)
    assert y == pytest.approx(carcass.belt_edge_half_width_mm, abs=0.01)
    assert tyre.ply[0] == pytest.approx((carcass.bead_radius_mm, tyre.rim_width_mm / 2.0))
    assert tyre.ply[-1] == pytest.approx((r, y), abs=0.01)


@given(carcasses(), steps_of_rim, st.floats(0.05, 1.0))
def test_a_wider_rim_never_narrows_the_section(carcass: Carcass, step_in: float, more_in: float) -> None:
    narrow = carcass.known_rim_width_mm + step_in * INCH
    wide = min(narrow + more_in * INCH, carcass.known_rim_width_mm + 1.5 * INCH)
    assert mount(carcass, wide).section_width_mm >= mount(carcass, narrow).section_width_mm - 1e-6


@given(carcasses(), steps_of_rim)
def test_the_outline_is_as_wide_as_the_section_and_has_neither_jump_nor_waist(carcass: Carcass, step_in: float) -> None:
    tyre = mount(carcass, carcass.known_rim_width_mm + step_in * INCH)
    edge_r, edge_y = tyre.tread_edge
    radii = np.append(np.arange(carcass.bead_radius_mm, edge_r, 0.1), edge_r)
    half = half_width_mm(tyre, radii)
    assert not np.isnan(half).any()
    assert 2.0 * half.max() == pytest.approx(max(tyre.section_width_mm, 2.0 * edge_y), abs=0.05)
    assert half[-1] >= edge_y - 1e-9
    assert np.diff(half[:-1], 2).max() < 1e-6
    assert half_width_mm(tyre, tyre.radius_mm)[0] == pytest.approx(0.0, abs=1e-6)
    assert np.isnan(half_width_mm(tyre, [tyre.radius_mm + 0.1, carcass.bead_radius_mm - 40.0])).all()


@given(carcasses(), st.lists(st.tuples(st.floats(0.05, 0.95), st.floats(-8.0, 8.0)), min_size=1, max_size=5))
def test_readings_are_met_exactly_and_bend_nothing_beyond_themselves(
    carcass: Carcass, wishes: list[tuple[float, float]]
) -> None:
    tyre = mount(carcass, carcass.known_rim_width_mm)
    low, high = carcass.bead_radius_mm, tyre.tread_edge[0]
    at = np.array(sorted({round(low + share * (high - low), 0) for share, _ in wishes}))
    by = np.array([shift for _, shift in wishes][: at.size])
    read = half_width_mm(tyre, at) + by
    bent = bend_to_readings(tyre, list(zip(at, read, strict=True)), "outboard")
    assert half_width_mm(bent, at) == pytest.approx(read, abs=1e-9)
    grid = np.linspace(low, high, 200)
    shift = half_width_mm(bent, grid) - half_width_mm(tyre, grid)
    assert shift.max() <= max(by.max(), 0.0) + 1e-9
    assert shift.min() >= min(by.min(), 0.0) - 1e-9
    assert (half_width_mm(bent, grid, "inboard") == half_width_mm(tyre, grid, "inboard")).all()


@given(carcasses(), st.floats(-30.0, 60.0), st.floats(0.0, 30.0))
def test_a_disc_moves_the_outline_rigidly_and_both_sides_mirror_about_the_rim_centre(
    carcass: Carcass, inset_mm: float, thickness_mm: float
) -> None:
    tyre = mount(carcass, carcass.known_rim_width_mm)
    bare, moved = (outline(Package(tyre, _wheel(tyre, inset_mm), t)) for t in (0.0, thickness_mm))
    there = ~np.isnan(bare.outer_mm)
    assert (there == ~np.isnan(moved.outer_mm)).all()
    np.testing.assert_allclose((moved.outer_mm - bare.outer_mm)[there], thickness_mm, atol=1e-9)
    np.testing.assert_allclose((moved.inner_mm - bare.inner_mm)[there], thickness_mm, atol=1e-9)
    np.testing.assert_allclose((bare.outer_mm + inset_mm)[there], -(bare.inner_mm + inset_mm)[there], atol=1e-9)
    assert (moved.outer_part == bare.outer_part).all()


@given(carcasses())
def test_the_widest_place_lies_between_flange_and_tread(carcass: Carcass) -> None:
    tyre = mount(carcass, carcass.known_rim_width_mm)
    radius, half = widest(tyre)
    assert carcass.bead_radius_mm < radius < tyre.tread_edge[0]
    assert 2.0 * half == pytest.approx(carcass.section_width_mm, abs=0.02)
