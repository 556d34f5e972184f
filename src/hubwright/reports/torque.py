"""Torque on paper: the record with its source and lubrication, or lines to fill by hand. Nothing is worked out."""

from __future__ import annotations

from hubwright.checks.torque import TorqueLine
from hubwright.drawings.svg import svg_of
from hubwright.drawings.tightening import tightening_scene, turns_of
from hubwright.findings import Verdict as Outcome
from hubwright.language import say
from hubwright.quantities.text import day, number, pointed
from hubwright.quantities.units import NM_PER_POUND_FOOT
from hubwright.reports.content import (
    Blank,
    Blanks,
    Block,
    Checklist,
    Column,
    Notice,
    Paragraph,
    Picture,
    Step,
    Table,
    Verdict,
)
from hubwright.reports.fits import Fit, holes_of
from hubwright.reports.options import Options


def torque_words(value_nm: float, options: Options) -> str:
    """A torque as it stands on record; where another unit is spoken, with the record's own figure beside it."""
    own = say("{value} N·m", value=_short(value_nm))
    if options.units == "metric":
        return own
    return say("{value} lb-ft ({record} on record)", value=number(value_nm / NM_PER_POUND_FOOT, 0), record=own)


def _short(value: float) -> str:
    return pointed(f"{value:.2f}".rstrip("0").rstrip("."))


def record_rows(line: TorqueLine, options: Options) -> tuple[tuple[str, str], ...]:
    """Everything one record says."""
    stages = " – ".join(torque_words(stage, options) for stage in line.stages_nm)
    rows = [
        (say("Torque"), torque_words(line.torque_nm, options)),
        (say("Stages"), stages or say("none on record")),
        (say("Threads and seats"), line.lubrication),
        (say("Source"), line.source if line.date is None else f"{line.source}, {day(line.date)}"),
        (say("Holds for"), ", ".join(text for text in (line.vehicle, line.wheel, line.fastener) if text)),
        (say("Check again"), line.recheck or ""),
    ]
    return tuple((name, value) for name, value in rows if value)


def not_on_record() -> tuple[Block, ...]:
    """What is printed without a record: words, and lines to fill by hand."""
    return (
        Notice(
            say("Torque: not on record, look it up"),
            (say("In the vehicle maker's documents, for this vehicle, wheel, fastener and lubrication state."),),
            caution=False,
        ),
        Blanks(
            (
                Blank(say("Torque, with its unit")),
                Blank(say("Stages")),
                Blank(say("Threads and seats: dry or …")),
                Blank(say("Source, looked up by")),
            )
        ),
    )


def order_picture(fit: Fit, width_mm: float = 42.0) -> tuple[Block, ...]:
    """The order of tightening, drawn for the number of holes, and where it comes from."""
    holes = holes_of(fit.axle)
    if holes is None:
        return (Paragraph(say("Order of tightening: {order}.", order=fit.answer.torque.order), "small"),)
    recorded = next((line.order for line in fit.answer.torque.records if line.order), None)
    turns = turns_of(holes, recorded)
    caption = (
        say("Tighten in the order of the numbers. {source}", source=_source(recorded))
        if turns
        else say("Order: {order}", order=fit.answer.torque.order)
    )
    scene = tightening_scene(holes, turns)
    return (Picture(svg_of(scene), f"{scene.title}. {scene.description}", width_mm, caption),)


def _source(recorded: str | None) -> str:
    if recorded is None:
        return say("Common practice, no source.")
    return say("On record: {order}; counted clockwise here.", order=recorded)


def torque_blocks(fit: Fit, options: Options) -> tuple[Block, ...]:
    """The records of one axle, each apart; or that there is none."""
    records = fit.answer.torque.records
    if not records:
        return not_on_record()
    blocks: list[Block] = [*torque_warnings(fit)]
    for line in records:
        blocks.append(Table((Column("", 0.5), Column("", 1.0)), record_rows(line, options)))
    if len(records) > 1:
        steps = tuple(Step(torque_words(line.torque_nm, options), line.source) for line in records)
        blocks.append(Checklist(say("Which one holds for this car? Mark one."), (say("holds"),), steps))
    return tuple(blocks)


def torque_warnings(fit: Fit) -> tuple[Block, ...]:
    """Records that differ, or fasteners in another state than the record wants, with what to do about it."""
    found = [finding for finding in fit.answer.torque.findings if finding.verdict is Outcome.CAUTION]
    if not found:
        return ()
    texts = (text for finding in found for text in (finding.sentence, finding.todo) if text)
    return (Notice(say("Mind the record"), tuple(dict.fromkeys(texts))),)


def torque_verdict(fit: Fit, options: Options) -> Verdict | None:
    """The torque in large letters, where there is exactly one record."""
    records = fit.answer.torque.records
    if len(records) != 1:
        return None
    line = records[0]
    stages = " – ".join(torque_words(stage, options) for stage in line.stages_nm)
    note = [line.lubrication, say("source: {source}", source=line.source)]
    if stages:
        note.insert(0, say("in stages: {stages}", stages=stages))
    return Verdict(say("Torque on record"), torque_words(line.torque_nm, options), "; ".join(note))
