"""What every test may lean on."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import settings
from tests.databases import new_database, place, postgres

__all__ = ["new_database", "place", "postgres"]

settings.register_profile("lean", max_examples=60, deadline=None)
settings.load_profile("lean")

SHARED = Path(__file__).resolve().parents[2] / "shared" / "data"


@pytest.fixture(scope="session", autouse=True)
def _own_cache(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Maps of the tests are kept in a folder of their own and never taken from an earlier run."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("HUBWRIGHT_CACHE", str(tmp_path_factory.mktemp("cache")))
        yield


@pytest.fixture(scope="session")
def shared() -> Callable[[str], Path]:
    """A file of the shared data folder; the test skips, saying so, where the folder is absent."""

    def find(name: str) -> Path:
        path = SHARED / name
        if not path.exists():
            pytest.skip(f"shared data file {name} is not on this machine")
        return path

    return find


@pytest.fixture(scope="session")
def chromium() -> Iterator[Any]:
    """The one Chromium without a screen of the whole run (playwright allows no second one beside it)."""
    from playwright.sync_api import sync_playwright
    from tests.journeys.browser import launched

    with sync_playwright() as playwright:
        started = launched(playwright)
        yield started
        started.close()


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Fast tests first, slow ones last; the order within each is kept."""
    items.sort(key=lambda item: item.get_closest_marker("slow") is not None)
