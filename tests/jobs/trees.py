"""The demo jobs as trees that a test may change before they become jobs."""

from __future__ import annotations

import tomllib
from copy import deepcopy
from functools import cache
from pathlib import Path
from typing import Any

from pydantic import ValidationError

import hubwright
from hubwright.errors import BadInput
from hubwright.jobs.answer import Answer
from hubwright.jobs.contradictions import contradictions
from hubwright.jobs.faults import faults_of
from hubwright.jobs.jobfile import adapter, known_keys
from hubwright.parts.job import Job
from hubwright.quantities.units import to_inside

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
NAMES = tuple(sorted(path.stem for path in EXAMPLES.glob("*.toml")))
Tree = dict[str, Any]
Place = tuple[str | int, ...]


@cache
def text_of(name: str) -> str:
    """The text of a demo job."""
    return (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")


def tree_of(name: str) -> Tree:
    """A fresh tree of a demo job."""
    return tomllib.loads(text_of(name))


def job_of(tree: Tree) -> Job:
    """The job of a tree, through the same door as a file but for its text.

    Raises:
        BadInput: as the door does.
    """
    inside, typed = to_inside(tree)
    try:
        job = adapter().validate_python(inside)
    except ValidationError as error:
        raise BadInput("tree", faults_of(error, tree, typed, {}, known_keys())) from None
    if contradictions(job):
        raise BadInput("tree", ())
    return job


def answer_of(tree: Tree) -> Answer:
    """The answer of a tree."""
    return hubwright.assess(job_of(tree))


def at(tree: Any, place: Place) -> Any:
    """What stands at a place."""
    for key in place:
        tree = tree[key]
    return tree


def without(tree: Tree, place: Place) -> Tree:
    """A copy without one key or list item."""
    copy = deepcopy(tree)
    del at(copy, place[:-1])[place[-1]]
    return copy


def changed(tree: Tree, place: Place, value: Any) -> Tree:
    """A copy with another value at one place."""
    copy = deepcopy(tree)
    at(copy, place[:-1])[place[-1]] = value
    return copy


def places(tree: Any, above: Place = ()) -> list[Place]:
    """Every key and list item."""
    items = tree.items() if isinstance(tree, dict) else enumerate(tree) if isinstance(tree, list) else ()
    found: list[Place] = []
    for key, value in items:
        found += [(*above, key), *places(value, (*above, key))]
    return found
