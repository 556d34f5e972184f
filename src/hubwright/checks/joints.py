"""Everything asked of the bolted joint of the fitted wheels with one disc. Guesses may caution, they never refuse."""

from __future__ import annotations

from dataclasses import replace

from hubwright.checks import bending, slip, strip
from hubwright.checks.clamp import Clamp, clamp_of
from hubwright.checks.forces import forces_on
from hubwright.checks.given import Given, given
from hubwright.checks.joint import Choice, fastener_of
from hubwright.errors import OutsideValidity
from hubwright.findings import SEVERITY, Case, Evidence, Finding, Verdict
from hubwright.language import say
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.parts.shop import StockDisc
from hubwright.parts.wheel import WheelSet
from hubwright.quantities.axes import SIDES

QUESTION = "joint"


def judge(job: Job, name: AxleName, axle: Axle, disc: StockDisc, choices: tuple[Choice, ...]) -> tuple[Finding, ...]:
    """Clamp, slip, gape, stripping and bending of the fitted wheels on both sides.

    A bolted adapter has two joints, of which only the records of each can speak: it is answered with unknown.
    """
    wheel_set = axle.fitted or WheelSet(role="fitted")
    if disc.kind == "bolted":
        text = say(
            "A bolted adapter has an inner and an outer joint, each with a record of its own: unknown: look both up."
        )
        return (Finding(QUESTION, Verdict.UNKNOWN, text, None, Case("both", say("bolted adapter")), Evidence.NONE),)
    choice = next((item for item in choices if item.wheel_set == wheel_set.title), None)
    found: list[Finding] = []
    for side in SIDES:
        found += slip.judge(job, name, axle, wheel_set, side, disc)
        known = given(job, axle, side, wheel_set)
        clamp = _clamp(known, disc)
        found.append(strip.judge(axle.hub_at(side), fastener_of(wheel_set, axle.fastener), side, choice, clamp))
        bent = (
            None
            if isinstance(known, tuple)
            else bending.judge(known, side, disc.thickness_mm, _each(job, name, axle, known))
        )
        if bent is not None:
            found.append(bent)
    return tuple(found)


def summary(findings: tuple[Finding, ...]) -> Finding:
    """The one that matters most; a caution that rests on a guess stays behind one that was measured."""
    governing = max(findings, key=lambda item: (SEVERITY[item.verdict], item.evidence is Evidence.MEASURED))
    unknowns = [item for item in findings if item.verdict is Verdict.UNKNOWN]
    worse = [item for item in findings if item.verdict is Verdict.CAUTION]
    if governing.verdict is Verdict.UNKNOWN and worse and len(unknowns) < len(findings):
        return replace(worse[0], todo=f"{worse[0].todo} {unknowns[0].sentence}".strip())
    return governing


def counts(finding: Finding) -> bool:
    """Whether a finding of the joint may change what becomes of a disc: only one without a guess in it, and never an unknown."""
    return finding.evidence is Evidence.MEASURED and finding.verdict in (Verdict.FAIL, Verdict.CAUTION)


def _clamp(known: Given | tuple[str, ...], disc: StockDisc) -> Clamp | None:
    if isinstance(known, tuple):
        return None
    try:
        return clamp_of(known, disc.thickness_mm, disc.material)
    except OutsideValidity:
        return None


def _each(job: Job, name: AxleName, axle: Axle, known: Given) -> float | None:
    """Greatest force across the face of all load cases, shared by all fasteners."""
    forces, ring = forces_on(job, name, axle, known.wheel_set), slip.ring_of(known.hub, known.thread.d_mm)
    if isinstance(forces, tuple) or isinstance(ring, str):
        return None
    return forces.greatest_shear_n / ring.circle.holes
