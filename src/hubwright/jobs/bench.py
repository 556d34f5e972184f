"""The bench of an axle: everything one axle is judged with, worked out once, so that any disc is judged in a few ms.

The answer of a job and the page on which a thickness is tried both use it; there is no second truth.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from hubwright.checks.house import House, house_of
from hubwright.checks.law import QUESTION as LAW
from hubwright.checks.law import law_of
from hubwright.findings import Verdict, worst
from hubwright.jobs.answer import DiscAnswer
from hubwright.jobs.discs import disc_answer
from hubwright.jobs.maps import Maps
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.parts.shop import StockDisc
from hubwright.rules.model import RuleSet
from hubwright.selection.candidates import STATUS_OF, Bench, by_question, judge, without_disc
from hubwright.selection.plans import Plan, bench_of, plan_on, work_offered


@dataclass(frozen=True, eq=False)
class PlanBench:
    """One axle under one plan.

    Attributes:
        work: What is done first; empty = as the car stands.
        bench: What any disc is judged with.
        plan: Every disc of the shelf, judged with it.
    """

    work: tuple[str, ...]
    bench: Bench
    plan: Plan


@dataclass(frozen=True, eq=False)
class AxleBench:
    """One axle: as it stands first, then with the work offered, where any is."""

    name: AxleName
    axle: Axle
    plans: tuple[PlanBench, ...]

    def under(self, with_work: bool) -> PlanBench:
        """The plan with or without the work offered; without where none is offered."""
        return self.plans[-1] if with_work else self.plans[0]


@dataclass(frozen=True, eq=False)
class JobBench:
    """Every axle of a job, the rules of the day, the margins of the house, and the maps they were worked out with."""

    job: Job
    day: date
    house: House
    rules: RuleSet
    maps: Maps
    axles: Mapping[AxleName, AxleBench]


def benches_of(job: Job, day: date, maps: Maps) -> JobBench:
    """Work every axle out.

    Args:
        job: The job.
        day: The day whose rules are asked.
        maps: Clearance maps of its corners (`hubwright.jobs.maps.draw_maps`); none where they are not drawn yet.
    """
    house, rules = house_of(job), law_of(job, day)
    axles = {name: _axle(job, name, axle, house, rules, maps) for name, axle in job.axles}
    return JobBench(job, day, house, rules, maps, axles)


def _axle(job: Job, name: AxleName, axle: Axle, house: House, rules: RuleSet, maps: Maps) -> AxleBench:
    known, offered = maps.rooms.get(name, {}), work_offered(axle)
    plans = []
    for work in ((), offered) if offered else ((),):
        bench = bench_of(job, name, axle, house, rules, with_work=bool(work), maps=known)
        plans.append(PlanBench(work, bench, plan_on(bench, work)))
    return AxleBench(name, axle, tuple(plans))


def judged(at: PlanBench, disc: StockDisc) -> DiscAnswer:
    """One disc, of any thickness, put to every question: the same answer as if it lay on the shelf."""
    return disc_answer(judge(at.bench, disc))


def judged_bare(at: PlanBench) -> DiscAnswer:
    """The axle without any disc, put to the same questions; a law that cannot be answered stands beside it."""
    every = without_disc(at.bench)
    findings = by_question(every)
    status = STATUS_OF[worst(f.verdict for f in findings if f.question != LAW or f.verdict is not Verdict.UNKNOWN)]
    reasons = tuple(finding.sentence for finding in findings if STATUS_OF[finding.verdict] is status)
    clean = status is STATUS_OF[Verdict.PASS]
    return DiscAnswer(0.0, "plain", None, status.value, () if clean else reasons, findings, every, (), 0.0, False)
