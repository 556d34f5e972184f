"""What else a disc changes on the axle. Nothing here refuses a disc; a changed sign is an alarm."""

from __future__ import annotations

from hubwright.engineering.handling.steering import scrub_change
from hubwright.findings import Case, Evidence, Finding, Step, Verdict
from hubwright.parts.job import Axle
from hubwright.quantities.text import figure, length

QUESTION = "effects"
SCRUB = "scrub radius at the ground, positive outboard: grows by the thickness (derived)"


def judge(axle: Axle, thickness_mm: float) -> Finding:
    """Side effects of one disc on one axle: the scrub radius, where it was stated."""
    case = Case("both", "scrub radius")
    if axle.scrub_radius_mm is None:
        return Finding(
            QUESTION, Verdict.PASS, "Scrub radius not stated; it grows by the thickness.", None, case, Evidence.NONE
        )
    before = axle.scrub_radius_mm
    change = scrub_change(before, thickness_mm)
    after = change.scrub_mm.with_disc
    step = Step(f"{figure(before)} + {figure(thickness_mm)} = {length(after)}", SCRUB)
    words = f"scrub radius from {length(before)} to {length(after)}"
    if change.flips:
        sentence = f"The {words} changes its sign: braking on uneven grip pulls the other way; road test."
        return Finding(
            QUESTION, Verdict.CAUTION, sentence, None, case, Evidence.MEASURED, (step,), "Tell the customer; road test."
        )
    return Finding(QUESTION, Verdict.PASS, f"The {words} keeps its sign.", None, case, Evidence.MEASURED, (step,))
