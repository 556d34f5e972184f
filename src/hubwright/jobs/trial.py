"""Any disc tried on an axle, kept on the shelf or not: page, command line, API and library all ask here."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from functools import cache

from pydantic import TypeAdapter

from hubwright.checks import clearance
from hubwright.checks.house import house_of
from hubwright.errors import BadInput, Fault
from hubwright.findings import Finding
from hubwright.jobs.answer import DiscAnswer
from hubwright.jobs.assess import day_of
from hubwright.jobs.bench import AxleBench, JobBench, PlanBench, benches_of, judged, judged_bare
from hubwright.jobs.maps import draw_maps
from hubwright.jobs.trying import THICKEST_MM, Tried, tried
from hubwright.language import say
from hubwright.parts.job import AxleName, Job
from hubwright.parts.shop import DiscKind
from hubwright.quantities.text import joined, plain


@dataclass(frozen=True)
class DiscToTry:
    """What to try.

    Attributes:
        axle: On which.
        thickness_mm: Per side; 0 = the axle without a disc.
        kind: Of disc; that of the shelf's nearest where it is not stated.
        name: The shop's own name, where the shelf has several of one thickness and kind.
    """

    axle: AxleName
    thickness_mm: float
    kind: DiscKind | None = None
    name: str | None = None


@dataclass(frozen=True)
class Trial:
    """A disc judged as if it lay on the shelf.

    Attributes:
        axle: On which it was tried.
        work: What is reckoned as done first; empty = as the car stands.
        disc: The answer for it.
        kept: Whether the shelf has it.
        assumed: What was assumed of it where the shelf has not.
        left, right: The clearance of each side by itself, never averaged.
    """

    axle: AxleName
    work: tuple[str, ...]
    disc: DiscAnswer
    kept: bool
    assumed: str
    left: Finding
    right: Finding


def trial_on(bench: AxleBench, asked: DiscToTry, *, with_work: bool = False) -> Trial:
    """One disc on an axle that is worked out.

    Args:
        bench: The axle.
        asked: The disc.
        with_work: Whether the work offered at its points is reckoned as done.
    """
    under = bench.under(with_work)
    one = piece_of(under, asked)
    disc = judged_bare(under) if one is None else judged(under, one.disc)
    left, right = (clearance.judge(room, under.bench.house, asked.thickness_mm) for room in under.bench.rooms)
    return Trial(bench.name, under.work, disc, one is None or one.kept, "" if one is None else one.assumed, left, right)


def piece_of(under: PlanBench, asked: DiscToTry) -> Tried | None:
    """The disc itself; None = the axle without one."""
    if asked.thickness_mm == 0:
        return None
    return tried(under.bench.job, asked.thickness_mm, asked.kind, asked.name)


def try_discs(
    job: Job, discs: Iterable[DiscToTry], *, with_work: bool = False, today: date | None = None
) -> tuple[Trial, ...]:
    """Try discs of any thickness on the axles of a job, in the order they are named.

    Args:
        job: From `hubwright.load` or built in Python.
        discs: What to try.
        with_work: Whether the work offered at the points is reckoned as done.
        today: The day whose rules are asked where the job has no date; the present day when missing.

    Raises:
        BadInput: with every thickness that cannot be and every axle the job says nothing about.
    """
    wanted = tuple(discs)
    refuse_untriable(job, wanted)
    maps = draw_maps(job, house_of(job))
    benches: JobBench = benches_of(job, day_of(job, today), maps)
    found = tuple(trial_on(benches.axles[one.axle], one, with_work=with_work) for one in wanted)
    maps.keep()
    return found


def refuse_untriable(job: Job, discs: Iterable[DiscToTry]) -> None:
    """Hold back what cannot be tried on a job.

    Raises:
        BadInput: with every fault.
    """
    known: list[str] = [name for name, _ in job.axles]
    faults: list[Fault] = []
    for number, one in enumerate(discs, 1):
        if one.axle not in known:
            wanted = joined(known, "or") if known else say("none: the job says nothing about any axle")
            faults.append(Fault(f"disc[{number}].axle", wanted, one.axle))
        if not 0.0 <= one.thickness_mm <= THICKEST_MM:  # also false for what is no number
            wanted = say("a thickness per side from 0 to {most} mm", most=plain(THICKEST_MM))
            faults.append(Fault(f"disc[{number}].thickness_mm", wanted, str(one.thickness_mm)))
    if faults:
        raise BadInput("discs", tuple(faults))


@cache
def trials_adapter() -> TypeAdapter[tuple[Trial, ...]]:
    """The one writer of trials."""
    return TypeAdapter(tuple[Trial, ...])
