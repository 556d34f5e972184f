"""The clearance map of one corner put to the question: which discs leave the air that is owed, in every state?

A map knows every state of travel and lock of the motion it was drawn from, so it stands in for swept readings that were
not taken. What rests on it is predicted from measurements and never releases a car.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any

import numpy as np

from hubwright.checks.house import House
from hubwright.checks.plausibility import Question
from hubwright.engineering.placement import compliance_outward
from hubwright.findings import Bound, Case, Evidence, Finding, Step, Verdict, Wanted
from hubwright.parts.job import Axle, Compliance
from hubwright.quantities.axes import Side
from hubwright.quantities.rounding import at_least
from hubwright.quantities.text import figure, length, number, short, spare, thickness

if TYPE_CHECKING:
    from hubwright.engineering.envelope.outline import Outline
    from hubwright.engineering.envelope.query import Contact, ReadyMap

Floats = np.ndarray[Any, np.dtype[np.float64]]

QUESTION = "clearance"
SOURCE = "meridian map: nearest obstacle over all states in one half-plane (derived; docs/clearance-map.md)"
SETTLED_MM = 0.01
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
        ready: The map.
        outline: The package without a disc, in the hub frame.
        neighbours: By name.
        travel_mm, steer_deg: (n,) of every state; steer of the wheel, left positive.
        origin_mm, axis: (n, 3) hub-face centres and spin axes, corner axes.
        between_mm: How much closer an obstacle may come between the states.
        grade: hard points, measured motion or class guess.
        covers_bump, covers_lock: Whether full bump and both locks are among the states.
        give: What the loaded wheel gives.
        notes: To be said beside every result.
        gap_at: Least gap to the bodywork outside and its error at one state: (thickness, travel, steer) -> (mm, mm),
            or None where that state cannot be.
    """

    side: Side
    ready: ReadyMap
    outline: Outline
    neighbours: dict[str, Neighbour]
    travel_mm: Floats
    steer_deg: Floats
    origin_mm: Floats
    axis: Floats
    between_mm: float
    grade: str
    covers_bump: bool
    covers_lock: bool
    give: Compliance | None
    notes: tuple[str, ...]
    gap_at: Callable[[float, float, float], tuple[float, float] | None]

    @cached_property
    def _asked(self) -> dict[float, tuple[Contact, ...]]:
        return {}

    def contacts(self, thickness_mm: float) -> tuple[Contact, ...]:
        """Smallest gap to every obstacle with a disc of this thickness, over all states."""
        from hubwright.engineering.envelope.query import contacts  # noqa: PLC0415 - compiled sums

        if thickness_mm not in self._asked:
            self._asked[thickness_mm] = contacts(self.ready, self.outline, thickness_mm)
        return self._asked[thickness_mm]


@dataclass(frozen=True)
class MapGap:
    """One obstacle with one disc: what there is and what is owed."""

    contact: Contact
    neighbour: Neighbour
    travel_mm: float | None
    steer_deg: float | None
    margin_mm: float
    guard_mm: float
    give_mm: float

    @property
    def air_mm(self) -> float:
        """The gap, bounds of the map taken off."""
        return self.contact.safe_gap_mm

    @property
    def slack_mm(self) -> float:
        """What is left."""
        return self.air_mm - self.margin_mm - self.guard_mm - self.give_mm

    @property
    def state(self) -> str:
        """Ride height and steer in words."""
        if self.travel_mm is None or self.steer_deg is None:
            return "any state"
        return state_words(self.travel_mm, self.steer_deg)


def state_words(travel_mm: float, steer_deg: float) -> str:
    """Ride height and steer of one state in words."""
    height = "parked" if abs(travel_mm) < 0.5 else f"{'bump' if travel_mm > 0 else 'droop'} {length(abs(travel_mm), 0)}"
    if abs(steer_deg) < 3.0:
        return height
    return f"{height}, steered {number(abs(steer_deg), 0)}° {'left' if steer_deg > 0 else 'right'}"


def gaps(room: MapRoom, house: House, thickness_mm: float) -> tuple[MapGap, ...]:
    """Every obstacle with a disc, the one with least left first."""
    found = [_gap(room, house, contact) for contact in room.contacts(thickness_mm)]
    return tuple(sorted(found, key=lambda gap: gap.slack_mm))


def _gap(room: MapRoom, house: House, contact: Contact) -> MapGap:
    neighbour = room.neighbours[contact.obstacle]
    travel = steer = None
    give = 0.0
    if 0 <= contact.state < len(room.travel_mm):
        travel, steer = float(room.travel_mm[contact.state]), float(room.steer_deg[contact.state])
    if travel is not None and contact.triangle >= 0:
        height = contact.place_mm[2] - float(room.origin_mm[contact.state, 2])
        if room.give is not None and travel > 0 and neighbour.kind == "body" and neighbour.region == "outside":
            g = room.give
            out = compliance_outward(height, g.side_force_kn, g.camber_deg_per_kn, g.lateral_mm_per_kn)
            give = max(0.0, out) if height > 0 else 0.0
    guard = house.guard_mm(neighbour.doubt_mm) + neighbour.spacing_mm**2 / (4.0 * BLUNT_MM)
    return MapGap(contact, neighbour, travel, steer, house.margin_mm[neighbour.kind], guard, give)


def judge(room: MapRoom, house: House, thickness_mm: float, missing: tuple[Wanted, ...]) -> Finding:
    """Whether one wheel keeps its air with one disc, by the map.

    Outside the thicknesses at which the package can be asked (it must stay star-shaped about the map's view point) the
    answer is unknown.
    """
    from hubwright.errors import OutsideValidity  # noqa: PLC0415

    try:
        gap = gaps(room, house, thickness_mm)[0]
    except OutsideValidity as error:
        case = Case(room.side, "", "")
        return Finding(QUESTION, Verdict.UNKNOWN, f"{room.side}: {error}", None, case, Evidence.NONE, (), "Measure.")
    owed = gap.margin_mm + gap.guard_mm + gap.give_mm
    with_disc = f"with {thickness(thickness_mm)}" if thickness_mm else "as it stands"
    left = spare(gap.slack_mm) if at_least(gap.slack_mm, 0.0) else short(-gap.slack_mm)
    at_least_words = "at least " if gap.contact.at_edge else ""
    air = length(gap.air_mm) if np.isfinite(gap.air_mm) else "no air"
    sentence = (
        f"{room.side}, {gap.neighbour.name}, {gap.state}: {at_least_words}{air} of air {with_disc} by the map "
        f"({room.grade}), {length(owed)} wanted: {left if np.isfinite(gap.slack_mm) else 'overlap'}."
    )
    todo = "Predicted: fit it and measure with the disc fitted."
    verdict = Verdict.PASS if at_least(gap.slack_mm, 0.0) else Verdict.FAIL
    if missing or room.grade == "class guess":
        unsure = gap.guard_mm + (0.0 if room.grade != "class guess" else gap.margin_mm)
        verdict = Verdict.UNKNOWN if at_least(gap.slack_mm + unsure, 0.0) else Verdict.FAIL
        if verdict is Verdict.UNKNOWN:
            open_ = missing[0].thing if missing else "a measured motion: nobody measured how this wheel moves"
            sentence, todo = f"{sentence} Not settled without {open_}.", missing[0].how if missing else "Measure it."
    margin = gap.slack_mm if np.isfinite(gap.slack_mm) else None
    case = Case(room.side, gap.neighbour.name, gap.state)
    return Finding(QUESTION, verdict, sentence, margin, case, Evidence.PREDICTED, _working(room, house, gap), todo)


def _working(room: MapRoom, house: House, gap: MapGap) -> tuple[Step, ...]:
    contact = gap.contact
    steps = [
        Step(
            f"gap {figure(contact.gap_mm, 2)} over {len(room.travel_mm)} states, less {length(contact.error_mm, 2)} for "
            f"what the map and the steps between its states may hide",
            SOURCE,
        ),
        Step(f"margin {length(gap.margin_mm)} ({gap.neighbour.kind})", house.margin_source[gap.neighbour.kind]),
        Step(
            f"doubt {length(gap.guard_mm)}: k {number(house.policy.doubt_k, 3)} × {length(gap.neighbour.doubt_mm, 2)} "
            f"({gap.neighbour.words})",
            "JCGM 100:2008 (doubt), JCGM 106:2012 (guarded decision)",
        ),
        Step(f"motion: {room.grade}. {' '.join(room.notes)}".strip()),
    ]
    if gap.give_mm > 0:
        steps.append(Step(f"give of the loaded wheel {length(gap.give_mm)}", "derived from the compliance stated"))
    if contact.triangle >= 0:
        x, o, z = contact.place_mm
        axes = "hub" if gap.travel_mm is None else "car"
        steps.append(Step(f"nearest place x {figure(x)}, outboard {figure(o)}, z {length(z)} ({axes} axes)"))
    return tuple(steps)


def bounds(room: MapRoom, house: House) -> tuple[Bound, ...]:
    """The thickest and thinnest disc every obstacle of the map allows, counted from no disc at all."""
    found = [_bound(room, house, neighbour.name, sense) for neighbour in room.neighbours.values() for sense in (1, -1)]
    return tuple(bound for bound in found if bound is not None)


def _bound(room: MapRoom, house: House, name: str, sense: int) -> Bound | None:
    """Slide until the slack is used up; sliding by the slack never jumps over a contact."""
    from hubwright.errors import OutsideValidity  # noqa: PLC0415

    def gap(at: float) -> MapGap:
        return next(_gap(room, house, one) for one in room.contacts(at) if one.obstacle == name)

    try:
        start = gap(0.0)
    except OutsideValidity:
        return None
    at, here = 0.0, start
    if start.slack_mm < 0:
        return _cure(gap, room, sense, start)
    while abs(at) < FARTHEST_MM:
        if here.slack_mm <= SETTLED_MM:
            kind = "most" if sense > 0 else "least"
            return Bound(kind, at, Case(room.side, name, here.state), _owed(here), Evidence.PREDICTED)
        try:
            following = gap(at + sense * here.slack_mm)
        except OutsideValidity:
            return None
        at, here = at + sense * here.slack_mm, following
    return None


def _cure(gap: Callable[[float], MapGap], room: MapRoom, sense: int, start: MapGap) -> Bound | None:
    """Short without a disc: a disc that moves the wheel away makes it good, as a least thickness; else none does."""
    from hubwright.errors import OutsideValidity  # noqa: PLC0415

    if sense < 0:
        return None
    at, here = 0.0, start
    try:
        for _ in range(200):
            at += max(-here.slack_mm, 0.25) if np.isfinite(here.slack_mm) else 1.0
            if at > FARTHEST_MM:
                break
            here = gap(at)
            if here.slack_mm >= 0.0:
                return Bound("least", at, Case(room.side, start.neighbour.name, start.state), _owed(start), Evidence.PREDICTED)
    except OutsideValidity:
        pass
    short_by = max(start.slack_mm, -FARTHEST_MM)
    return Bound("most", short_by, Case(room.side, start.neighbour.name, start.state), _owed(start), Evidence.PREDICTED)


def _owed(gap: MapGap) -> str:
    owed = [f"{length(gap.margin_mm)} margin", f"{length(gap.guard_mm)} doubt"]
    if gap.give_mm > 0:
        owed.append(f"{length(gap.give_mm)} give")
    air = length(gap.air_mm) if np.isfinite(gap.air_mm) else "no"
    return f"{air} of air by the map, less {' and '.join(owed)}"


def still_missing(room: MapRoom | None, missing: tuple[Wanted, ...]) -> tuple[Wanted, ...]:
    """What readings are still missing when the map is there: full bump and lock may be known from it."""
    if room is None or room.grade == "class guess":
        return missing
    outside = any(n.region == "outside" and n.kind == "body" for n in room.neighbours.values())
    left = []
    for wanted in missing:
        about_bump = "full bump" in wanted.what
        about_lock = "full lock" in wanted.what
        if about_bump and outside and room.covers_bump:
            continue
        if about_lock and outside and room.covers_lock:
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
                text = (
                    f"At {state} {length(gap.value)} was read at the {point.name}; the map shows {length(at[0])}, "
                    f"{length(abs(more))} {'more' if more > 0 else 'less'}, and both doubts together are {length(allowed)}."
                )
                todo = "Read again, or check picks, units and hard points; the worse of the two rules until then."
                found.append(Question("reading and map disagree", f"{name} axle, {side}, {point.name}", text, todo))
    return found
