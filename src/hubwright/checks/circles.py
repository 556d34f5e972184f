"""Hole circles: an adapter from one circle to another, and what is left between two patterns of holes in one plate."""

from __future__ import annotations

from hubwright.checks.house import House
from hubwright.checks.policy import is_same
from hubwright.engineering.joint.hole_circles import HolePattern, circle_mismatch_mm, clearest_turn_deg, ligament
from hubwright.findings import Case, Evidence, Finding, Step, Verdict
from hubwright.language import marked, say
from hubwright.parts.hole_circle import HoleCircle, hole_circle_or_none
from hubwright.parts.shop import StockDisc
from hubwright.parts.wheel import WheelSet
from hubwright.quantities.rounding import at_least
from hubwright.quantities.text import length, number

QUESTION = "policy"
GEOMETRY = marked("plane geometry of a circle of holes (derived)")


def judge(wheel_set: WheelSet, house: House, disc: StockDisc) -> tuple[Finding, ...]:
    """Conversion between circles by policy, overlapping holes, and whether the wheel goes on; empty where all is one circle."""
    inner, outer, wheel = (
        hole_circle_or_none(text) for text in (disc.bolt_circle, disc.wheel_circle, wheel_set.wheel.bolt_circle)
    )
    found: list[Finding] = []
    case = Case("both", say("hole circles"))
    if disc.kind == "bolted" and inner is not None and outer is not None and not is_same(inner, outer):
        found.append(_conversion(inner, outer, house, case))
    if wheel is not None and (carried := outer or inner) is not None and not is_same(wheel, carried):
        text = _off_the_disc(wheel_set.title, wheel, carried)
        found.append(
            Finding(
                QUESTION,
                Verdict.FAIL,
                text,
                None,
                case,
                Evidence.MEASURED,
                (Step(text, say(GEOMETRY)),),
                say("Wobble fasteners are no answer."),
            )
        )
    if disc.kind == "bolted" and inner is not None:
        found += _overlap(inner, outer or inner, house, disc, case)
    return tuple(found)


def _conversion(inner: HoleCircle, outer: HoleCircle, house: House, case: Case) -> Finding:
    circles = {"inner": _name(inner), "outer": _name(outer)}
    if house.policy.circle_conversion == "refused":
        words = say(
            "This adapter goes from {inner} to {outer}: house rules refuse conversion between hole circles.", **circles
        )
        return Finding(
            QUESTION, Verdict.FAIL, words, None, case, Evidence.NONE, (Step(words, say("policy of the shop")),)
        )
    words = say("This adapter goes from {inner} to {outer}: allowed by house rules.", **circles)
    todo = say("Say so in the papers: the next workshop sees only the outer circle.")
    return Finding(
        QUESTION, Verdict.CAUTION, words, None, case, Evidence.NONE, (Step(words, say("policy of the shop")),), todo
    )


def _overlap(inner: HoleCircle, outer: HoleCircle, house: House, disc: StockDisc, case: Case) -> tuple[Finding, ...]:
    """Material between the holes of both patterns; nothing is said where no hole sizes are stated."""
    if disc.inner_hole_mm is None or disc.outer_hole_mm is None:
        return ()
    first = HolePattern(inner.holes, inner.diameter_mm, disc.inner_hole_mm)
    second = HolePattern(outer.holes, outer.diameter_mm, disc.outer_hole_mm)
    turned = clearest_turn_deg(first, second) if disc.turned_deg is None else disc.turned_deg
    left, need = ligament(first, second, turned).least_mm, house.policy.least_ligament_mm
    how = (
        say("turned as far apart as they go")
        if disc.turned_deg is None
        else say("turned by {turned}°", turned=number(turned, 1))
    )
    step = Step(
        say(
            "{inner} of {inner_hole} and {outer} of {outer_hole}, {how}: {left}",
            inner=_name(inner),
            inner_hole=length(disc.inner_hole_mm),
            outer=_name(outer),
            outer_hole=length(disc.outer_hole_mm),
            how=how,
            left=length(left),
        ),
        say(GEOMETRY),
    )
    if at_least(left - need, 0.0):
        words = say(
            "{left} of material between the holes of the adapter, {need} wanted.", left=length(left), need=length(need)
        )
        return (Finding(QUESTION, Verdict.PASS, words, left - need, case, Evidence.MEASURED, (step,)),)
    text = (
        say("The adapter: the holes of its two circles run into each other, {need} wanted.", need=length(need))
        if left < 0
        else say(
            "The adapter: only {left} of material between its holes, {need} wanted.",
            left=length(left),
            need=length(need),
        )
    )
    return (
        Finding(
            QUESTION, Verdict.FAIL, text, left - need, case, Evidence.MEASURED, (step,), say("Take another adapter.")
        ),
    )


def _name(circle: HoleCircle) -> str:
    return f"{circle.holes}x{circle.diameter_mm:g}"


def _off_the_disc(title: str, wheel: HoleCircle, carried: HoleCircle) -> str:
    places = {"set": title, "wheel": _name(wheel), "carried": _name(carried)}
    if wheel.holes != carried.holes:
        return say("The {set} ({wheel}) do not go on the disc's {carried} holes.", **places)
    return say(
        "The {set} ({wheel}) do not go on the disc's {carried} holes: each fastener would stand {off} off its seat.",
        off=length(abs(circle_mismatch_mm(wheel.diameter_mm, carried.diameter_mm)), 2),
        **places,
    )
