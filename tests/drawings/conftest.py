"""The demo job, and a reader of drawings."""

from __future__ import annotations

import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest

from hubwright.jobs.jobfile import adapter
from hubwright.parts.job import Job

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "hatchback-rear-flush.toml"


@pytest.fixture(scope="session")
def tree() -> dict[str, Any]:
    return tomllib.loads(EXAMPLE.read_text(encoding="utf-8"))


@pytest.fixture(scope="session")
def job(tree: dict[str, Any]) -> Job:
    return adapter().validate_python(tree)


@pytest.fixture(scope="session")
def points_of() -> Callable[[str, str], list[list[tuple[float, float]]]]:
    """Points of every path with a name in an SVG text, y up again."""

    def find(svg: str, name: str) -> list[list[tuple[float, float]]]:
        found = []
        for path in ElementTree.fromstring(svg).iter("{http://www.w3.org/2000/svg}path"):
            if path.get("data-part") == name:
                pairs = path.attrib["d"].strip("MZ").split("L")
                found.append([(float(x), -float(y)) for x, y in (pair.split() for pair in pairs)])
        assert found, f"nothing is called {name!r} in the drawing"
        return found

    return find
