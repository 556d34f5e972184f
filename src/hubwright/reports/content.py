"""What stands on a sheet, before it becomes a page: blocks of text, tables, lists to tick, lines to fill, pictures.

A sheet is data and nothing else. The page is made from it (`hubwright.reports.compile`), and tests read it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal, TypeAlias


@dataclass(frozen=True)
class Heading:
    """A heading within a sheet; with ``new_page`` it begins one."""

    text: str
    note: str = ""
    new_page: bool = False


@dataclass(frozen=True)
class Paragraph:
    """Plain sentences; ``size`` decides how loud they are."""

    text: str
    size: Literal["small", "plain", "strong"] = "plain"


@dataclass(frozen=True)
class Verdict:
    """The one thing to remember: a short text in large letters, and what it belongs to above it."""

    label: str
    text: str
    note: str = ""


@dataclass(frozen=True)
class Facts:
    """Names and values, one line each."""

    rows: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Step:
    """One thing to do."""

    text: str
    note: str = ""


@dataclass(frozen=True)
class Checklist:
    """Things to do, each with a box to tick for every column, large enough for a glove and a pen."""

    title: str
    columns: tuple[str, ...]
    steps: tuple[Step, ...]


@dataclass(frozen=True)
class Column:
    """One column of a table: its title, its share of the width, whether its figures stand to the right."""

    title: str
    share: float = 1.0
    right: bool = False


@dataclass(frozen=True)
class Table:
    """Rows of text. ``tall`` leaves room to write with a pen; an empty cell is one to fill; ``whole`` stays on one page."""

    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    tall: bool = False
    whole: bool = False


@dataclass(frozen=True)
class Blank:
    """Something to fill in by hand: its name, and how many lines it takes."""

    label: str
    lines: int = 1
    value: str = ""


@dataclass(frozen=True)
class Blanks:
    """Lines to fill in by hand, side by side."""

    fields: tuple[Blank, ...]
    across: int = 2


@dataclass(frozen=True)
class Notice:
    """Sentences in a frame: a caution (heavy frame, with a sign) or something to mind; ``large`` for customers.

    Without a title its sentences run on, one after the other.
    """

    title: str
    texts: tuple[str, ...]
    caution: bool = True
    large: bool = False


@dataclass(frozen=True)
class Picture:
    """A drawing as SVG. ``width_mm`` keeps it to scale; None = as wide as there is room."""

    svg: str
    alt: str
    width_mm: float | None = None
    caption: str = ""


@dataclass(frozen=True)
class Beside:
    """Two groups of blocks side by side; ``share`` is the left one's part of the width, ``close`` without a gap."""

    left: tuple[Block, ...]
    right: tuple[Block, ...]
    share: float = 0.5
    close: bool = False


@dataclass(frozen=True)
class Together:
    """Blocks that stay on one page."""

    blocks: tuple[Block, ...]


Block: TypeAlias = (
    Heading | Paragraph | Verdict | Facts | Checklist | Table | Blanks | Notice | Picture | Beside | Together
)


@dataclass(frozen=True)
class Sheet:
    """One sheet of paper work, of one or more pages.

    Attributes:
        kind: Such as ``job-card``.
        title: Of the sheet.
        subject: Title of the job.
        plate: Of the car; empty = not stated.
        state: Whether the car is released, in words; on every page.
        released: Whether it is; decides how loud ``state`` is.
        blocks: What stands on it.
        identity: What matches paper and record, in short pieces; on every page.
        code_svg: QR code of the job; empty = none.
        standing: One short caution at the foot of every page.
    """

    kind: str
    title: str
    subject: str
    plate: str
    state: str
    released: bool
    blocks: tuple[Block, ...]
    identity: tuple[str, ...]
    code_svg: str
    standing: str


def texts_of(blocks: Iterable[Block]) -> Iterator[str]:
    """Every text of every block that is typeset, in reading order; what is inside a picture is not."""
    for block in blocks:
        yield from (text for text in _texts(block) if text)


def _texts(block: Block) -> Iterator[str]:
    if isinstance(block, Beside):
        yield from texts_of((*block.left, *block.right))
    elif isinstance(block, Together):
        yield from texts_of(block.blocks)
    elif isinstance(block, Checklist):
        yield from (*block.columns, block.title)
        for step in block.steps:
            yield from (step.text, step.note)
    elif isinstance(block, Table):
        yield from (column.title for column in block.columns)
        for row in block.rows:
            yield from row
    elif isinstance(block, Blanks):
        for field in block.fields:
            yield from (field.label, field.value)
    elif isinstance(block, Facts):
        for row in block.rows:
            yield from row
    elif isinstance(block, Notice):
        yield from (block.title, *block.texts)
    elif isinstance(block, Picture):
        yield block.caption
    elif isinstance(block, Verdict):
        yield from (block.label, block.text, block.note)
    elif isinstance(block, Heading):
        yield from (block.text, block.note)
    else:
        yield block.text
