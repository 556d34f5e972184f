"""The figures of a disc being tried, left and right beside each other."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.checks import mapped
from hubwright.checks.centring import pilot_of
from hubwright.checks.clearance import QUESTION as CLEARANCE
from hubwright.checks.clearance import Room, pinch_at
from hubwright.drawings.table import Table
from hubwright.engineering.centring.spigot import plain_engagement_mm
from hubwright.findings import Finding
from hubwright.jobs.answer import DiscAnswer
from hubwright.jobs.bench import PlanBench
from hubwright.language import say
from hubwright.language.words import side_word
from hubwright.quantities.text import left_over, length, number, percent, unit

NONE = "–"


@dataclass(frozen=True)
class Air:
    """What a wheel has left at its pinch: free air, what is left over once everything owed is taken off, and where."""

    free_mm: float | None
    left_mm: float | None
    where: str


def figures_of(at: PlanBench, disc: DiscAnswer) -> Table:
    """Gap left at the pinch, what is left over, pilot, engagement, track."""
    airs = [air_of(room, at, disc) for room in at.bench.rooms]
    rows = [
        (say("free air at the pinch"), *(_length(air.free_mm) for air in airs)),
        (say("left over there, {unit}", unit=unit()), *(_signed(air.left_mm) for air in airs)),
        (say("pinch"), *(air.where or NONE for air in airs)),
        (say("pilot left in the wheel"), *_pilots(at, disc)),
    ]
    for choice in disc.fasteners:
        engaged, turns = length(choice.engagement_mm), number(choice.engagement_turns, 1)
        words = say("{engaged}, {turns} turns", engaged=engaged, turns=turns)
        rows.append((say("thread engaged, {wheels}", wheels=choice.wheel_set), words, words))
    rows.append((say("track"), *((_track(at, disc),) * 2)))
    head = (say("figure"), *(side_word(room.side) for room in at.bench.rooms))
    return Table(say("Figures with this disc"), head, tuple(rows))


def air_of(room: Room, at: PlanBench, disc: DiscAnswer) -> Air:
    """The pinch of one wheel, from the same finding the verdict rests on."""
    finding = next((f for f in disc.every if f.question == CLEARANCE and _of(f, room)), None)
    if finding is None or finding.case is None or finding.margin_mm is None:
        return Air(None, None, "")
    return Air(_free_mm(room, at, disc.thickness_mm, finding), finding.margin_mm, _where(finding))


def _of(finding: Finding, room: Room) -> bool:
    return finding.case is not None and finding.case.side == room.side


def _where(finding: Finding) -> str:
    case = finding.case
    return ", ".join(part for part in (case.item, case.state) if part) if case is not None else ""


def _free_mm(room: Room, at: PlanBench, thickness_mm: float, finding: Finding) -> float | None:
    """Free air in the state the finding speaks of: of the readings, else of the map."""
    pinch = pinch_at(room, thickness_mm)
    if pinch is not None and pinch.slack_mm == finding.margin_mm:
        curve, state = pinch.swept.curve, pinch.state
        return float(curve.gap_mm[state] + pinch.swept.gain_mm - curve.push[state] * thickness_mm)
    if room.mapped is not None:
        gap = mapped.gaps(room.mapped, at.bench.house, thickness_mm)[0]
        if gap.slack_mm == finding.margin_mm:
            return gap.air_mm
    return None


def _pilots(at: PlanBench, disc: DiscAnswer) -> tuple[str, ...]:
    if disc.kind != "plain":
        return (say("on the disc's own lip"),) * len(at.bench.rooms)
    found = []
    for room in at.bench.rooms:
        pilot = pilot_of(at.bench.axle.hub_at(room.side), at.bench.fitted.wheel, at.bench.house)
        if pilot is None:
            found.append(say("not known"))
            continue
        left = max(plain_engagement_mm(pilot.spigot_mm, disc.thickness_mm, pilot.chamfer_mm), 0.0)
        found.append(say("{left}, {least} wanted", left=length(left), least=length(pilot.least_mm)))
    return tuple(found)


def _track(at: PlanBench, disc: DiscAnswer) -> str:
    more, track = 2 * disc.thickness_mm, at.bench.axle.track_mm
    if track is None:
        return say("+{more}, track not stated", more=length(more))
    return say(
        "+{more} to {track} ({share})", more=length(more), track=length(track + more, 0), share=percent(more / track)
    )


def _length(value_mm: float | None) -> str:
    return NONE if value_mm is None else length(value_mm)


def _signed(value_mm: float | None) -> str:
    return NONE if value_mm is None else left_over(value_mm)
