"""The inspection file: law as measure against limit with source, readings, proof, sources, photographs."""

from __future__ import annotations

import base64
from collections.abc import Iterable, Iterator

from hubwright.drawings.gapchart import gap_chart_svg
from hubwright.drawings.windows import windows_svg
from hubwright.findings import Finding
from hubwright.jobs.answer import Answer, AxleAnswer, DiscAnswer, LawNote
from hubwright.language import say
from hubwright.language.words import axle_title, corner_title, evidence_word, law_word, side_word, verdict_word
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.quantities.axes import SIDES
from hubwright.quantities.text import length, thickness
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
    Picture,
    Table,
    Together,
    Verdict,
)
from hubwright.reports.fits import mapped_places, proofs_of
from hubwright.reports.measuring import axle_blocks
from hubwright.reports.options import Identity, Options, Photograph
from hubwright.reports.refusal import wished
from hubwright.reports.torque import record_rows
from hubwright.reports.words import NEVER, disc_words, job_facts

CHART_MM, WINDOWS_MM = 84.0, 104.0
JPEG, PNG = b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n"
LARGEST_PICTURE_BYTES = 4 * 1024 * 1024


def blocks_of(job: Job, answer: Answer, identity: Identity, options: Options) -> tuple[Block, ...]:
    """Everything in the file."""
    blocks: list[Block] = [
        Facts((*job_facts(job, answer, identity.customer), (say("SHA-256 of the job file"), identity.sha256))),
        Notice("", answer.cautions),
    ]
    for name, axle in job.axles:
        blocks += _axle(job, name, axle, answer.axle(name), options)
    fields = (Blank(say("Inspector")), Blank(say("Day and place")), Blank(say("Result, conditions"), 2))
    signed = Together((Heading(say("Inspected")), Blanks(fields)))
    blocks += [*_duties(answer.law_notes), signed, *_sources(answer), *_photographs(identity.photographs)]
    return tuple(blocks)


def _axle(job: Job, name: AxleName, axle: Axle, own: AxleAnswer, options: Options) -> tuple[Block, ...]:
    plan = own.plan
    disc = plan.recommended or wished(own, plan)
    blocks: list[Block] = [
        Heading(axle_title(name), say("Asked: {wish}", wish=own.wish)),
        Verdict(*_what(own, disc), own.decision),
    ]
    if disc is not None:
        blocks += _law(disc)
        blocks += _proof(job, name, axle, disc, work=bool(plan.work))
    if own.load:
        blocks += [Heading(say("Load: {axle}", axle=axle_title(name))), _findings(own.load)]
    blocks += [Heading(say("Torque on record: {axle}", axle=axle_title(name)))]
    records = own.torque.records
    blocks += [Table((Column("", 0.42), Column("")), record_rows(line, options)) for line in records]
    blocks += [] if records else [Paragraph(say("Not on record: look it up."))]
    windows = windows_svg(plan, own.wish_mm, axle_title(name))
    blocks += [
        Together((Heading(say("Windows: {axle}", axle=axle_title(name))), Picture(windows, own.decision, WINDOWS_MM))),
        *_charts(job, name, disc, work=bool(plan.work)),
        *axle_blocks(job, name, axle, filled=True, new_page=False),
    ]
    return tuple(blocks)


def _what(own: AxleAnswer, disc: DiscAnswer | None) -> tuple[str, str]:
    if disc is None:
        return say("Looked at"), say("no disc")
    words = say("{thickness} {kind}, per side", thickness=thickness(disc.thickness_mm), kind=disc_words(disc.kind))
    if own.plan.recommended is None:
        return say("Nothing is fitted; looked at"), words
    return (say("Fitted and released") if own.released else say("Recommended, not released")), words


def _law(disc: DiscAnswer) -> tuple[Block, ...]:
    rows = [
        (finding.case.item if finding.case else "", step.text, say(step.source), law_word(finding.verdict))
        for finding in disc.every
        if finding.question == "law"
        for step in finding.working
    ]
    if not rows:
        return (
            Paragraph(say("Law: no country was named, or none of its rules is kept here; unknown is never a pass.")),
        )
    columns = (
        Column(say("Rule"), 1.1), Column(say("Measure; limit"), 1.3), Column(say("Source"), 1.3),
        Column(say("Result"), 0.4),
    )  # fmt: skip
    return (Heading(say("Law: measure against limit")), Table(columns, tuple(rows)))


def _proof(job: Job, name: AxleName, axle: Axle, disc: DiscAnswer, *, work: bool) -> tuple[Block, ...]:
    proofs = proofs_of(job, name, axle, disc.thickness_mm, with_work=work)
    rows: list[tuple[str, ...]] = []
    for proof in proofs:
        read, apart = NEVER, NEVER
        if proof.read_mm is not None:
            read, apart = length(proof.read_mm), length(proof.read_mm - proof.predicted_mm)
        figures = (length(proof.predicted_mm), length(proof.needed_mm), read, apart)
        rows.append((side_word(proof.side), f"{proof.point}, {proof.state}", *figures))
    for side, words in mapped_places(disc, proofs):
        rows.append((side_word(side), words, say("by map"), NEVER, NEVER, NEVER))
    if not rows:
        return (Paragraph(say("Proof readings: no gap was read, nothing can be predicted."), "plain"),)
    columns = (
        Column(say("Side"), 0.4), Column(say("Point and state"), 1.6), Column(say("Predicted"), 0.6, right=True),
        Column(say("At least"), 0.55, right=True), Column(say("Read, disc fitted"), 0.6, right=True),
        Column(say("Difference"), 0.6, right=True),
    )  # fmt: skip
    return (Heading(say("Proof readings: predicted and measured")), Table(columns, tuple(rows)))


def _findings(findings: Iterable[Finding]) -> Table:
    rows = tuple(
        (finding.sentence, verdict_word(finding.verdict), evidence_word(finding.evidence)) for finding in findings
    )
    return Table((Column(say("What"), 2.0), Column(say("Result"), 0.45), Column(say("Rests on"), 0.8)), rows)


def _charts(job: Job, name: AxleName, disc: DiscAnswer | None, *, work: bool) -> tuple[Block, ...]:
    t = disc.thickness_mm if disc is not None else 0.0
    pictures = []
    for side in SIDES:
        title = corner_title(name, side)
        svg = gap_chart_svg(job, name, side, t, with_work=work, title=title)
        pictures.append(Picture(svg, say("Gap against travel: {corner}", corner=title), CHART_MM))
    heading = Heading(say("Gap against travel: {axle}", axle=axle_title(name)))
    return (Together((heading, Beside((pictures[0],), (pictures[1],)))),)


def _duties(notes: tuple[LawNote, ...]) -> tuple[Block, ...]:
    if not notes:
        return ()
    columns = (
        Column(say("Law"), 0.3), Column(say("Open for the inspector"), 1.6), Column(say("Citation"), 0.8),
        Column(say("What to do"), 1.2),
    )  # fmt: skip
    rows = tuple((note.jurisdiction, note.text, note.citation, note.what_to_do) for note in notes)
    return (Heading(say("Duties that are never worked out")), Table(columns, rows))


def _sources(answer: Answer) -> tuple[Block, ...]:
    found = sorted(set(_cited(answer)))
    if not found:
        return ()
    rows = tuple((str(number), source) for number, source in enumerate(found, start=1))
    return (Heading(say("Sources of the figures")), Table((Column("", 0.08), Column(say("Source"))), rows))


def _cited(answer: Answer) -> Iterator[str]:
    for axle in answer.axles:
        disc = axle.plan.recommended or wished(axle, axle.plan)
        for finding in (*(disc.every if disc is not None else ()), *axle.load, *axle.torque.findings):
            yield from (say(step.source) for step in finding.working if step.source)


def _photographs(photographs: tuple[Photograph, ...]) -> tuple[Block, ...]:
    if not photographs:
        return ()
    columns = (Column(say("Attached"), 1.0), Column(say("Note"), 1.0), Column("SHA-256", 1.4))
    rows = tuple((one.name, one.note, one.sha256) for one in photographs)
    blocks: list[Block] = [Heading(say("Photographs")), Table(columns, rows)]
    pictures = [picture for one in photographs if (picture := _picture(one)) is not None]
    for left, right in zip(pictures[::2], [*pictures[1::2], None], strict=False):
        blocks.append(Beside((left,), (right,) if right is not None else ()))
    return tuple(blocks)


def _picture(one: Photograph) -> Picture | None:
    """A photograph in a frame of SVG; None for what is no JPEG or PNG, or too large for paper."""
    data = one.data
    if data is None or len(data) > LARGEST_PICTURE_BYTES or not data.startswith((JPEG, PNG)):
        return None
    kind = "image/png" if data.startswith(PNG) else "image/jpeg"
    held = base64.b64encode(data).decode("ascii")
    svg = (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 400 300">'
        f'<image width="400" height="300" preserveAspectRatio="xMidYMid meet" href="data:{kind};base64,{held}"/></svg>'
    )
    return Picture(svg, one.name, None, one.name)
