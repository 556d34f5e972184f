"""Places the wheel could touch that a corner is usually read at, and the states of wheel and steering they are read in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from hubwright.language import marked, say

NEAR_TRAVEL_MM, NEAR_STEER_DEG = 3.0, 3.0
"""A reading this near to a usual state is taken for it."""
STILL_MM = 1.0


@dataclass(frozen=True)
class Place:
    """One place.

    Attributes:
        name: As it stands in the job file.
        room, kind, toward: As in the job file; toward "" = the usual direction of its room.
        there: Whether the job has it already.
    """

    name: str
    room: str = "outside"
    kind: str = "body"
    toward: str = ""
    there: bool = False

    @property
    def direction(self) -> str:
        """Towards the place."""
        return self.toward or ("outboard" if self.room == "outside" else "inboard")

    @property
    def lip(self) -> bool:
        """Whether it is an edge over the wheel that may be rolled."""
        return self.room == "outside" and self.kind == "body" and self.direction == "outboard"


def usual(steered: bool) -> tuple[Place, ...]:
    """Places of a usual corner, by the names a job file gives them."""
    found = [Place("arch lip, inner edge"), Place("strut or damper", "inside", "carried")]
    if steered:
        found += [
            Place("liner behind the wheel", toward="rearward"),
            Place("bumper corner", toward="forward"),
            Place("brake hose", "inside", "hose"),
        ]
    return tuple(found)


def places_of(points: Any, steered: bool) -> tuple[Place, ...]:
    """Places of one corner: those the job has, then the usual ones whose kind it has none of.

    Args:
        points: The list ``point`` of the corner, plain; None when there is none.
        steered: Whether the axle steers.
    """
    had = tuple(
        Place(str(p["name"]), str(p.get("room", "outside")), str(p.get("kind", "body")), str(p.get("toward", "")), True)
        for p in points or ()
        if isinstance(p, dict) and p.get("name")
    )
    taken = {(place.room, place.direction, place.kind) for place in had}
    names = {place.name for place in had}
    return (*had, *(p for p in usual(steered) if (p.room, p.direction, p.kind) not in taken and p.name not in names))


@dataclass(frozen=True)
class State:
    """Where wheel and steering stand while a gap is read.

    Attributes:
        key: parked, between, bump, droop, left, right, left-bump, right-bump, or ``at TRAVEL STEER`` for any other.
        travel_mm: None where the person says it.
        steer_deg: None where the person says it.
    """

    key: str
    travel_mm: float | None
    steer_deg: float | None

    @property
    def turn(self) -> int:
        """1 to the left, -1 to the right, 0 straight ahead."""
        return 1 if self.key.startswith("left") else -1 if self.key.startswith("right") else 0


WORDS = {
    "parked": marked("parked"),
    "between": marked("on the way up"),
    "bump": marked("at full bump"),
    "droop": marked("hanging"),
    "left": marked("parked, full lock left"),
    "right": marked("parked, full lock right"),
    "left-bump": marked("full lock left and raised"),
    "right-bump": marked("full lock right and raised"),
}


def states_for(place: Place, steered: bool, bump_mm: float | None, lock_deg: float | None) -> tuple[State, ...]:
    """States a gap at this place is worth reading in.

    Args:
        place: The place.
        steered: Whether the axle steers.
        bump_mm: Travel to full bump, where it was read.
        lock_deg: Angle at full lock, where it was read.
    """
    lock = [State(key, 0.0, sign * lock_deg if lock_deg else None) for key, sign in (("left", 1), ("right", -1))]
    raised = [State(f"{one.key}-bump", bump_mm, one.steer_deg) for one in lock]
    parked = State("parked", 0.0, 0.0)
    if place.kind != "body":
        return (parked, *(lock if steered else ()))
    if place.direction in ("forward", "rearward"):
        return (*lock, *raised) if steered else (parked,)
    ahead = (parked, State("between", None, 0.0), State("bump", bump_mm, 0.0), State("droop", None, 0.0))
    return (*ahead, *lock, *raised) if steered and place.room == "outside" else ahead


def state_of(travel_mm: float, steer_deg: float, bump_mm: float | None, states: tuple[State, ...]) -> State:
    """The usual state a reading was taken in, else one of its own."""
    ahead, parked = abs(steer_deg) < STILL_MM, abs(travel_mm) < STILL_MM
    side = "left" if steer_deg > 0 else "right"
    at_bump = bump_mm is not None and abs(travel_mm - bump_mm) <= NEAR_TRAVEL_MM
    key = ""
    if ahead:
        key = "parked" if parked else "bump" if at_bump else "droop" if travel_mm < 0 else ""
    elif parked:
        key = side
    elif at_bump:
        key = f"{side}-bump"
    known = next((state for state in states if state.key == key), None)
    if known is not None and (ahead or known.steer_deg is None or abs(known.steer_deg - steer_deg) <= NEAR_STEER_DEG):
        return State(known.key, travel_mm, steer_deg)
    return State(f"at {travel_mm:g} {steer_deg:g}", travel_mm, steer_deg)


def state_words(state: State, travel: str, steer: str) -> str:
    """The state in words; ``travel`` and ``steer`` are its figures as text."""
    if state.key in WORDS:
        return say(WORDS[state.key])
    if state.steer_deg and abs(state.steer_deg) >= STILL_MM:
        return say("{travel} up, steered {steer}", travel=travel, steer=steer)
    if (state.travel_mm or 0) < 0:
        return say("{travel} down", travel=travel)
    return say("{travel} up", travel=travel)
