"""One disc from the shelf against every window of one axle."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum

from hubwright.checks import (
    adapter,
    brake,
    centring,
    circles,
    clearance,
    effects,
    fastening,
    joints,
    law,
    policy,
    seating,
)
from hubwright.checks.clearance import Room
from hubwright.checks.house import House
from hubwright.checks.joint import QUESTION as FASTENER
from hubwright.checks.joint import Choice
from hubwright.findings import SEVERITY, Case, Finding, Verdict, worst
from hubwright.language import say
from hubwright.language.words import of_both_sides, side_word
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.parts.shop import StockDisc
from hubwright.parts.wheel import WheelSet
from hubwright.quantities.axes import SIDES
from hubwright.rules.model import RuleSet
from hubwright.selection import other_sets
from hubwright.selection.other_sets import OtherRoom


class Status(StrEnum):
    """What becomes of one disc."""

    VALID = "valid"
    CAUTION = "caution"
    OPEN = "not known"
    REFUSED = "refused"


STATUS_OF = {
    Verdict.PASS: Status.VALID,
    Verdict.CAUTION: Status.CAUTION,
    Verdict.UNKNOWN: Status.OPEN,
    Verdict.FAIL: Status.REFUSED,
}


BESIDE = (law.QUESTION, joints.QUESTION, effects.QUESTION)
"""Questions whose unknown leaves the fit standing and is shown beside it."""


@dataclass(frozen=True)
class Bench:
    """Everything one axle is judged with, worked out once."""

    job: Job
    name: AxleName
    axle: Axle
    house: House
    rooms: tuple[Room, ...]
    law: RuleSet
    other_rooms: tuple[OtherRoom, ...] = ()

    @property
    def fitted(self) -> WheelSet:
        """The wheels fitted now; an empty set where the job names none."""
        return self.axle.fitted or WheelSet(role="fitted")

    @property
    def others(self) -> tuple[WheelSet, ...]:
        """Winter, spare and other sets."""
        return tuple(wheel_set for wheel_set in self.axle.wheel_set if wheel_set.role != "fitted")


@dataclass(frozen=True)
class Candidate:
    """One disc, judged.

    Attributes:
        disc: From the shelf.
        status: What becomes of it.
        findings: One per question, the worst of both sides; law last.
        every: Every single finding, for explanations.
        choices: Fasteners to use, fitted wheels first.
        released: Whether the margins were read with this very disc fitted, both sides.
    """

    disc: StockDisc
    status: Status
    findings: tuple[Finding, ...]
    every: tuple[Finding, ...]
    choices: tuple[Choice, ...]
    released: bool

    @property
    def thickness_mm(self) -> float:
        """Per side."""
        return self.disc.thickness_mm

    @property
    def failing(self) -> tuple[Finding, ...]:
        """The findings that refuse it."""
        return tuple(finding for finding in self.findings if finding.verdict is Verdict.FAIL)


def judge(bench: Bench, disc: StockDisc) -> Candidate:
    """Put one disc to every question.

    Law, joint and side effects that cannot be answered leave the fit standing and are shown beside it; every other
    unknown keeps a disc from being called valid. A guess about the joint never refuses a disc.
    """
    clear = [clearance.judge(room, bench.house, disc.thickness_mm) for room in bench.rooms]
    clear += [
        _beforehand(finding, other.wheel_set)
        for other in bench.other_rooms
        for finding in other_sets.judge(other, bench.house, disc.thickness_mm)
    ]
    brakes = [brake.judge(bench.axle, side, bench.house, disc.thickness_mm) for side in SIDES]
    centred = [_centred(bench, wheel_set, disc) for wheel_set in (bench.fitted, *bench.others)]
    fastened, choices = _fastened(bench, disc)
    centred.append([f for side in SIDES for f in seating.judge(bench.axle.hub_at(side), side, disc)])
    house_rules = [
        policy.judge(bench.axle.hub_at(side), bench.axle.fastener, bench.axle.wish, bench.house, disc) for side in SIDES
    ]
    house_rules += circles.judge(bench.fitted, bench.house, disc)
    lawful = law.judge(bench.job, bench.name, bench.axle, bench.rooms, bench.law, disc.thickness_mm)
    side_effects = [effects.judge(bench.axle, bench.job.is_steered(bench.name), disc.thickness_mm)]
    joint = joints.judge(bench.job, bench.name, bench.axle, disc, choices)
    groups = [clear, brakes, [f for group in centred for f in group], fastened, house_rules, side_effects]
    physical = [_worst(group) for group in groups]
    lawful_summary = law.summary(lawful)
    verdict = worst(finding.verdict for finding in physical if not _beside(finding))
    verdict = worst((verdict, *(finding.verdict for finding in joint if joints.counts(finding))))
    if lawful_summary.verdict in (Verdict.FAIL, Verdict.CAUTION):
        verdict = worst((verdict, lawful_summary.verdict))
    released = verdict in (Verdict.PASS, Verdict.CAUTION) and all(
        clearance.proven_fitted(room, disc.thickness_mm) for room in bench.rooms
    )
    return Candidate(
        disc,
        STATUS_OF[verdict],
        (*physical, joints.summary(joint), lawful_summary),
        (*(f for group in groups for f in group), *joint, *lawful),
        choices if verdict is not Verdict.FAIL else (),
        released,
    )


def without_disc(bench: Bench) -> tuple[Finding, ...]:
    """What every question says about the wheels themselves, no disc between."""
    axle, house, shop = bench.axle, bench.house, bench.job.shop
    found = [clearance.judge(room, house, 0.0) for room in bench.rooms]
    for side in SIDES:
        hub = axle.hub_at(side)
        found.append(brake.judge(axle, side, house, 0.0))
        found.append(centring.judge_bare(hub, bench.fitted, side, house))
        found.append(fastening.judge(hub, bench.fitted, axle.fastener, side, shop, house, 0.0).finding)
    lawful = law.judge(bench.job, bench.name, axle, bench.rooms, bench.law, 0.0)
    return (*found, *lawful)


def by_question(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """One finding for each question, in the order in which they were asked: the worst of both sides."""
    groups: dict[str, list[Finding]] = {}
    for finding in findings:
        groups.setdefault(finding.question, []).append(finding)
    return tuple(law.summary(tuple(group)) if name == law.QUESTION else _worst(group) for name, group in groups.items())


def blocks(finding: Finding) -> bool:
    """Whether a finding keeps a disc from being valid: a failure always, an unknown unless it stands beside the fit."""
    return finding.verdict is Verdict.FAIL or (finding.verdict is Verdict.UNKNOWN and finding.question not in BESIDE)


def _beside(finding: Finding) -> bool:
    return finding.verdict is Verdict.UNKNOWN and finding.question in BESIDE


def _worst(findings: list[Finding]) -> Finding:
    """The worst finding of a group; among equals the one with the least margin, both sides named where they agree."""
    governing = max(findings, key=lambda f: (SEVERITY[f.verdict], -(f.margin_mm if f.margin_mm is not None else 1e9)))
    shared = of_both_sides(governing.sentence)
    others = [finding for finding in findings if finding.case is not None and finding.case.side == "right"]
    if governing.case is None or governing.case.side != "left" or shared == governing.sentence:
        return governing
    if any(of_both_sides(finding.sentence) == shared for finding in others):
        return replace(governing, sentence=shared)
    return governing


def _centred(bench: Bench, wheel_set: WheelSet, disc: StockDisc) -> list[Finding]:
    if wheel_set.role != "fitted" and wheel_set.discs == "come off":
        return []
    found = [centring.judge(bench.axle.hub_at(side), wheel_set, side, bench.house, disc) for side in SIDES]
    return found if wheel_set.role == "fitted" else [_beforehand(finding, wheel_set) for finding in found]


def _fastened(bench: Bench, disc: StockDisc) -> tuple[list[Finding], tuple[Choice, ...]]:
    axle, shop, house = bench.axle, bench.job.shop, bench.house
    if disc.kind == "bolted":
        adapters: list[Finding] = []
        for side in SIDES:
            hub = axle.hub_at(side)
            adapters.append(adapter.judge(hub, (bench.fitted,), axle.fastener, side, house, disc))
            adapters += [
                _beforehand(adapter.judge(hub, (other,), axle.fastener, side, house, disc), other)
                for other in bench.others
                if other.discs == "stay"
            ]
        return adapters, ()
    found: list[Finding] = []
    choices: dict[tuple[str, float | None], Choice] = {}
    for wheel_set in (bench.fitted, *bench.others):
        for side in SIDES:
            if wheel_set.role != "fitted" and wheel_set.discs == "come off":
                found.append(_kept(wheel_set, side))
                continue
            result = fastening.judge(axle.hub_at(side), wheel_set, axle.fastener, side, shop, house, disc.thickness_mm)
            found.append(result.finding if wheel_set.role == "fitted" else _beforehand(result.finding, wheel_set))
            if result.choice is not None:
                choices.setdefault((wheel_set.title, result.choice.length_mm), result.choice)
    return found, tuple(choices.values())


def _kept(wheel_set: WheelSet, side: str) -> Finding:
    sentence = say(
        "{side}, {wheel_set_title}: the discs come off for them; today's fasteners stay with that set.",
        side=side_word(side),
        wheel_set_title=wheel_set.title,
    )
    return Finding(FASTENER, Verdict.PASS, sentence, None, Case(side, wheel_set.title))


def _beforehand(finding: Finding, wheel_set: WheelSet) -> Finding:
    """Another wheel set cannot refuse what fits today, but it must be settled before that set goes on."""
    if finding.verdict in (Verdict.PASS, Verdict.CAUTION):
        return finding
    todo = f"{say('Settle this before the {set} goes on.', set=wheel_set.title)} {finding.todo}".strip()
    return replace(finding, verdict=Verdict.CAUTION, todo=todo)
