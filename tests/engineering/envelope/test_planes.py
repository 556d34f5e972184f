"""A plane never claims more room than there is."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hubwright.engineering.envelope.outline import Outline
from hubwright.engineering.envelope.sweep.floors.kernels import beyond, nearest_on
from hubwright.engineering.envelope.sweep.planes.kernels import (
    away_from,
    keep_low,
    lowest_point,
    plane_floors,
    reach_along,
)

Floats = np.ndarray[Any, np.dtype[np.float64]]
TYRE = Outline(
    np.array([180.0, 250.0, 300.0, 300.0, 270.0, 200.0]), np.array([-90.0, -110.0, -80.0, 70.0, 110.0, 95.0])
)
seeds = st.integers(0, 2**32 - 1)


def directions(rng: np.random.Generator, count: int) -> Floats:
    u = rng.normal(size=(count, 3))
    return np.asarray(u / np.linalg.norm(u, axis=1)[:, None])


def exact_reach(u: Floats, axis: Floats) -> Floats:
    """Farthest point of the circles the corners run on."""
    along = u @ axis
    across = np.linalg.norm(np.cross(u, axis), axis=1)
    return np.asarray((np.outer(across, TYRE.rho_mm) + np.outer(along, TYRE.y_mm)).max(axis=1))


def test_the_table_of_reach_is_never_too_low_and_hardly_too_high() -> None:
    rng = np.random.default_rng(1)
    axis = directions(rng, 1)[0]
    u = np.concatenate([directions(rng, 3000), axis[None], -axis[None], axis + 1e-4 * directions(rng, 200)])
    u /= np.linalg.norm(u, axis=1)[:, None]
    told = np.array([reach_along(*one, *axis, TYRE.support) for one in u])
    truth = exact_reach(u, axis)
    assert np.all(told >= truth - 1e-4)
    assert np.all(told <= truth + 0.3)  # a line across a long side of the outline, square to it


@given(seed=seeds)
def test_floors_of_many_states_are_those_of_the_exact_reach(seed: int) -> None:
    rng = np.random.default_rng(seed)
    n = 37
    axes, hubs, u = directions(rng, n), rng.normal(size=(n, 3)) * 100.0, directions(rng, 1)[0]
    states = np.concatenate([hubs.T, axes.T, np.full((1, n), 3e38)]).astype(np.float32)
    out = np.empty(n, np.float32)
    plane_floors(states, n, *u, 400.0, TYRE.support, np.empty(n, np.int32), out)
    truth = np.array([400.0 - u @ hubs[k] - exact_reach(u[None], axes[k])[0] for k in range(n)])
    assert out == pytest.approx(truth, abs=0.3)
    assert np.all(out <= truth + 1e-3)
    kept, names = np.empty((7, n), np.float32), np.empty(n, np.int32)
    left, lowest = keep_low(states, np.arange(n, dtype=np.int32), out, n, 100.0, 0.05, kept, names)
    assert set(names[:left]) == set(np.flatnonzero(out - 0.05 < 100.0))
    assert left == 0 or names[lowest] == out.argmin()


@given(seed=seeds, count=st.integers(1, 40))
def test_the_lowest_point_is_found_whatever_its_sign(seed: int, count: int) -> None:
    rng = np.random.default_rng(seed)
    points = (rng.normal(size=(3, count + 5)) * 300.0).astype(np.float32)
    u = directions(rng, 1)[0]
    low, at = lowest_point(points, 3, 3 + count, *u, np.empty(count, np.float32))
    heights = u @ points[:, 3 : 3 + count]
    assert low == pytest.approx(float(heights.min()), abs=1e-3)
    assert heights[at - 3] == pytest.approx(float(heights.min()), abs=1e-3)


@given(seed=seeds)
def test_no_point_of_a_triangle_is_nearer_than_a_plane_says(seed: int) -> None:
    rng = np.random.default_rng(seed)
    axis, hub = directions(rng, 1), rng.normal(size=(1, 3)) * 50.0
    triangle = rng.normal(size=(1, 3)) * 350.0 + rng.normal(size=(3, 3)) * rng.uniform(1.0, 200.0)
    weights = rng.dirichlet([1.0, 1.0, 1.0], 2000)
    points = np.concatenate([weights @ triangle, triangle])
    y = (points - hub) @ axis[0]
    rho = np.linalg.norm(points - hub - y[:, None] * axis, axis=1)
    gap = float(TYRE.signed_distance_mm(rho, y).min())
    for enough in gap + np.array([-20.0, -1.0, 0.0, 1e-6, 1.0, 20.0]):
        if beyond(triangle[None], 0, hub, axis, 0, TYRE.index, TYRE.support, enough):
            assert gap >= enough - 1e-3
    k = int(rng.integers(2000))
    *u, away = away_from(*points[k], hub, axis, 0, TYRE.index)
    assert np.linalg.norm(u) == pytest.approx(1.0, abs=1e-12)
    if away > 0.0:
        assert away == pytest.approx(float(TYRE.signed_distance_mm(rho[k : k + 1], y[k : k + 1])[0]), abs=1e-9)


@given(seed=seeds)
def test_the_nearest_point_of_a_triangle_is_that_of_a_search(seed: int) -> None:
    rng = np.random.default_rng(seed)
    triangle, q = rng.normal(size=(3, 3)) * 100.0, rng.normal(size=3) * 150.0
    i, j = np.meshgrid(np.arange(81), np.arange(81))
    keep = i + j <= 80
    weights = np.column_stack([i[keep], j[keep], 80 - i[keep] - j[keep]]) / 80.0
    sampled = float(np.linalg.norm(weights @ triangle - q, axis=1).min())
    found = float(np.linalg.norm(np.array(nearest_on(triangle, *q)) - q))
    assert found <= sampled + 1e-9
    assert sampled <= found + 10.0
    w = np.linalg.lstsq(np.vstack([triangle.T, np.ones(3)]), np.append(nearest_on(triangle, *q), 1.0), rcond=None)[0]
    assert np.all(w >= -1e-9)


@pytest.mark.parametrize("slide", [-25.0, 0.0, 7.5])
def test_a_slid_package_measures_as_one_drawn_there(slide: float) -> None:
    _ = TYRE.index
    slid, drawn = TYRE.slid(slide), Outline(TYRE.rho_mm, TYRE.y_mm + slide)
    rng = np.random.default_rng(3)
    rho, y = rng.uniform(0.0, 420.0, 4000), rng.uniform(-220.0, 220.0, 4000)
    assert slid.signed_distance_mm(rho, y) == pytest.approx(drawn.signed_distance_mm(rho, y), abs=1e-9)
    assert slid.index[:9] == pytest.approx(drawn.index[:9], abs=2e-3)
