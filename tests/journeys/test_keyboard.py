"""A main journey by the keys alone: the skip link, a new job, a wish, a reading, the bench; the focus is always in sight."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect
from tests.journeys.conftest import People
from tests.journeys.server import Site
from tests.journeys.steps import demo_job

pytestmark = pytest.mark.slow
MOST_STOPS = 120
SEEN = """() => {
  const it = document.activeElement, box = it.getBoundingClientRect(), style = getComputedStyle(it);
  const x = box.left + box.width / 2, y = box.top + Math.min(box.height / 2, 20);
  const over = document.elementFromPoint(Math.min(Math.max(x, 1), innerWidth - 1), Math.min(Math.max(y, 1), innerHeight - 1));
  return {
    name: it.outerHTML.slice(0, 120), inside: box.bottom > 0 && box.top < innerHeight && box.width > 0,
    marked: style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2,
    clear: !!over && (it.contains(over) || over.contains(it) || !!over.closest('label')?.contains(it) || over.closest('label')?.control === it),
  };
}"""


def go_to(page: Page, role: str, name: str) -> None:
    """Press Tab until the focus is there; fail where it cannot be seen on the way or is never reached."""
    wanted = page.get_by_role(role, name=name).first  # type: ignore[arg-type]  # roles by name
    for _ in range(MOST_STOPS):
        page.keyboard.press("Tab")
        seen = page.evaluate(SEEN)
        assert seen["inside"] and seen["marked"] and seen["clear"], seen
        if wanted.evaluate("it => it === document.activeElement"):
            return
    raise AssertionError(f"{role} {name} is not reached by Tab")


def test_a_job_is_begun_and_measured_by_the_keys_alone(plain_site: Site, people: People) -> None:
    ann = people(plain_site, "Ann", size="desktop")
    page, keys = ann.page, ann.page.keyboard
    ann.open("/")
    go_to(page, "link", "Skip to the content")
    keys.press("Enter")
    go_to(page, "link", "New job")
    keys.press("Enter")
    expect(page.get_by_role("heading", name="New job")).to_be_visible()
    go_to(page, "textbox", "Plate")
    keys.type("KEYS 1")
    go_to(page, "textbox", "What car is it?")
    keys.type("Coupe")
    go_to(page, "button", "Start the job")
    keys.press("Enter")
    expect(page.get_by_role("heading", level=1)).to_contain_text("KEYS 1")
    go_to(page, "combobox", "What is wished?")
    keys.type("as wide")
    go_to(page, "button", "Store")
    keys.press("Enter")
    expect(page.get_by_text("Stored as revision 2")).to_be_visible()
    go_to(page, "link", "Measure: Front axle")
    keys.press("Enter")
    expect(page.get_by_role("heading", name="All readings")).to_be_visible()
    go_to(page, "textbox", "Reading")
    keys.type("60")
    keys.press("Enter")
    expect(page.locator("[data-told]")).to_contain_text("on the disk")


def test_a_thickness_is_tried_by_the_keys_alone(plain_site: Site, people: People) -> None:
    ann = people(plain_site, "Ann", size="desktop")
    page, keys = ann.page, ann.page.keyboard
    ann.open(f"{demo_job(plain_site, 'hatchback')}/bench/rear")
    go_to(page, "textbox", "Thickness per side, mm")
    keys.press("Control+a")
    keys.type("20")
    expect(page.locator("#live")).to_contain_text("14.5 mm short")
    go_to(page, "slider", "Thickness per side")
    keys.press("ArrowLeft")
    expect(page.get_by_label("Thickness per side, mm")).to_have_value("19.5")
    for _ in range(MOST_STOPS):  # to the end of the page and out of it: no trap
        keys.press("Tab")
        if page.evaluate("document.activeElement === document.body"):
            break
    else:
        pytest.fail("Tab never leaves the page")
