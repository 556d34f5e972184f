"""Read one table: ``data/NAME.csv`` beside ``data/NAME.toml``.

The sidecar names title, edition, clause, licence and how the figures were transcribed, and gives every column a
kind (``text``, ``number``, ``whole``) and what it means. Anything the sidecar does not announce is refused.
"""

from __future__ import annotations

import csv
import math
import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

from hubwright.errors import BadDataFile
from hubwright.language import say

KINDS = ("text", "number", "whole")
SIDECAR_KEYS = {"title", "edition", "clause", "licence", "transcribed", "note", "column"}
REQUIRED_KEYS = SIDECAR_KEYS - {"note"}

Cell = str | float | int | None
Row = dict[str, Cell]


@dataclass(frozen=True)
class Column:
    """One column as the sidecar announces it."""

    name: str
    kind: str
    meaning: str


@dataclass(frozen=True)
class Table:
    """A standards table with its papers. ``rows`` keep the order of the file; an empty cell is None."""

    name: str
    title: str
    edition: str
    clause: str
    licence: str
    transcribed: str
    note: str
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]

    @property
    def source(self) -> str:
        """Title, edition and clause in one line, as printed beside a figure."""
        return ", ".join(part for part in (self.title, self.edition, self.clause) if part)


@cache
def read_table(name: str) -> Table:
    """Table ``name`` of the package.

    Raises:
        BadDataFile: naming file, key or cell, when the two files do not agree with each other.
    """
    folder = files("hubwright.tables").joinpath("data")
    if name not in table_names():
        raise BadDataFile(
            f"{name}.csv",
            "file",
            say("one of the tables {known}", known=", ".join(table_names())),
            say("no such table"),
        )
    sidecar = tomllib.loads(folder.joinpath(f"{name}.toml").read_text(encoding="utf-8"))
    text = folder.joinpath(f"{name}.csv").read_text(encoding="utf-8")
    return build_table(name, sidecar, text)


@cache
def table_names() -> tuple[str, ...]:
    """Names of all tables of the package, sorted; `read_table` takes each of them."""
    folder = files("hubwright.tables").joinpath("data")
    return tuple(sorted(file.name.removesuffix(".csv") for file in folder.iterdir() if file.name.endswith(".csv")))


def all_tables() -> tuple[Table, ...]:
    """Every table of the package with its papers, sorted by name.

    Raises:
        BadDataFile: when any of them cannot be read.
    """
    return tuple(read_table(name) for name in table_names())


def build_table(name: str, sidecar: dict[str, Any], text: str) -> Table:
    """The table from its sidecar and the text of its CSV (see `read_table`)."""
    unknown = sorted(set(sidecar) - SIDECAR_KEYS)
    if unknown:
        raise BadDataFile(
            f"{name}.toml",
            unknown[0],
            say("one of {known}", known=", ".join(sorted(SIDECAR_KEYS))),
            say("an unknown key"),
        )
    missing = sorted(REQUIRED_KEYS - set(sidecar))
    if missing:
        raise BadDataFile(f"{name}.toml", missing[0], say("this key"), say("nothing"))
    columns = tuple(_column(name, key, value) for key, value in sidecar["column"].items())
    reader: csv.DictReader[Any] = csv.DictReader(text.splitlines())
    if list(reader.fieldnames or []) != [column.name for column in columns]:
        wanted = ", ".join(column.name for column in columns)
        raise BadDataFile(f"{name}.csv", "header", wanted, ", ".join(reader.fieldnames or []))
    rows = tuple(_row(f"{name}.csv", number, columns, record) for number, record in enumerate(reader, start=2))
    papers = {
        key: str(sidecar.get(key, "")) for key in ("title", "edition", "clause", "licence", "transcribed", "note")
    }
    return Table(name=name, columns=columns, rows=rows, **papers)


def _column(table: str, name: str, value: dict[str, str]) -> Column:
    if set(value) != {"kind", "meaning"} or value["kind"] not in KINDS:
        raise BadDataFile(
            f"{table}.toml",
            f"column.{name}",
            say("kind (one of {known}) and meaning", known=", ".join(KINDS)),
            str(value),
        )
    return Column(name, value["kind"], value["meaning"])


def _row(file: str, line: int, columns: tuple[Column, ...], record: dict[str | None, Any]) -> Row:
    # DictReader files surplus cells under the key None and fills missing ones with the value None.
    if None in record or None in record.values():
        raise BadDataFile(
            file,
            f"line {line}",
            say("{count} cells", count=len(columns)),
            say("more") if None in record else say("fewer"),
        )
    return {column.name: _cell(file, line, column, record[column.name]) for column in columns}


def _cell(file: str, line: int, column: Column, text: str) -> Cell:
    if text == "":
        return None
    if column.kind == "text":
        return text
    try:
        number: float = int(text) if column.kind == "whole" else float(text)
    except ValueError:
        number = math.nan
    if not math.isfinite(number):
        raise BadDataFile(
            file,
            f"line {line}, {column.name}",
            say("a whole number") if column.kind == "whole" else say("a number"),
            repr(text),
        )
    return number
