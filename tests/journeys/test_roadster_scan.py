"""The demo car with hard points and scanned arches: fine straight ahead, an overlap at lock, and what may be fitted."""

from __future__ import annotations

import io
import json
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from tests import made_scan

import hubwright
from hubwright.drawings.mapchart import map_svg
from hubwright.drawings.motion_charts import motion_svg
from hubwright.drawings.plan_view import plan_svg
from hubwright.drawings.scene3d import scene_glb
from hubwright.findings import Evidence
from hubwright.jobs.answer import Answer
from hubwright.jobs.motion_table import motion_table
from hubwright.jobs.room_table import RoomTable, room_table
from hubwright.parts.job import Job

pytestmark = pytest.mark.slow
PATH = Path(__file__).resolve().parents[2] / "examples" / "roadster-front-scan.toml"


@cache
def job() -> Job:
    return hubwright.load(PATH)


@cache
def answer() -> Answer:
    return hubwright.assess(job())


@cache
def room(side: str = "left") -> RoomTable:
    found = room_table(job(), "front", "left" if side == "left" else "right", counts=(9, 25))
    assert found is not None
    return found


def test_30_mm_is_fine_straight_ahead_and_overlaps_at_lock() -> None:
    table = room()
    assert min(table.straight_mm.values()) > 20
    assert table.with_disc[0].gap_mm < 0
    assert abs(table.with_disc[0].steer_deg or 0.0) > 20


def test_bump_and_lock_are_covered_by_the_map_so_5_mm_is_valid_but_never_released() -> None:
    axle = answer().axle("front")
    assert axle.plan.recommended_mm == 5.0
    assert not axle.released
    assert all(window.known for window in axle.plan.windows if window.question == "clearance")
    clearance = next(one for one in axle.plan.discs[1].findings if one.question == "clearance")
    assert clearance.evidence is Evidence.PREDICTED


def test_the_picked_scan_in_its_own_axes_and_metres_lies_where_the_other_side_does() -> None:
    left, right = room("left").bare[0], room("right").bare[0]
    assert right.gap_mm == pytest.approx(left.gap_mm, abs=1.0)
    assert np.allclose(left.place_mm, right.place_mm, atol=8.0)


def test_a_scan_placed_by_picks_leaves_the_same_room_as_the_one_in_the_axes_of_the_car(tmp_path: Path) -> None:
    truth = made_scan.made("left")
    made_scan.write_mesh(tmp_path / "roadster-arch-left.ply")
    (tmp_path / "roadster-arch-right.ply").write_bytes((PATH.parent / "roadster-arch-right.ply").read_bytes())
    table = (
        f'unit = "m"\naxis_free_mm = 150\nhub_plane = {truth.face[::4].tolist()}\nnormal = {truth.normal.tolist()}\n'
        f"hub_circle = {truth.spigot[::4].tolist()}\nforward = {truth.forward.tolist()}\n"
    )
    text = PATH.read_text().replace(
        'file = "roadster-arch-left.ply"\nunit = "mm"\n', f'file = "roadster-arch-left.ply"\n{table}'
    )
    placed = room_table(hubwright.parse(text, folder=tmp_path), "front", "left", counts=(9, 25))
    assert placed is not None
    for found, wanted in zip(placed.bare, room().bare, strict=True):
        assert found.gap_mm == pytest.approx(wanted.gap_mm, abs=0.6)
    assert placed.with_disc[0].gap_mm == pytest.approx(room().with_disc[0].gap_mm, abs=0.6)


def test_the_saved_map_gives_the_same_answer(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("HUBWRIGHT_CACHE", str(tmp_path))
    first = room_table(job(), "front", "left", counts=(5, 9))
    again = room_table(job(), "front", "left", counts=(5, 9))
    assert first is not None
    assert again is not None
    assert not first.from_cache
    assert again.from_cache
    assert again.plain() == first.plain()
    (kept,) = tmp_path.glob("*.npz")
    kept.write_bytes(b"spoilt")
    spoilt = room_table(job(), "front", "left", counts=(5, 9))
    assert spoilt is not None
    assert spoilt.plain() == first.plain()


def test_a_reading_that_the_map_contradicts_raises_a_question_with_its_mm(tmp_path: Path) -> None:
    text = (
        PATH.read_text()
        + '[[front.right.point]]\nname = "liner"\nroom = "outside"\nu_mm = 1\nreading = [{ travel_mm = 0, gap_mm = 15 }]\n'
    )
    for scan in PATH.parent.glob("*.ply"):
        (tmp_path / scan.name).write_bytes(scan.read_bytes())
    asked = hubwright.assess(hubwright.parse(text, folder=tmp_path)).questions
    (found,) = [one for one in asked if one.about == "reading and map disagree"]
    assert "15.0 mm was read" in found.text
    assert "more, and both doubts together" in found.text


def test_without_rack_travel_or_lock_angle_lock_stays_unknown() -> None:
    text = PATH.read_text().replace("steer_max_deg = 33\n", "")
    found = hubwright.assess(hubwright.parse(text, folder=PATH.parent)).axle("front")
    assert found.plan.recommended_mm is None
    assert any("full lock" in wanted.what for wanted in found.wanted)


def test_the_pictures_are_the_same_every_time_and_the_scene_loads_again() -> None:
    import trimesh

    table, motion = room(), motion_table(job(), "front", "left")
    for draw in (map_svg, plan_svg):
        assert draw(table) == draw(table)
        assert "overlap" in draw(table) or "−" in draw(table)
    assert motion_svg(motion).count("data-part") > 15
    data = scene_glb(table)
    assert data == scene_glb(table)
    scene = trimesh.load(io.BytesIO(data), file_type="glb")
    assert {"wheel", "swept space", "wheel in the state of the least gap"} <= set(scene.geometry)
    low, high = scene.geometry["wheel"].bounds
    assert high[1] - low[1] == pytest.approx(2 * table.mapped.outline.rho_mm.max() / 1000, abs=0.01)


def test_every_figure_of_motion_has_a_column_and_equilibria_are_told() -> None:
    table = motion_table(job(), "front", "left")
    wanted = {
        "camber_deg",
        "toe_deg",
        "half_track_mm",
        "caster_deg",
        "scrub_mm",
        "trail_mm",
        "front_arm_mm",
        "motion_ratio",
    }
    assert wanted <= set(table.by_travel)
    assert wanted <= set(table.by_rack)
    assert {case.name for case in table.cases} >= {"plate load", "kerb of 60 mm"}
    assert json.loads(json.dumps(table.plain()))["unsolved"] == []
