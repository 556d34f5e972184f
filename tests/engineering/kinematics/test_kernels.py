import numpy as np
import pytest
from scipy.spatial.transform import Rotation
from tests.engineering.kinematics.cases import AXLES, CORNERS

from hubwright.engineering.kinematics import kernels
from hubwright.engineering.kinematics.linkage import table_of
from hubwright.engineering.kinematics.solve import rates, solve

ALL = {**CORNERS, **AXLES}


@pytest.mark.parametrize("name", ALL)
def test_the_jacobian_of_every_type_agrees_with_finite_differences(name: str) -> None:
    linkage = ALL[name]
    codes, figures = table_of(linkage)
    rng = np.random.default_rng(7)
    bodies, inputs = linkage.bodies, rng.normal(0, 10, len(linkage.wheels) + 1)
    centre = linkage.origins_mm + rng.normal(0, 15, (bodies, 3))
    rot = Rotation.from_rotvec(rng.normal(0, 0.15, (bodies, 3))).as_matrix()
    _, jac = kernels.residual_and_jacobian(codes, figures, centre, rot, inputs)
    h = 1e-4
    for column in range(6 * bodies):
        body, part = divmod(column, 6)
        step = np.zeros(3)
        step[part % 3] = h
        found = []
        for sign in (1.0, -1.0):
            c, r = centre.copy(), rot.copy()
            if part < 3:
                c[body] += sign * step
            else:
                r[body] = Rotation.from_rotvec(sign * step / kernels.ARM_MM).as_matrix() @ r[body]
            found.append(kernels.residual_and_jacobian(codes, figures, c, r, inputs)[0])
        np.testing.assert_allclose(jac[:, column], (found[0] - found[1]) / (2 * h), atol=2e-8)


@pytest.mark.parametrize("name", [n for n in ALL if "four links" not in n])
def test_rates_agree_with_differences_of_solved_states(name: str) -> None:
    linkage, h = ALL[name], 0.05
    wheels = len(linkage.wheels)
    base = np.array([25.0, -15.0, 20.0 if linkage.steered else 0.0])
    moved = [0] if wheels == 1 else [0, 1]
    moved += [2] if linkage.steered else []
    exact = rates(solve(linkage, base[0], base[2], base[1] if wheels == 2 else None))[0]
    for row, which in enumerate(moved):
        both = []
        for sign in (1.0, -1.0):
            at = base.copy()
            at[which] += sign * h
            both.append(solve(linkage, at[0], at[2], at[1] if wheels == 2 else None))
        up, down = both
        input_row = -1 if which == 2 else row
        np.testing.assert_allclose((up.centre_mm - down.centre_mm)[0] / (2 * h), exact[input_row, :, :3], atol=2e-6)
        turn = (up.rotation - down.rotation)[0] / (2 * h) @ np.swapaxes(0.5 * (up.rotation + down.rotation)[0], 1, 2)
        spin = np.stack([turn[:, 2, 1], turn[:, 0, 2], turn[:, 1, 0]], axis=1)
        np.testing.assert_allclose(spin, exact[input_row, :, 3:], atol=2e-8)
