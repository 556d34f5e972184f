"""A scan laid on the car: the truth is found again whatever the order of the picks, and mix-ups are asked about."""

from __future__ import annotations

import dataclasses
import math
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from tests import made_scan
from tests.made_scan import EXAMPLES, Floats, made

import hubwright
from hubwright.errors import BadInput
from hubwright.jobs.pick_sense import with_sense
from hubwright.jobs.placing import Placing, placing_of, scan_turn
from hubwright.jobs.placing_words import facts_of, questions_of
from hubwright.jobs.scan_units import size_of
from hubwright.jobs.scans import place_scan, read_shape
from hubwright.parts.job import Job
from hubwright.parts.scan import UNIT_MM, LeftOut, Scan
from hubwright.quantities.axes import SIDES, Side


@cache
def job() -> Job:
    return hubwright.load(EXAMPLES / "roadster-front-scan.toml")


def places(rows: Floats) -> tuple[tuple[float, float, float], ...]:
    return tuple((float(x), float(y), float(z)) for x, y, z in rows)


def picked(side: Side, order: tuple[int, ...] = (0, 11, 5, 17, 14)) -> Scan:
    """Hub face in no order at all, the edge of the spigot, forward."""
    truth = made(side)
    (forward,) = places(truth.forward[None])
    return Scan(
        name="arch", file="x.ply", unit="m", hub_circle=places(truth.spigot[::5]), hub_plane=places(truth.face[list(order)]),
        forward=forward,
    )  # fmt: skip


def laid(scan: Scan, side: Side, path: Path) -> Placing:
    sensed = with_sense(scan, side, read_shape(path, UNIT_MM[scan.unit]))
    return placing_of(job(), "front", side, sensed, path)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return made_scan.write_mesh(tmp_path / "left.ply")


@pytest.mark.parametrize("side", SIDES)
@pytest.mark.parametrize("order", [(0, 11, 5, 17, 14), (17, 14, 11, 5, 0)])
def test_a_turned_and_shifted_scan_is_laid_where_it_belongs(side: Side, order: tuple[int, ...], tmp_path: Path) -> None:
    path, truth = made_scan.write_mesh(tmp_path / "scan.ply", side), made(side)
    placing = laid(picked(side, order), side, path)
    turn, shift = scan_turn(placing)
    back = 1000.0 * truth.vertices @ turn.T + shift
    assert (
        np.abs(back[: len(truth.arch_mm)] - truth.arch_mm).max() < 0.5
    )  # the job's toe of 0.05 degrees is not in the truth
    assert np.linalg.det(turn) == pytest.approx(1.0)
    assert placing.asked == ()
    assert placing.picks is not None
    assert placing.picks.circle_radius_mm == pytest.approx(made_scan.SPIGOT_RADIUS_MM, abs=0.01)


def test_the_other_wheel_and_forward_turned_round_are_asked_about(path: Path) -> None:
    scan = picked("left")
    assert laid(scan, "right", path).asked == ("outside",)
    ahead = scan.forward
    assert ahead is not None
    backwards = dataclasses.replace(scan, forward=(-ahead[0], -ahead[1], -ahead[2]))
    (question,) = [one for one in questions_of(laid(backwards, "left", path)) if one.grave]
    assert "Is it inside out?" in question.text
    assert "the right wheel" in question.todo


def test_a_stated_axis_that_points_inboard_lays_the_scan_upside_down_which_is_asked_about(path: Path) -> None:
    scan = picked("left")
    x, y, z = (-float(value) for value in made("left").normal)
    wrong = dataclasses.replace(scan, normal=(x, y, z))
    assert "below" in placing_of(job(), "front", "left", wrong, path).asked


def test_another_unit_is_asked_about(path: Path) -> None:
    placing = laid(dataclasses.replace(picked("left"), unit="mm"), "left", path)
    assert "size" in placing.asked


def test_a_picked_end_of_the_spigot_is_not_taken_for_the_centre_of_the_face(path: Path) -> None:
    truth = made("left")
    (nose,) = places(truth.spigot.mean(axis=0)[None])
    wrong = dataclasses.replace(picked("left"), hub_circle=(), hub_centre=nose)
    placing = laid(wrong, "left", path)
    assert placing.asked == ("centre off plane",)
    assert abs(placing.centre_off_mm or 0.0) == pytest.approx(made_scan.SPIGOT_MM, abs=0.01)


def test_one_pick_beside_the_face_is_named_by_its_number_and_its_doubt_is_owed(path: Path) -> None:
    scan, truth = picked("left", (0, 4, 8, 12, 16, 20)), made("left")
    bad = np.array(scan.hub_plane)
    bad[3] += 0.005 * truth.normal  # 5 mm outboard
    placing = laid(dataclasses.replace(scan, hub_plane=places(bad)), "left", path)
    (asked,) = [one for one in questions_of(placing) if one.code == "plane scatter"]
    assert asked.text.startswith("Point 4 ")
    assert placing.placed.picks_mm is not None
    assert placing.placed.doubt_mm > 3.0


def test_three_picks_tell_nothing_of_themselves_and_it_is_said(path: Path) -> None:
    placing = laid(picked("left", (0, 8, 16)), "left", path)
    assert "three picks" in placing.doubtful
    assert placing.asked == ()
    assert any("three points always lie on a plane" in fact for fact in facts_of(placing))


def test_strays_are_thrown_out_counted_and_the_rule_is_said(tmp_path: Path) -> None:
    cloud = made_scan.cloud(strays=20, noise_mm=0.3)
    path = tmp_path / "cloud.csv"
    path.write_text("x_mm,y_mm,z_mm\n" + "\n".join(",".join(f"{v:.7f}" for v in row) for row in cloud))
    placing = laid(picked("left"), "left", path)
    placed = placing.placed
    assert 15 <= placed.removed <= 0.04 * len(cloud)
    assert placed.noise_mm is not None
    assert 0.2 < placed.noise_mm < 1.0  # made with 0.3; the bend of the surface between neighbours makes it err high
    assert any("outliers thrown out: farther than" in fact for fact in facts_of(placing))
    assert placing.asked == ()


def test_hub_and_brake_are_left_out_up_to_the_depth_of_a_rim_and_a_ball_where_it_was_picked(path: Path) -> None:
    scan, hub = picked("left"), np.array([0.0, 800.0, 300.0])
    shape = read_shape(path, 1000.0)
    whole = place_scan(shape, scan, "left", hub, np.array([0.0, 1.0, 0.0]))
    bare = place_scan(shape, dataclasses.replace(scan, axis_free_mm=100), "left", hub, np.array([0.0, 1.0, 0.0]))
    assert whole.left_out == 0
    assert bare.left_out == 144  # three rings of 24 quarters, each of two triangles
    (rear,) = places(made("left").rear[None])
    cut = dataclasses.replace(scan, left_out=(LeftOut(centre=rear, radius_mm=60),))
    assert 0 < place_scan(shape, cut, "left", hub, np.array([0.0, 1.0, 0.0])).left_out < 100
    all_of_it = dataclasses.replace(scan, left_out=(LeftOut(centre=rear, radius_mm=2000),))
    with pytest.raises(BadInput, match="something of the scan that is kept"):
        place_scan(shape, all_of_it, "left", hub, np.array([0.0, 1.0, 0.0]))


@pytest.mark.parametrize(
    ("length", "unit"),
    [(0.9, "m"), (900.0, "mm"), (90.0, "cm"), (35.0, "in"), (4.6, "m"), (4600.0, "mm"), (0.01, None)],
)
def test_the_unit_is_guessed_from_the_size(length: float, unit: str | None) -> None:
    chance = np.random.default_rng(1).uniform(0.0, 1.0, (4000, 3)) * np.array([length, length / 2, length / 3])
    strays = np.concatenate([chance, [[50 * length] * 3]])
    found = size_of(strays)
    assert found.guess == unit
    assert found.length == pytest.approx(length, rel=0.05)


def test_the_doubt_of_few_and_close_picks_is_larger() -> None:
    from hubwright.engineering.envelope.picks import plane_doubt_mm

    chance = np.random.default_rng(3)

    def doubt(radius: float, count: int) -> float:
        found = []
        for _ in range(200):
            angle = np.arange(count) * 2 * math.pi / count
            ring = np.column_stack([radius * np.cos(angle), chance.normal(0, 0.3, count), radius * np.sin(angle)])
            found.append(plane_doubt_mm(ring, 350.0) or 0.0)
        return float(np.sqrt(np.mean(np.square(found))))

    # by hand: s * sqrt(1/n + (L / (r sqrt(n/2)))^2) with s = 0.3, L = 350
    assert doubt(60.0, 6) == pytest.approx(0.3 * math.sqrt(1 / 6 + (350 / (60 * math.sqrt(3))) ** 2), rel=0.1)
    assert doubt(60.0, 6) > 1.8 * doubt(120.0, 6)
    assert doubt(60.0, 5) > doubt(60.0, 12)


def test_a_file_in_the_axes_of_the_car_on_the_other_side_is_asked_about_and_a_whole_car_is_not(tmp_path: Path) -> None:
    for sides, asked in (((1.0,), ()), ((-1.0,), ("other side",)), ((1.0, -1.0), ())):
        path = tmp_path / f"{len(sides)}{sides[0]}.csv"
        arch = np.concatenate([made("left").arch_mm * np.array([1.0, side, 1.0]) for side in sides])
        path.write_text("x_mm,y_mm,z_mm\n" + "\n".join(",".join(f"{v:.4f}" for v in row) for row in arch))
        scan = Scan(name="arch", file=path.name, unit="mm")
        assert [one for one in placing_of(job(), "front", "left", scan, path).asked if one == "other side"] == list(
            asked
        )


def test_what_the_knuckle_carries_is_laid_inboard_of_the_hub_face_whatever_the_order_of_the_picks(
    tmp_path: Path,
) -> None:
    truth, chance = made("left"), np.random.default_rng(4)
    across = np.cross(truth.normal, truth.forward)
    parts = chance.uniform(-0.15, 0.15, (400, 3)) @ np.stack([truth.forward, across, 0.0 * across])
    parts = (
        truth.centre + parts - chance.uniform(0.03, 0.2, (400, 1)) * truth.normal
    )  # a brake, say: inboard of the face
    path = tmp_path / "knuckle.csv"
    path.write_text("x_mm,y_mm,z_mm\n" + "\n".join(",".join(f"{v:.6f}" for v in row) for row in parts))
    for order in ((0, 8, 16, 4), (16, 8, 0, 4)):
        scan = dataclasses.replace(picked("left", order), kind="carried", outliers=False)
        placing = laid(scan, "left", path)
        assert placing.on_hub_mm[..., 1].max() < -25.0
        assert "outside" not in placing.asked
