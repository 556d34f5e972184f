"""The space around the wheels: at lock from readings, maps drawn beside the requests, scene and states for the viewer."""

from __future__ import annotations

import html
import threading

import numpy as np
import pytest
from tests.web.conftest import ROOT, Page, example, words_of

from hubwright.store.cupboard import Cupboard
from hubwright.web.space import corners


def words(page: Page, address: str, status: int = 200) -> str:
    answer = page.get(address)
    assert answer.status_code == status, words_of(answer)
    return html.unescape(words_of(answer))


@pytest.fixture
def compact(cupboard: Cupboard) -> str:
    return cupboard.add(example("compact-front-lock"), "Ann").job_id


def test_gaps_at_lock_shrink_fore_and_aft_by_the_sine_and_sideways_by_the_cosine(page: Page, compact: str) -> None:
    """14 - 15 sin 37 = 5.0 at the liner, 18 - 9.0 at the bumper corner, 16 - 15 cos 37 = 4.0 at the lip."""
    shown = words(page, f"/jobs/{compact}/space/front?t=15")
    assert "Front left, lower liner behind the wheel parked, steered 37° left; 14.0 mm without a disc 5.0 mm" in shown
    assert "Front left, bumper corner parked, steered 37° right; 18.0 mm without a disc 9.0 mm" in shown
    assert "Front left, arch lip bump 70 mm, steered 37° right; 16.0 mm without a disc 4.0 mm" in shown
    shown = words(page, f"/jobs/{compact}/space/front?t=5")
    assert "14.0 mm without a disc 11.0 mm 10.5 mm +0.4 fits" in shown


def test_the_view_from_above_is_drawn_for_each_wheel_at_each_lock(page: Page, compact: str) -> None:
    answer = page.get(f"/jobs/{compact}/space/front?t=15")
    assert answer.text.count("hw-drawing hw-lock") == 4
    assert answer.text.count('data-part="bumper corner"') == 2


def test_without_a_scan_the_page_says_what_is_missing_and_how_to_add_it(page: Page, compact: str) -> None:
    shown = words(page, f"/jobs/{compact}/space/rear")
    assert "What a clearance map and the 3-D view need" in shown
    assert "[[rear.left.scan]]" in shown
    assert "How the wheel moves (class guess)" in shown


def test_a_steered_axle_nobody_read_at_lock_is_not_known(page: Page, cupboard: Cupboard) -> None:
    job = cupboard.add(example("coupe-front-dead-zone"), "Ann").job_id
    cupboard.enter(job, [(f"front.{side}.point", None) for side in ("left", "right")], "Ann", base=1)
    assert "at lock: not known" in words(page, f"/jobs/{job}/space/front")


@pytest.mark.slow
def test_a_scan_that_is_named_but_not_attached_is_asked_for(
    page: Page, cupboard: Cupboard, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(corners.corner_of, "__defaults__", (None,))  # wait for the motion, however long it takes
    job = cupboard.add(example("roadster-front-scan"), "Ann").job_id
    assert "The job names a scan, but its file is not attached." in words(page, f"/jobs/{job}/space/front")
    assert page.get(f"/jobs/{job}/space/front/left/scene.glb").status_code == 404


@pytest.mark.parametrize("address", ["front?t=-1", "front?t=x", "front?t=151", "middle", "front/left/states.json?t=no"])
def test_odd_addresses_have_clear_answers(page: Page, compact: str, address: str) -> None:
    assert page.get(f"/jobs/{compact}/space/{address}").status_code == 422


def test_an_axle_the_job_says_nothing_about_has_a_page(page: Page, cupboard: Cupboard) -> None:
    job = cupboard.add(example("hatchback-rear-flush"), "Ann").job_id
    assert "The job says nothing about this axle yet." in words(page, f"/jobs/{job}/space/front")
    assert page.get(f"/jobs/{job}/space/front/left/states.json").status_code == 404


def test_a_map_is_drawn_beside_the_request_and_the_page_looks_again(
    page: Page, cupboard: Cupboard, compact: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    line = '{ name = "lip", clock_deg = [-30.0, 0.0, 30.0], radius_mm = [352.0, 350.0, 352.0], outboard_mm = [60, 60, 60] }'
    cupboard.enter(compact, [("front.left.line[+]", line)], "Ann", base=1)
    go = threading.Event()

    def slow(*asked: object) -> corners.Corner:
        if asked[-1] == "left":
            go.wait(10)
        return corners.Corner(None, None, ())

    monkeypatch.setattr(corners, "_worked", slow)
    monkeypatch.setattr(corners.corner_of, "__defaults__", (0.01,))
    answer = page.get(f"/jobs/{compact}/space/front")
    assert "The clearance map is being drawn." in words_of(answer)
    assert page.get(f"/jobs/{compact}/space/front/left/scene.glb").status_code == 202
    again = page.get(f"/jobs/{compact}/space/front", headers={"hw-part": "waiting"})
    assert "hx-refresh" not in again.headers and 'hx-trigger="every 2s"' in again.text
    go.set()
    for _ in range(500):
        again = page.get(f"/jobs/{compact}/space/front", headers={"hw-part": "waiting"})
        if "hx-refresh" in again.headers:
            break
    assert again.headers["hx-refresh"] == "true"


def test_what_cannot_be_drawn_says_why(
    page: Page, cupboard: Cupboard, compact: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    line = '{ name = "lip", clock_deg = [0.0], radius_mm = [350.0], outboard_mm = [60.0] }'
    cupboard.enter(compact, [("front.left.line[+]", line)], "Ann", base=1)

    def broken(*asked: object) -> corners.Corner:
        if asked[-1] == "left":
            raise ZeroDivisionError
        return corners.Corner(None, None, ())

    monkeypatch.setattr(corners, "_worked", broken)
    assert "The map could not be drawn." in words(page, f"/jobs/{compact}/space/front")


@pytest.mark.slow
def test_the_viewer_gets_a_scene_with_a_wheel_and_poses_that_agree_with_the_words(
    page: Page, cupboard: Cupboard
) -> None:
    trimesh = pytest.importorskip("trimesh")
    job = cupboard.add(example("roadster-front-scan"), "Ann").job_id
    for side in ("left", "right"):
        with (ROOT / "examples" / f"roadster-arch-{side}.ply").open("rb") as file:
            cupboard.attach(job, file, f"roadster-arch-{side}.ply", "Ann")
    for _ in range(600):
        answer = page.get(f"/jobs/{job}/space/front?t=30")
        if "data-viewer" in answer.text and "Being drawn." not in answer.text:
            break
        threading.Event().wait(0.2)
    assert answer.text.count("data-viewer") == 2
    assert "hw-drawing hw-above" in answer.text and "hw-drawing hw-map" in answer.text
    for side, outboard in (("left", -1.0), ("right", 1.0)):
        states = page.get(f"/jobs/{job}/space/front/{side}/states.json?t=30").json()
        least = states["least"]
        assert "overlap" in least["words"] or "short" in least["words"]
        assert least["place"][0] * outboard > 0.5  # glTF: the left of the car is -X
        for state in (least, *(one for row in states["states"] for one in row if one and one["near"])):
            apart = np.linalg.norm(np.array(state["near"]) - np.array(state["wheel"])) * 1000
            assert apart == pytest.approx(abs(state["gap_mm"]), abs=0.3)
            assert least["gap_mm"] <= state["gap_mm"] + 0.05
        scene = trimesh.load(
            trimesh.util.wrap_as_stream(page.get(f"/jobs/{job}/space/front/{side}/scene.glb?t=30").content), "glb"
        )
        matrix, _ = scene.graph["wheel"]
        assert matrix[:3, 3] == pytest.approx(least["place"], abs=1e-5)
        assert np.linalg.det(matrix[:3, :3]) == pytest.approx(1.0)
        assert {"tyre", "disc", "wheel"} <= set(scene.graph.nodes)
