"""Instructions for a customer who measures at home: what, how, twice, and what not to do."""

from __future__ import annotations

from hubwright.jobs.answer import Answer
from hubwright.language import say
from hubwright.language.words import axle_title
from hubwright.parts.job import Job
from hubwright.reports.content import (
    Blank,
    Blanks,
    Block,
    Checklist,
    Column,
    Facts,
    Heading,
    Notice,
    Paragraph,
    Step,
    Table,
    Together,
)
from hubwright.reports.measuring import BOTH_AXLES, sketches
from hubwright.reports.options import Identity, Options
from hubwright.reports.readings import gap_lines, hub_lines
from hubwright.reports.words import job_facts


def blocks_of(job: Job, answer: Answer, identity: Identity, options: Options) -> tuple[Block, ...]:
    """Everything on the sheet."""
    names = [name for name, _ in job.axles] or list(BOTH_AXLES)
    blocks: list[Block] = [
        Facts(job_facts(job, answer, identity.customer)),
        Notice(
            say("Before you begin"),
            (
                say("Never work under a car held only by a jack. A wheel that comes off can kill."),
                say("We decide nothing from parked readings alone: until enough is known the answer stays open."),
            ),
            large=True,
        ),
        _steps(),
        sketches(),
    ]
    for name in names:
        blocks += _asked(job, answer, name)
    closing = (
        Heading(say("Photographs")),
        Paragraph(say("Each with a rule held in the picture: arch above the wheel, wheel from behind, hub without the wheel, both sides.")),
        Blanks((Blank(say("Measured by")), Blank(say("Day")), Blank(say("Telephone"))), across=3),
        Notice("", answer.cautions),
    )  # fmt: skip
    return (*blocks, Together(closing))


def _steps() -> Checklist:
    return Checklist(
        say("How to measure"),
        (say("done"),),
        (
            Step(say("Find the most level floor you can. Tyres at the pressure on the placard, steering straight.")),
            Step(say("Roll the car forward and back, press each corner down three times, let it settle.")),
            Step(
                say("Measure every figure on the left and on the right, each twice. Write down what you read."),
                say("Do not correct, do not average, do not round. A big difference tells us something."),
            ),
            Step(
                say("Turn the car round on the same spot and measure everything again as the second set."),
                say("A floor that slopes by one degree moves a plumb line of 600 mm by 10.5 mm."),
            ),
            Step(say("For readings without a wheel: car on stands on firm ground, gear in, brake on. Else leave them out.")),
        ),
    )  # fmt: skip


def _asked(job: Job, answer: Answer, name: str) -> tuple[Block, ...]:
    axle_name = BOTH_AXLES[0] if name == "front" else BOTH_AXLES[1]
    own = next((axle for axle in answer.axles if axle.axle == name), None)
    blocks: list[Block] = [Heading(axle_title(name), say("Asked: {wish}", wish=own.wish) if own else "")]
    if own is not None and own.wanted:
        blocks.append(Paragraph(say("What we need most, in this order:"), "strong"))
        columns = (Column("", 0.15), Column(say("Reading"), 1.1), Column(say("How to take it"), 1.8))
        rows = tuple((str(number), item.what, item.how) for number, item in enumerate(own.wanted, start=1))
        blocks.append(Table(columns, rows))
    sets = tuple(Column(text, 0.7) for text in (say("Left"), say("Right"), say("Left, turned"), say("Right, turned")))
    gaps = (Column(say("Gap at"), 1.2), Column(say("State"), 1.5), *sets)
    empty = gap_lines(job, axle_name, None)
    blocks.append(Table(gaps, tuple((point, state, "", "", "", "") for point, state, *_ in empty), tall=True))
    hub = (Column("", 0.16), Column(say("At the hub, wheel off"), 1.2), Column(say("How"), 1.2), *sets[:2])
    blocks.append(Table(hub, tuple(line.cells for line in hub_lines(None)), tall=True))
    if own is not None:
        blocks += [Paragraph(sentence) for sentence in own.provisional]
    return tuple(blocks)
