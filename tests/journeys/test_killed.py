"""The server is killed while readings are typed: none the page called stored is lost, none that waited arrives twice."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import expect
from tests.databases import Place
from tests.journeys.conftest import People
from tests.journeys.server import Site
from tests.journeys.steps import choose, new_job, take

pytestmark = pytest.mark.slow
GROUP = "How the car stands"


@pytest.fixture
def own_site(place: Place, tmp_path: Path) -> Iterator[Site]:
    """A server of the test's own, on each database in turn."""
    site = Site(tmp_path, place.database, demo=False)
    site.start()
    yield site
    site.stop()
    assert "Traceback" not in site.log, site.log


def test_readings_typed_around_a_killed_server_are_all_there_once(own_site: Site, people: People) -> None:
    ann = people(own_site, "Ann", size="phone")
    page = ann.page
    ann.open("/")
    job = new_job(page, "CUT 1")
    ann.open(f"{job}/measure/rear")
    take(page, GROUP, "Ride height, left", "352")
    own_site.kill()
    choose(page, GROUP, "Ride height, right")
    form = page.locator("form.take")
    form.locator("input.value").fill("350")
    form.get_by_role("button", name="Keep", exact=True).click()
    expect(page.locator("[data-line-words]")).to_contain_text("1 reading waits in this browser")
    with own_site.cupboard() as cupboard:
        kept = cupboard.job(job.removeprefix("/jobs/"))
        assert "ride_height_mm = 352" in kept.text and "350" not in kept.text
    own_site.start()
    expect(page.locator("[data-line-words]")).to_contain_text("All on the disk", timeout=40_000)
    ann.wrong.clear()  # that the line was down was said; it is the story
    with own_site.cupboard() as cupboard:
        changes = [c.field for step in cupboard.history(kept.id)[1:] for c in step.changes]
        assert changes == ["rear.left.ride_height_mm", "rear.right.ride_height_mm"]
        assert cupboard.check().problems == ()
    ann.open(f"{job}/measure/rear")
    expect(page.get_by_text("2 of")).to_be_visible()
