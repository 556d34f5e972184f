"""What a customer may write: the readings of their link, as far as nobody in the workshop has read them already."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from hubwright.errors import BadInput
from hubwright.parts.base import READERS
from hubwright.store.fields import overlaps, place_of, value_at
from hubwright.store.link import Link, may_write
from hubwright.store.things import Revision
from hubwright.store.tomltext import tree_of
from hubwright.web.desk import Desk


def writable(desk: Desk, link: Link, revision: int | None = None) -> Callable[[str, str | None], bool]:
    """Whether the customer of a link may write a field.

    Empty places are free. What stands there may be written over where it is marked as the customer's, or where they were the
    last to write it through this link.

    Args:
        desk: The desk.
        link: The link.
        revision: The revision the customer saw; what came after it is for the store to put aside. The newest when None.
    """
    stored = desk.cupboard.job(link.job_id, revision)
    try:
        tree: Any = tree_of(stored.data)
    except BadInput:
        tree = {}
    history = [one for one in desk.cupboard.history(link.job_id) if one.number <= stored.revision]

    def may(field: str, value: str | None = None) -> bool:
        return may_write(link, field, value) and not _anothers(tree, history, link, field)

    return may


def _anothers(tree: Any, history: list[Revision], link: Link, field: str) -> bool:
    place = place_of(field)
    stands = None if place.adds else value_at(tree, place.path)
    if stands is None or _marked(stands):
        return False
    around = (value_at(tree, place.path[:end]) for end in range(1, len(place.path)))
    if any(isinstance(table, dict) and table.get("by") == READERS[1] for table in around):
        return False
    last = next((one for one in reversed(history) if any(overlaps(place, change) for change in one.changes)), None)
    return last is None or last.author != link.author


def _marked(value: Any) -> bool:
    """Whether a value says that a customer read it."""
    if isinstance(value, dict):
        return value.get("by") == READERS[1] or any(_marked(item) for item in value.values())
    return isinstance(value, list) and any(_marked(item) for item in value)
