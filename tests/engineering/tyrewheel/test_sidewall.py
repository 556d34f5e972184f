from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import minimize

from hubwright.engineering.tyrewheel.build import build_from
from hubwright.engineering.tyrewheel.from_sizes import rim_of, tyre_of
from hubwright.engineering.tyrewheel.sidewall import MountedTyre, build_carcass, lower, mount
from hubwright.errors import OutsideValidity
from hubwright.parts.rim_size import read_rim_size
from hubwright.parts.tyre_size import read_tyre_size

INCH = 25.4


def test_a_measured_width_is_the_width_of_the_shape_on_that_rim(tyre: MountedTyre) -> None:
    assert tyre.section_width_mm == pytest.approx(239.0, abs=1e-6)
    assert tyre.rim_width_mm == pytest.approx(8.0 * INCH)


def test_the_widest_place_of_a_measured_235_40r18_is_where_the_calliper_found_it(tyre: MountedTyre) -> None:
    # A worked workshop case gives 272 mm; invented, but consistent with practice.
    assert tyre.widest_radius_mm == pytest.approx(272.0, abs=4.0)


@pytest.mark.slow
@pytest.mark.parametrize("rim_in", [7.0, 8.0, 9.5])
def test_the_shape_encloses_the_most_air_its_ply_allows(tyre: MountedTyre, rim_in: float) -> None:
    # Second method, without the formula: among all chains of the ply's length between the same anchors, pressure finds
    # the one with the greatest volume of revolution.
    mounted = mount(tyre.carcass, rim_in * INCH)
    c, n = tyre.carcass, 48
    link = c.ply_length_mm / n
    rb, yb = c.bead_radius_mm, mounted.rim_width_mm / 2.0

    def chain(phi: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        r = np.concatenate(([rb], rb + np.cumsum(link * np.cos(phi))))
        return r, np.concatenate(([yb], yb + np.cumsum(link * np.sin(phi))))

    def lack_of_volume(phi: np.ndarray) -> float:
        r, y = chain(phi)
        return -float(np.sum((y[1:] + y[:-1]) * (r[1:] ** 2 - r[:-1] ** 2)) / 2.0) / 1e4

    def ends(phi: np.ndarray) -> np.ndarray:
        r, y = chain(phi)
        return np.array([r[-1] - c.belt_edge_radius_mm, y[-1] - c.belt_edge_half_width_mm])

    best = minimize(
        lack_of_volume,
        np.linspace(0.8, -1.4, n),
        method="SLSQP",
        constraints={"type": "eq", "fun": ends},
        options={"maxiter": 400, "ftol": 1e-12},
    )
    assert best.success
    r, y = chain(best.x)
    assert y.max() == pytest.approx(mounted.ply[:, 1].max(), abs=0.1)
    order = np.argsort(mounted.ply[:, 0])
    on_curve = np.interp(r, mounted.ply[order, 0], mounted.ply[order, 1])
    assert np.abs(on_curve - y)[: n // 2].max() < 0.3


def test_a_rim_too_wide_for_the_ply_is_refused_with_the_reason(tyre: MountedTyre) -> None:
    with pytest.raises(OutsideValidity, match="long enough"):
        mount(tyre.carcass, 14.0 * INCH)


def test_a_stretched_tyre_leans_in_from_the_flange_and_a_pinched_one_bulges_over_it(tyre: MountedTyre) -> None:
    stretched, pinched = mount(tyre.carcass, 10.0 * INCH), mount(tyre.carcass, 6.0 * INCH)
    assert stretched.phi_bead_rad < 0.2 < pinched.phi_bead_rad
    assert stretched.section_width_mm < 10.0 * INCH + 24.0
    assert pinched.section_width_mm > 6.0 * INCH + 24.0


def test_a_width_no_ply_can_take_is_refused(tyre: MountedTyre) -> None:
    with pytest.raises(OutsideValidity):
        build_carcass(150.0, 8.0 * INCH, 645.0, 248.5, build_from(235.0, 40.0))


def test_a_tread_below_the_flange_is_refused() -> None:
    with pytest.raises(OutsideValidity, match="height between flange"):
        build_carcass(239.0, 8.0 * INCH, 530.0, 248.5, build_from(235.0, 40.0))


def test_lowering_by_nothing_changes_nothing_and_lowering_widens(tyre: MountedTyre) -> None:
    assert lower(tyre, 0.0).section_width_mm == pytest.approx(tyre.section_width_mm)
    widths = [lower(tyre, d).section_width_mm for d in (5.0, 10.0, 20.0)]
    assert tyre.section_width_mm < widths[0] < widths[1] < widths[2]
    with pytest.raises(OutsideValidity):
        lower(tyre, 60.0)


def test_a_diagonal_tyre_and_a_rim_of_another_diameter_are_refused() -> None:
    rim = rim_of(read_rim_size("4Jx16"))
    with pytest.raises(OutsideValidity, match="construction"):
        tyre_of(read_tyre_size("T125/70D16"), rim)
    with pytest.raises(OutsideValidity, match="bead seat"):
        tyre_of(read_tyre_size("T125/70R17"), rim)
    assert tyre_of(read_tyre_size("T125/70R16"), rim).section_width_mm == pytest.approx(130.8, abs=0.5)
