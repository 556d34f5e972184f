"""The torque sheet: every fastener initialled, by wheel and stage, with the wrench and its calibration."""

from __future__ import annotations

from hubwright.jobs.answer import Answer
from hubwright.language import say
from hubwright.language.words import axle_title, corner_title
from hubwright.parts.job import Job
from hubwright.reports.content import (
    Beside,
    Blank,
    Blanks,
    Block,
    Column,
    Facts,
    Heading,
    Notice,
    Paragraph,
    Table,
    Together,
)
from hubwright.reports.fits import Fit, fits_of, holes_of
from hubwright.reports.options import Identity, Options
from hubwright.reports.torque import order_picture, torque_blocks, torque_words
from hubwright.reports.words import job_facts

UNKNOWN_HOLES = 6
"""Rows to fill where nobody stated the number of holes."""


def blocks_of(job: Job, answer: Answer, identity: Identity, options: Options) -> tuple[Block, ...]:
    """Everything on the sheet."""
    blocks: list[Block] = [
        Facts(job_facts(job, answer, identity.customer)),
        Blanks(
            (
                Blank(say("Torque wrench, its number")),
                Blank(say("Calibrated on, due on")),
                Blank(say("Range used")),
            ),
            across=3,
        ),
    ]
    fits = fits_of(job, answer)
    if not fits:
        blocks.append(
            Paragraph(say("No disc is recommended on any axle: there is nothing to tighten for it."), "strong")
        )
    for fit in fits[:-1]:
        blocks += [*_axle(fit, options), *_again(fit)]
    closing: list[Block] = []
    if fits:
        blocks += _axle(fits[-1], options)
        closing += [*_again(fits[-1]), Blanks((Blank(say("Tightened by, day")), Blank(say("Checked by, day"))))]
    closing += [Notice("", answer.cautions), *_mind(fits)]
    return (*blocks, Together(tuple(closing)))


def _mind(fits: tuple[Fit, ...]) -> tuple[Block, ...]:
    """What makers and trade bodies print, in small type. When to check again and how to lubricate stand with the record."""
    said = [text for fit in fits for text in (*fit.answer.torque.warnings[:-4], *fit.answer.torque.warnings[-2:])]
    return tuple(Paragraph(text, "small") for text in dict.fromkeys(said))


def _axle(fit: Fit, options: Options) -> tuple[Block, ...]:
    title = fit.choice.title if fit.choice is not None else ""
    blocks: list[Block] = [
        Heading(axle_title(fit.name), title),
        Beside(torque_blocks(fit, options), order_picture(fit), 0.66),
    ]
    if fit.disc.kind == "bolted":
        blocks.append(
            Notice(
                say("Two joints on each wheel"),
                (
                    say("The adapter's own fasteners (inner joint) are tightened and initialled before the wheel hides them."),
                    say("Each joint has a record of its own. To check the inner joint again the wheels come off."),
                ),
                caution=False,
            )
        )  # fmt: skip
        blocks.append(
            Blanks(
                (
                    Blank(say("Inner joint: torque, with its unit")),
                    Blank(say("Inner joint: threads and seats")),
                    Blank(say("Inner joint: source, looked up by")),
                ),
                across=3,
            )
        )
        blocks.append(_initials(fit, options, say("Inner joint, adapter on hub"), inner=True))
        blocks.append(_initials(fit, options, say("Outer joint, wheel on adapter")))
    else:
        blocks.append(_initials(fit, options, say("Fastener")))
    return tuple(blocks)


def _initials(fit: Fit, options: Options, first: str, *, inner: bool = False) -> Table:
    """One row for each fastener, one box for each stage and side."""
    holes = holes_of(fit.axle)
    stages = () if inner else _stages(fit, options)
    shown = stages or (say("Initials"),)
    columns = [Column(first, 0.9)]
    columns += [Column(f"{corner_title(*corner)}: {stage}", 1.0) for corner in fit.corners for stage in shown]
    rows = tuple((str(number), *("" for _ in columns[1:])) for number in range(1, (holes or UNKNOWN_HOLES) + 1))
    return Table(tuple(columns), rows, tall=True, whole=True)


def _stages(fit: Fit, options: Options) -> tuple[str, ...]:
    """The stages of the record, its torque last; none where there is not exactly one record."""
    records = fit.answer.torque.records
    if len(records) != 1:
        return ()
    line = records[0]
    stages = line.stages_nm or (line.torque_nm,)
    return tuple(torque_words(stage, options) for stage in stages)


def _again(fit: Fit) -> tuple[Block, ...]:
    titles = (say("Check again"), say("Day"), say("Odometer"), say("Wrench"), say("Left"), say("Right"))
    columns = tuple(
        Column(title, share) for title, share in zip(titles, (2.75, 0.55, 1.0, 0.7, 0.55, 0.6), strict=True)
    )
    words = say("Record: {words}.", words=fit.answer.torque.recheck)
    said = [words]
    if fit.disc.kind == "bolted":
        said = [say("Outer joint. {record}", record=words), say("Inner joint, wheels off. {record}", record=words)]
    return (Table(columns, tuple((text, "", "", "", "", "") for text in said), tall=True, whole=True),)
