"""The refusal record: what was asked, what stands against it in mm, what would open it, and that it was said."""

from __future__ import annotations

from hubwright.findings import Finding
from hubwright.findings import Verdict as Outcome
from hubwright.jobs.answer import Answer, AxleAnswer, DiscAnswer, PlanAnswer
from hubwright.language import say
from hubwright.language.words import axle_title, status_word
from hubwright.parts.job import Job
from hubwright.quantities.text import short, thickness
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
    Verdict,
)
from hubwright.reports.options import Identity, Options
from hubwright.reports.words import NEVER, disc_words, job_facts, question_title
from hubwright.selection.candidates import blocks as keeps_out

MOST_READINGS = 5


def is_refused(axle: AxleAnswer) -> bool:
    """Whether the wish of an axle is not met: nothing fits, or only less than was asked for."""
    fits_mm = axle.plan.recommended_mm
    if fits_mm is None:
        return True
    return axle.wish_mm is not None and fits_mm < axle.wish_mm - 1e-9


def anything_refused(answer: Answer) -> bool:
    """Whether there is something to record."""
    return any(is_refused(axle) for axle in answer.axles)


def blocks_of(job: Job, answer: Answer, identity: Identity, options: Options) -> tuple[Block, ...]:
    """Everything on the sheet."""
    blocks: list[Block] = [Facts(job_facts(job, answer, identity.customer))]
    refused = [axle for axle in answer.axles if is_refused(axle)]
    if not refused:
        blocks.append(Paragraph(say("Nothing was refused: every wish of this job is met."), "strong"))
    for axle in refused:
        blocks += _axle(axle)
    closing = (
        Checklist(
            say("Told to the customer, in words"),
            (say("told"),),
            (
                Step(say("What was asked is not fitted here, and why.")),
                Step(say("What fits instead, and what would have to be changed on the car.")),
                Step(say("That a part fitted elsewhere against this record is at the driver's own risk and may kill.")),
            ),
        ),
        Blanks(
            (
                Blank(say("Customer, signature")),
                Blank(say("Decided by, signature")),
                Blank(say("Day")),
                Blank(say("What the customer decided")),
            )
        ),
        Notice("", answer.cautions),
    )
    return (*blocks, Together(closing))


def _axle(axle: AxleAnswer) -> tuple[Block, ...]:
    asked = say("Asked: {wish}", wish=axle.wish)
    best = axle.plan.recommended
    instead = (
        say("Nothing that is kept fits.")
        if best is None
        else say(
            "At most {thickness} {kind}, per side", thickness=thickness(best.thickness_mm), kind=disc_words(best.kind)
        )
    )
    blocks: list[Block] = [Heading(axle_title(axle.axle), asked), Verdict(say("What fits"), instead)]
    for plan in axle.plans:
        blocks += _plan(axle, plan)
    blocks += _opens(axle)
    return tuple(blocks)


def _plan(axle: AxleAnswer, plan: PlanAnswer) -> tuple[Block, ...]:
    work = ", ".join(plan.work)
    title = say("With work done: {work}", work=work) if plan.work else say("As the car stands")
    disc = wished(axle, plan)
    found = list(plan.as_it_stands) if disc is None else list(disc.findings)
    against = [finding for finding in found if keeps_out(finding)]
    rows = tuple((question_title(finding.question), finding.sentence, _missing(finding)) for finding in against)
    blocks: list[Block] = [Paragraph(title, "strong"), Paragraph(plan.decision)]
    if rows:
        columns = (
            Column(say("Question"), 0.5),
            Column(_against(disc), 2.0),
            Column(say("By how much"), 0.66, right=True),
        )
        blocks.append(Table(columns, rows))
    return tuple(blocks)


def wished(axle: AxleAnswer, plan: PlanAnswer) -> DiscAnswer | None:
    """The disc that was asked for, else the thinnest of the shelf; None with an empty shelf."""
    asked = [disc for disc in plan.discs if disc.thickness_mm == axle.wish_mm]
    return next(iter(asked or plan.discs), None)


def _against(disc: DiscAnswer | None) -> str:
    if disc is None:
        return say("Against it, without any disc")
    return say(
        "Against {thickness} {kind}: {status}",
        thickness=thickness(disc.thickness_mm),
        kind=disc_words(disc.kind),
        status=status_word(disc.status),
    )


def _missing(finding: Finding) -> str:
    if finding.verdict is Outcome.UNKNOWN:
        return "?"
    return NEVER if finding.margin_mm is None or finding.margin_mm >= 0 else short(-finding.margin_mm)


def _opens(axle: AxleAnswer) -> tuple[Block, ...]:
    blocks: list[Block] = [Paragraph(sentence) for sentence in axle.provisional]
    needed = [item for item in axle.wanted if item.needed][:MOST_READINGS]
    if needed:
        columns = (Column(say("Reading that is missing"), 0.9), Column(say("How to take it"), 1.6))
        blocks.append(Table(columns, tuple((item.what, item.how) for item in needed)))
    return tuple(blocks)
