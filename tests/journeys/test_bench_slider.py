"""The bench in a real browser: the slider moves pictures, marks and figures; focus, folds and address keep up; no scripts, no loss."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect
from tests.journeys.conftest import People
from tests.journeys.server import Site
from tests.journeys.steps import demo_job

pytestmark = pytest.mark.slow
MARK = "document.querySelector('#windows [data-part=present]').getBoundingClientRect()"
TYRE = "document.querySelector('.layers [data-part=tyre]').getBoundingClientRect().x"


def says(page: Page) -> str:
    return page.locator("#says").inner_text().strip()


def test_the_slider_moves_wheel_mark_and_figures_and_keeps_the_focus(plain_site: Site, people: People) -> None:
    ann = people(plain_site, "Ann", size="desktop")
    page = ann.page
    ann.open(f"{demo_job(plain_site, 'hatchback')}/bench/rear")
    expect(page.locator("#says")).to_have_text(re.compile("5 mm plain disc, per side: valid"))
    mark, tyre = page.evaluate(f"{MARK}.x"), page.evaluate(TYRE)
    entries = page.evaluate("history.length")
    slider = page.get_by_role("slider", name="Thickness per side")
    slider.focus()
    for _ in range(5):
        slider.press("ArrowRight")
    expect(page.locator("#says")).to_have_text(re.compile("7.5 mm plain disc, per side: refused"))
    expect(page.locator("#live")).to_contain_text("9.0 mm of air with 7.5 mm, 11.0 mm wanted: 2.0 mm short")
    expect(page.locator("#section-left")).to_contain_text("disc 7.5 mm")
    expect(page.locator("#gap-right")).to_contain_text("pinch 9.0 mm")
    assert page.evaluate(f"{MARK}.x") > mark + 10
    assert page.evaluate(TYRE) < tyre - 1  # the left wheel comes out to the left
    expect(slider).to_be_focused()
    expect(slider).to_have_attribute("aria-valuetext", re.compile("7.5 mm plain disc, per side: refused"))
    expect(page).to_have_url(re.compile(r"[?&]t=7\.5(&|$)"))
    expect(page.locator("#beside")).to_contain_text("Working and source: 7.5 mm plain disc")
    ann.look()
    page.evaluate("before => history.go(before - history.length)", entries)  # one for each disc the hand rested on
    expect(page.locator("#says")).to_have_text(re.compile("5 mm plain disc, per side: valid"))
    expect(page.get_by_label("Thickness per side, mm")).to_have_value("5")


def test_steps_kinds_stock_discs_and_the_field_all_lead_to_the_same_bench(plain_site: Site, people: People) -> None:
    ann = people(plain_site, "Ann", size="phone")
    page = ann.page
    ann.open(f"{demo_job(plain_site, 'hatchback')}/bench/rear?t=5&work=1")
    page.get_by_role("button", name="0.5 mm thicker").click()
    expect(page.locator("#says")).to_have_text(re.compile("5.5 mm plain"))
    page.get_by_role("radio", name="lipped").check()
    expect(page.locator("#says")).to_have_text(re.compile("5.5 mm lipped disc, per side: refused"))
    page.get_by_role("navigation", name="Discs of the shelf").get_by_role("link", name="12 mm lipped").click()
    expect(page.locator("#says")).to_have_text(re.compile("12 mm lipped"))
    expect(page.get_by_label("Thickness per side, mm")).to_have_value("12")
    page.get_by_label("Thickness per side, mm").fill("7,3")
    expect(page.locator("#live")).to_contain_text("No lipped disc of 7.3 mm is kept")
    with ann.expecting(422):
        page.get_by_label("Thickness per side, mm").fill("thick")
        expect(page.locator("#live")).to_contain_text("a thickness per side from 0 to 150 mm; given thick")
        page.get_by_label("Thickness per side, mm").fill("5")
        expect(page.locator("#says")).to_have_text(re.compile("5 mm lipped"))
    page.get_by_role("link", name="As the car stands").click()
    expect(page.locator("#live")).to_contain_text("arch lip, inner edge, bump 46 mm")
    ann.look()


def test_a_hand_that_moves_faster_than_the_answers_ends_at_the_last_thickness(plain_site: Site, people: People) -> None:
    ann = people(plain_site, "Ann")
    page = ann.page
    ann.open(f"{demo_job(plain_site, 'hatchback')}/bench/rear?t=0&work=1")
    page.get_by_role("link", name="clearance").click()
    expect(page.locator("#beside details").first.locator("summary")).to_be_focused()
    page.evaluate("""async () => {
      const slider = document.getElementById("slider");
      for (let t = 0; t <= 20; t += 0.5) {
        slider.value = String(t);
        slider.dispatchEvent(new Event("input", { bubbles: true }));
        await new Promise((resolve) => setTimeout(resolve, 8));
      }
    }""")
    expect(page.locator("#says")).to_have_text(re.compile("20 mm plain disc"))
    ann.settled()
    assert "20 mm plain disc" in says(page)
    expect(page.locator("#section-right")).to_contain_text("disc 20 mm")
    expect(page.locator("#beside")).to_contain_text("Working and source: 20 mm plain disc")
    expect(page.locator("#beside details").first).to_have_attribute("open", "")


def test_the_bench_serves_without_scripts(plain_site: Site, people: People) -> None:
    ann = people(plain_site, "Ann", scripts=False, size="phone")
    page = ann.page
    ann.open(f"{demo_job(plain_site, 'coupe')}/bench/front")
    page.get_by_label("Thickness per side, mm").fill("8")
    page.get_by_role("button", name="Look").click()
    expect(page.locator("#says")).to_contain_text("8 mm plain disc, per side: refused")
    expect(page.locator("#live")).to_contain_text("leaves no pilot")
    page.get_by_role("button", name="0.5 mm thinner").click()
    expect(page.locator("#says")).to_contain_text("7.5 mm plain")
    page.get_by_role("radio", name="lipped").check()
    page.get_by_role("button", name="Look").click()
    expect(page.locator("#says")).to_contain_text("7.5 mm lipped")
    assert not page.get_by_role("slider").is_visible()
    ann.look()


@pytest.mark.parametrize(
    ("size", "likes"), [("phone", "de.inch.auto"), ("tablet", "en.metric.auto"), ("desktop", "de.metric.auto")]
)
def test_the_bench_of_every_kind_of_job_is_readable_and_free_of_barriers(
    plain_site: Site, people: People, size: str, likes: str
) -> None:
    ann = people(plain_site, "Ann", size=size, likes=likes)
    for title, axle in (("hatchback", "rear"), ("off-roader", "rear"), ("mail order", "front"), ("18-inch", "rear")):
        ann.open(f"{demo_job(plain_site, title)}/bench/{axle}")


def test_a_scanned_car_answers_at_once_and_gains_its_map_by_itself(plain_site: Site, people: People) -> None:
    ann = people(plain_site, "Ann", size="desktop")
    page = ann.page
    page.goto(f"{plain_site.address}{demo_job(plain_site, 'roadster')}/bench/front?t=5&kind=plain")
    expect(page.locator("#section-left")).to_contain_text("disc 5 mm")  # whether the map is there yet or not
    expect(page.locator("#section-left")).to_contain_text("M 10.8", timeout=180_000)
    expect(page.locator("#waiting")).to_have_count(0)
    expect(page.locator(".by-map")).to_contain_text("pinch 10.8 mm, 26° right")
    page.get_by_role("slider", name="Thickness per side").press("End")
    expect(page.locator("#section-left")).to_contain_text("M ✕")
    expect(page.locator("#live")).to_contain_text("by the map (hard points)")
    ann.look()
