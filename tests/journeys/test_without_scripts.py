"""With scripts off everything but the 3-D view still works: pages are drawn by the server, forms are posted."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect
from tests.journeys.conftest import People
from tests.journeys.server import Site
from tests.journeys.steps import demo_job, new_job, store

pytestmark = pytest.mark.slow


def test_a_job_is_begun_changed_and_taken_back_with_scripts_off(plain_site: Site, people: People) -> None:
    ann = people(plain_site, "Ann", scripts=False)
    page = ann.page
    ann.open("/")
    job = new_job(page, "OFF 1")
    ann.look()
    page.goto(f"{plain_site.address}{job}/car")
    wish = page.get_by_role("group", name="Rear axle")
    wish.get_by_label("What is wished?").select_option(label="a certain disc")
    wish.get_by_label("Disc asked for, per side").fill("twenty")
    with ann.expecting(422):
        page.get_by_role("button", name="Store").click()
        expect(page.get_by_role("alert")).to_contain_text("twenty")
    ann.look()
    wish.get_by_label("Disc asked for, per side").fill("20")
    store(page)
    ann.look()
    ann.open(f"{job}/history")
    page.get_by_role("button", name="Take back revision 2").click()
    expect(page.get_by_role("main")).to_contain_text("Revision 3")
    ann.look()


def test_answers_are_read_with_scripts_off(plain_site: Site, people: People) -> None:
    ann = people(plain_site, "Ann", scripts=False, size="phone")
    job = demo_job(plain_site, "hatchback")
    for name in ("fasteners/rear", "effects", "law"):
        ann.open(f"{job}/{name}")
        ann.page.get_by_role("link", name="10 mm").click()
        expect(ann.page.get_by_role("main")).to_contain_text("10 mm")
        ann.look()
