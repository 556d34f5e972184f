"""The demo job with everything measured, to be changed field by field."""

from __future__ import annotations

import copy
import tomllib
from functools import cache
from pathlib import Path
from typing import Any

from hubwright.findings import Finding
from hubwright.jobs.answer import Answer
from hubwright.jobs.assess import assess
from hubwright.jobs.jobfile import adapter
from hubwright.parts.job import Axle, Job
from hubwright.parts.shop import StockDisc

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "estate-full-data.toml"
GONE = object()
"""Takes a field out."""


@cache
def _tree() -> dict[str, Any]:
    return tomllib.loads(EXAMPLE.read_text(encoding="utf-8"))


def job_with(changes: dict[str, Any] | None = None) -> Job:
    """The job with fields set by their path, such as ``front.hub.fillet_mm`` or ``front.torque.0.torque_nm``."""
    tree = copy.deepcopy(_tree())
    for path, value in (changes or {}).items():
        place: Any = tree
        *steps, last = path.split(".")
        for step in steps:
            place = place[int(step)] if isinstance(place, list) else place.setdefault(step, {})
        key: Any = int(last) if isinstance(place, list) else last
        if value is GONE:
            place.pop(key, *(() if isinstance(place, list) else (None,)))
        else:
            place[key] = value
    return adapter().validate_python(tree)


def front(job: Job) -> Axle:
    assert job.front is not None
    return job.front


def disc_of(job: Job, thickness_mm: float) -> StockDisc:
    return next(disc for disc in job.shop.disc if disc.thickness_mm == thickness_mm)


@cache
def full_answer() -> Answer:
    return assess(job_with())


def said(findings: tuple[Finding, ...] | list[Finding], word: str) -> Finding:
    """The one finding on the left, or on neither side, whose sentence holds a word."""
    found = [item for item in findings if word in item.sentence and not item.sentence.startswith("right")]
    assert len(found) == 1, [item.sentence for item in findings]
    return found[0]
