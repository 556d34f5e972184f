"""How far a wheel travels: limits read with the spring out, else springs, bar and stops in balance with the loads."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from hubwright.language import say
from hubwright.parts.hardpoints import Springing
from hubwright.parts.job import AxleName, Job
from hubwright.quantities.axes import Side
from hubwright.quantities.text import plain
from hubwright.quantities.units import GRAVITY

if TYPE_CHECKING:
    from hubwright.engineering.kinematics.travel import AxleSprings, SprungWheel


@dataclass(frozen=True)
class CaseTravel:
    """Where the wheels of an axle come to rest in one case; ``left_at_limit``: only the limit read stopped it."""

    name: str
    left_mm: float
    right_mm: float
    left_at_limit: bool
    right_at_limit: bool


@dataclass(frozen=True)
class Reach:
    """Lowest and highest travel looked at.

    Attributes:
        low_mm, high_mm: Travel, bump positive.
        high_known: Whether somebody read the bump limit or the springs gave it.
        words: Where both ends come from.
        cases: Travel in every case of load, where the springs are known and a limit is not.
        notes: What has to be said beside a result.
    """

    low_mm: float
    high_mm: float
    high_known: bool
    words: str
    cases: tuple[CaseTravel, ...]
    notes: tuple[str, ...]


def reach_of(job: Job, name: AxleName, side: Side) -> Reach:
    """The travel of one wheel: readings overrule the balance of springs, that overrules the job's estimate."""
    axle = dict(job.axles)[name]
    suspension = axle.hardpoints
    read = [axle.bump_travel_mm is not None, axle.droop_travel_mm is not None]
    sprung = suspension is not None and suspension.springs is not None
    cases = case_travels(job, name) if sprung and not all(read) else ()
    own = [case.left_mm if side == "left" else case.right_mm for case in cases]
    notes: list[str] = []
    if axle.bump_travel_mm is not None:
        high, high_words = axle.bump_travel_mm.value, say("full bump as read")
    elif own:
        high, high_words = max(0.0, *own), say("bump from springs and loads")
    elif suspension is not None and suspension.bump_mm is not None:
        high, high_words = suspension.bump_mm, say("bump as estimated in the job")
        notes.append(say("Nobody read full bump: the travel looked at is an estimate."))
    else:
        motion = [item.travel_mm for item in (axle.corner(side).motion or axle.motion)]
        high, high_words = max([0.0, *motion]), say("the highest motion reading")
        notes.append(say("Nobody read full bump: nothing above the highest motion reading was looked at."))
    if axle.droop_travel_mm is not None:
        low, low_words = -axle.droop_travel_mm.value, say("full droop as read")
    elif suspension is not None and suspension.droop_mm is not None:
        low, low_words = -suspension.droop_mm, say("droop as estimated in the job")
    elif own:
        low, low_words = min(0.0, *own), say("droop from springs and loads")
    else:
        motion = [item.travel_mm for item in (axle.corner(side).motion or axle.motion)]
        low, low_words = min([0.0, *motion]), say("the lowest motion reading")
    return Reach(low, high, read[0] or bool(own), f"{high_words}, {low_words}", cases, tuple(notes))


def case_travels(job: Job, name: AxleName) -> tuple[CaseTravel, ...]:
    """Equilibrium of the axle in every case of load the job names, a kerb struck by one wheel last."""
    from hubwright.engineering.kinematics.loads import kerb_strike_travel  # noqa: PLC0415 - heavy, seldom needed
    from hubwright.engineering.kinematics.travel import equilibrium  # noqa: PLC0415

    axle = dict(job.axles)[name]
    assert axle.hardpoints is not None and axle.hardpoints.springs is not None
    given = axle.hardpoints.springs
    springs = axle_springs(job, name)
    if springs is None:
        return ()
    found = []
    for case in given.case:
        loads = [(kg - given.unsprung_wheel_kg) * GRAVITY for kg in (case.left_kg, case.right_kg)]
        left, right = equilibrium(springs, *loads)
        found.append(CaseTravel(case.name, left.travel_mm, right.travel_mm, left.at_limit, right.at_limit))
    points = axle.hardpoints.left or axle.hardpoints.right
    if given.kerb_mm is not None and points is not None and given.unsprung_wheel_kg > 0:
        struck = [
            kerb_strike_travel(w, given.unsprung_wheel_kg, given.kerb_speed_kmh, given.kerb_mm, points.loaded_radius_mm)
            for w in (springs.left, springs.right)
        ]
        limit = None if axle.bump_travel_mm is None else axle.bump_travel_mm.value
        held = [limit is not None and travel >= limit - 1e-6 for travel in struck]
        found.append(
            CaseTravel(say("kerb of {kerb} mm", kerb=plain(given.kerb_mm)), struck[0], struck[1], held[0], held[1])
        )
    return tuple(found)


def axle_springs(job: Job, name: AxleName) -> AxleSprings | None:
    """Springs of both wheels with the limits read; None where a rate at the wheel cannot be had."""
    from hubwright.engineering.kinematics.travel import AxleSprings  # noqa: PLC0415

    axle = dict(job.axles)[name]
    assert axle.hardpoints is not None and axle.hardpoints.springs is not None
    given = axle.hardpoints.springs
    rates = (_rate(job, name, "left", given), _rate(job, name, "right", given))
    if rates[0] is None or rates[1] is None:
        return None
    left, right = (
        _wheel(job, name, given, rate, parked)
        for rate, parked in ((rates[0], given.parked_left_kg), (rates[1], given.parked_right_kg))
    )
    return AxleSprings(left, right, given.bar_n_per_mm)


def _wheel(job: Job, name: AxleName, given: Springing, rate: float, parked_kg: float) -> SprungWheel:
    from hubwright.engineering.kinematics.travel import BumpStop, SprungWheel  # noqa: PLC0415

    axle = dict(job.axles)[name]
    stop = given.bump_stop
    return SprungWheel(
        (parked_kg - given.unsprung_wheel_kg) * GRAVITY,
        rate,
        None if stop is None else BumpStop(stop.free_mm, stop.squeeze_mm, stop.force_n),
        None if axle.bump_travel_mm is None else axle.bump_travel_mm.value,
        None if axle.droop_travel_mm is None else -axle.droop_travel_mm.value,
    )


def _rate(job: Job, name: AxleName, side: Side, given: Springing) -> float | None:
    if given.wheel_rate_n_per_mm is not None:
        return given.wheel_rate_n_per_mm
    stated = dict(job.axles)[name].suspension.wheel_rate_n_per_mm
    if stated is not None:
        return stated
    from hubwright.engineering.kinematics.travel import wheel_rate  # noqa: PLC0415
    from hubwright.jobs.ratios import motion_ratio_at  # noqa: PLC0415

    found = motion_ratio_at(job, name, side, 0.0)
    return None if found is None else wheel_rate(found[1], found[0])
