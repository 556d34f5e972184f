"""A cupboard on each database in turn."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from tests.databases import Place

from hubwright.store.cupboard import Cupboard

EXAMPLE = (Path(__file__).resolve().parents[2] / "examples" / "hatchback-rear-flush.toml").read_bytes()


@pytest.fixture
def cupboard(place: Place) -> Iterator[Cupboard]:
    """A cupboard on each database in turn."""
    with place.open() as opened:
        yield opened


@pytest.fixture
def job_id(cupboard: Cupboard) -> str:
    """A job in it."""
    return cupboard.add(EXAMPLE, "Ann").job_id


@pytest.fixture
def elsewhere(tmp_path: Path) -> Iterator[Cupboard]:
    """Another cupboard, empty, on SQLite."""
    with Cupboard.open(tmp_path / "elsewhere") as opened:
        yield opened
