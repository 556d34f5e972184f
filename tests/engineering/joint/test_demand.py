from __future__ import annotations

import math

import pytest

from hubwright.engineering.joint.slip import Face, friction_radius_mm, gape_ratio, slip_ratio
from hubwright.engineering.joint.wheel_load import (
    InterfaceDemand,
    braking,
    cornering,
    driving,
    face_offsets_mm,
    interface_demand,
    kerb,
)
from hubwright.engineering.joint.working_load import fastener_pull_n
from hubwright.uncertainty.band import Band, exactly

FACE = Face(5, 70, 150, exactly(0.15))
CLAMP = Band(22_500, 30_500, 43_500)


def test_only_the_hub_face_feels_the_disc() -> None:
    assert face_offsets_mm(45, 0) == (-45, -45)
    assert face_offsets_mm(45, 15) == (-30, -45)


def test_the_outer_wheel_bends_its_face_as_the_wheel_test_standard_says() -> None:
    # UN R124 annex 6: M = F (mu r + d), here 5 kN, mu 0.9, r 320, inset 45 mm.
    demand = interface_demand(cornering(5000, 0.9, 320, outer=True), -45)
    assert demand.moment_nm == pytest.approx(5000 * (0.9 * 0.320 + 0.045))
    assert demand.separating_n == 0


def test_a_disc_relieves_the_outer_wheel_of_an_inset_wheel_and_loads_the_inner_one() -> None:
    outer, inner = cornering(5000, 0.9, 320, outer=True), cornering(2000, 0.9, 320, outer=False)
    faces = [face_offsets_mm(45, t)[0] for t in (0, 15, 30)]
    outers, inners = ([interface_demand(load, a).moment_nm for a in faces] for load in (outer, inner))
    assert outers == sorted(outers, reverse=True)
    assert inners == sorted(inners)
    assert interface_demand(inner, -45).separating_n == 1800


def test_a_kerb_asks_more_of_a_wheel_that_stands_outboard_of_its_face() -> None:
    blow = kerb(4000, 2.5, -0.5, -0.5, 320)
    moments = [interface_demand(blow, a).moment_nm for a in (0, 15, 30)]
    assert moments == sorted(moments)
    assert interface_demand(blow, 0).torque_nm == 0


def test_braking_turns_an_offset_wheel_about_the_upright_too() -> None:
    # Second method: r x F with r = (0, a, -radius), F = (fore-aft, 0, vertical); the part about the axle is torque.
    a, r, along, up = -0.030, 0.320, -5000.0, 5000.0
    about_x, about_z = a * up - (-r) * 0, -a * along
    demand = interface_demand(braking(5000, 1.0, 320), -30)
    assert demand.moment_nm == pytest.approx(math.hypot(about_x, about_z))


def test_drive_torque_is_cut_to_the_grip_of_the_tyre() -> None:
    assert driving(4000, 3000, 1.0, 320).spin_torque_nm == pytest.approx(1280)
    assert driving(4000, 500, 1.0, 320).spin_torque_nm == 500
    assert braking(4000, 1.0, 320).spin_torque_nm == pytest.approx(1280)


def test_a_thin_ring_rubs_at_its_mean_radius() -> None:
    assert friction_radius_mm(Face(5, 111.9, 112.1, exactly(0.15))) == pytest.approx(56, abs=0.001)
    assert friction_radius_mm(Face(5, 0, 150, exactly(0.15))) == pytest.approx(50)


def test_slip_capacity_and_demand_are_friction_times_clamp_over_torque_and_shear() -> None:
    demand = interface_demand(braking(5000, 1.0, 320), -30)
    found = slip_ratio(FACE, CLAMP, demand, spigot_carries_shear=False)
    assert found.capacity.low == pytest.approx(0.15 * 5 * 22_500)
    asked = 1600 / (friction_radius_mm(FACE) / 1000) + math.hypot(5000, 5000)
    assert found.demand.nominal == pytest.approx(asked)
    assert found.ratio.low == pytest.approx(0.15 * 5 * 22_500 / asked)
    assert slip_ratio(FACE, CLAMP, demand, spigot_carries_shear=True).ratio.low > found.ratio.low


def test_the_face_opens_when_the_edge_pressure_reaches_zero() -> None:
    # Second method: pressure of an annulus F/A - M R/I at the edge.
    found = gape_ratio(FACE, exactly(30_000), interface_demand(cornering(5000, 0.9, 320, outer=True), -30))
    area = math.pi / 4 * (150**2 - 70**2)
    inertia = math.pi / 64 * (150**4 - 70**4)
    pressure = 5 * 30_000 / area - found.capacity.nominal * 1000 * 75 / inertia
    assert pressure == pytest.approx(0, abs=1e-9)


def test_doubt_about_the_load_widens_the_ratio_and_no_load_gives_infinity() -> None:
    demand = interface_demand(cornering(5000, 0.9, 320, outer=False), -30)
    sure, doubtful = gape_ratio(FACE, CLAMP, demand), gape_ratio(FACE, CLAMP, demand, Band(0.8, 1, 1.3))
    assert doubtful.ratio.low < sure.ratio.low < sure.ratio.high < doubtful.ratio.high
    assert slip_ratio(FACE, CLAMP, demand, spigot_carries_shear=True).ratio.low == math.inf


@pytest.mark.parametrize("count", [3, 4, 5, 6])
def test_the_pulls_of_all_fasteners_balance_the_moment_and_none_exceeds_the_greatest(count: int) -> None:
    # Second method: add up the moments of a linear pull over the real places of the fasteners.
    demand = InterfaceDemand("bend", 0, 0, 500, 1200)
    greatest = fastener_pull_n(demand, count, 112)
    slope = (greatest - 500 / count) / 0.056
    heights = [0.056 * math.cos(2 * math.pi * i / count) for i in range(count)]
    assert sum(slope * y * y for y in heights) == pytest.approx(1200)
    assert sum(slope * y + 500 / count for y in heights) == pytest.approx(500)


def test_a_pull_that_parts_the_face_takes_its_share_of_friction_and_of_closing() -> None:
    pulled = InterfaceDemand("bend", 500, 0, 10_000, 800)
    held = InterfaceDemand("bend", 500, 0, 0, 800)
    slips = [slip_ratio(FACE, exactly(30_000), each, spigot_carries_shear=True) for each in (held, pulled)]
    assert slips[0].capacity.nominal - slips[1].capacity.nominal == pytest.approx(0.15 * 10_000)
    gapes = [gape_ratio(FACE, exactly(30_000), each) for each in (held, pulled)]
    assert gapes[1].capacity.nominal / gapes[0].capacity.nominal == pytest.approx(140 / 150)
