"""Two edited files made from one, brought together line by line, so that comments come along."""

from __future__ import annotations

from difflib import SequenceMatcher

from hubwright.errors import BadInput
from hubwright.store.tomltext import tree_of


def brought_together(base: bytes, mine: bytes, theirs: bytes) -> bytes | None:
    """Two files made from one, line by line; None where both changed the same or neighbouring lines."""
    lines = base.splitlines(keepends=True)
    spots = sorted(_spots(lines, mine.splitlines(keepends=True)) + _spots(lines, theirs.splitlines(keepends=True)))
    new, at = [], 0
    for number, (start, end, replacement) in enumerate(spots):
        if number and spots[number - 1] == (start, end, replacement):
            continue
        if number and start <= spots[number - 1][1]:
            return None
        new += [*lines[at:start], *replacement]
        at = end
    joined = b"".join([*new, *lines[at:]])
    try:
        tree_of(joined)
    except BadInput:
        return None
    return joined


def _spots(lines: list[bytes], other: list[bytes]) -> list[tuple[int, int, list[bytes]]]:
    codes = SequenceMatcher(None, lines, other, autojunk=False).get_opcodes()
    return [(low, high, other[start:end]) for kind, low, high, start, end in codes if kind != "equal"]
