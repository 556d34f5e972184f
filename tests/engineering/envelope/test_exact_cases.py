"""Gaps that can be worked out by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest

from hubwright.engineering.envelope.obstacles import Obstacle, lip_by_clock, points, polyline
from hubwright.engineering.envelope.outline import Outline, cylinder_outline
from hubwright.engineering.envelope.poses import Poses, hub_at_rest
from hubwright.engineering.envelope.sweep import smallest_gap
from hubwright.errors import BadInput

WHEEL = cylinder_outline(300.0, 200.0, 0.0)


def gap(triangles: np.ndarray, outline: Outline = WHEEL, poses: Poses | None = None) -> float:
    pinch = smallest_gap(outline, Obstacle("thing", "body", np.asarray(triangles, float)), poses or hub_at_rest())
    assert pinch is not None
    return pinch.gap_mm


def quad(a: list[float], b: list[float], c: list[float], d: list[float]) -> np.ndarray:
    return np.array([[a, b, c], [a, c, d]])


def test_a_flat_roof_above_the_tyre_is_as_far_as_its_height_says() -> None:
    roof = quad([-900, -400, 341.25], [800, -400, 341.25], [800, 500, 341.25], [-900, 500, 341.25])
    assert gap(roof) == pytest.approx(41.25, abs=1e-9)


def test_a_wall_square_to_the_axis_is_as_far_as_its_offset_says() -> None:
    wall = quad([-900, 117.5, -700], [800, 117.5, -900], [800, 117.5, 900], [-900, 117.5, 900])
    assert gap(wall) == pytest.approx(17.5, abs=1e-9)


def test_a_wall_pierced_by_the_axis_far_inside_its_edges_still_counts() -> None:
    tilt = math.tan(math.radians(5.0))
    wall = quad(*([x, 150.0 + tilt * z, z] for x, z in ((-2000, -2000), (2000, -2000), (2000, 2000), (-2000, 2000))))
    # the rim circle rho = 300, y = 100 leans into the plane y = 150 + z tan 5 at its lowest point
    assert gap(wall) == pytest.approx((150.0 - 300.0 * tilt - 100.0) * math.cos(math.radians(5.0)), abs=1e-9)


def test_a_line_beside_the_tread_is_as_far_as_its_perpendicular() -> None:
    assert gap(polyline(np.array([[-800.0, 30.0, 325.0], [650.0, 30.0, 325.0]]))) == pytest.approx(25.0, abs=1e-9)


def test_a_skew_line_is_as_far_from_the_sidewall_corner_as_a_minimiser_finds() -> None:
    from scipy.optimize import minimize_scalar

    a, b = np.array([-400.0, 60.0, 330.0]), np.array([300.0, 190.0, 345.0])

    def far(s: float) -> float:
        x, y, z = a + s * (b - a)
        return math.hypot(max(0.0, math.hypot(x, z) - 300.0), max(0.0, abs(y) - 100.0))

    best = minimize_scalar(far, bounds=(0, 1), method="bounded", options={"xatol": 1e-13}).fun
    assert gap(polyline(np.array([a, b]))) == pytest.approx(best, abs=1e-9)


def test_points_on_a_sphere_round_the_tread_corner_are_one_radius_away() -> None:
    rng = np.random.default_rng(3)
    away = rng.normal(size=(200, 2))
    away = np.abs(away) / np.linalg.norm(away, axis=1)[:, None]
    clock = rng.uniform(0, 2 * np.pi, 200)
    rho, y = 300.0 + 23.0 * away[:, 0], 100.0 + 23.0 * away[:, 1]
    for point in np.column_stack([rho * np.sin(clock), y, rho * np.cos(clock)]):
        assert gap(points(point)) == pytest.approx(23.0, abs=1e-9)


def test_a_point_inside_is_as_deep_as_its_nearest_surface_and_the_axis_is_no_surface() -> None:
    assert gap(points([1.0, 70.0, 0.0])) == pytest.approx(-30.0, abs=1e-9)
    assert gap(points([0.0, 10.0, 288.0])) == pytest.approx(-12.0, abs=1e-9)


def test_a_sheet_that_swallows_a_ring_is_an_overlap_though_no_edge_comes_near() -> None:
    ring = Outline(np.array([280.0, 320.0, 320.0, 280.0]), np.array([-10.0, -10.0, 10.0, 10.0]))
    sheet = quad([-900, -900, 0.0], [900, -900, 0.0], [900, 900, 0.0], [-900, 900, 0.0])
    assert gap(sheet, ring) < -5.0


def test_the_place_and_state_of_the_pinch_are_those_of_the_nearest_pose() -> None:
    lip = lip_by_clock((0.0, 0.0, 0.0), np.array([-20.0, 0.0, 20.0]), np.array([350.0] * 3), np.array([90.0] * 3))
    poses = Poses(np.array([[0.0, 0.0, 0.0], [0.0, 0.0, 31.0], [0.0, 0.0, 12.0]]), np.tile([0.0, 1.0, 0.0], (3, 1)))
    pinch = smallest_gap(WHEEL, Obstacle("lip", "body", points(lip)), poses)
    assert pinch is not None
    assert (pinch.state, pinch.triangle) == (1, 1)
    assert pinch.place_mm == pytest.approx((0.0, 90.0, 350.0), abs=1e-9)
    assert pinch.gap_mm == pytest.approx(19.0, abs=1e-9)


def test_a_carried_obstacle_does_not_sweep() -> None:
    caliper = Obstacle("caliper", "caliper", points([0.0, 0.0, 310.0]), carried=True)
    poses = Poses(np.array([[0.0, 0.0, 500.0]]), np.array([[0.0, 1.0, 0.0]]))
    pinch = smallest_gap(WHEEL, caliper, poses)
    assert pinch is not None
    assert pinch.gap_mm == pytest.approx(10.0, abs=1e-9)
    assert pinch.state == -1


def test_motion_between_states_and_doubt_are_owed_by_the_stated_error() -> None:
    poses = Poses(np.zeros((1, 3)), np.array([[0.0, 1.0, 0.0]]), between_mm=0.7)
    pinch = smallest_gap(WHEEL, Obstacle("lip", "body", points([0.0, 0.0, 310.0]), doubt_mm=0.2), poses)
    assert pinch is not None
    assert pinch.safe_gap_mm == pytest.approx(10.0 - 0.9, abs=0.006)
    assert pinch.safe_gap_mm <= 9.1


@pytest.mark.parametrize("bad", [np.zeros((2, 3, 2)), np.zeros((0, 3, 3)), np.full((1, 3, 3), np.nan)])
def test_an_obstacle_of_the_wrong_shape_is_refused(bad: np.ndarray) -> None:
    with pytest.raises(BadInput, match="triangles_mm"):
        Obstacle("lip", "body", bad)


def test_a_pose_whose_axis_is_no_unit_vector_is_refused() -> None:
    with pytest.raises(BadInput, match="unit vectors"):
        Poses(np.zeros((1, 3)), np.array([[0.0, 1.1, 0.0]]))


def test_an_outline_across_the_axis_is_refused() -> None:
    with pytest.raises(BadInput, match="rho_mm"):
        Outline(np.array([-1.0, 5.0, 5.0]), np.array([0.0, 0.0, 1.0]))
