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
from hubwright.findings import Evidence, Finding, Step, Verdict, Wanted, wanted
from hubwright.language import say
from hubwright.parts.hub import Fastener
from hubwright.quantities.axes import Side
from hubwright.quantities.reading import Reading
from hubwright.quantities.rounding import at_least, at_most
from hubwright.quantities.text import figure, length, number, plain
from hubwright.tables.threads import Thread, turns


@dataclass(frozen=True)
class Stack:
    """What is read of a bolted wheel: engagement and length of today, the most the hub takes, and what doubt costs."""

    engaged_mm: float
    length_mm: float
    most_mm: float
    guard_mm: float


def stack_of(
    fastener: Fastener, of: Thread, limits: Limits, house: House, side: Side, title: str
) -> Stack | tuple[Wanted, ...]:
    """The stack, or the readings still missing for it."""
    engaged, size = _engaged_now(fastener, of), fastener.length_mm
    found = []
    if engaged is None:
        how = say("Count turns from first hold to seated, brake disc fitted, or measure the stack.")
        found.append(wanted(say("engagement now, {set}", set=title), how, QUESTION, 2.5, side))
    if size is None:
        how = say("From the end of the seat to the tip (flat seat: from under the flange).")
        found.append(wanted(say("length of the bolts, {set}", set=title), how, QUESTION, 2.5, side))
    if limits.most_mm is None:
        how = say(
            "Thickness of the hub flange and the air behind it, wheel turned once round; or the depth of a blind hole."
        )
        found.append(wanted(say("what stands behind the hub flange"), how, QUESTION, 2.0, side))
    if engaged is None or size is None or limits.most_mm is None:
        return tuple(found)
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
            say(
                "{engaged} + ({length} − {length2}) − {thickness} = {engaged2} = {engaged3} turns: {item_words}",
                engaged=figure(stack.engaged_mm),
                length=plain(item.length_mm),
                length2=plain(stack.length_mm),
                thickness=figure(thickness_mm),
                engaged2=length(item.engaged_mm),
                engaged3=number(turns(item.engaged_mm, joint.thread), 1),
                item_words=item.words,
            ),
            say(STACK),
        )
        for item in tries
    )
    if best is None:
        near = min(tries, key=lambda item: abs(item.length_mm - required))
        sentence = say(
            "{where}: {required} mm bolts are needed; nearest kept, {length} mm: {near_words}.",
            where=joint.where,
            required=number(required, 0),
            length=plain(near.length_mm),
            near_words=near.words,
        )
        todo = say(
            "Order {designation} {fastener} bolts near {required} mm.",
            designation=joint.thread.designation,
            fastener=seat_words(joint.fastener),
            required=number(required, 0),
        )
        margin = max(_slack(joint, stack, item) for item in tries)
        return Fastening(
            Finding(QUESTION, Verdict.FAIL, sentence, margin, joint.case, Evidence.MEASURED, steps, todo), None
        )
    choice = choice_of(joint, "bolt", best, best.length_mm != stack.length_mm)
    sentence = say(
        "{where}: {length} mm bolts engage {engaged} or {engagement_turns} turns ({best_words}).",
        where=joint.where,
        length=plain(best.length_mm),
        engaged=length(best.engaged_mm),
        engagement_turns=number(choice.engagement_turns, 1),
        best_words=best.words,
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
    floor, least = joint.limits.floor_mm, joint.limits.wanted_mm
    if not at_least(engaged - stack.guard_mm, floor):
        return Try(
            size,
            engaged,
            Verdict.FAIL,
            say("{engaged} engaged, below the floor of {floor}", engaged=length(engaged), floor=length(floor)),
        )
    if not at_most(engaged + stack.guard_mm, stack.most_mm):
        return Try(
            size,
            engaged,
            Verdict.FAIL,
            say("{engaged} engaged, too long: {most_why}", engaged=length(engaged), most_why=joint.limits.most_why),
        )
    if not at_least(engaged - stack.guard_mm, least):
        words = say("above the floor of {floor}, below the wanted {wanted}", floor=length(floor), wanted=length(least))
        return Try(size, engaged, Verdict.CAUTION, words)
    return Try(size, engaged, Verdict.PASS, say("wanted {wanted}", wanted=length(least)))


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
