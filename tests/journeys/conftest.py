"""Servers on each database, a browser, and people who use it."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, expect
from tests.databases import fresh_database
from tests.journeys.browser import Visitor, visitor
from tests.journeys.server import Site

expect.set_options(timeout=20_000)  # a machine that has other work as well
GL = ("--no-sandbox", "--use-gl=angle", "--use-angle=swiftshader", "--enable-unsafe-swiftshader", "--disable-quic")
People = Callable[..., Visitor]


def _site(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory, kind: str) -> Iterator[Site]:
    database = None if kind == "sqlite" else fresh_database(request.getfixturevalue("postgres"))
    site = Site(tmp_path_factory.mktemp(f"site-{kind}"), database)
    site.start()
    try:
        yield site
    finally:
        site.stop()
    assert "Traceback" not in site.log, site.log


@pytest.fixture(scope="session", params=["sqlite", "postgresql"])
def site(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Site]:
    """A server with the demo shop on each database in turn; tests make jobs of their own in it."""
    yield from _site(request, tmp_path_factory, request.param)


@pytest.fixture(scope="session")
def plain_site(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Site]:
    """A server with the demo shop on SQLite."""
    yield from _site(request, tmp_path_factory, "sqlite")


@pytest.fixture
def people(chromium: Browser) -> Iterator[People]:
    """Makes people: ``people(site, "Ann", size="phone")``; what their browsers complained about fails the test."""
    made: list[Visitor] = []

    def new(site: Site, name: str = "", **more: Any) -> Visitor:
        made.append(visitor(chromium, site, name, **more))
        return made[-1]

    yield new
    for one in made:
        one.close()


@pytest.fixture
def gl_browser(chromium: Browser) -> Iterator[Browser]:
    """Chromium that draws WebGL in software."""
    made = chromium.browser_type.launch(executable_path=shutil.which("chromium"), args=list(GL))
    yield made
    made.close()
