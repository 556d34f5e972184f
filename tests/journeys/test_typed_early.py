"""What is typed before the script of the sheet has come is not lost."""

from __future__ import annotations

import pytest
from playwright.sync_api import Route, expect
from tests.journeys.conftest import People
from tests.journeys.server import Site

from hubwright.store.things import Query

pytestmark = pytest.mark.slow


def test_figures_typed_while_the_script_is_still_on_its_way_stay(plain_site: Site, people: People) -> None:
    with plain_site.cupboard() as cupboard:
        job = cupboard.find(Query(title="hatchback"))[0].id
    page = people(plain_site, "Ann", service_workers="block").page
    held: list[Route] = []
    page.route("**/js/sheet.js*", lambda route: held.append(route))  # noqa: PLW0108 - playwright marks the function it is given
    page.goto(
        f"{plain_site.address}/jobs/{job}/measure/rear?step=field%7Cleft%7C%7Cride_height_mm", wait_until="commit"
    )
    box = page.locator("form.take input.value")
    box.fill("353.5")
    for _ in range(100):
        if held:
            break
        page.wait_for_timeout(100)
    for route in held:
        route.continue_()
    expect(page.locator("[data-pad]")).to_be_visible()
    page.wait_for_timeout(500)
    expect(box).to_have_value("353.5")
