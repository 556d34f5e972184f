import numpy as np
import pytest
from tests.engineering.kinematics import cases

from hubwright.engineering.kinematics.solve import solve
from hubwright.engineering.kinematics.springs import Spring, spring_motion
from hubwright.errors import BadInput

ON_ARM = Spring((10.0, 480.0, 330.0), (15.0, 600.0, -128.0), on="lower")
ON_CARRIER = Spring(cases.STRUT.strut_top_mm, cases.STRUT.strut_lower_mm)


@pytest.mark.parametrize(("name", "spring"), [("double wishbone", ON_ARM), ("strut", ON_CARRIER)])
@pytest.mark.parametrize("travel", [-60.0, 0.0, 70.0])
def test_the_motion_ratio_is_the_slope_of_the_length(name: str, spring: Spring, travel: float) -> None:
    h = 0.05
    found = spring_motion(solve(cases.CORNERS[name], [travel - h, travel, travel + h]), spring)
    assert found.motion_ratio[1] == pytest.approx(-(found.length_mm[2] - found.length_mm[0]) / (2 * h), abs=5e-7)


def test_an_end_on_the_outer_joint_of_an_arm_moves_as_the_carrier_does() -> None:
    states = solve(cases.CORNERS["double wishbone"], [-50.0, 60.0])
    outer = cases.DOUBLE_WISHBONE.lower_outer_mm
    by_arm, by_carrier = (spring_motion(states, Spring((10.0, 480.0, 330.0), outer, on)) for on in ("lower", "carrier"))
    np.testing.assert_allclose(by_arm.length_mm, by_carrier.length_mm, atol=1e-8)
    np.testing.assert_allclose(by_arm.motion_ratio, by_carrier.motion_ratio, atol=1e-9)


def test_an_arm_the_linkage_does_not_have_is_refused() -> None:
    with pytest.raises(BadInput, match="carrier, lower"):
        spring_motion(solve(cases.CORNERS["strut"], 0.0), Spring((0, 0, 0), (0, 0, 100), on="upper"))
