"""A scan as the scanner left it, placed by tapping on it in a real browser: picks, undo, the car, kept; and without WebGL."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest
from playwright.sync_api import Browser, expect
from tests import made_scan
from tests.journeys.browser import Visitor, visitor
from tests.journeys.conftest import People
from tests.journeys.server import Site
from tests.made_scan import EXAMPLES, Floats, made, text

pytestmark = pytest.mark.slow


@pytest.fixture
def job(plain_site: Site) -> Iterator[str]:
    """The roadster without its scans."""
    whole = (EXAMPLES / "roadster-front-scan.toml").read_text()
    bare = re.sub(r"\[\[front\.(left|right)\.scan\]\]\n(?:[^\[\n][^\n]*\n)*", "", whole).replace(
        "Roadster", "Scanned car"
    )
    with plain_site.cupboard() as cupboard:
        yield cupboard.add(bare, "Ann").job_id


def brought(one: Visitor, job: str, tmp_path: Path, *, points: bool = False) -> None:
    path = tmp_path / ("arch.csv" if points else "arch.ply")
    if points:
        rows = made_scan.cloud(strays=0, noise_mm=0.05)
        path.write_text("x_mm,y_mm,z_mm\n" + "\n".join(",".join(f"{v:.6f}" for v in row) for row in rows))
    else:
        made_scan.write_mesh(path)
    one.open(f"/jobs/{job}/space/front/left/scan")
    one.page.set_input_files("#f-file", path)
    one.page.get_by_role("button", name="Bring it and place it").click()


def look_at(one: Visitor, target: Floats, from_: Floats, away_m: float) -> None:
    one.page.locator("canvas").scroll_into_view_if_needed()
    one.page.evaluate(
        """([target, from, away]) => { const { picker } = document.querySelector("[data-scan]");
        picker.lookAt(picker.placed(target.join("; ")).toArray(), from, away); }""",
        [target.tolist(), from_.tolist(), away_m],
    )


def tap(one: Visitor, place: Floats) -> None:
    x, y = one.page.evaluate('at => document.querySelector("[data-scan]").picker.onScreen(at)', place.tolist())
    one.page.mouse.click(x, y)


def typed(one: Visitor, name: str) -> list[str]:
    return [
        value for value in one.page.locator(f"input[name={name}]").evaluate_all("all => all.map(i => i.value)") if value
    ]


@pytest.mark.parametrize(("size", "points"), [("tablet", False), ("desktop", True)])
def test_a_scan_is_placed_by_tapping_on_it(
    plain_site: Site, gl_browser: Browser, job: str, tmp_path: Path, size: str, points: bool
) -> None:
    ann, truth = visitor(gl_browser, plain_site, "Ann", size=size), made("left")
    brought(ann, job, tmp_path, points=points)
    ann.page.wait_for_selector("[data-drawn=yes]")
    expect(ann.page.locator("[data-says]")).to_have_text("point H1")
    look_at(ann, truth.centre, truth.normal, 0.6)
    for number in (0, 5, 10, 15, 20):
        tap(ann, truth.face[number])
    assert len(typed(ann, "plane")) == 5
    ann.page.get_by_role("button", name="Undo the last pick").click()
    assert len(typed(ann, "plane")) == 4
    tap(ann, truth.face[20])
    ann.page.get_by_role("button", name="Round the hub").click()
    ann.page.locator("canvas").scroll_into_view_if_needed()
    for number in (2, 7, 12, 17, 22):
        tap(ann, truth.spigot[number])
    ann.page.get_by_role("button", name="Further back").click()
    look_at(ann, truth.centre, truth.normal, 1.8)
    tap(ann, truth.rear)
    tap(ann, truth.front)  # the next to be picked by itself
    for place, figures in ((truth.face[0], typed(ann, "plane")[0]), (truth.rear, typed(ann, "rear")[0])):
        picked = np.array([float(figure) for figure in figures.split(";")])
        assert np.linalg.norm(picked - place) < 0.03  # the corner of the scan nearest to the tap
    expect(ann.page.locator("#outcome")).to_contain_text(
        re.compile(r"Circle round the hub: radius 3[23]\.\d mm, 5 points")
    )
    expect(ann.page.locator("#outcome svg.hw-drawing")).to_have_count(2)
    ann.page.get_by_role("button", name="On the car").click()
    assert ann.page.locator(".spot.axis").all_inner_texts() == ["forward", "outboard", "up"]
    ann.page.get_by_label("Doubt of its points, mm").fill("0.5")
    ann.look()
    ann.page.get_by_role("button", name="Keep it with the job").click()
    expect(ann.page.locator("#kept")).to_contain_text("Kept as revision 2.")
    with plain_site.cupboard() as cupboard:
        assert b"hub_circle" in cupboard.job(job).data
    ann.look()
    ann.close()


def test_by_keyboard_enter_picks_at_the_cross(plain_site: Site, gl_browser: Browser, job: str, tmp_path: Path) -> None:
    ann, truth = visitor(gl_browser, plain_site, "Ann", size="desktop"), made("left")
    brought(ann, job, tmp_path)
    ann.page.wait_for_selector("[data-drawn=yes]")
    look_at(ann, truth.face[3], truth.normal, 0.5)
    ann.page.locator("canvas").focus()
    ann.page.keyboard.press("Enter")
    (figures,) = typed(ann, "plane")
    ann.page.reload()  # nothing was kept yet, and nothing is lost
    ann.page.wait_for_selector("[data-drawn=yes]")
    expect(ann.page.locator("[data-says]")).to_have_text("What was picked here before is back.")
    assert typed(ann, "plane") == [figures]
    assert np.linalg.norm(np.array([float(figure) for figure in figures.split(";")]) - truth.face[3]) < 1e-4
    ann.close()


def test_without_webgl_and_on_a_phone_it_is_typed(plain_site: Site, people: People, job: str, tmp_path: Path) -> None:
    bo, truth = people(plain_site, "Bo", size="phone"), made("left")
    bo.page.add_init_script("HTMLCanvasElement.prototype.getContext = () => null")
    brought(bo, job, tmp_path)
    expect(bo.page.locator("[data-says]")).to_contain_text("This browser cannot draw in 3-D")
    for number, place in enumerate((0, 6, 12, 18)):
        bo.page.locator("input[name=plane]").nth(number).fill(text(truth.face[place]))
        bo.page.locator("input[name=circle]").nth(number).fill(text(truth.spigot[place]))
    bo.page.get_by_label("Further back").fill(text(truth.rear))
    bo.page.get_by_label("Further ahead").fill(text(truth.front))
    with bo.expecting(422):
        bo.page.get_by_role("button", name="Show how it lies").last.click()
        expect(bo.page.locator("#outcome svg.hw-drawing")).to_have_count(2)
    bo.look()
    bo.page.get_by_role("button", name="Keep it with the job").click()
    expect(bo.page.locator("#kept")).to_contain_text("Kept as revision 2.")
