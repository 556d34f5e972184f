"""Fastener window: does the thread still hold, and does nothing bottom or strike behind the hub?"""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.checks import bolts, studs
from hubwright.checks.house import House
from hubwright.checks.joint import QUESTION, Fastening, Joint, fastener_of, limits_of
from hubwright.findings import Bound, Case, Evidence, Finding, Interval, Verdict, Wanted, Window, wanted
from hubwright.language import say
from hubwright.language.words import seat_word, side_word
from hubwright.parts.hub import Fastener, Hub
from hubwright.parts.shop import Shop
from hubwright.parts.wheel import WheelSet
from hubwright.quantities.axes import Side
from hubwright.quantities.text import length, plain
from hubwright.tables.threads import thread


@dataclass(frozen=True)
class Read:
    """A joint of which everything needed was read."""

    joint: Joint
    stack: bolts.Stack | studs.Stack


def read(
    hub: Hub, wheel_set: WheelSet, fitted: Fastener | None, side: Side, shop: Shop, house: House
) -> Read | tuple[Wanted, ...]:
    """The joint of one wheel set on one side, or what must be read before anything can be said about it."""
    fastener, title = fastener_of(wheel_set, fitted), wheel_set.title
    if fastener is None or fastener.thread is None:
        how = say("Diameter and pitch with a thread gauge.")
        return (wanted(say("thread of the fasteners, {set}", set=title), how, QUESTION, 3.0, side),)
    of = thread(fastener.thread)
    joint = Joint(wheel_set, side, fastener, of, limits_of(hub, of, house), shop, house)
    stack: bolts.Stack | studs.Stack | tuple[Wanted, ...]
    if fastener.kind == "bolt":
        stack = bolts.stack_of(fastener, of, joint.limits, house, side, title)
    else:
        stack = studs.stack_of(hub, wheel_set, fastener, house, side)
    return stack if isinstance(stack, tuple) else Read(joint, stack)


def judge(
    hub: Hub, wheel_set: WheelSet, fitted: Fastener | None, side: Side, shop: Shop, house: House, thickness_mm: float
) -> Fastening:
    """Whether a disc can be fastened on one side with today's or with stock fasteners."""
    found = read(hub, wheel_set, fitted, side, shop, house)
    if isinstance(found, tuple):
        case = Case(side, wheel_set.title)
        sentence = say(
            "{side}, {wheel_set_title}: not known without {thing}.",
            side=side_word(side),
            wheel_set_title=wheel_set.title,
            thing=found[0].thing,
        )
        return Fastening(
            Finding(QUESTION, Verdict.UNKNOWN, sentence, None, case, Evidence.NONE, (), found[0].how), None
        )
    joint = found.joint
    wrong = wrong_seat(joint.fastener, wheel_set)
    if wrong:
        sentence, todo = (
            say("{where}: {wrong}.", where=joint.where, wrong=wrong),
            say("Find fasteners of the wheel's own seat."),
        )
        return Fastening(Finding(QUESTION, Verdict.FAIL, sentence, None, joint.case, todo=todo), None)
    if isinstance(found.stack, bolts.Stack):
        return bolts.judge(joint, found.stack, thickness_mm)
    return studs.judge(joint, found.stack, thickness_mm)


def wrong_seat(fastener: Fastener, wheel_set: WheelSet) -> str:
    """Why the seats of fastener and wheel do not match; empty where they do, or where one was not read."""
    wheel = wheel_set.wheel
    if fastener.seat is None or wheel.seat is None:
        return ""
    if fastener.seat != wheel.seat:
        return say(
            "a {seat} seat does not sit in a {other} seat", seat=seat_word(fastener.seat), other=seat_word(wheel.seat)
        )
    if (
        fastener.seat == "ball"
        and fastener.seat_radius_mm
        and wheel.seat_radius_mm
        and fastener.seat_radius_mm != wheel.seat_radius_mm
    ):
        return say(
            "a ball of R{seat_radius} does not sit in a seat of R{seat_radius2}",
            seat_radius=plain(fastener.seat_radius_mm),
            seat_radius2=plain(wheel.seat_radius_mm),
        )
    return ""


def window_of(hub: Hub, wheel_set: WheelSet, fitted: Fastener | None, side: Side, shop: Shop, house: House) -> Window:
    """The thicknesses that can be fastened as wanted with today's or with stock fasteners."""
    found = read(hub, wheel_set, fitted, side, shop, house)
    if isinstance(found, tuple):
        return Window(
            QUESTION,
            "any",
            side,
            (Interval(0.0, None),),
            known=False,
            evidence=Evidence.NONE,
            sentence=say("{side}: not known", side=side_word(side)),
            missing=found,
        )
    wrong = wrong_seat(found.joint.fastener, wheel_set)
    if wrong:
        return Window(
            QUESTION, "any", side, (), sentence=say("{side}: none, {wrong}", side=side_word(side), wrong=wrong)
        )
    merged = _merged(_spans(found))
    high = merged[-1].high_mm if merged else None
    bounds = () if high is None else (Bound("most", high, found.joint.case, say("thread engaged")),)
    words = "; ".join(
        say("{low} to {high}", low=length(span.low_mm or 0.0), high=length(span.high_mm or 0.0)) for span in merged
    ) or say("none")
    return Window(
        QUESTION,
        "any",
        side,
        merged,
        bounds,
        sentence=say(
            "{side}: {words} with {wheel_set_title}", side=side_word(side), words=words, wheel_set_title=wheel_set.title
        ),
    )


def _spans(found: Read) -> list[tuple[float, float]]:
    if isinstance(found.stack, bolts.Stack):
        return bolts.spans(found.joint, found.stack)
    return studs.spans(found.joint, found.stack)


def _merged(spans: list[tuple[float, float]]) -> tuple[Interval, ...]:
    """Spans of thickness from zero up, overlapping ones joined."""
    joined: list[tuple[float, float]] = []
    for low, high in sorted((max(low, 0.0), high) for low, high in spans if high >= max(low, 0.0)):
        if joined and low <= joined[-1][1] + 1e-9:
            joined[-1] = (joined[-1][0], max(high, joined[-1][1]))
        else:
            joined.append((low, high))
    return tuple(Interval(low, high) for low, high in joined)
