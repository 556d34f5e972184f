"""The seat of a bolt or nut as the friction sums want it: what was measured, else what is common, else nothing."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.engineering.joint.seat import BallSeat, ConeSeat, FlatSeat, FloatingWasherSeat, Seat, friction_arm_mm
from hubwright.findings import Step
from hubwright.language import marked, say
from hubwright.parts.hub import Fastener
from hubwright.quantities.text import figure, length, number, plain
from hubwright.tables.threads import Thread

CONE_DEG = 60.0
CONE_BEYOND_MM = (2.5, 4.5, 6.5)
"""Contact circle of a cone beyond the thread's diameter, where nobody measured it; a guess."""
STATICS = marked("VDI 2230 (flat: DKm/2); statics of a wedge (cone, ball; derived)")


@dataclass(frozen=True)
class SeatRange:
    """Low, nominal and high seat; all three the same where it was measured."""

    seats: tuple[Seat, ...]
    guesses: tuple[str, ...]
    step: Step


def seat_range(fastener: Fastener, of: Thread) -> SeatRange | str:
    """The seat, with a loose washer on it where there is one; or in words what must be measured first."""
    found = _fixed(fastener, of)
    if isinstance(found, str) or fastener.washer_outer_mm is None:
        return found
    inner = of.d_mm + 1
    if fastener.washer_outer_mm <= inner:
        return say("the outside of the loose washer")
    face = FlatSeat(inner, fastener.washer_outer_mm)
    seats = tuple(FloatingWasherSeat(face, seat) for seat in found.seats if not isinstance(seat, FloatingWasherSeat))
    return _range(seats, (*found.guesses, say("inside of the washer {inner}", inner=length(inner))))


def _fixed(fastener: Fastener, of: Thread) -> SeatRange | str:
    if fastener.seat is None:
        return say("the kind of seat")
    contact = fastener.seat_contact_diameter_mm
    if fastener.seat == "flat":
        outer, inner = fastener.seat_outer_mm, fastener.seat_inner_mm or of.d_mm + 1
        if outer is None or outer <= inner:
            return say("the outside diameter of the flat seat")
        guesses = () if fastener.seat_inner_mm else (say("inside of the flat seat {inner}", inner=length(inner)),)
        return _range((FlatSeat(inner, outer),), guesses)
    if fastener.seat == "ball":
        radius = fastener.seat_radius_mm
        if radius is None:
            return say("the radius of the ball seat")
        if contact is None or contact >= 2 * radius:
            return say(
                "the circle on which the ball of R{radius} really touches (smaller than {diameter})",
                radius=plain(radius),
                diameter=length(2 * radius, 0),
            )
        return _range((BallSeat(contact, radius),), ())
    angle = fastener.seat_angle_deg or CONE_DEG
    guesses = () if fastener.seat_angle_deg else (say("cone of {angle}° (common practice)", angle=number(CONE_DEG, 0)),)
    if contact is not None:
        return _range((ConeSeat(contact, angle),), guesses)
    low, _, high = (of.d_mm + beyond for beyond in CONE_BEYOND_MM)
    words = say("contact circle of the cone {low} to {high}", low=figure(low), high=length(high))
    return _range(tuple(ConeSeat(of.d_mm + beyond, angle) for beyond in CONE_BEYOND_MM), (words, *guesses))


def _range(seats: tuple[Seat, ...], guesses: tuple[str, ...]) -> SeatRange:
    arms = [friction_arm_mm(seat) for seat in seats]
    span = (
        length(arms[0])
        if len(set(arms)) == 1
        else say("{low} to {high}", low=figure(min(arms)), high=length(max(arms)))
    )
    text = say("friction arm of the seat {span}", span=span)
    if guesses:
        text = say("friction arm of the seat {span} (guess: {guesses})", span=span, guesses="; ".join(guesses))
    return SeatRange(seats, guesses, Step(text, say(STATICS)))
