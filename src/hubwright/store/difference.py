"""What changed between two job files, field by field."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hubwright.jobs.lines import Path
from hubwright.store.fields import can_be_written, written
from hubwright.store.things import Change
from hubwright.store.tomltext import same, toml_of


def differences(before: dict[str, Any], after: dict[str, Any]) -> tuple[Change, ...]:
    """Changes that lead from one tree to the other.

    A table is compared key by key. A list that kept its items and grew has items added; one of the same length is compared
    item by item; any other list is replaced as a whole, since nobody can tell which items went.
    """
    return tuple(_tables(before, after, ()))


def _tables(before: dict[str, Any], after: dict[str, Any], path: Path) -> Iterator[Change]:
    if not all(can_be_written((key,)) for key in (*before, *after)):
        if not same(before, after):
            yield _change(path, before, after)
        return
    for key in (*before, *(key for key in after if key not in before)):
        yield from _values(before.get(key), after.get(key), (*path, key))


def _values(before: Any, after: Any, path: Path) -> Iterator[Change]:
    if before is not None and after is not None and same(before, after):
        return
    if isinstance(before, dict) and isinstance(after, dict):
        yield from _tables(before, after, path)
    elif isinstance(before, list) and isinstance(after, list) and _comparable(before, after):
        for number, item in enumerate(after):
            yield from _values(before[number] if number < len(before) else None, item, (*path, number))
    else:
        yield _change(path, before, after)


def _comparable(before: list[Any], after: list[Any]) -> bool:
    """Whether the items can be told apart by their number: same length, or only added to."""
    return len(before) == len(after) or (len(before) < len(after) and same(before, after[: len(before)]))


def _change(path: Path, before: Any, after: Any) -> Change:
    return Change(written(path), None if after is None else toml_of(after), None if before is None else toml_of(before))
