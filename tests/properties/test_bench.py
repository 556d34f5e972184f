"""Any thickness tried on the bench is judged just as the same disc on the shelf would be."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import hubwright
from hubwright.checks.house import house_of
from hubwright.errors import BadInput
from hubwright.findings import SEVERITY
from hubwright.jobs.assess import answer_on
from hubwright.jobs.bench import JobBench, benches_of, judged, judged_bare
from hubwright.jobs.maps import NO_MAPS, draw_maps
from hubwright.jobs.trial import DiscToTry, trial_on, try_discs
from hubwright.jobs.trying import KINDS, kind_at, kinds_of, tried
from hubwright.parts.job import Job
from hubwright.parts.shop import StockDisc
from hubwright.selection.plans import shelf

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
NAMES = sorted(path.stem for path in EXAMPLES.glob("*.toml") if "scan" not in path.stem)
DAY = date(2026, 5, 4)


@cache
def benches(name: str) -> JobBench:
    return benches_of(hubwright.load(EXAMPLES / f"{name}.toml"), DAY, NO_MAPS)


def with_shelf(job: Job, *discs: StockDisc) -> Job:
    return replace(job, shop=replace(job.shop, disc=discs))


@given(st.sampled_from(NAMES), st.integers(1, 600), st.sampled_from(KINDS), st.booleans())
def test_a_tried_disc_is_judged_as_it_would_be_on_the_shelf(name: str, tenths: int, kind: str, with_work: bool) -> None:
    at = benches(name)
    one = tried(at.job, tenths / 10, kind)  # type: ignore[arg-type]
    kept = answer_on(benches_of(with_shelf(at.job, one.disc), DAY, NO_MAPS))
    for axle in kept.axles:
        under = at.axles[axle.axle].under(with_work)  # type: ignore[index]
        assert judged(under, one.disc) == axle.plans[-1 if with_work else 0].discs[0]


@given(st.sampled_from(NAMES), st.integers(0, 1500), st.sampled_from(KINDS))
def test_what_is_tried_has_the_thickness_and_kind_asked_for_and_says_what_it_took(
    name: str, tenths: int, kind: str
) -> None:
    job, t = benches(name).job, max(tenths, 1) / 10
    one = tried(job, t, kind)  # type: ignore[arg-type]
    assert (one.disc.thickness_mm, one.disc.kind) == (t, kind)
    assert one.kept == (one.disc in shelf(job))
    assert bool(one.assumed) != one.kept
    assert kind_at(job, t) in kinds_of(job)


@pytest.mark.parametrize("name", NAMES)
def test_without_a_disc_the_bench_repeats_the_clearance_as_it_stands(name: str) -> None:
    for axle in benches(name).axles.values():
        for under in axle.plans:
            bare = judged_bare(under)
            clear = [finding for finding in bare.every if finding.question == "clearance"]
            assert clear[:2] == list(under.plan.as_it_stands)
            assert (bare.status == "valid") == (not bare.reasons)


@given(st.sampled_from(NAMES), st.integers(0, 600), st.booleans())
def test_what_page_command_and_library_try_is_the_same_disc(name: str, tenths: int, with_work: bool) -> None:
    at = benches(name)
    asked = [DiscToTry(axle, tenths / 10) for axle in at.axles]
    for one, trial in zip(asked, try_discs(at.job, asked, with_work=with_work, today=DAY), strict=True):
        assert trial == trial_on(at.axles[one.axle], one, with_work=with_work)
        assert trial.disc.thickness_mm == tenths / 10
        sides = {SEVERITY[trial.left.verdict], SEVERITY[trial.right.verdict]}
        clear = next(finding for finding in trial.disc.findings if finding.question == "clearance")
        assert SEVERITY[clear.verdict] >= max(sides), "the worst side rules"


def test_every_disc_that_cannot_be_tried_is_told_at_once() -> None:
    job = benches("hatchback-rear-flush").job
    asked = [DiscToTry("front", 5.0), DiscToTry("rear", 151.0), DiscToTry("rear", float("nan"))]
    with pytest.raises(BadInput) as told:
        try_discs(job, asked)
    assert [fault.field for fault in told.value.faults] == [
        "disc[1].axle",
        "disc[2].thickness_mm",
        "disc[3].thickness_mm",
    ]


@pytest.mark.slow
def test_with_a_clearance_map_too_a_tried_disc_is_judged_as_on_the_shelf() -> None:
    job = hubwright.load(EXAMPLES / "roadster-front-scan.toml")
    maps = draw_maps(job, house_of(job))
    under = benches_of(job, DAY, maps).axles["front"].under(False)
    for t in (1.7, 4.5, 5.4, 6.1, 22.0):
        one = tried(job, t, "plain")
        kept = hubwright.assess(with_shelf(job, one.disc), DAY)
        assert judged(under, one.disc) == kept.axle("front").plans[0].discs[0]
