"""The clearance map of one corner put to the question: which discs leave the air that is owed, in every state?

A map knows every state of travel and lock of the motion it was drawn from, so it stands in for swept readings that were
not taken. What rests on it is predicted from measurements and never releases a car.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any

import numpy as np

from hubwright.checks import states
from hubwright.checks.house import House
from hubwright.checks.plausibility import Question
from hubwright.engineering.placement import compliance_outward
from hubwright.findings import Bound, Case, Evidence, Finding, Step, Verdict, Wanted
from hubwright.language import marked, say
from hubwright.language.part_words import grade_word, neighbour_word
from hubwright.language.place_words import place_word
from hubwright.language.words import axle_word, side_word
from hubwright.parts.job import Axle, Compliance
from hubwright.quantities.axes import Side
from hubwright.quantities.rounding import at_least
from hubwright.quantities.text import figure, length, number, short, spare, thickness

if TYPE_CHECKING:
    pass

Floats = np.ndarray[Any, np.dtype[np.float64]]

QUESTION = "clearance"
SOURCE = marked("meridian map: nearest obstacle over all states in one half-plane (derived; docs/clearance-map.md)")
SETTLED_MM = 0.01
TRIES, SURE, LEAST_SHARE, NOISE = 12, 1.1, 0.05, 1e-9
FARTHEST_MM = 100.0
BLUNT_MM = 60.0
"""Between the points of a scan the surface may stand closer to a tyre no sharper than this by s^2 / (4 R); a guess."""


@dataclass(frozen=True)
class Neighbour:
    """One obstacle of the map: kind decides the margin, ``doubt_mm`` is the standard doubt of its places."""

    name: str
    kind: str
    region: str
    doubt_mm: float
    spacing_mm: float
    words: str


@dataclass(frozen=True, eq=False)
class MapRoom:
    """A finished map of one corner with the package the car carries.

    Attributes:
        side: Of the car.
        neighbours: By name.
        grade: hard points, measured motion or class guess.
        covers_bump, covers_lock: Whether full bump and both locks are among the states.
        give: What the loaded wheel gives.
        notes: To be said beside every result.
        settle: The least gap to one obstacle with a disc, also between the states of the map unless it is under the
            third figure there already.
        rough: The least gap to one obstacle with a disc at the states of the map alone.
        gap_at: Least gap to the bodywork outside and its doubt at one state: (thickness, travel, steer) -> (mm, mm),
            or None where that state cannot be.
    """

    side: Side
    neighbours: dict[str, Neighbour]
    grade: str
    covers_bump: bool
    covers_lock: bool
    give: Compliance | None
    notes: tuple[str, ...]
    settle: Callable[[str, float, float], Air]
    rough: Callable[[str, float], float]
    gap_at: Callable[[float, float, float], tuple[float, float] | None]

    @cached_property
    def _asked(self) -> dict[tuple[str, float], Air]:
        return {}

    def air(self, name: str, thickness_mm: float, enough_mm: float = -math.inf) -> Air:
        """The least gap to one obstacle, asked once. What is under ``enough_mm`` at a state of the map is not settled."""
        key = (name, thickness_mm)
        if key not in self._asked or (not self._asked[key].settled and self._asked[key].gap_mm >= enough_mm):
            self._asked[key] = self.settle(name, thickness_mm, enough_mm)
        return self._asked[key]

    def rough_mm(self, name: str, thickness_mm: float) -> float:
        """The least gap at the states of the map alone; between them it may be a little less."""
        return self.rough(name, thickness_mm)


@dataclass(frozen=True)
class Air:
    """The least gap to one obstacle with one disc.

    Attributes:
        gap_mm: Found at a state that can be; negative = overlap.
        error_mm: The least of all lies no more than this below it.
        travel_mm, steer_deg: That state; None for an obstacle the knuckle carries.
        place_mm: Where, in corner axes (of a carried obstacle: hub axes); None where nothing is within reach.
        above_hub_mm: How far that is above the hub.
        at_least: Nothing is nearer than this.
        states: How many states were looked at.
        settled: Whether the states between those of the map were looked at; where the map alone shows too little gap
            they need not be.
    """

    gap_mm: float
    error_mm: float
    travel_mm: float | None
    steer_deg: float | None
    place_mm: tuple[float, float, float] | None
    above_hub_mm: float
    at_least: bool
    states: int
    settled: bool = True


@dataclass(frozen=True)
class MapGap:
    """One obstacle with one disc: what there is and what is owed."""

    air: Air
    neighbour: Neighbour
    margin_mm: float
    guard_mm: float
    give_mm: float

    @property
    def air_mm(self) -> float:
        """The gap, bounds of the sums taken off."""
        return self.air.gap_mm - self.air.error_mm

    @property
    def slack_mm(self) -> float:
        """What is left."""
        return self.air_mm - self.margin_mm - self.guard_mm - self.give_mm

    @property
    def state(self) -> str:
        """Ride height and steer in words."""
        if self.air.travel_mm is None or self.air.steer_deg is None:
            return say("any state")
        return state_words(self.air.travel_mm, self.air.steer_deg)


def state_words(travel_mm: float, steer_deg: float) -> str:
    """Ride height and steer of one state in words."""
    return states.state_words(travel_mm, steer_deg, 3.0)


def gaps(room: MapRoom, house: House, thickness_mm: float) -> tuple[MapGap, ...]:
    """Every obstacle with a disc, the one with least left first; the second is what binds next."""
    found = [gap_to(room, house, name, thickness_mm) for name in room.neighbours]
    return tuple(sorted(found, key=lambda gap: gap.slack_mm))


def gap_to(room: MapRoom, house: House, name: str, thickness_mm: float) -> MapGap:
    """One obstacle with one disc."""
    neighbour = room.neighbours[name]
    return owing(room, house, neighbour, room.air(name, thickness_mm, house.margin_mm[neighbour.kind]))


def owing(room: MapRoom, house: House, neighbour: Neighbour, air: Air) -> MapGap:
    """What one gap is owed: margin of its kind, doubt, and what the loaded wheel gives there."""
    give = 0.0
    bump = air.travel_mm is not None and air.travel_mm > 0 and air.above_hub_mm > 0
    if room.give is not None and bump and neighbour.kind == "body" and neighbour.region == "outside":
        g = room.give
        out = compliance_outward(air.above_hub_mm, g.side_force_kn, g.camber_deg_per_kn, g.lateral_mm_per_kn)
        give = max(0.0, out)
    guard = house.guard_mm(neighbour.doubt_mm) + neighbour.spacing_mm**2 / (4.0 * BLUNT_MM)
    return MapGap(air, neighbour, house.margin_mm[neighbour.kind], guard, give)


def judge(room: MapRoom, house: House, thickness_mm: float, missing: tuple[Wanted, ...]) -> Finding:
    """Whether one wheel keeps its air with one disc, by the map."""
    gap = gaps(room, house, thickness_mm)[0]
    owed = gap.margin_mm + gap.guard_mm + gap.give_mm
    with_disc = say("with {thickness}", thickness=thickness(thickness_mm)) if thickness_mm else say("as it stands")
    left = spare(gap.slack_mm) if at_least(gap.slack_mm, 0.0) else short(-gap.slack_mm)
    air = say("{air} of air", air=length(gap.air_mm))
    if gap.air.gap_mm < 0:
        air = say("an overlap of at least {gap}", gap=length(-gap.air.gap_mm))
    elif gap.air.at_least:
        air = say("at least {air} of air", air=length(gap.air_mm))
    sentence = say(
        "{side}, {neighbour}, {state}: {air} {with_disc} by the map ({grade}), {owed} wanted: {left}.",
        side=side_word(room.side),
        neighbour=place_word(gap.neighbour.name),
        state=gap.state,
        air=air,
        with_disc=with_disc,
        grade=grade_word(room.grade),
        owed=length(owed),
        left=left,
    )
    todo = say("Predicted: fit it and measure with the disc fitted.")
    verdict = Verdict.PASS if at_least(gap.slack_mm, 0.0) else Verdict.FAIL
    if missing or room.grade == "class guess":
        unsure = gap.guard_mm + (0.0 if room.grade != "class guess" else gap.margin_mm)
        verdict = Verdict.UNKNOWN if at_least(gap.slack_mm + unsure, 0.0) else Verdict.FAIL
        if verdict is Verdict.UNKNOWN:
            open_ = missing[0].thing if missing else say("a measured motion: nobody measured how this wheel moves")
            sentence, todo = (
                say("{sentence} Not settled without {open}.", sentence=sentence, open=open_),
                missing[0].how if missing else say("Measure it."),
            )
    case = Case(room.side, place_word(gap.neighbour.name), gap.state)
    return Finding(
        QUESTION, verdict, sentence, gap.slack_mm, case, Evidence.PREDICTED, _working(room, house, gap), todo
    )


def _working(room: MapRoom, house: House, gap: MapGap) -> tuple[Step, ...]:
    air = gap.air
    steps = [
        Step(
            say(
                "gap {gap}, {states} states looked at; between them no more than {error} less",
                gap=length(air.gap_mm, 2),
                states=air.states,
                error=length(air.error_mm, 2),
            )
            if air.settled
            else say("gap {gap}, {states} states looked at", gap=length(air.gap_mm, 2), states=air.states),
            say(SOURCE),
        ),
        Step(
            say("margin {margin} ({kind})", margin=length(gap.margin_mm), kind=neighbour_word(gap.neighbour.kind)),
            house.margin_source[gap.neighbour.kind],
        ),
        Step(
            say(
                "doubt {guard}: k {doubt_k} × {doubt} ({neighbour_words})",
                guard=length(gap.guard_mm),
                doubt_k=number(house.policy.doubt_k, 3),
                doubt=length(gap.neighbour.doubt_mm, 2),
                neighbour_words=gap.neighbour.words,
            ),
            say("JCGM 100:2008 (doubt), JCGM 106:2012 (guarded decision)"),
        ),
        Step(say("motion: {grade}. {notes}", grade=grade_word(room.grade), notes=" ".join(room.notes)).strip()),
    ]
    if gap.give_mm > 0:
        steps.append(
            Step(
                say("give of the loaded wheel {give}", give=length(gap.give_mm)),
                say("derived from the compliance stated"),
            )
        )
    if air.place_mm is not None:
        x, o, z = air.place_mm
        at = {"x": figure(x), "o": figure(o), "z": length(z)}
        steps.append(
            Step(
                say("nearest place: forward {x}, outboard {o}, up {z} (hub axes)", **at)
                if air.travel_mm is None
                else say("nearest place: forward {x}, outboard {o}, up {z} (corner axes)", **at)
            )
        )
    return tuple(steps)


def bounds(room: MapRoom, house: House) -> tuple[Bound, ...]:
    """The thickest disc every obstacle of the map allows; the thinnest where it is short without any."""
    found = [_bound(room, house, name) for name in room.neighbours]
    return tuple(bound for bound in found if bound is not None)


def _bound(room: MapRoom, house: House, name: str) -> Bound | None:
    """Slide outboard until the slack is used up; sliding by the slack never jumps over a contact."""
    start = gap_to(room, house, name, 0.0)
    if start.slack_mm < 0:
        return _cure(room, house, name, start)
    owed = start.margin_mm + start.guard_mm + start.give_mm
    at, slack = 0.0, start.slack_mm
    while slack > SETTLED_MM:
        at += slack
        if at > FARTHEST_MM:
            return None
        slack = room.rough_mm(name, at) - owed
    share = min(1.0, max(LEAST_SHARE, room.rough_mm(name, max(0.0, at - 1.0)) - room.rough_mm(name, at)))
    for _ in range(TRIES):
        here = gap_to(room, house, name, at)
        if here.slack_mm >= -NOISE or at == 0.0:
            return Bound("most", at, Case(room.side, place_word(name), here.state), _owed(here), Evidence.PREDICTED)
        at = max(0.0, at + SURE * here.slack_mm / share)
    return Bound("most", 0.0, Case(room.side, place_word(name), start.state), _owed(start), Evidence.PREDICTED)


def _cure(room: MapRoom, house: House, name: str, start: MapGap) -> Bound:
    """Short without a disc: one that moves the wheel away makes it good, as a least thickness; else none does."""
    case = Case(room.side, place_word(name), start.state)
    at = 0.0
    if room.rough_mm(name, 1.0) > room.rough_mm(name, 0.0):
        while at <= FARTHEST_MM:
            at += max(0.25, start.margin_mm + start.guard_mm + start.give_mm - room.rough_mm(name, at))
            if gap_to(room, house, name, at).slack_mm >= 0.0:
                return Bound("least", at, case, _owed(start), Evidence.PREDICTED)
    return Bound("most", start.slack_mm, case, _owed(start), Evidence.PREDICTED)


def _owed(gap: MapGap) -> str:
    places = {"air": length(gap.air_mm), "margin": length(gap.margin_mm), "doubt": length(gap.guard_mm)}
    if gap.give_mm > 0:
        give = length(gap.give_mm)
        return say("{air} of air by the map, less {margin} margin, {doubt} doubt and {give} give", give=give, **places)
    return say("{air} of air by the map, less {margin} margin and {doubt} doubt", **places)


def still_missing(room: MapRoom | None, missing: tuple[Wanted, ...]) -> tuple[Wanted, ...]:
    """What readings are still missing when the map is there: full bump and lock may be known from it."""
    if room is None or room.grade == "class guess":
        return missing
    outside = any(n.region == "outside" and n.kind == "body" for n in room.neighbours.values())
    left = []
    for wanted in missing:
        if outside and ((wanted.about == "bump" and room.covers_bump) or (wanted.about == "lock" and room.covers_lock)):
            continue
        left.append(wanted)
    return tuple(left)


def disagreements(room: MapRoom, axle: Axle, name: str, side: Side, house: House) -> list[Question]:
    """Readings of the bodywork that the map contradicts by more than both doubts.

    A reading is taken in one direction and the map's gap is the least in any, so a map that shows less is only
    questioned where an edge or scan bears the name of the point.
    """
    found = []
    named = set(room.neighbours)
    for point in axle.corner(side).point:
        if point.room != "outside" or point.kind != "body":
            continue
        for reading in point.reading:
            gap = point.gap(reading)
            at = room.gap_at(reading.disc_mm, reading.travel_mm, reading.steer_deg)
            if at is None:
                continue
            allowed = house.guard_mm(gap.doubt) + house.guard_mm(at[1])
            more = at[0] - gap.value
            if more > allowed or (-more > allowed and point.name in named):
                state = state_words(reading.travel_mm, reading.steer_deg)
                places = {
                    "state": state, "gap": length(gap.value), "point": place_word(point.name), "at": length(at[0]),
                    "by": length(abs(more)), "allowed": length(allowed),
                }  # fmt: skip
                if more > 0:
                    text = say(
                        "At {state} {gap} was read at the {point}; the map shows {at}, {by} more, and both doubts together "
                        "are {allowed}.",
                        **places,
                    )
                else:
                    text = say(
                        "At {state} {gap} was read at the {point}; the map shows {at}, {by} less, and both doubts together "
                        "are {allowed}.",
                        **places,
                    )
                todo = say("Read again, or check picks, units and hard points; the worse of the two rules until then.")
                found.append(
                    Question(
                        say("reading and map disagree"),
                        say(
                            "{axle} axle, {side}, {point}",
                            axle=axle_word(name),
                            side=side_word(side),
                            point=place_word(point.name),
                        ),
                        text,
                        todo,
                    )
                )
    return found
