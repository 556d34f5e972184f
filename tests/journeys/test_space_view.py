"""The 3-D view really draws, in a real browser with WebGL in software; without WebGL the page says so."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser
from tests.journeys.browser import Visitor, visitor
from tests.journeys.conftest import People
from tests.journeys.server import Site

from hubwright.store.things import Query

pytestmark = pytest.mark.slow
COLOURS = """canvas => {
  const copy = Object.assign(document.createElement('canvas'), {width: 160, height: 120});
  const pen = copy.getContext('2d');
  pen.drawImage(canvas, 0, 0, 160, 120);
  const bytes = pen.getImageData(0, 0, 160, 120).data, found = new Map();
  let sum = 0;
  for (let i = 0; i < bytes.length; i += 4) {
    const key = (bytes[i] >> 3 << 10) | (bytes[i + 1] >> 3 << 5) | bytes[i + 2] >> 3;
    found.set(key, (found.get(key) || 0) + 1);
    sum = (sum * 31 + key) % 1000003;
  }
  return [found.size, Math.max(...found.values()) / (160 * 120), sum];
}"""


def roadster(site: Site) -> str:
    with site.cupboard() as cupboard:
        return cupboard.find(Query(title="roadster"))[0].id


def opened(one: Visitor, job: str) -> None:
    one.page.goto(f"{one.site.address}/jobs/{job}/space/front?t=30")
    one.page.wait_for_selector("[data-drawn]", timeout=180_000, state="attached")


def test_the_view_draws_the_wheel_and_moves_it_by_keyboard(plain_site: Site, gl_browser: Browser) -> None:
    ann = visitor(gl_browser, plain_site, "Ann", size="desktop")
    opened(ann, roadster(plain_site))
    ann.page.wait_for_selector("[data-drawn=yes]")
    view = ann.page.locator("[data-viewer]").first
    canvas = view.locator("canvas")
    kinds, most, first = canvas.evaluate(COLOURS)
    assert kinds > 40  # shaded rubber, bodywork, disc: not one flat colour
    assert most < 0.95  # something stands before the background
    assert "Droop 55 mm" in view.locator("[data-says]").inner_text()
    view.locator("[data-travel]").focus()
    ann.page.keyboard.press("End")
    assert "Bump 70 mm" in view.locator("[data-says]").inner_text()
    assert view.locator("[data-travel]").get_attribute("aria-valuetext", timeout=1000).startswith("Bump 70 mm")
    second = canvas.evaluate(COLOURS)[2]
    assert second != first
    canvas.focus()
    ann.page.keyboard.press("ArrowRight")
    assert canvas.evaluate(COLOURS)[2] != second
    view.locator("[data-look=near]").click()
    assert view.locator("[data-look=near]").get_attribute("aria-pressed") == "true"
    ann.look()
    ann.close()


def test_without_webgl_the_page_says_so_and_the_drawings_stand(plain_site: Site, people: People) -> None:
    bo = people(plain_site, "Bo", size="phone")
    bo.page.add_init_script("HTMLCanvasElement.prototype.getContext = () => null")
    opened(bo, roadster(plain_site))
    view = bo.page.locator("[data-viewer]").first
    assert "cannot draw in 3-D" in view.locator("[data-says]").inner_text()
    assert not view.locator("canvas").is_visible()
    assert bo.page.locator("svg.hw-above").first.is_visible()
    bo.look()


def test_without_scripts_the_drawings_and_figures_stand(plain_site: Site, people: People) -> None:
    cy = people(plain_site, "Cy", scripts=False)
    job = roadster(plain_site)
    for _ in range(60):
        cy.page.goto(f"{plain_site.address}/jobs/{job}/space/front?t=30")
        if cy.page.locator("svg.hw-above").count():
            break
        cy.page.wait_for_timeout(2000)
    assert cy.page.locator("svg.hw-above").count() == 2
    assert cy.page.get_by_text("The 3-D view needs scripts").first.is_visible()
    assert not cy.page.locator("[data-viewer]").first.is_visible()
