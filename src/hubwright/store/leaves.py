"""Every single place an entry fills, so that permission can be asked for each."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hubwright.store.fields import place_of
from hubwright.store.tomltext import value_of

Leaf = tuple[tuple[str, ...], Any]
"""The keys that lead there, list numbers left out, and what goes there."""


def leaves(field: str, value: str | None) -> tuple[Leaf, ...]:
    """The places a field and its TOML value fill; of a table without anything in it, and of what is taken out, its own.

    Raises:
        BadInput: when the field is not written as one.
    """
    keys = tuple(step for step in place_of(field).path if isinstance(step, str))
    return tuple(_leaves(keys, None if value is None else value_of(value)))


def _leaves(keys: tuple[str, ...], tree: Any) -> Iterator[Leaf]:
    if isinstance(tree, dict) and tree:
        for key, inner in tree.items():
            yield from _leaves((*keys, key), inner)
    elif isinstance(tree, list) and any(isinstance(item, dict) for item in tree):
        for item in tree:
            yield from _leaves(keys, item)
    else:
        yield keys, tree
