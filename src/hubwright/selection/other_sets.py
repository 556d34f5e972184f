"""The room around winter wheels and spare: the gaps were read with the fitted wheels, the outlines tell the difference."""

from __future__ import annotations

from dataclasses import dataclass, replace

from hubwright.checks import clearance
from hubwright.checks.clearance import Room
from hubwright.checks.house import House
from hubwright.findings import Case, Evidence, Finding, Verdict
from hubwright.language import say
from hubwright.parts.job import Axle
from hubwright.parts.wheel import WheelSet


@dataclass(frozen=True)
class OtherRoom:
    """One wheel set that goes on over the same discs; ``rooms`` None where nobody can say, and ``why``."""

    wheel_set: WheelSet
    rooms: tuple[Room, ...] | None
    why: str


def other_rooms(axle: Axle, rooms: tuple[Room, ...], house: House) -> tuple[OtherRoom, ...]:
    """The room around every other set for which the discs stay on the hub."""
    sets = [item for item in axle.wheel_set if item.role != "fitted" and item.discs == "stay"]
    return tuple(_room(axle, item, rooms, house) for item in sets)


def _room(axle: Axle, other: WheelSet, rooms: tuple[Room, ...], house: House) -> OtherRoom:
    fitted = axle.fitted
    if fitted is None or not all(_drawable(item) for item in (fitted, other)):
        return OtherRoom(other, None, say("rim, inset or tyre size of one of the sets is not stated"))
    from hubwright.checks.outlines import try_built  # noqa: PLC0415 - compiled sums load slowly
    from hubwright.checks.package_room import room_with, swap_of  # noqa: PLC0415

    now, why_now = try_built(fitted.wheel, fitted.tyre)
    then, why_then = try_built(other.wheel, other.tyre, "largest")
    if now is None or then is None:
        return OtherRoom(other, None, why_now or why_then)
    swap = swap_of(now, then, fitted.tyre, other.tyre)
    return OtherRoom(other, tuple(room_with(axle, room, swap, house) for room in rooms), "")


def _drawable(wheel_set: WheelSet) -> bool:
    wheel, tyre = wheel_set.wheel, wheel_set.tyre
    return wheel.rim is not None and wheel.inset_mm is not None and tyre.designation is not None


def judge(other: OtherRoom, house: House, thickness_mm: float) -> list[Finding]:
    """Whether one set keeps its air over a disc, both sides."""
    title = other.wheel_set.title
    if other.rooms is None:
        sentence = say("{title}: whether they keep their air is not known: {why}.", title=title, why=other.why)
        return [
            Finding(
                clearance.QUESTION,
                Verdict.UNKNOWN,
                sentence,
                None,
                Case("both", title),
                Evidence.NONE,
                (),
                say("State them."),
            )
        ]
    found = [clearance.judge(room, house, thickness_mm) for room in other.rooms]
    return [replace(finding, sentence=f"{title}: {finding.sentence}") for finding in found]
