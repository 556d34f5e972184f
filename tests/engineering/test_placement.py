"""Where a disc puts the wheel: exact small answers worked by hand, and what must hold between them."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hubwright.engineering.placement import (
    barrel_loss,
    compliance_outward,
    floor_slope_mm,
    gap_change,
    local_half_width,
    push,
    sagitta,
    smooth_through,
)
from hubwright.errors import OutsideValidity

Array = npt.NDArray[np.float64]


def array(*values: float) -> Array:
    return np.array(values)


def test_20_mm_at_2_deg_of_negative_camber_go_19_99_mm_out_and_0_70_mm_up() -> None:
    """Derived: 20 cos 2 deg = 19.988, 20 sin 2 deg = 0.698."""
    assert 20 * push("outboard", -2.0, 0.0) == pytest.approx(19.99, abs=0.005)
    assert 20 * push("up", -2.0, 0.0) == pytest.approx(0.70, abs=0.005)


def test_15_mm_at_35_deg_of_steer_go_12_29_mm_sideways_and_8_60_mm_rearward() -> None:
    """Derived: 15 cos 35 deg = 12.287, 15 sin 35 deg = 8.604; a left turn swings the left axle end rearward."""
    assert 15 * push("outboard", 0.0, 35.0) == pytest.approx(12.29, abs=0.005)
    assert 15 * push("rearward", 0.0, 35.0) == pytest.approx(8.60, abs=0.005)
    assert 15 * push("forward", 0.0, 35.0) == pytest.approx(-8.60, abs=0.005)


@given(st.floats(-20, 20), st.floats(-60, 60))
def test_what_a_disc_takes_on_one_side_it_gives_on_the_other(camber_deg: float, steer_deg: float) -> None:
    assert push("inboard", camber_deg, steer_deg) == -push("outboard", camber_deg, steer_deg)
    assert push("forward", camber_deg, steer_deg) == -push("rearward", camber_deg, steer_deg)
    assert push("outboard", camber_deg, steer_deg) == pytest.approx(push("outboard", camber_deg, -steer_deg))


def sweep(*, widths: tuple[float, ...] = (104, 119.5, 115), tilt: float = 1.0, track: float = 1.0) -> Array:
    """Gap change at +46 and +71 mm of a point 318 mm above the wheel centre."""
    travel = array(0, 46, 71)
    return gap_change(
        array(46, 71),
        318.0,
        local_half_width(array(247, 272, 318), array(*reversed(widths))),
        smooth_through(travel, array(-1.667, -1.667 - tilt * 0.702, -1.667 - tilt * 1.083)),
        smooth_through(travel, array(0.0, track * 1.0, track * 1.6)),
    )


def test_the_widest_part_of_the_sidewall_passes_the_lip_in_mid_travel() -> None:
    """Derived: half widths 104, 119.5, 115 at 318, 272, 247 mm; camber -1.667, -2.369, -2.75 deg; half-track 0, 1.0, 1.6.

    +46: -(119.5 - 104) + (272 sin 2.369 - 318 sin 1.667) - 1.0 = -15.5 + 1.99 - 1.0 = -14.5 mm;
    +71: -(115 - 104) + (247 sin 2.75 - 318 sin 1.667) - 1.6 = -11.0 + 2.60 - 1.6 = -10.0 mm.
    """
    assert sweep() == pytest.approx([-14.5, -10.0], abs=0.05)


def test_each_part_of_the_sweep_can_be_told_apart() -> None:
    """Derived: without half-track +1.0 and +1.6; a straight sidewall leaves lean and half-track alone."""
    assert sweep(track=0.0) - sweep() == pytest.approx([1.0, 1.6])
    assert sweep(widths=(104, 104, 104)) - sweep() == pytest.approx([15.5, 11.0])


def test_a_wheel_that_does_not_move_keeps_its_gap() -> None:
    flat = smooth_through(array(0.0, 80.0), array(-1.5, -3.0))
    change = gap_change(array(0.0), 300.0, local_half_width(array(250, 320), array(110, 100)), flat, flat)
    assert change.tolist() == [0.0]


def test_the_loaded_outer_wheel_comes_5_0_mm_out_at_its_top() -> None:
    """Derived: 320 sin(0.25 x 5 deg) - 0.4 x 5 = 6.98 - 2.0 = 4.98 mm; at the hub it goes in by 2.0 mm."""
    assert compliance_outward(320.0, 5.0, 0.25, 0.4) == pytest.approx(5.0, abs=0.05)
    assert compliance_outward(0.0, 5.0, 0.25, 0.4) == -2.0


def test_5_mm_outward_on_a_barrel_of_15_deg_cost_1_21_mm() -> None:
    """Derived: (5 - 0.5) tan 15 deg = 1.206; before the slope begins nothing is lost."""
    assert barrel_loss(5.0, 15.0, 0.5) == pytest.approx(1.21, abs=0.005)
    assert barrel_loss(0.5, 15.0, 0.5) == 0.0
    assert barrel_loss(30.0, 0.0, 0.0) == 0.0


def test_a_floor_that_slopes_is_told_from_a_car_that_leans() -> None:
    """Derived: 27 and 5, turned 6 and 26: floor 10.5 mm, about 1 deg on 600 mm; means 16.5 and 15.5 are the car's."""
    slope = floor_slope_mm(27.0, 5.0, 6.0, 26.0)
    assert slope == pytest.approx(10.5)
    assert math.degrees(math.atan(slope / 600)) == pytest.approx(1.0, abs=0.01)
    assert floor_slope_mm(20.0, 12.0, 20.0, 12.0) == 0.0


def test_the_bulge_between_two_readings_is_that_of_a_circle() -> None:
    """Derived: chord 24, R 60: (12 x 12)/(2 x 60) = 1.2 mm; exactly 60 - sqrt(60^2 - 12^2) = 1.212."""
    assert sagitta(array(12.0), 0.0, 24.0, 60.0)[0] == pytest.approx(1.2)
    assert sagitta(array(12.0), 0.0, 24.0, 60.0)[0] == pytest.approx(60 - math.sqrt(60**2 - 12**2), rel=0.02)
    assert sagitta(array(0.0, 24.0), 0.0, 24.0, 60.0).tolist() == [0.0, 0.0]


@given(
    st.lists(st.tuples(st.integers(-100, 100), st.integers(-50, 50)), min_size=1, max_size=7, unique_by=lambda p: p[0])
)
def test_a_curve_meets_its_readings_and_stays_between_neighbours(points: list[tuple[int, int]]) -> None:
    points = sorted(points)
    x, y = array(*(float(p[0]) for p in points)), array(*(float(p[1]) for p in points))
    curve: Callable[[Array], Array] = smooth_through(x, y)
    assert curve(x) == pytest.approx(y)
    for i in range(len(x) - 1):
        inside = curve(np.linspace(x[i], x[i + 1], 7))
        assert inside.min() >= min(y[i], y[i + 1]) - 1e-9
        assert inside.max() <= max(y[i], y[i + 1]) + 1e-9


def test_half_widths_hold_only_where_they_were_read() -> None:
    width = local_half_width(array(250.0, 300.0), array(115.0, 105.0))
    assert width(array(247.0, 303.0)).tolist() == [115.0, 105.0]
    for radius in (246.0, 304.0):
        with pytest.raises(OutsideValidity, match="radius"):
            width(array(radius))
