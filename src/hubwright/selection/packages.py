"""Offered packages: which of them goes in place of the fitted wheels, without a disc and with each of the shelf."""

from __future__ import annotations

from dataclasses import dataclass, replace

from hubwright.checks import law, package, package_law
from hubwright.checks.clearance import Room, room_of
from hubwright.checks.house import House
from hubwright.checks.outlines import Built, try_built
from hubwright.checks.package import Swapped
from hubwright.checks.package_room import room_unknown, room_with, swap_of
from hubwright.checks.standing import BodyStanding, standings
from hubwright.engineering.tyrewheel.figures import figures_of
from hubwright.engineering.tyrewheel.replace import (
    Change,
    Edges,
    PackageFigures,
    change,
    edges,
    inset_for_equal_outer_edge_mm,
    thickness_for_equal_centre_plane_mm,
    thickness_for_equal_outer_edge_mm,
)
from hubwright.errors import BadInput
from hubwright.findings import Finding, Verdict, worst
from hubwright.language import say
from hubwright.parts.corner import Brake, Corner
from hubwright.parts.hub import Fastener
from hubwright.parts.job import Axle, AxleName, Job, Wish
from hubwright.parts.wheel import OfferedPackage, WheelSet
from hubwright.quantities.axes import SIDES
from hubwright.quantities.reading import Reading
from hubwright.rules.model import RuleSet
from hubwright.selection.candidates import STATUS_OF, Bench, Candidate, Status, judge, without_disc
from hubwright.selection.plans import shelf
from hubwright.selection.ranking import recommended

VERDICT_OF = {status: verdict for verdict, status in STATUS_OF.items()}
NEAR_ZERO_MM = 0.5
"""A disc wished thinner than this is none."""


@dataclass(frozen=True)
class Sums:
    """Package against package in figures, both without a disc; see `hubwright.engineering.tyrewheel.replace`."""

    figures: PackageFigures
    edges: Edges
    change: Change | None
    same_outer_disc_mm: float | None
    same_outer_inset_mm: float | None
    same_track_disc_mm: float | None


@dataclass(frozen=True)
class PackageChoice:
    """One offered package, judged.

    Attributes:
        offered: From the job.
        built, fitted: Both packages drawn up; None where a designation is missing.
        why: Why not, in words.
        sums: None where the offered package cannot be drawn up.
        bare: What becomes of it without a disc.
        findings: Every finding without a disc.
        candidates: Every disc of the shelf under it.
        recommended_mm: For the wish; 0 = without a disc, None = nothing.
        standing: Against the body lines, without a disc.
    """

    offered: OfferedPackage
    built: Built | None
    fitted: Built | None
    why: str
    sums: Sums | None
    bare: Status
    findings: tuple[Finding, ...]
    candidates: tuple[Candidate, ...]
    recommended_mm: float | None
    standing: tuple[BodyStanding, ...]


def package_choices(job: Job, name: AxleName, axle: Axle, house: House, rules: RuleSet) -> tuple[PackageChoice, ...]:
    """Every package offered on one axle, in the order of the job."""
    return tuple(_choice(job, name, axle, offered, house, rules) for offered in axle.package)


def _choice(
    job: Job, name: AxleName, axle: Axle, offered: OfferedPackage, house: House, rules: RuleSet
) -> PackageChoice:
    now = axle.fitted or WheelSet(role="fitted")
    fitted, why_fitted = try_built(now.wheel, now.tyre)
    new, why_new = try_built(offered.wheel, offered.tyre)
    why = " ".join(
        f"{whose}: {text}" for whose, text in ((say("Offered"), why_new), (say("Fitted"), why_fitted)) if text
    )
    sums = _sums(fitted, new, offered) if new is not None else None
    with_it = axle_with(axle, offered, sums, fitted, new)
    rooms = _rooms(job, name, axle, offered, fitted, house, why)
    bench = Bench(job, name, with_it, house, rooms, rules)
    own = _own(Swapped(job, name, axle, offered, fitted, new), rules) if new is not None else package.clash(offered)
    bare = (*own, *without_disc(bench))
    drawn = Verdict.PASS if new is not None else Verdict.UNKNOWN
    hindrance = worst((drawn, _verdict(own)))
    candidates = tuple(_under(judge(bench, disc), hindrance) for disc in shelf(job))
    status = STATUS_OF[worst((drawn, _verdict(bare)))]
    return PackageChoice(
        offered, new, fitted, why, sums, status, bare, candidates,
        _recommended(axle.wish, sums, status, candidates),
        standings(axle, new) if new is not None else (),
    )  # fmt: skip


def _own(swapped: Swapped, rules: RuleSet) -> tuple[Finding, ...]:
    return (*package.judge(swapped), *package_law.judge(swapped, rules))


def _sums(fitted: Built | None, new: Built, offered: OfferedPackage) -> Sums:
    after = _figures(new, offered.wheel.load_rating_kg)
    if fitted is None:
        return Sums(after, edges(after), None, None, None, None)
    before = _figures(fitted, None)
    return Sums(
        after,
        edges(after),
        change(before, after),
        thickness_for_equal_outer_edge_mm(before, after),
        inset_for_equal_outer_edge_mm(before, after),
        thickness_for_equal_centre_plane_mm(before, after),
    )


def _figures(built: Built, rating_kg: float | None) -> PackageFigures:
    try:
        return figures_of(built.package, built.tyre_size, rating_kg)
    except BadInput:
        return figures_of(built.package, None, rating_kg)


def axle_with(axle: Axle, offered: OfferedPackage, sums: Sums | None, fitted: Built | None, new: Built | None) -> Axle:
    """The axle as it will be: other wheels, other track, other cover; what the fitted wheels alone told is dropped.

    Dropped are the room over the brake read with the fitted wheels, and the engagement counted with them.
    """
    own = WheelSet(role="fitted", name=offered.title, wheel=offered.wheel, tyre=offered.tyre, fastener=offered.fastener)
    others = tuple(wheel_set for wheel_set in axle.wheel_set if wheel_set.role != "fitted")
    moved = sums.change.centre_plane_mm if sums is not None and sums.change is not None else None
    tread = _tread_moved(fitted, new)
    return replace(
        axle,
        wheel_set=(own, *others),
        fastener=_uncounted(axle.fastener),
        track_mm=None if axle.track_mm is None or moved is None else axle.track_mm + 2 * moved,
        largest_series_track_mm=axle.largest_series_track_mm or axle.track_mm,
        scrub_radius_mm=None if axle.scrub_radius_mm is None or moved is None else axle.scrub_radius_mm + moved,
        left=_corner(axle.left, tread),
        right=_corner(axle.right, tread),
    )


def _tread_moved(fitted: Built | None, new: Built | None) -> float | None:
    """How much further outboard the tread edge comes, mm; None unless both treads were measured."""
    if fitted is None or new is None or "tread_width_mm" in (*fitted.guessed, *new.guessed):
        return None
    after, before = (b.package.centre_plane_mm + b.tyre.tread_edge[1] for b in (new, fitted))
    return after - before


def _corner(corner: Corner, tread_mm: float | None) -> Corner:
    brake_left = Brake(caliper_mm=corner.brake.caliper_mm, new_lining_mm=corner.brake.new_lining_mm)
    cover = corner.cover_mm
    moved: Reading | None = None
    if cover is not None and tread_mm is not None:
        moved = replace(cover, values=tuple(value - tread_mm for value in cover.values))
    return replace(corner, brake=brake_left, cover_mm=moved)


def _uncounted(fastener: Fastener | None) -> Fastener | None:
    """Fasteners without what was counted on other wheels."""
    if fastener is None:
        return None
    return replace(fastener, engagement_mm=None, engagement_turns=None)


def _rooms(
    job: Job, name: AxleName, axle: Axle, offered: OfferedPackage, fitted: Built | None, house: House, why: str
) -> tuple[Room, ...]:
    steered = job.is_steered(name)
    now = [room_of(axle, side, house, steered=steered, with_work=False) for side in SIDES]
    largest, why_largest = try_built(offered.wheel, offered.tyre, "largest")
    if fitted is None or largest is None or axle.fitted is None:
        return tuple(room_unknown(room, why or why_largest) for room in now)
    swap = swap_of(fitted, largest, axle.fitted.tyre, offered.tyre)
    return tuple(room_with(axle, room, swap, house) for room in now)


def _verdict(findings: tuple[Finding, ...]) -> Verdict:
    """The worst of the findings; law that cannot be answered leaves the fit standing."""
    return worst(f.verdict for f in findings if f.question != law.QUESTION or f.verdict is not Verdict.UNKNOWN)


def _under(candidate: Candidate, hindrance: Verdict) -> Candidate:
    """A disc under a package is no better than the package, and never released: nothing was measured with it."""
    status = STATUS_OF[worst((VERDICT_OF[candidate.status], hindrance))]
    return replace(candidate, status=status, released=False)


def _recommended(wish: Wish | None, sums: Sums | None, bare: Status, candidates: tuple[Candidate, ...]) -> float | None:
    """The disc that brings the outer edge where it was wished; without a wish none, or the thinnest where one is needed."""
    fits = bare in (Status.VALID, Status.CAUTION)
    target = wish
    if wish is not None and wish.aim == "thickness" and wish.thickness_mm is not None:
        if sums is None or sums.change is None:
            return None
        left = wish.thickness_mm - sums.change.outward_mm
        if left < NEAR_ZERO_MM:
            return 0.0 if fits else None
        target = replace(wish, thickness_mm=left)
    elif wish is None or wish.aim == "least":
        if fits:
            return 0.0
        target = Wish(aim="least")
    best = recommended(candidates, target)
    return best.thickness_mm if best is not None else 0.0 if fits else None
