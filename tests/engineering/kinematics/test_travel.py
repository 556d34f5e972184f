from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hubwright.engineering.kinematics.travel import (
    AxleSprings,
    BumpStop,
    SprungWheel,
    equilibrium,
    spring_energy,
    spring_force,
)
from hubwright.errors import BadInput

PLAIN = SprungWheel(3500.0, 25.0)
STOPPED = replace(PLAIN, bump_stop=BumpStop(40.0, (0.0, 15.0, 30.0, 40.0), (0.0, 600.0, 2400.0, 6000.0)))


def test_a_wheel_under_its_parked_load_stays_where_it_is_even_on_a_touched_stop() -> None:
    touched = replace(STOPPED, bump_stop=replace(STOPPED.bump_stop, free_mm=-5.0))
    left, right = equilibrium(AxleSprings(touched, PLAIN, 8.0), 3500.0, 3500.0)
    assert left.travel_mm == pytest.approx(0.0, abs=1e-7)
    assert right.travel_mm == pytest.approx(0.0, abs=1e-7)


def test_a_bar_and_two_springs_share_a_side_load_as_statics_says() -> None:
    left, right = equilibrium(AxleSprings(PLAIN, PLAIN, 10.0), 4500.0, 2500.0)
    # antisymmetric load 1000 N: (k + 2 b) z = 1000
    assert left.travel_mm == pytest.approx(1000.0 / 45.0, abs=1e-7)
    assert right.travel_mm == pytest.approx(-1000.0 / 45.0, abs=1e-7)


def test_a_progressive_stop_is_met_on_its_curve() -> None:
    left, _ = equilibrium(AxleSprings(STOPPED, STOPPED), 3500.0 + 25.0 * 60.0 + 1200.0, 3500.0)
    # 20 mm into the stop: 600 + 5/15 * 1800 = 1200 N
    assert left.travel_mm == pytest.approx(60.0, abs=1e-6)
    assert not left.beyond_stop_curve
    assert equilibrium(AxleSprings(STOPPED, STOPPED), 20000.0, 3500.0)[0].beyond_stop_curve


def test_a_read_limit_overrules_the_springs_and_the_bar_then_pulls_on_the_other_wheel() -> None:
    axle = AxleSprings(replace(PLAIN, bump_limit_mm=30.0), PLAIN, 10.0)
    left, right = equilibrium(axle, 6500.0, 3500.0)
    assert left.travel_mm == 30.0
    assert left.at_limit
    assert not right.at_limit
    assert right.travel_mm == pytest.approx(10.0 * 30.0 / 35.0, abs=1e-7)


def test_droop_is_held_by_its_own_limit() -> None:
    left, _ = equilibrium(AxleSprings(replace(PLAIN, droop_limit_mm=-60.0), PLAIN), 0.0, 3500.0)
    assert (left.travel_mm, left.at_limit) == (-60.0, True)


@given(st.floats(500.0, 9000.0), st.floats(500.0, 9000.0), st.floats(0.0, 40.0))
def test_forces_balance_on_both_wheels(load_left: float, load_right: float, bar: float) -> None:
    left, right = equilibrium(AxleSprings(STOPPED, PLAIN, bar), load_left, load_right)
    across = bar * (left.travel_mm - right.travel_mm)
    assert spring_force(STOPPED, left.travel_mm) + across == pytest.approx(load_left, abs=1e-4)
    assert spring_force(PLAIN, right.travel_mm) - across == pytest.approx(load_right, abs=1e-4)


@given(st.floats(0.0, 120.0))
def test_the_energy_is_the_area_under_the_force(travel: float) -> None:
    z = np.linspace(0.0, travel, 4001)
    force = np.array([spring_force(STOPPED, float(one)) for one in z]) - STOPPED.parked_load_n
    assert spring_energy(STOPPED, travel) == pytest.approx(float(np.trapezoid(force, z)), rel=1e-5, abs=1e-6)


def test_a_spring_without_rate_and_a_falling_stop_are_both_named() -> None:
    bad = SprungWheel(3000.0, 0.0, BumpStop(10.0, (0.0, 10.0), (0.0, -5.0)))
    with pytest.raises(BadInput) as caught:
        equilibrium(AxleSprings(bad, PLAIN), 3000.0, 3000.0)
    assert [fault.field for fault in caught.value.faults] == ["left.rate_n_per_mm", "left.bump_stop"]
