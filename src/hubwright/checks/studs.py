"""Studs and nuts: how much thread is left behind the disc, and whether a closed nut bottoms on the stud."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.checks.house import House
from hubwright.checks.joint import QUESTION, STACK, Fastening, Joint, Limits, Try, choice_of, stock_lengths
from hubwright.engineering.joint.engagement import closed_nut_room_mm, stud_engagement_mm, stud_reach_mm
from hubwright.findings import Evidence, Finding, Step, Verdict, Wanted, wanted
from hubwright.language import say
from hubwright.parts.hub import Fastener, Hub
from hubwright.parts.wheel import WheelSet
from hubwright.quantities.axes import Side
from hubwright.quantities.rounding import at_least
from hubwright.quantities.text import figure, length, number, plain
from hubwright.tables.threads import turns


@dataclass(frozen=True)
class Stack:
    """What is read of a wheel on studs, and what doubt costs; ``closed_depth_mm`` None = the nuts are open."""

    stud_mm: float
    lead_mm: float
    hat_mm: float
    pad_mm: float
    closed_depth_mm: float | None
    guard_mm: float
    bottom_guard_mm: float


def stack_of(hub: Hub, wheel_set: WheelSet, fastener: Fastener, house: House, side: Side) -> Stack | tuple[Wanted, ...]:
    """The stack, or the readings still missing for it."""
    stud, lead, hat, pad = hub.stud_length_mm, hub.stud_lead_mm, hub.hat_thickness_mm, wheel_set.wheel.pad_to_thread_mm
    title = wheel_set.title
    found = [
        wanted(what, how, QUESTION, 2.0, of)
        for reading, what, how, of in (
            (
                stud,
                say("length of the studs"),
                say("From the bare hub flange to the tip."),
                side,
            ),
            (lead, say("lead of the studs"), say("Part of the tip without full thread."), side),
            (
                hat,
                say("thickness of the brake disc's hat"),
                say("Calliper at the mounting face; 0 without one."),
                side,
            ),
            (
                pad,
                say("mounting face to start of the nut's thread, {title}", title=title),
                say("Depth gauge through the wheel's hole with the nut in its seat."),
                "",
            ),
        )
        if reading is None
    ]
    closed = fastener.closed_depth_mm
    if closed is None and not fastener.open_end:
        how = say("Inside depth of the nut, or open_end = true where the stud may come out.")
        found.append(wanted(say("whether the nuts are closed, {title}", title=title), how, QUESTION, 1.5))
    if found or stud is None or lead is None or hat is None or pad is None:
        return tuple(found)
    return Stack(
        stud.value,
        lead.value,
        hat.value,
        pad.value,
        closed.value if closed else None,
        house.stated_guard_mm(stud, lead, hat, pad),
        house.stated_guard_mm(stud, hat, pad, closed),
    )


def judge(joint: Joint, stack: Stack, thickness_mm: float) -> Fastening:
    """Whether the nuts still hold on today's or on stock studs."""
    tries, best = tried(joint, stack, thickness_mm)
    own = next(item for item in tries if item.length_mm == stack.stud_mm)
    others = [item for item in tries if item is not own]
    steps = tuple(
        Step(
            say(
                "{length} − {lead} − {hat} − {pad} − {thickness} = {engaged} = {engaged2} turns: {item_words}",
                length=plain(item.length_mm),
                lead=figure(stack.lead_mm),
                hat=figure(stack.hat_mm),
                pad=figure(stack.pad_mm),
                thickness=figure(thickness_mm),
                engaged=length(item.engaged_mm),
                engaged2=number(turns(item.engaged_mm, joint.thread), 1),
                item_words=item.words,
            ),
            say(STACK),
        )
        for item in tries
    )
    count = turns(best.engaged_mm, joint.thread)
    sentence = say(
        "{where}: the {length} mm studs engage {engaged} or {count} turns ({best_words}).",
        where=joint.where,
        length=plain(best.length_mm),
        engaged=length(best.engaged_mm),
        count=number(count, 1),
        best_words=best.words,
    )
    todo = "" if best.verdict is Verdict.PASS else _longer(others)
    margin = best.engaged_mm - stack.guard_mm - joint.limits.floor_mm
    finding = Finding(QUESTION, best.verdict, sentence, margin, joint.case, Evidence.MEASURED, steps, todo)
    if best.verdict is Verdict.FAIL:
        return Fastening(finding, None)
    return Fastening(finding, choice_of(joint, "nut", best, best is not own))


def tried(joint: Joint, stack: Stack, thickness_mm: float) -> tuple[tuple[Try, ...], Try]:
    """Today's and every stock stud with one disc, and the one to take: today's while it will do, or where none does."""
    tries = tuple(_try(joint.limits, stack, size, thickness_mm) for size in _lengths(joint, stack))
    own = next(item for item in tries if item.length_mm == stack.stud_mm)
    if own.verdict is Verdict.PASS:
        return tries, own
    return tries, next((item for item in tries if item.verdict is Verdict.PASS), own)


def spans(joint: Joint, stack: Stack) -> list[tuple[float, float]]:
    """Thicknesses each stud allows as wanted, lowest and highest."""
    found = []
    for size in _lengths(joint, stack):
        reach = stud_reach_mm(size, stack.hat_mm, stack.pad_mm, 0.0)
        low = 0.0 if stack.closed_depth_mm is None else reach - stack.closed_depth_mm + stack.bottom_guard_mm
        found.append((low, reach - stack.lead_mm - joint.limits.wanted_mm - stack.guard_mm))
    return found


def _lengths(joint: Joint, stack: Stack) -> list[float]:
    return sorted({stack.stud_mm, *stock_lengths(joint.fastener, joint.thread, joint.shop, "stud")})


def _longer(others: list[Try]) -> str:
    if not others:
        return say("Longer studs would be needed.")
    return " ".join(
        say("{length} mm studs: {item_words}.", length=plain(item.length_mm), item_words=item.words) for item in others
    )


def _try(limits: Limits, stack: Stack, size: float, thickness_mm: float) -> Try:
    engaged = stud_engagement_mm(size, stack.lead_mm, stack.hat_mm, stack.pad_mm, thickness_mm)
    reach = stud_reach_mm(size, stack.hat_mm, stack.pad_mm, thickness_mm)
    depth, floor, least = stack.closed_depth_mm, limits.floor_mm, limits.wanted_mm
    if depth is not None and not at_least(closed_nut_room_mm(depth, reach) - stack.bottom_guard_mm, 0.0):
        words = say(
            "{reach} of stud bottoms in a closed nut {depth} deep; open nuts or shorter studs",
            reach=length(reach),
            depth=length(depth),
        )
        return Try(size, engaged, Verdict.FAIL, words)
    if not at_least(engaged - stack.guard_mm, floor):
        return Try(
            size,
            engaged,
            Verdict.FAIL,
            say("{engaged} engaged, below the floor of {floor}", engaged=length(engaged), floor=length(floor)),
        )
    if not at_least(engaged - stack.guard_mm, least):
        words = say(
            "above the floor of {floor}, below the wanted {wanted}: longer studs",
            floor=length(floor),
            wanted=length(least),
        )
        return Try(size, engaged, Verdict.CAUTION, words)
    return Try(size, engaged, Verdict.PASS, say("wanted {wanted}", wanted=length(least)))
