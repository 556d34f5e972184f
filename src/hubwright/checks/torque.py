"""The torque on record, shown as it stands with its source. It is never computed, scaled or proposed here."""

from __future__ import annotations

import datetime
from dataclasses import dataclass

from hubwright.findings import Case, Evidence, Finding, Step, Verdict
from hubwright.language import marked, say
from hubwright.language.part_words import seen_word
from hubwright.parts.hole_circle import hole_circle_or_none
from hubwright.parts.hub import TorqueRecord
from hubwright.parts.job import Axle
from hubwright.quantities.text import day, joined, plain, torque
from hubwright.tables.friction import FrictionClass, class_of_words
from hubwright.tables.practice import practices
from hubwright.tables.tightening import tightening_order

QUESTION = "torque"
UNKNOWN = marked(
    "unknown: look it up in the vehicle maker's documents for this vehicle, wheel, fastener and lubrication state"
)
COMMON = marked("common practice, no source")


@dataclass(frozen=True)
class TorqueLine:
    """One record as it is shown. Every figure is the record's own; None where it does not say."""

    torque_nm: float
    sentence: str
    source: str
    lubrication: str
    stages_nm: tuple[float, ...]
    vehicle: str | None
    wheel: str | None
    fastener: str | None
    order: str | None
    recheck: str | None
    date: datetime.date | None


@dataclass(frozen=True)
class TorqueAnswer:
    """What is on record for one axle.

    Attributes:
        sentence: The records in one sentence, or that there is none.
        records: Every record of the job.
        order: Order of tightening, with where it comes from.
        recheck: When to check again, as the record says, else as practices differ.
        warnings: What to mind whatever the record says, as makers and trade bodies print it.
        findings: Conflicts and warnings of this car.
    """

    sentence: str
    records: tuple[TorqueLine, ...]
    order: str
    recheck: str
    warnings: tuple[str, ...]
    findings: tuple[Finding, ...]


def torque_of(axle: Axle) -> TorqueAnswer:
    """The torque section of one axle."""
    lines = tuple(_line(record) for record in axle.torque)
    findings = (*_conflicts(axle.torque), *_other_state(axle))
    if not lines:
        unknown = Finding(
            QUESTION,
            Verdict.UNKNOWN,
            say("Torque: {unknown}.", unknown=say(UNKNOWN)),
            None,
            Case("both", say("torque")),
            Evidence.NONE,
        )
        return TorqueAnswer(
            say("Nothing on record: {unknown}.", unknown=say(UNKNOWN)),
            (),
            _order(axle),
            _recheck(axle.torque),
            _warnings(),
            (unknown,),
        )
    shown = joined([f"{line.sentence}" for line in lines])
    return TorqueAnswer(
        say("On record: {shown}.", shown=shown), lines, _order(axle), _recheck(axle.torque), _warnings(), findings
    )


def _line(record: TorqueRecord) -> TorqueLine:
    for_what = joined([text for text in (record.vehicle, record.wheel, record.fastener) if text])
    words = [f"{torque(record.torque_nm)} {record.lubrication}"]
    if record.stages:
        words.append(say("in stages {join}", join=" – ".join(torque(stage) for stage in record.stages)))
    if for_what:
        words.append(say("for {for_what}", for_what=for_what))
    dated = f", {day(record.date)}" if record.date else ""
    return TorqueLine(
        record.torque_nm,
        f"{', '.join(words)} ({record.source}{dated})",
        record.source,
        record.lubrication,
        record.stages,
        record.vehicle,
        record.wheel,
        record.fastener,
        record.order,
        record.recheck,
        record.date,
    )


def _conflicts(records: tuple[TorqueRecord, ...]) -> tuple[Finding, ...]:
    found = []
    for number, first in enumerate(records):
        for second in records[number + 1 :]:
            if first.torque_nm == second.torque_nm and first.stages == second.stages:
                continue
            both = joined([_line(first).sentence, _line(second).sentence])
            apart = [name for name in ("vehicle", "wheel", "fastener", "lubrication") if _differ(first, second, name)]
            if apart:
                text = say(
                    "Two records differ, and so does their {apart}: {both}.",
                    apart=joined([_words_of(name) for name in apart]),
                    both=both,
                )
                todo = say("Take the one that holds for what is on this car; they must not be mixed.")
            else:
                text = say("Two records disagree: {both}.", both=both)
                todo = say("Ask the vehicle maker which holds; the vehicle maker's own instruction rules.")
            found.append(
                Finding(QUESTION, Verdict.CAUTION, text, None, Case("both", say("torque")), Evidence.STATED, (), todo)
            )
    return tuple(found)


def _differ(first: TorqueRecord, second: TorqueRecord, name: str) -> bool:
    a, b = getattr(first, name), getattr(second, name)
    return a is not None and b is not None and a.lower() != b.lower()


def _words_of(name: str) -> str:
    return {
        "vehicle": say("vehicle"),
        "wheel": say("wheel"),
        "fastener": say("fastener"),
        "lubrication": say("lubrication"),
    }[name]


def _other_state(axle: Axle) -> tuple[Finding, ...]:
    """A figure for one state of lubrication used in another."""
    found, words = [], axle.fastener.lubrication if axle.fastener else None
    mounted = class_of_words(words) if words else None
    for record in axle.torque:
        wanted = class_of_words(record.lubrication)
        if mounted is None or wanted is None or mounted.name == wanted.name:
            continue
        what = _consequence(mounted, wanted)
        text = say(
            "The record of {torque} holds for “{lubrication}”, the fasteners are “{words}”: {what}.",
            torque=torque(record.torque_nm),
            lubrication=record.lubrication,
            words=words,
            what=what,
        )
        step = Step(
            say("class {wanted} on record, class {mounted} as found", wanted=wanted.name, mounted=mounted.name),
            mounted.source,
        )
        todo = say("Bring the threads and seats into the state of the record, or find the record of this state.")
        found.append(
            Finding(
                QUESTION, Verdict.CAUTION, text, None, Case("both", say("lubrication")), Evidence.STATED, (step,), todo
            )
        )
    return tuple(found)


def _consequence(mounted: FrictionClass, wanted: FrictionClass) -> str:
    if mounted.low + mounted.high < wanted.low + wanted.high:
        return say("less friction, so the same torque clamps harder and may stretch the fastener")
    return say("more friction, so the same torque clamps less and the wheel may come loose")


def _order(axle: Axle) -> str:
    own = next((record.order for record in axle.torque if record.order), None)
    if own:
        return say("{own} (as on record)", own=own)
    circle = hole_circle_or_none(axle.hub.bolt_circle)
    holes = None if circle is None else circle.holes
    order = None if holes is None else tightening_order(holes)
    if order is None:
        return say("unknown: needs the number of fasteners, or the record's own order")
    return say("{order}, numbered round the circle ({common})", order=say(order), common=say(COMMON))


def _warnings() -> tuple[str, ...]:
    faces = [
        say(
            "Faces and seats: {item_words} ({how_seen}).", item_words=say(item.words), how_seen=seen_word(item.how_seen)
        )
        for item in practices("fastener faces")
    ]
    ways = joined([f"{say(item.words)} ({seen_word(item.how_seen)})" for item in practices("thread lubrication")], "or")
    again = joined(
        [f"{say(item.words)} ({seen_word(item.how_seen)})" for item in practices("re-torque distance")], "or"
    )
    return (
        *faces,
        say("Check again: {again}.", again=again),
        say("Makers lubricate differently: {ways}. The record of this vehicle rules.", ways=ways),
        say(
            "Oil or grease on threads that are tightened to a dry figure clamps harder and may stretch or break the fastener."
        ),
        say(
            "An impact wrench only runs fasteners on; finish with the torque wrench, the wheel loaded or free as the vehicle maker says."
        ),
    )


def _recheck(records: tuple[TorqueRecord, ...]) -> str:
    own = [f"{record.recheck} ({record.source})" for record in records if record.recheck]
    if own:
        return joined(own)
    printed = practices("re-torque distance")
    low = min((item.distance_low_km for item in printed if item.distance_low_km), default=0.0)
    high = max((item.distance_high_km for item in printed if item.distance_high_km), default=0.0)
    return say(
        "not on record; practices differ, from {low} to {high} km: ask the vehicle maker",
        low=plain(low),
        high=plain(high),
    )
