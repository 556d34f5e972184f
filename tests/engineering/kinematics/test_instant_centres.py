from dataclasses import replace

import numpy as np
import pytest
from tests.engineering.kinematics import cases

from hubwright.engineering.kinematics.build import linkage_of
from hubwright.engineering.kinematics.hardpoints import DoubleWishbone
from hubwright.engineering.kinematics.instant_centres import instant_centres
from hubwright.engineering.kinematics.linkage import Wheel
from hubwright.engineering.kinematics.solve import solve

PLANAR = DoubleWishbone(
    Wheel("left", (0.0, 750.0, 0.0), 300.0, 0.0, 0.0),
    upper_front_mm=(120.0, 450.0, 140.0),
    upper_rear_mm=(-120.0, 450.0, 140.0),
    upper_outer_mm=(0.0, 650.0, 160.0),
    lower_front_mm=(150.0, 350.0, -110.0),
    lower_rear_mm=(-150.0, 350.0, -110.0),
    lower_outer_mm=(0.0, 710.0, -130.0),
    # in the plane of the lower wishbone, so that it does not steer in the first order
    tie_inner_mm=(-140.0, 350.0, -110.0),
    tie_outer_mm=(-140.0, 710.0, -130.0),
)


def test_the_front_view_instant_centre_is_where_the_lines_of_plane_wishbones_cross() -> None:
    found = instant_centres(solve(linkage_of(PLANAR), 0.0))
    upper, lower = 20.0 / 200.0, -20.0 / 360.0
    y = (-130.0 - lower * 710.0 - (160.0 - upper * 650.0)) / (upper - lower)
    z = 160.0 + upper * (y - 650.0)
    assert found.front_out_mm[0] == pytest.approx(y, rel=1e-9)
    assert found.front_up_mm[0] == pytest.approx(z, rel=1e-9)
    # straight line from contact (750, -300) to the instant centre, at the middle of the car
    assert found.roll_centre_height_mm[0] == pytest.approx(750.0 * (z + 300.0) / (750.0 - y), rel=1e-9)
    assert found.front_arm_mm[0] == pytest.approx(750.0 - y, rel=1e-9)


def test_a_trailing_arm_has_its_side_view_instant_centre_on_the_hinge_and_its_roll_centre_on_the_ground() -> None:
    found = instant_centres(solve(cases.CORNERS["trailing arm"], 0.0))
    assert found.side_forward_mm[0] == pytest.approx(420.0, abs=1e-6)
    assert found.side_up_mm[0] == pytest.approx(20.0, abs=1e-6)
    assert np.isnan(found.front_out_mm[0])
    assert found.roll_centre_height_mm[0] == pytest.approx(0.0, abs=1e-9)


def test_a_live_axle_rolls_about_the_pivot_of_its_watt_linkage() -> None:
    assert cases.WATT.pivot_mm[2] == 20.0
    over_wheels = replace(
        cases.WATT,
        pivot_mm=(0.0, 0.0, 20.0),
        crank_end_a_mm=(0.0, 0.0, 100.0),
        crank_end_b_mm=(0.0, 0.0, -60.0),
        far_end_a_mm=(0.0, 450.0, 100.0),
        far_end_b_mm=(0.0, -450.0, -60.0),
    )
    found = instant_centres(solve(linkage_of(replace(cases.THREE_LINKS_WATT, watt=over_wheels)), 0.0))
    assert found.roll_centre_height_mm[0] == pytest.approx(20.0 + 305.0, abs=0.5)


def test_the_tangent_of_the_contact_path_is_what_differences_of_states_give() -> None:
    from hubwright.engineering.kinematics.characteristics import characteristics

    for name in ("double wishbone", "strut", "semi-trailing arm"):
        linkage = cases.CORNERS[name]
        middle = instant_centres(solve(linkage, 25.0))
        near = characteristics(solve(linkage, [24.0, 26.0]))
        # the lowest point of the wheel is not quite one point of the carrier: they part with the change of lean
        path = np.diff(near.contact_mm[:, 1]) / np.diff(near.contact_mm[:, 2])
        assert middle.contact_out_per_mm[0] == pytest.approx(path[0], abs=2e-3)
