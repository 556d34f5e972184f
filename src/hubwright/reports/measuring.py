"""The measuring sheet: blank for the clipboard, or filled with what was read, doubt and method beside it."""

from __future__ import annotations

from hubwright.drawings.measure_sketch import corner_sketch, hub_sketch
from hubwright.drawings.svg import svg_of
from hubwright.jobs.answer import Answer
from hubwright.language import say
from hubwright.language.words import axle_title
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.reports.content import (
    Beside,
    Blank,
    Blanks,
    Block,
    Checklist,
    Column,
    Facts,
    Heading,
    Notice,
    Paragraph,
    Picture,
    Step,
    Table,
)
from hubwright.reports.options import Identity, Options
from hubwright.reports.readings import corner_lines, gap_lines, hub_lines, set_lines
from hubwright.reports.words import NEVER, job_facts

BOTH_AXLES: tuple[AxleName, ...] = ("front", "rear")


def blank_of(job: Job, answer: Answer, identity: Identity, options: Options) -> tuple[Block, ...]:
    """The sheet to take to the car; nothing on it is filled in but whose car it is."""
    names = [name for name, _ in job.axles] or list(BOTH_AXLES)
    blocks: list[Block] = [
        Facts(job_facts(job, answer, identity.customer)),
        Notice("", answer.cautions),
        Blanks((Blank(say("Measured by, day")), Blank(say("Odometer")), Blank(say("Fuel, load in the car"))), across=3),
        _before(),
        sketches(),
    ]
    for name in names:
        blocks += axle_blocks(job, name, None, filled=False, new_page=name != names[0])
    return tuple(blocks)


def filled_of(job: Job, answer: Answer, identity: Identity, options: Options) -> tuple[Block, ...]:
    """Every reading of the job, with what is still worth reading."""
    blocks: list[Block] = [Facts(job_facts(job, answer, identity.customer)), Notice("", answer.cautions)]
    questions = tuple(f"{question.about}: {question.text} {question.todo}".strip() for question in answer.questions)
    if questions:
        blocks.append(Notice(say("Does not look right"), questions, caution=False))
    if not job.axles:
        blocks.append(Paragraph(say("The job says nothing about any axle."), "strong"))
    for name, axle in job.axles:
        blocks += axle_blocks(job, name, axle, filled=True, new_page=False)
        blocks += _wanted(answer, name)
    return tuple(blocks)


def _before() -> Checklist:
    return Checklist(
        say("Before the first reading"),
        (say("done"),),
        (
            Step(say("Level floor; tyres at the pressure of the placard; load as the car is driven.")),
            Step(say("Rolled forward and back, bounced: the springs are settled, the steering is straight.")),
            Step(
                say("Left and right are read apart, each twice."),
                say("Never copy one side to the other, never average."),
            ),
            Step(say("Raised only on a lift or on stands; never under a car held only by a jack.")),
        ),
    )


def sketches() -> Beside:
    """Where to measure, corner and hub side by side."""
    corner, hub = corner_sketch(), hub_sketch()
    return Beside(
        (Picture(svg_of(corner), corner.description, None, corner.description),),
        (Picture(svg_of(hub), hub.description, None, hub.description),),
    )


def axle_blocks(
    job: Job, name: AxleName, axle: Axle | None, *, filled: bool, new_page: bool = True
) -> tuple[Block, ...]:
    """Corner, gaps, hub and wheels of one axle; empty cells where nothing was read."""
    five = (Column("", 0.16), Column(say("Reading"), 1.15), Column(say("How"), 1.25))
    sides = (Column(say("Left"), 0.8), Column(say("Right"), 0.8))
    gaps = (Column(say("Gap at"), 1.15), Column(say("State"), 1.5), *sides)
    if filled:
        sides = (Column(say("Left"), 1.1), Column(say("Right"), 1.1))
        gaps = (Column(say("Gap at"), 0.95), Column(say("State"), 0.95), *sides)
    lines = [line.cells for line in (*corner_lines(job, name, axle), *hub_lines(axle))]
    found = gap_lines(job, name, axle)
    if filled:
        lines = [tuple(cell or NEVER for cell in row[1:]) for row in lines]
        found = tuple(tuple(cell or NEVER for cell in row) for row in found if any(row[2:]))  # type: ignore[misc]  # four cells as before
    columns = (*five[1:], *sides) if filled else (*five, *sides)
    blocks: list[Block] = [
        Heading(axle_title(name), "", new_page=new_page),
        Table(columns, tuple(lines), tall=not filled),
    ]
    if found:
        note = say("Free air between tyre and part, the shortest way. Bump is above the parked height, spring out.")
        blocks += [Heading(say("Gaps: {axle}", axle=axle_title(name)), note), Table(gaps, found, tall=not filled)]
    for title, rows in set_lines(axle):
        heading = say("{axle}: {wheels}", axle=axle_title(name), wheels=title)
        blocks.append(Heading(heading))
        blocks.append(_facts(rows) if filled else Blanks(tuple(Blank(what) for what, _ in rows), across=5))
    return tuple(blocks)


def _facts(rows: tuple[tuple[str, str], ...]) -> Block:
    return Facts(tuple((what, value or NEVER) for what, value in rows))


def _wanted(answer: Answer, name: AxleName) -> tuple[Block, ...]:
    wanted = answer.axle(name).wanted
    if not wanted:
        return ()
    rows = tuple(
        (str(number), item.what, say("needed") if item.needed else say("helps"), item.how)
        for number, item in enumerate(wanted, start=1)
    )
    columns = (Column("", 0.15), Column(say("Reading"), 1.2), Column("", 0.35), Column(say("How to take it"), 1.8))
    return (Heading(say("Worth reading next: {axle}", axle=axle_title(name))), Table(columns, rows))
