"""Every page of the demo shop in a real browser: nothing broken, nothing wider than the window, no barrier."""

from __future__ import annotations

import re

import pytest
from tests.journeys.browser import SIZES
from tests.journeys.conftest import People
from tests.journeys.server import Site
from tests.journeys.steps import demo_job

pytestmark = pytest.mark.slow
MOST_PAGES = 60
MAIN = ("/new", "/settings", "/api", "/people", "/shop", "/law", "/paper")


def addresses(site: Site) -> list[str]:
    """Main pages and every page of the job with a scan and of the one that is refused its wish."""
    return ["/", *MAIN, *(demo_job(site, title) for title in ("roadster", "hatchback"))]


@pytest.mark.parametrize("size", SIZES)
def test_every_page_is_whole_and_without_barriers(plain_site: Site, people: People, size: str) -> None:
    ann = people(plain_site, "Ann", size=size)
    todo, seen = addresses(plain_site), set()
    while todo:
        path = todo.pop(0)
        if path in seen:
            continue
        seen.add(path)
        ann.open(path)
        inside = re.fullmatch(r"/jobs/[0-9a-z]{12}(?:/.*)?", path)
        for link in ann.page.locator("nav.steps a, nav.axles a").all() if inside else []:
            todo.append(str(link.get_attribute("href")))
    assert 8 < len(seen) < MOST_PAGES
