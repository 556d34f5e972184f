"""What else a disc changes on the axle. Nothing here refuses a disc; a changed sign of the scrub radius is an alarm."""

from __future__ import annotations

from hubwright.checks import bearing, handling, runout, steering
from hubwright.checks.effect import DiscEffects, Effect
from hubwright.engineering.handling.steering import scrub_change
from hubwright.findings import Case, Evidence, Finding, Step, Verdict
from hubwright.language import say
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.parts.shop import StockDisc
from hubwright.quantities.text import figure, length

QUESTION = "effects"


def judge(axle: Axle, steered: bool, thickness_mm: float) -> Finding:
    """The one side effect that may caution against a disc: the sign of the scrub radius."""
    case = Case("both", say("scrub radius"))
    if axle.scrub_radius_mm is None:
        if not steered:
            text = say("The axle does not steer: its scrub radius is not asked for.")
            return Finding(QUESTION, Verdict.PASS, text, None, case, Evidence.NONE)
        text = say("Scrub radius not stated; it grows by the thickness, and whether its sign turns is not known.")
        return Finding(QUESTION, Verdict.UNKNOWN, text, None, case, Evidence.NONE)
    before = axle.scrub_radius_mm
    change = scrub_change(before, thickness_mm)
    after = change.scrub_mm.with_disc
    step = Step(f"{figure(before)} + {figure(thickness_mm)} = {length(after)}", say(steering.SCRUB))
    places = {"before": length(before), "after": length(after)}
    if change.flips:
        sentence = say(
            "The scrub radius from {before} to {after} changes its sign: braking on uneven grip pulls the other way; road test.",
            **places,
        )
        return Finding(
            QUESTION,
            Verdict.CAUTION,
            sentence,
            None,
            case,
            Evidence.MEASURED,
            (step,),
            say("Tell the customer; road test."),
        )
    return Finding(
        QUESTION,
        Verdict.PASS,
        say("The scrub radius from {before} to {after} keeps its sign.", **places),
        None,
        case,
        Evidence.MEASURED,
        (step,),
    )


def effects_of(job: Job, name: AxleName, axle: Axle, disc: StockDisc) -> DiscEffects:
    """Every side effect of one disc on one axle, the other axle as it stands: known ones first."""
    thickness_mm = disc.thickness_mm
    found: tuple[Effect, ...] = (
        *handling.effects_of(job, name, thickness_mm),
        *steering.effects_of(job, name, axle, thickness_mm),
        bearing.effect_of(job, axle, thickness_mm),
        *runout.effects_of(job, axle, disc),
    )
    return DiscEffects(thickness_mm, tuple(sorted(found, key=lambda effect: not effect.known)))
