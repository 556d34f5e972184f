"""Every page of the demo shop in a real browser: nothing broken, nothing wider than the window, no barrier, nothing cut off.

The narrow one is what a page enlarged four times on a desktop has left (WCAG 2.2, 1.4.10)."""

from __future__ import annotations

import os
import re

import pytest
from tests.journeys.browser import SHOTS
from tests.journeys.conftest import People
from tests.journeys.measured import measured
from tests.journeys.server import Site
from tests.journeys.steps import demo_job

pytestmark = pytest.mark.slow
MOST_PAGES = 80
MAIN = ("/", "/new", "/settings", "/api", "/people", "/shop", "/law", "/paper")
JOBS = ("hatchback", "roadster", "Mail order")
"""Refused its wish; with a scan and hard points; with little read."""


@pytest.mark.parametrize(
    ("size", "likes", "jobs"),
    [
        ("phone", "en.metric.auto", JOBS[:1]),
        ("phone", "de.inch.auto", JOBS[2:]),
        ("narrow", "de.inch.auto", JOBS[:1]),
        ("tablet", "de.metric.auto", JOBS[1:2]),
        ("desktop", "en.inch.auto", JOBS[:1]),
    ],
)
def test_every_page_is_whole_and_without_barriers(
    plain_site: Site, people: People, size: str, likes: str, jobs: tuple[str, ...]
) -> None:
    ann = people(plain_site, "Ann", size=size, likes=likes)
    looking = bool(os.environ.get(SHOTS))
    main = MAIN if looking or likes == "en.metric.auto" else MAIN[:2]
    todo = [*main, *(demo_job(plain_site, title) for title in (JOBS if looking else jobs))]
    seen: set[str] = set()
    wrong: list[str] = []
    while todo:
        path = todo.pop(0)
        if path in seen:
            continue
        seen.add(path)
        try:
            ann.open(path)
        except AssertionError as error:
            wrong.append(str(error))
        wrong += [f"{path}: {text}" for text in measured(ann.page)]
        inside = re.fullmatch(r"/jobs/[0-9a-z]{12}(?:/.*)?", path)
        for link in ann.page.locator("nav.steps a, nav.axles a").all() if inside else []:
            todo.append(str(link.get_attribute("href")))
    assert not wrong, "\n\n".join(wrong)
    assert 10 < len(seen) < MOST_PAGES
