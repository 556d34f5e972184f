"""Places in a job file: ``rear.left.point[1].reading[+]`` as a path, and which of two people's places overlap."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

from hubwright.errors import BadInput, Fault
from hubwright.jobs.faults import field_name
from hubwright.jobs.lines import Path
from hubwright.jobs.writer import APPEND, STEP
from hubwright.language import say
from hubwright.store.things import Change

CARD = "@"
"""Fields of the card start with this; no key of a TOML file typed without quotes can."""


@dataclass(frozen=True)
class Place:
    """A path, and whether something is added at its end: then it is the path of the list."""

    path: Path
    adds: bool = False

    @property
    def on_card(self) -> bool:
        """Whether it lies on the card, not in the job file."""
        return str(self.path[0]).startswith(CARD)


def place_of(field: str) -> Place:
    """The place a field names.

    Raises:
        BadInput: when it is not written as a field.
    """
    if field.startswith(CARD):
        return Place((field,))
    steps: list[str | int] = []
    adds = False
    for part in field.split("."):
        match = STEP.fullmatch(part)
        if match is None or adds:
            raise _refused(field)
        steps.append(match[1])
        for index in re.findall(r"\[(\d+|\+)\]", match[2]):
            if index == "0" or adds:
                raise _refused(field)
            if index == APPEND:
                adds = True
            else:
                steps.append(int(index) - 1)
    return Place(tuple(steps), adds)


def _refused(field: str) -> BadInput:
    wanted = say("names joined by dots, items in brackets counted from 1, [+] only at the end")
    return BadInput(
        say("entry"), (Fault(field[:200], wanted, repr(field[:60]), say("See hubwright schema for the fields.")),)
    )


def written(path: Path) -> str:
    """The field a path is written as."""
    return field_name(path)


def can_be_written(path: Path) -> bool:
    """Whether every key of the path can stand in a field as it is."""
    return all(isinstance(step, int) or STEP.fullmatch(step) is not None for step in path)


def value_at(tree: Any, path: Path) -> Any:
    """What stands at a path of plain lists and tables; None when nothing does."""
    for step in path:
        if isinstance(tree, dict):
            tree = tree.get(step)
        elif isinstance(tree, list) and isinstance(step, int) and step < len(tree):
            tree = tree[step]
        else:
            return None
    return tree


def overlaps(asked: Place, done: Change) -> bool:
    """Whether a change made by somebody else since may mean that the asked place is no longer what its author saw.

    Two additions to one list never overlap. An addition overlaps with a change that replaced the list or something around
    it. Taking an item out of a list moves those behind it, so it overlaps with everything in that list.
    """
    path = place_of(done.field).path
    item = isinstance(path[-1], int)
    if item and done.value is None:
        path = path[:-1]
        if asked.adds:
            return _starts(asked.path, path) and asked.path != path
        return _starts(asked.path, path) or _starts(path, asked.path)
    if asked.adds:
        return _starts(asked.path, path)
    return _starts(asked.path, path) or _starts(path, asked.path)


def _starts(path: Path, beginning: Path) -> bool:
    return path[: len(beginning)] == beginning
