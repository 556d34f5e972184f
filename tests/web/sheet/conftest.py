"""A real server in a process of its own that can be killed, and a real browser before it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from tests.journeys.server import Site


@pytest.fixture
def server(tmp_path: Path) -> Iterator[Site]:
    """A running server with an empty shelf."""
    site = Site(tmp_path, demo=False)
    site.start()
    yield site
    site.kill()


@pytest.fixture
def context(chromium: Any) -> Iterator[Any]:
    """A browser as a tablet has it."""
    made = chromium.new_context(viewport={"width": 820, "height": 1180}, has_touch=True)
    made.set_default_timeout(15_000)
    yield made
    made.close()
