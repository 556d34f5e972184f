"""One axle under one plan: as it stands, or with the work offered at its points done."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from hubwright.checks import brake, centring, clearance, fastening, law
from hubwright.checks.clearance import Room, room_of
from hubwright.checks.house import House
from hubwright.checks.mapped import MapRoom
from hubwright.findings import Finding, Window
from hubwright.language.place_words import work_word
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.parts.shop import DEFAULT_DISCS, StockDisc
from hubwright.quantities.axes import SIDES, Side
from hubwright.rules.model import RuleSet
from hubwright.selection.candidates import Bench, Candidate, blocks, judge
from hubwright.selection.other_sets import other_rooms
from hubwright.selection.ranking import recommended

Maps = Mapping[Side, MapRoom]


@dataclass(frozen=True)
class Plan:
    """The answer of one axle under one plan.

    Attributes:
        work: What is done to the car first; empty = as it stands.
        as_it_stands: The clearance of each side without any disc.
        windows: All windows, by question and side.
        candidates: Every disc of the shelf, by thickness.
        recommended: The one for the wish; None = none.
        side_alone_mm: The thickest valid disc each side could take by itself.
    """

    work: tuple[str, ...]
    as_it_stands: tuple[Finding, ...]
    windows: tuple[Window, ...]
    candidates: tuple[Candidate, ...]
    recommended: Candidate | None
    side_alone_mm: tuple[float | None, float | None]


def shelf(job: Job) -> tuple[StockDisc, ...]:
    """The shop's discs by thickness, or the usual series where the job states none."""
    return tuple(sorted(job.shop.disc or DEFAULT_DISCS, key=lambda disc: (disc.thickness_mm, disc.kind)))


def work_offered(axle: Axle) -> tuple[str, ...]:
    """The work offered at any point of the axle, each once."""
    named = [work_word(work.name) for side in SIDES for point in axle.corner(side).point for work in point.work]
    return tuple(dict.fromkeys(named))


def bench_of(
    job: Job, name: AxleName, axle: Axle, house: House, rules: RuleSet, *, with_work: bool, maps: Maps
) -> Bench:
    """What any disc is judged with on one axle; ``maps`` holds the clearance maps of its corners, by side.

    A map is drawn for the fitted wheels: the other sets are judged on the readings alone.
    """
    rooms = _rooms(job, name, axle, house, with_work, maps)
    read = _rooms(job, name, axle, house, with_work, {}) if maps else rooms
    return Bench(job, name, axle, house, rooms, rules, other_rooms(axle, read, house))


def plan_on(bench: Bench, work: tuple[str, ...]) -> Plan:
    """Judge every disc of the shelf; ``work`` names what is done first, as the bench reckons it done."""
    job, axle, house = bench.job, bench.axle, bench.house
    candidates = tuple(judge(bench, disc) for disc in shelf(job))
    return Plan(
        work,
        tuple(clearance.judge(room, house, 0.0) for room in bench.rooms),
        windows_of(bench),
        candidates,
        recommended(candidates, axle.wish),
        (_alone(bench, candidates, 0), _alone(bench, candidates, 1)),
    )


def _rooms(job: Job, name: AxleName, axle: Axle, house: House, with_work: bool, maps: Maps) -> tuple[Room, ...]:
    steered = job.is_steered(name)
    return tuple(
        room_of(axle, side, house, steered=steered, with_work=with_work, mapped=maps.get(side)) for side in SIDES
    )


def windows_of(bench: Bench) -> tuple[Window, ...]:
    """Every window of one axle: clearance, brake, centring by kind of disc, fastener, law."""
    axle, house, shop = bench.axle, bench.house, bench.job.shop
    kinds = sorted({disc.kind for disc in shelf(bench.job)}, key=("plain", "lipped", "bolted").index)
    windows: list[Window] = [clearance.window_of(room) for room in bench.rooms]
    windows += [brake.window_of(axle, side, house) for side in SIDES]
    for kind in kinds:
        windows += [centring.window_of(axle.hub_at(side), bench.fitted, side, house, kind) for side in SIDES]
    if any(kind != "bolted" for kind in kinds):
        windows += [
            fastening.window_of(axle.hub_at(side), bench.fitted, axle.fastener, side, shop, house) for side in SIDES
        ]
    windows.append(law.window_of(bench.job, bench.name, axle, bench.law))
    return tuple(windows)


def _alone(bench: Bench, candidates: tuple[Candidate, ...], number: int) -> float | None:
    """The thickest disc that only the other side's clearance refuses, or that is valid anyway."""
    room = bench.rooms[number]
    best = None
    for candidate in candidates:
        others = [finding for finding in candidate.findings if finding.question != clearance.QUESTION]
        blocked = any(blocks(finding) for finding in others)
        own = clearance.judge(room, bench.house, candidate.thickness_mm)
        if not blocked and not blocks(own):
            best = candidate.thickness_mm
    return best
