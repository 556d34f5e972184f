"""The map gives what the sweep gives, for any package, and survives being kept on disk."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from hubwright.engineering.envelope.meridian.build import MAP_ERROR_MM, draw_map, inputs_hash, view_for
from hubwright.engineering.envelope.meridian.store import load_map, save_map
from hubwright.engineering.envelope.obstacles import Obstacle, points, polyline
from hubwright.engineering.envelope.outline import Outline, cylinder_outline
from hubwright.engineering.envelope.poses import Poses
from hubwright.engineering.envelope.query import (
    ReadyMap,
    contacts,
    gaps_by_thickness,
    many_gaps,
    package_set,
    thickness_limits_mm,
)
from hubwright.engineering.envelope.sweep import smallest_gap
from hubwright.errors import BadDataFile, OutsideValidity

WHEEL = cylinder_outline(300.0, 200.0, -20.0)


def rounded(radius_mm: float, width_mm: float) -> Outline:
    """A tyre-like outline of 120 corners."""
    a = np.linspace(0, 2 * np.pi, 120, endpoint=False)
    rho = np.sign(np.cos(a)) * np.abs(np.cos(a)) ** 0.4
    y = np.sign(np.sin(a)) * np.abs(np.sin(a)) ** 0.4
    return Outline(200.0 + (radius_mm - 200.0) * rho, 0.5 * width_mm * y - 20.0)


def poses() -> Poses:
    bump, lock = np.meshgrid(np.linspace(-40, 40, 9), np.linspace(-0.5, 0.5, 9), indexing="ij")
    axis = np.stack([np.sin(lock), np.cos(lock), -0.0005 * bump], axis=-1).reshape(-1, 3)
    origin = np.stack([0 * bump, -0.02 * bump, bump], axis=-1).reshape(-1, 3)
    return Poses(origin, axis / np.linalg.norm(axis, axis=1)[:, None])


def obstacles() -> list[Obstacle]:
    rng = np.random.default_rng(8)
    clock = np.linspace(-1.2, 1.2, 25)
    lip = np.column_stack([350 * np.sin(clock), 105 + 4 * np.cos(5 * clock), 350 * np.cos(clock)])
    middle = rng.normal(size=(60, 3))
    middle = 430 * middle / np.linalg.norm(middle, axis=1)[:, None]
    liner = Obstacle("liner", "liner", middle[:, None, :] + rng.normal(scale=25.0, size=(60, 3, 3)))
    strut = Obstacle("strut", "strut", polyline(np.array([[0, -145.0, 150.0], [0, -170.0, 500.0]])), carried=True)
    return [Obstacle("lip", "body", polyline(lip)), liner, strut]


@pytest.fixture(scope="module")
def ready() -> ReadyMap:
    return ReadyMap(draw_map(obstacles(), poses(), view_for(WHEEL, 150.0)))


@pytest.mark.parametrize("thickness_mm", [-20.0, 0.0, 12.0, 30.0])
@pytest.mark.parametrize("package", [WHEEL, rounded(310.0, 225.0), rounded(280.0, 180.0)])
def test_the_map_agrees_with_the_sweep_within_its_stated_error(
    ready: ReadyMap, package: Outline, thickness_mm: float
) -> None:
    found = {c.obstacle: c for c in contacts(ready, package, thickness_mm)}
    for obstacle in obstacles():
        swept = smallest_gap(package.slid(thickness_mm), obstacle, poses())
        assert swept is not None
        contact = found[obstacle.name]
        if contact.at_edge:
            assert swept.gap_mm >= contact.gap_mm - MAP_ERROR_MM
            continue
        if swept.gap_mm < 0.0:
            assert contact.safe_gap_mm <= 0.0
            continue
        assert contact.gap_mm - contact.error_mm - 1e-6 <= swept.gap_mm <= contact.gap_mm + swept.error_mm + 0.024
        assert contact.error_mm <= 0.05


def test_many_packages_at_once_give_what_one_at_a_time_gives(ready: ReadyMap) -> None:
    shapes = [rounded(r, w) for r in (270.0, 300.0, 315.0) for w in (170.0, 220.0)]
    rng = np.random.default_rng(1)
    which, thickness = rng.integers(0, len(shapes), 60).astype(np.int32), rng.uniform(-15, 15, 60)
    together = many_gaps(ready, package_set(shapes), which, thickness, deep=True)
    worst = max(layer.error_mm for layer in ready.drawn.layers)
    for gap, k, t in zip(together, which, thickness, strict=True):
        single = min(c.gap_mm for c in contacts(ready, shapes[k], float(t)))
        assert gap == pytest.approx(single - worst, abs=0.006)


def test_a_kept_map_answers_as_the_fresh_one_and_is_small(ready: ReadyMap, tmp_path: Path) -> None:
    save_map(ready.drawn, tmp_path / "corner.npz")
    again = ReadyMap(load_map(tmp_path / "corner.npz", ready.drawn.inputs))
    assert contacts(again, WHEEL, 5.0) == contacts(ready, WHEEL, 5.0)
    assert (tmp_path / "corner.npz").stat().st_size < 500_000


def test_a_map_drawn_from_other_inputs_is_refused(ready: ReadyMap, tmp_path: Path) -> None:
    save_map(ready.drawn, tmp_path / "corner.npz")
    other = inputs_hash(obstacles()[:2], poses(), ready.drawn.view)
    with pytest.raises(BadDataFile, match="hash"):
        load_map(tmp_path / "corner.npz", other)


def test_a_file_that_is_no_map_is_refused(tmp_path: Path) -> None:
    (tmp_path / "no.npz").write_bytes(b"PK\x03\x04 nothing")
    with pytest.raises(BadDataFile, match="saved meridian map"):
        load_map(tmp_path / "no.npz")


def test_the_thickness_limits_leave_exactly_what_is_owed() -> None:
    owed = {"body": 4.0, "liner": 4.0, "strut": 3.0}
    package = rounded(270.0, 160.0)
    bumper = Obstacle("bumper", "body", points([40.0, 130.0, -150.0]))
    ready = ReadyMap(draw_map([*obstacles(), bumper], poses(), view_for(WHEEL, 150.0)))
    limits = thickness_limits_mm(ready, package, owed, start_mm=-5.0)
    assert limits is not None
    for limit, sense in zip(limits, (-1.0, 1.0), strict=True):
        spare = min(c.safe_gap_mm - owed[c.kind] for c in contacts(ready, package, limit))
        beyond = min(c.safe_gap_mm - owed[c.kind] for c in contacts(ready, package, limit + 0.01 * sense))
        assert 0.0 <= spare <= 2e-4
        assert beyond < spare
    assert limits[0] < -5.0 < limits[1]


def test_a_start_that_does_not_fit_has_no_limits(ready: ReadyMap) -> None:
    assert thickness_limits_mm(ready, WHEEL, {"body": 500.0, "liner": 0.0, "strut": 0.0}) is None


def test_gaps_by_thickness_follow_each_obstacle(ready: ReadyMap) -> None:
    thickness = np.array([0.0, 10.0, 20.0])
    curves = gaps_by_thickness(ready, WHEEL, thickness)
    assert set(curves) == {"lip", "liner", "strut"}
    single = next(c for c in contacts(ready, WHEEL, 10.0) if c.obstacle == "strut")
    assert curves["strut"][1] == single.safe_gap_mm
    assert np.all(np.diff(curves["strut"]) >= 0.0)


def test_what_binds_next_is_second_in_the_list(ready: ReadyMap) -> None:
    gaps = [c.safe_gap_mm for c in contacts(ready, WHEEL)]
    assert gaps == sorted(gaps)
    assert len(gaps) == 3


def test_a_package_the_view_point_cannot_oversee_is_refused(ready: ReadyMap) -> None:
    dished = Outline(
        np.array([0.0, 240.0, 240.0, 300.0, 300.0, 0.0]), np.array([20.0, 20.0, 80.0, 80.0, -120.0, -120.0])
    )
    with pytest.raises(OutsideValidity, match="star-shaped"):
        contacts(ready, dished)


def test_an_obstacle_over_the_view_point_leaves_no_room() -> None:
    sheet = Obstacle("sheet", "body", np.array([[[-900, 0, -900.0], [900, 0, -900], [0, 0, 1500]]]))
    still = Poses(np.array([[0.0, -20.0, 0.0], [0.0, 20.0, 0.0]]), np.tile([0.0, 1.0, 0.0], (2, 1)))
    drawn = ReadyMap(draw_map([sheet], still, view_for(WHEEL)))
    assert contacts(drawn, WHEEL)[0].gap_mm < 0.0


def test_a_lone_point_swallowed_by_the_package_is_an_overlap() -> None:
    stud = Obstacle("stud", "body", points([0.0, -20.0, 250.0]))
    one = Poses(np.zeros((1, 3)), np.array([[0.0, 1.0, 0.0]]))
    drawn = ReadyMap(draw_map([stud], one, view_for(WHEEL)))
    assert contacts(drawn, WHEEL)[0].gap_mm == pytest.approx(-50.0, abs=0.05)
