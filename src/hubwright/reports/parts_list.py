"""The parts pick list: for the shelf on paper, for whoever orders as a spreadsheet."""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass
from datetime import datetime, time

import xlsxwriter

from hubwright.jobs.answer import Answer, OrderLine
from hubwright.language import say
from hubwright.language.words import axle_title
from hubwright.parts.job import Job
from hubwright.reports.content import Blank, Blanks, Block, Column, Facts, Notice, Paragraph, Table
from hubwright.reports.fits import fits_of
from hubwright.reports.options import Identity, Options, identity_words
from hubwright.reports.words import NEVER, job_facts, state_words

RISKY = ("=", "+", "-", "@", "\t", "\r")
"""A cell that begins so is read as a formula by spreadsheet programs, in a CSV too."""
WIDTHS = (16, 10, 52, 60)


@dataclass(frozen=True)
class PartLine:
    """One line of the list; ``count`` None where the number of holes is not known, 0 where today's part stays."""

    axle: str
    count: int | None
    item: str
    note: str


def part_lines(job: Job, answer: Answer) -> tuple[PartLine, ...]:
    """What every axle needs, front first."""
    return tuple(
        PartLine(axle_title(fit.name), line.count, line.item, line.note)
        for fit in fits_of(job, answer)
        for line in fit.plan.order
    )


def count_words(line: OrderLine | PartLine) -> str:
    """How many; a question mark where the number of holes is not known, a dash where none is taken."""
    return "?" if line.count is None else f"{line.count} ×" if line.count else NEVER


def blocks_of(job: Job, answer: Answer, identity: Identity, options: Options) -> tuple[Block, ...]:
    """Everything on the sheet."""
    lines = part_lines(job, answer)
    columns = (
        Column(say("Axle"), 0.7),
        Column(say("Take"), 0.45, right=True),
        Column(say("Part"), 1.5),
        Column(say("Note"), 1.3),
        Column(say("Picked"), 0.65),
    )
    rows = tuple((line.axle, count_words(line), line.item, line.note, "") for line in lines)
    blocks: list[Block] = [Facts(job_facts(job, answer, identity.customer))]
    if rows:
        blocks.append(Table(columns, rows, tall=True))
    else:
        blocks.append(Paragraph(say("No disc is recommended on any axle: nothing is taken from the shelf."), "strong"))
    if any(line.count is None for line in lines):
        blocks.append(Paragraph(say("A question mark: the number of holes was not stated. Count them.")))
    blocks += [
        Blanks(
            (Blank(say("Picked by, day")), Blank(say("Checked against the card by")), Blank(say("Ordered, number"))),
            across=3,
        ),
        Notice("", answer.cautions),
    ]
    return tuple(blocks)


def _rows(job: Job, answer: Answer, identity: Identity) -> list[list[str | int]]:
    """Heads and lines of the spreadsheets; first what matches them with the record."""
    state, _ = state_words(answer)
    rows: list[list[str | int]] = [
        [say("Parts pick list"), answer.title],
        [say("Plate"), job.car.plate or ""],
        [say("Record"), ", ".join(identity_words(identity, answer.program))],
        [say("State"), state],
        [],
        [say("Axle"), say("Count"), say("Part"), say("Note")],
    ]
    rows += [
        [line.axle, "?" if line.count is None else line.count, line.item, line.note]
        for line in part_lines(job, answer)
    ]  # fmt: skip
    return rows


def csv_of(job: Job, answer: Answer, identity: Identity, options: Options) -> bytes:
    """The list as CSV (RFC 4180), UTF-8 with a mark that spreadsheet programs look for; no cell can be a formula."""
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    for row in _rows(job, answer, identity):
        writer.writerow([_plain(cell) for cell in row])
    return text.getvalue().encode("utf-8-sig", "replace")


def _plain(cell: str | int) -> str | int:
    if isinstance(cell, int):
        return cell
    flat = " ".join(cell.split())
    return f"'{flat}" if flat.startswith(RISKY) or cell.startswith(RISKY) else flat


def xlsx_of(job: Job, answer: Answer, identity: Identity, options: Options) -> bytes:
    """The list as a workbook of texts and counts; the same answer gives the same bytes."""
    held = io.BytesIO()
    book = xlsxwriter.Workbook(held, {"in_memory": True})
    book.set_properties({"title": say("Parts pick list"), "created": datetime.combine(answer.date, time())})
    sheet = book.add_worksheet("1")
    bold = book.add_format({"bold": True, "bottom": 1})
    wrap = book.add_format({"text_wrap": True, "valign": "top"})
    rows = _rows(job, answer, identity)
    head = rows.index([]) + 1
    for column, width in enumerate(WIDTHS):
        sheet.set_column(column, column, width)
    for number, row in enumerate(rows):
        look = bold if number == head else wrap if number > head else None
        for column, cell in enumerate(row):
            if isinstance(cell, int):
                sheet.write_number(number, column, cell, look)
            else:
                sheet.write_string(number, column, cell, look)
    sheet.set_paper(9 if options.paper == "a4" else 1)
    sheet.set_landscape()
    sheet.fit_to_pages(1, 0)
    book.close()
    return held.getvalue()
