"""What the clamp of one wheel is worked out from: record, fastener, seat, friction and stack; or what is missing."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.checks import assumed
from hubwright.checks.assumed import Assumed
from hubwright.checks.joint import fastener_of
from hubwright.checks.seats import SeatRange, seat_range
from hubwright.errors import BadInput
from hubwright.language import marked, say
from hubwright.parts.assumptions import Assumptions
from hubwright.parts.hole_circle import read_hole_circle
from hubwright.parts.hub import Fastener, Hub, TorqueRecord
from hubwright.parts.job import Axle, Job
from hubwright.parts.wheel import WheelSet
from hubwright.quantities.axes import Side
from hubwright.quantities.text import length
from hubwright.tables.friction import class_of_words
from hubwright.tables.threads import Thread, thread
from hubwright.tables.tightening import TighteningMethod, tightening_method
from hubwright.uncertainty.band import envelope

USUAL_METHOD = marked("torque wrench, friction estimated")
USUAL_HAT_MM = 6.5
"""Brake disc hat where nobody measured it; a guess."""
USUAL_ROOM_MM = 32.0
"""Width of material round each fastener where nobody measured the hub's face; a guess."""


@dataclass(frozen=True)
class Given:
    """Everything the clamp of one wheel on one side is worked out from."""

    hub: Hub
    wheel_set: WheelSet
    fastener: Fastener
    thread: Thread
    records: tuple[TorqueRecord, ...]
    seat: SeatRange
    friction: Assumed
    method: TighteningMethod
    clamped_mm: float
    hat_mm: float
    room_mm: float
    own: Assumptions
    guesses: tuple[str, ...]


def given(job: Job, axle: Axle, side: Side, wheel_set: WheelSet) -> Given | tuple[str, ...]:
    """What the clamp is worked out from, or the names of what is missing."""
    hub, fastener, own = axle.hub_at(side), fastener_of(wheel_set, axle.fastener), job.shop.assumptions
    if fastener is None or fastener.thread is None:
        return (say("the thread of the fasteners"),)
    of = thread(fastener.thread)
    needs = [] if axle.torque else [say("a torque record for this vehicle, wheel and fastener")]
    seat, friction, clamped = (
        seat_range(fastener, of),
        friction_of(fastener, axle.torque),
        clamped_mm(hub, wheel_set, fastener, of),
    )
    if isinstance(seat, str):
        needs.append(seat)
    if friction is None:
        needs.append(say("the state of lubrication"))
    if clamped is None:
        needs.append(
            say("length and engagement of the bolts") if fastener.kind == "bolt" else say("hat and pad under the nut")
        )
    if needs or isinstance(seat, str) or friction is None or clamped is None:
        return tuple(needs)
    looked_up = (friction, assumed.wrench(own), assumed.roughness(own), assumed.hat_rise(own), assumed.rest_rise(own))
    guesses = [*seat.guesses, *(item.words for item in looked_up if item.guessed)]
    hat, room = hub.hat_thickness_mm, _room_mm(hub, of)
    method, guessed = _method(own)
    if guessed:
        guesses.append(say("tightened by {method}", method=say(method.name)))
    if hat is None:
        guesses.append(say("brake disc hat {hat}", hat=length(USUAL_HAT_MM)))
    if fastener.shank_length_mm is None:
        guesses.append(say("no plain shank"))
    if hub.material is None and fastener.kind == "bolt":
        guesses.append(say("a steel hub"))
    if hub.bolt_circle is None or hub.face_outer_mm is None:
        guesses.append(say("{room} of material round each fastener", room=length(USUAL_ROOM_MM)))
    hat_mm = min(USUAL_HAT_MM if hat is None else hat.value, clamped - 1)
    return Given(
        hub,
        wheel_set,
        fastener,
        of,
        axle.torque,
        seat,
        friction,
        method,
        clamped,
        hat_mm,
        room,
        own,
        tuple(guesses),
    )


def friction_of(fastener: Fastener, records: tuple[TorqueRecord, ...]) -> Assumed | None:
    """Friction of thread and seat: as tested, else by the state of lubrication as found, else by that of the record."""
    what = say("friction of thread and seat")
    if fastener.friction:
        return Assumed(what, assumed.between(fastener.friction), False, say("tested, as stated in the job"))
    words = (fastener.lubrication,) if fastener.lubrication else tuple(record.lubrication for record in records)
    classes = [(text, found) for text in words if (found := class_of_words(text)) is not None]
    if not classes:
        return None
    band = envelope(*(assumed.between((found.low, found.high)) for _, found in classes))
    taken = ", ".join(
        dict.fromkeys(say("class {found} for “{words}”", found=found.name, words=text) for text, found in classes)
    )
    return Assumed(what, band, True, f"{classes[0][1].source}, {taken}")


def clamped_mm(hub: Hub, wheel_set: WheelSet, fastener: Fastener, of: Thread) -> float | None:
    """Length between seat and first engaged turn today; None where it cannot be told."""
    if fastener.kind == "bolt":
        engaged = fastener.engagement_mm.value if fastener.engagement_mm else None
        if engaged is None and fastener.engagement_turns is not None:
            engaged = fastener.engagement_turns.value * of.pitch_mm
        if fastener.length_mm is None or engaged is None or fastener.length_mm.value - engaged < 2:
            return None
        return fastener.length_mm.value - engaged
    pad = wheel_set.wheel.pad_to_thread_mm
    return (
        None
        if hub.hat_thickness_mm is None or pad is None or pad.value <= 0
        else hub.hat_thickness_mm.value + pad.value
    )


def _room_mm(hub: Hub, of: Thread) -> float:
    circle = None
    if hub.bolt_circle is not None and hub.face_outer_mm is not None:
        try:
            circle = read_hole_circle(hub.bolt_circle).diameter_mm
        except BadInput:
            circle = None
    width = USUAL_ROOM_MM if circle is None or hub.face_outer_mm is None else hub.face_outer_mm - circle
    return max(width, of.d_mm + 12)


def _method(own: Assumptions) -> tuple[TighteningMethod, bool]:
    if own.tightened_with is not None:
        try:
            return tightening_method(own.tightened_with), False
        except BadInput:
            pass
    return tightening_method(say(USUAL_METHOD)), True
