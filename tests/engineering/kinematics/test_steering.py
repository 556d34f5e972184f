import numpy as np
import pytest
from tests.engineering.kinematics import cases

from hubwright.engineering.kinematics.build import linkage_of
from hubwright.engineering.kinematics.characteristics import characteristics
from hubwright.engineering.kinematics.hardpoints import Corner, mirror_hardpoints
from hubwright.engineering.kinematics.solve import solve
from hubwright.engineering.kinematics.steering import rack_for_steer
from hubwright.errors import BadInput


@pytest.mark.parametrize("points", [cases.DOUBLE_WISHBONE, cases.STRUT, mirror_hardpoints(cases.STRUT)])
def test_the_rack_found_for_a_lock_angle_makes_that_angle(points: Corner) -> None:
    linkage = linkage_of(points)
    wanted, travel = np.array([-33.0, -10.0, 0.0, 20.0, 36.0]), np.array([40.0, 0.0, -50.0, 60.0, 0.0])
    rack = rack_for_steer(linkage, wanted, travel)
    np.testing.assert_allclose(characteristics(solve(linkage, travel, rack)).steer_deg, wanted, atol=1e-6)


def test_an_angle_past_the_dead_point_of_the_tie_rod_has_no_rack() -> None:
    found = rack_for_steer(cases.CORNERS["strut"], [10.0, 170.0, -175.0])
    assert np.isfinite(found[0])
    assert np.all(np.isnan(found[1:]))


def test_an_axle_that_nothing_steers_is_refused() -> None:
    with pytest.raises(BadInput, match="steered link"):
        rack_for_steer(cases.CORNERS["five link"], 10.0)
