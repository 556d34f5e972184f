"""Print one sheet, or many: the one entry for page, command line, interface and Python."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass

from hubwright.errors import BadInput, Fault
from hubwright.jobs.answer import Answer
from hubwright.jobs.assess import assess
from hubwright.jobs.jobfile import has_scans
from hubwright.jobs.mapping import at_hand as map_drawn
from hubwright.language import say
from hubwright.parts.job import Job
from hubwright.quantities.axes import SIDES
from hubwright.reports.code import code_svg
from hubwright.reports.compile import pdf_of
from hubwright.reports.content import Block, Facts, Notice, Paragraph, Sheet, texts_of
from hubwright.reports.kinds import KINDS, Kind
from hubwright.reports.letters import lacks
from hubwright.reports.options import Identity, Options, identity_words, spoken_as
from hubwright.reports.words import STANDING, state_words

MEDIA_TYPES = {
    "pdf": "application/pdf",
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
    "csv": "text/csv; charset=utf-8",
    "dxf": "image/vnd.dxf",
    "svg": "image/svg+xml",
}


@dataclass(frozen=True)
class Printed:
    """One printed sheet: the name of a file, what it is, its bytes."""

    name: str
    media_type: str
    data: bytes


def answered(job: Job, options: Options, today: datetime.date | None = None) -> Answer:
    """The answer of a job in the language and units of the paper; `print_sheet` wants one made like this."""
    with spoken_as(options):
        return assess(job, today)


def kinds_for(answer: Answer) -> tuple[str, ...]:
    """The kinds of sheet an answer has something for, in the order in which they are needed."""
    return tuple(kind.name for kind in KINDS.values() if kind.fits(answer))


def print_sheet(kind: str, job: Job, answer: Answer, identity: Identity, options: Options | None = None) -> Printed:
    """One sheet as a file. The same arguments give the same bytes.

    Args:
        kind: One of `kinds_for`; others of `KINDS` print too where they can.
        job: The job.
        answer: Its answer, in the language and units of the options (see `answered`).
        identity: What matches paper and record.
        options: Paper, units, language; A4, metric, English when missing.

    Raises:
        BadInput: for a kind there is none of, or one that this job has nothing for, saying why.
    """
    options = options or Options()
    with spoken_as(options):
        made = _kind(kind)
        if options.format == "pdf":
            data = pdf_of([("", sheet_of(kind, job, answer, identity, options))], options.paper, answer.date)
        elif options.format in made.others:
            data = made.others[options.format](job, answer, identity, options)
        else:
            wanted = say("one of {names} for the sheet {kind}", names=", ".join(made.formats), kind=kind)
            fault = Fault("format", wanted, repr(options.format))
            raise BadInput("paper", (fault,))
        return Printed(f"{kind}.{options.format}", MEDIA_TYPES[options.format], data)


def formats_of(kind: str) -> tuple[str, ...]:
    """The formats a kind of sheet can be had in, pdf first.

    Raises:
        BadInput: for a kind there is none of.
    """
    return _kind(kind).formats


def sheet_of(kind: str, job: Job, answer: Answer, identity: Identity, options: Options) -> Sheet:
    """What stands on a sheet, as data; within `spoken_as`. Arguments and errors as `print_sheet`."""
    return _headed(kind, job, answer, identity, _kind(kind).make(job, answer, identity, options))


def _headed(kind: str, job: Job, answer: Answer, identity: Identity, blocks: tuple[Block, ...]) -> Sheet:
    """The blocks of a sheet with what every page carries."""
    made = _kind(kind)
    if has_scans(job) and not all(map_drawn(axle, side) for _, axle in job.axles for side in SIDES):
        text = say("A scan named in the job was not at hand: this was worked out from the readings alone.")
        blocks = (Notice(say("A scan is missing"), (text,)), *blocks)
    if any(lacks(text) for text in (answer.title, job.car.plate or "", *texts_of(blocks))):
        blocks = (
            *blocks,
            Paragraph(
                say(
                    "In square brackets: signs the letters of this paper lack, by name or number; the record holds them as they were typed."
                ),
                "small",
            ),
        )
    state, released = state_words(answer)
    return Sheet(
        made.name,
        say(made.title),
        answer.title,
        job.car.plate or "",
        state,
        released,
        _with_workshop(blocks, identity),
        identity_words(identity, answer.program),
        code_svg(identity.code_text),
        say(STANDING),
    )


def _with_workshop(blocks: tuple[Block, ...], identity: Identity) -> tuple[Block, ...]:
    """The blocks with name and address of the shop before the facts they begin with."""
    first = blocks[0] if blocks else None
    if not identity.workshop or not isinstance(first, Facts):
        return blocks
    row = (say("Workshop"), ", ".join(identity.workshop))
    return (Facts((row, *first.rows)), *blocks[1:])


def _kind(name: str) -> Kind:
    if name not in KINDS:
        raise BadInput("paper", (Fault("sheet", say("one of {names}", names=", ".join(KINDS)), repr(name)),))
    return KINDS[name]


@dataclass(frozen=True)
class Order:
    """One sheet of one job, for printing many at once."""

    kind: str
    job: Job
    answer: Answer
    identity: Identity


def _sheet_or_why_not(order: Order, options: Options, *, alone: bool) -> Sheet:
    """Among others a sheet that is refused says why in its own place; alone it is refused."""
    try:
        return sheet_of(order.kind, order.job, order.answer, order.identity, options)
    except BadInput as refusal:
        if alone:
            raise
        reasons = tuple(str(fault) for fault in refusal.faults)
        return _headed(order.kind, order.job, order.answer, order.identity, (Notice(say("Not drawn"), reasons),))


def print_together(orders: Sequence[Order], options: Options | None = None) -> Printed:
    """Many sheets of one or several jobs in one PDF with bookmarks; each keeps its own page numbers.

    Raises:
        BadInput: when nothing is asked for, or as `print_sheet`.
    """
    options = options or Options()
    if not orders:
        raise BadInput("paper", (Fault("sheets", say("at least one"), say("none")),))
    with spoken_as(options):
        sheets, before = [], None
        for order in orders:
            chapter = "" if order.identity == before else order.answer.title
            before = order.identity
            sheets.append((chapter, _sheet_or_why_not(order, options, alone=len(orders) == 1)))
        day = max(order.answer.date for order in orders)
        return Printed("papers.pdf", MEDIA_TYPES["pdf"], pdf_of(sheets, options.paper, day))
