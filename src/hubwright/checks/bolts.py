"""Wheel bolts: which length still holds, and neither bottoms nor strikes behind the hub."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.checks.house import House
from hubwright.checks.joint import (
    QUESTION,
    STACK,
    Fastening,
    Joint,
    Limits,
    Try,
    choice_of,
    seat_words,
    stock_lengths,
)
from hubwright.engineering.joint.engagement import bolt_engagement_mm, required_length_mm
from hubwright.findings import Evidence, Finding, Step, Verdict, Wanted
from hubwright.parts.hub import Fastener
from hubwright.quantities.axes import Side
from hubwright.quantities.reading import Reading
from hubwright.quantities.rounding import at_least, at_most
from hubwright.quantities.text import figure, length, number
from hubwright.tables.threads import Thread, turns


@dataclass(frozen=True)
class Stack:
    """What is read of a bolted wheel: engagement and length of today, the most the hub takes, and what doubt costs."""

    engaged_mm: float
    length_mm: float
    most_mm: float
    guard_mm: float


def stack_of(
    fastener: Fastener, of: Thread, limits: Limits, house: House, side: Side, whose: str
) -> Stack | tuple[Wanted, ...]:
    """The stack, or the readings still missing for it."""
    engaged, size = _engaged_now(fastener, of), fastener.length_mm
    wanted = []
    if engaged is None:
        how = "Count turns from first hold to seated, brake disc fitted, or measure the stack."
        wanted.append(Wanted(f"engagement now, {whose}", how, QUESTION, 2.5))
    if size is None:
        how = "From the end of the seat to the tip (flat seat: from under the flange)."
        wanted.append(Wanted(f"length of the bolts, {whose}", how, QUESTION, 2.5))
    if limits.most_mm is None:
        how = (
            "Thickness of the hub flange and the air behind it, wheel turned once round; or the depth of a blind hole."
        )
        wanted.append(Wanted(f"what stands behind the hub flange, {side}", how, QUESTION, 2.0))
    if engaged is None or size is None or limits.most_mm is None:
        return tuple(wanted)
    return Stack(engaged.value, size.value, limits.most_mm, house.stated_guard_mm(engaged))


def _engaged_now(fastener: Fastener, of: Thread) -> Reading | None:
    if fastener.engagement_mm is not None:
        return fastener.engagement_mm
    count = fastener.engagement_turns
    if count is None:
        return None
    u = None if count.u is None else count.u * of.pitch_mm
    return Reading(tuple(value * of.pitch_mm for value in count.values), u, count.method, count.by)


def judge(joint: Joint, stack: Stack, thickness_mm: float) -> Fastening:
    """Whether a disc can be fastened with today's or with stock bolts."""
    required = required_length_mm(stack.length_mm, thickness_mm)
    tries, best = tried(joint, stack, thickness_mm)
    steps = tuple(
        Step(
            f"{figure(stack.engaged_mm)} + ({item.length_mm:g} − {stack.length_mm:g}) − {figure(thickness_mm)} = {length(item.engaged_mm)}"
            f" = {number(turns(item.engaged_mm, joint.thread), 1)} turns: {item.words}",
            STACK,
        )
        for item in tries
    )
    if best is None:
        near = min(tries, key=lambda item: abs(item.length_mm - required))
        sentence = f"{joint.where}: {number(required, 0)} mm bolts are needed; nearest kept, {near.length_mm:g} mm: {near.words}."
        todo = f"Order {joint.thread.designation} {seat_words(joint.fastener)} bolts near {number(required, 0)} mm."
        margin = max(_slack(joint, stack, item) for item in tries)
        return Fastening(
            Finding(QUESTION, Verdict.FAIL, sentence, margin, joint.case, Evidence.MEASURED, steps, todo), None
        )
    choice = choice_of(joint, "bolt", best, best.length_mm != stack.length_mm)
    sentence = (
        f"{joint.where}: {best.length_mm:g} mm bolts engage {length(best.engaged_mm)} or "
        f"{number(choice.engagement_turns, 1)} turns ({best.words})."
    )
    margin = _slack(joint, stack, best)
    return Fastening(Finding(QUESTION, best.verdict, sentence, margin, joint.case, Evidence.MEASURED, steps), choice)


def tried(joint: Joint, stack: Stack, thickness_mm: float) -> tuple[tuple[Try, ...], Try | None]:
    """Today's and every stock length with one disc, and the one to take; None where none will do."""
    tries = [_try(joint, stack, size, thickness_mm) for size in _lengths(joint, stack)]
    required = required_length_mm(stack.length_mm, thickness_mm)
    return tuple(tries), _pick(tries, required, joint.house.policy.next_length_within_mm)


def spans(joint: Joint, stack: Stack) -> list[tuple[float, float]]:
    """Thicknesses each length allows as wanted, lowest and highest."""
    reach = [stack.engaged_mm + size - stack.length_mm for size in _lengths(joint, stack)]
    return [(at - stack.most_mm + stack.guard_mm, at - joint.limits.wanted_mm - stack.guard_mm) for at in reach]


def _lengths(joint: Joint, stack: Stack) -> list[float]:
    return sorted({stack.length_mm, *stock_lengths(joint.fastener, joint.thread, joint.shop, "bolt")})


def _slack(joint: Joint, stack: Stack, item: Try) -> float:
    low = item.engaged_mm - stack.guard_mm - joint.limits.floor_mm
    return min(low, stack.most_mm - item.engaged_mm - stack.guard_mm)


def _try(joint: Joint, stack: Stack, size: float, thickness_mm: float) -> Try:
    engaged = bolt_engagement_mm(stack.engaged_mm, stack.length_mm, size, thickness_mm)
    floor, wanted = joint.limits.floor_mm, joint.limits.wanted_mm
    if not at_least(engaged - stack.guard_mm, floor):
        return Try(size, engaged, Verdict.FAIL, f"{length(engaged)} engaged, below the floor of {length(floor)}")
    if not at_most(engaged + stack.guard_mm, stack.most_mm):
        return Try(size, engaged, Verdict.FAIL, f"{length(engaged)} engaged, too long: {joint.limits.most_why}")
    if not at_least(engaged - stack.guard_mm, wanted):
        words = f"above the floor of {length(floor)}, below the wanted {length(wanted)}"
        return Try(size, engaged, Verdict.CAUTION, words)
    return Try(size, engaged, Verdict.PASS, f"wanted {length(wanted)}")


def _pick(tries: list[Try], required_mm: float, within_mm: float) -> Try | None:
    """The next longer length that passes; else a shorter one that still meets what is wanted; else what cautions."""
    passing = [item for item in tries if item.verdict is Verdict.PASS]
    longer = [
        item for item in passing if at_least(item.length_mm, required_mm) and item.length_mm <= required_mm + within_mm
    ]
    if longer:
        return longer[0]
    if passing:
        return min(passing, key=lambda item: abs(item.length_mm - required_mm))
    cautions = [item for item in tries if item.verdict is Verdict.CAUTION]
    return max(cautions, key=lambda item: item.engaged_mm, default=None)
