import numpy as np
import pytest

from hubwright.engineering.kinematics.measured import (
    change,
    fit_motion,
    from_prior,
    gap_from_parked,
    hub_poses_from_motion,
    predict,
)
from hubwright.engineering.kinematics.priors import GUESS, PRIORS
from hubwright.errors import BadInput, MissingReading, OutsideValidity

CAMBER = PRIORS["multi-link"].camber


def test_the_pinch_of_a_tyre_passing_the_lip_is_in_mid_travel() -> None:
    # lip 318, 272, 247 mm over the wheel centre; worked by hand: -15.5 + 1.99 - 1.0 and -11.0 + 2.6 - 1.6
    gaps = gap_from_parked(
        gap_mm=0.0,
        half_width_parked_mm=104.0,
        half_width_mm=[104.0, 119.5, 115.0],
        lip_height_mm=318.0,
        travel_mm=[0.0, 46.0, 71.0],
        camber_parked_deg=-1.667,
        camber_deg=[-1.667, -2.369, -2.75],
        half_track_change_mm=[0.0, 1.0, 1.6],
    )
    np.testing.assert_allclose(gaps, [0.0, -14.5, -10.0], atol=0.05)


def test_a_lip_below_the_wheel_centre_is_outside_the_sum() -> None:
    same = {"half_width_parked_mm": 104.0, "half_width_mm": 104.0, "camber_parked_deg": 0.0, "camber_deg": 0.0}
    with pytest.raises(OutsideValidity, match="lip above the wheel centre"):
        gap_from_parked(gap_mm=20.0, lip_height_mm=60.0, travel_mm=70.0, half_track_change_mm=0.0, **same)


def test_three_readings_are_met_exactly_and_nothing_is_guessed() -> None:
    motion = fit_motion([0.0, 46.0, 71.0], [-1.667, -2.369, -2.75], 0.05)
    np.testing.assert_allclose(predict(motion, [0.0, 46.0, 71.0])[0], [-1.667, -2.369, -2.75], atol=1e-12)
    np.testing.assert_allclose(predict(motion, [0.0, 46.0, 71.0])[1], 0.05, rtol=1e-9)
    assert motion.guessed == ()


def test_two_readings_leave_the_bend_to_the_class_and_say_so() -> None:
    motion = fit_motion([0.0, 60.0], [-1.5, -2.6], 0.05, CAMBER)
    assert motion.guessed == ("bend",)
    assert motion.coefficients[2] == pytest.approx(CAMBER.bend_per_mm2)
    between, at = predict(motion, [30.0, 60.0])[1]
    # half way between two readings the unknown bend counts: u^2 = u_mean^2 + (30^2 u_bend)^2
    assert between == pytest.approx(np.hypot(0.05 / np.sqrt(2), 900.0 * CAMBER.u_bend_per_mm2), rel=1e-6)
    assert at == pytest.approx(0.05, rel=1e-6)


def test_one_reading_fixes_the_level_only() -> None:
    motion = fit_motion([0.0], [-1.2], 0.1, CAMBER)
    assert motion.guessed == ("slope", "bend")
    moved, doubt = change(motion, [50.0])
    assert moved[0] == pytest.approx(50.0 * CAMBER.slope_per_mm + 2500.0 * CAMBER.bend_per_mm2)
    assert doubt[0] == pytest.approx(np.hypot(50.0 * CAMBER.u_slope_per_mm, 2500.0 * CAMBER.u_bend_per_mm2), rel=1e-6)


def test_readings_at_one_height_twice_count_as_one_height() -> None:
    assert fit_motion([0.0, 0.2, 60.0], [1.0, 1.1, 2.0], 0.1, CAMBER).guessed == ("bend",)


def test_two_heights_without_a_class_are_not_enough() -> None:
    with pytest.raises(MissingReading, match="1 more height"):
        fit_motion([0.0, 60.0], [1.0, 2.0], 0.1)


def test_a_doubt_of_nothing_is_refused() -> None:
    with pytest.raises(BadInput, match="doubts above 0"):
        fit_motion([0.0, 30.0, 60.0], [1.0, 2.0, 3.0], 0.0)


def test_the_stated_doubt_is_the_spread_of_fits_to_readings_drawn_with_it() -> None:
    rng = np.random.default_rng(5)
    heights = np.array([-40.0, -10.0, 20.0, 50.0, 70.0])
    truth = 30.0 - 0.2 * heights - 1e-3 * heights**2
    fits = [fit_motion(heights, truth + rng.normal(0, 0.8, 5), 0.8) for _ in range(1500)]
    seen = np.std([predict(one, [35.0])[0][0] for one in fits])
    plain = predict(fit_motion(heights, truth, 0.8), [35.0])[1][0]
    assert seen == pytest.approx(plain, rel=0.08)


def test_readings_that_scatter_more_than_they_should_widen_the_doubt() -> None:
    motion = fit_motion([-40.0, -10.0, 20.0, 50.0, 70.0], [30.0, 20.0, 33.0, 18.0, 29.0], 0.5)
    assert motion.birge > 5.0


def test_hub_poses_from_motion_stand_at_the_read_camber_and_half_track() -> None:
    camber = fit_motion([0.0, 40.0, 80.0], [-1.0, -2.0, -3.2], 0.1)
    half_track = fit_motion([0.0, 40.0, 80.0], [5.0, 6.0, 6.5], 0.3)
    centre, axis = hub_poses_from_motion(camber, half_track, [0.0, 80.0])
    np.testing.assert_allclose(centre, [[0, 0, 0], [0, 1.5, 80.0]], atol=1e-9)
    np.testing.assert_allclose(np.degrees(-np.arcsin(axis[:, 2])), [-1.0, -3.2], atol=1e-9)


def test_every_prior_says_that_it_is_a_guess_and_is_in_doubt() -> None:
    for prior in PRIORS.values():
        for curve in (prior.camber, prior.half_track):
            assert curve.source == GUESS
            assert min(curve.u_slope_per_mm, curve.u_bend_per_mm2) > 0.0
            assert from_prior(curve).guessed == ("slope", "bend")
