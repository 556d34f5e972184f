"""On which line of a TOML text a field stands. Only asked when there is a fault to report."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator

import tree_sitter_toml
from tree_sitter import Language, Node, Parser, Tree

from hubwright.language import say

Path = tuple[str | int, ...]


def line_index(text: str) -> dict[Path, int]:
    """The line (from 1) of every table, key and list item of a TOML text, by its path."""
    index: dict[Path, int] = {}
    counts: dict[Path, int] = {}
    tree = _tree(text)
    for node in tree.root_node.named_children:
        if node.type == "pair":
            _pair(node, (), index)
        elif node.type in ("table", "table_array_element"):
            _table(node, index, counts)
    return index


def line_of(path: Path, index: dict[Path, int]) -> int | None:
    """The line of a path, or of the nearest thing around it that stands in the text."""
    for end in range(len(path), 0, -1):
        if path[:end] in index:
            return index[path[:end]]
    return None


def syntax_faults(text: str) -> list[tuple[int, str]]:
    """Line and text of every place that is not TOML, first to last, one per line."""
    lines = text.split("\n")
    rows = {node.start_point.row for node in _broken(_tree(text).root_node)}
    return [(row + 1, shown(lines, row)) for row in sorted(rows)]


def shown(lines: list[str], row: int) -> str:
    """One line (from 0) of a text, short enough for a message."""
    text = lines[row].strip() if row < len(lines) else ""
    return text[:80] if text else say("the end of the file") if row >= len(lines) - 1 else say("an empty line")


def _tree(text: str) -> Tree:
    return Parser(Language(tree_sitter_toml.language())).parse(text.encode())


def _broken(root: Node) -> Iterator[Node]:
    waiting = [root]
    while waiting:
        node = waiting.pop()
        if node.is_error or node.is_missing:
            yield node
        elif node.has_error:
            waiting += node.children


def _table(node: Node, index: dict[Path, int], counts: dict[Path, int]) -> None:
    name, *rest = node.named_children
    path = _open_path(_keys(name), counts)
    if node.type == "table_array_element":
        number = counts.get(path, 0)
        counts[path] = number + 1
        path = (*path, number)
    _mark(path, node, index)
    for child in rest:
        if child.type == "pair":
            _pair(child, path, index)


def _open_path(keys: tuple[str, ...], counts: dict[Path, int]) -> Path:
    """The path of a table header: inside a list of tables it means the last one opened."""
    path: Path = ()
    for position, key in enumerate(keys):
        path = (*path, key)
        if position < len(keys) - 1 and path in counts:
            path = (*path, counts[path] - 1)
    return path


def _pair(node: Node, above: Path, index: dict[Path, int]) -> None:
    key, *values = node.named_children
    path = (*above, *_keys(key))
    _mark(path, node, index)
    for value in values:
        _value(value, path, index)


def _mark(path: Path, node: Node, index: dict[Path, int]) -> None:
    """The line of a path, and of the tables above it where they stand nowhere else."""
    for end in range(1, len(path) + 1):
        index.setdefault(path[:end], node.start_point.row + 1)


def _value(node: Node, path: Path, index: dict[Path, int]) -> None:
    if node.type == "inline_table":
        for child in node.named_children:
            if child.type == "pair":
                _pair(child, path, index)
    elif node.type == "array":
        items = [child for child in node.named_children if child.type != "comment"]
        for number, item in enumerate(items):
            index.setdefault((*path, number), item.start_point.row + 1)
            _value(item, (*path, number), index)


def _keys(node: Node) -> tuple[str, ...]:
    if node.type == "dotted_key":
        return tuple(key for child in node.named_children for key in _keys(child))
    text = (node.text or b"").decode()
    return (next(iter(tomllib.loads(f"{text} = 0"))),) if node.type == "quoted_key" else (text,)
