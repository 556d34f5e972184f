"""Clearance window: does the wheel keep its air, outside and inside, over the whole travel and lock?"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from hubwright.checks import mapped as by_map
from hubwright.checks import states
from hubwright.checks.gaps import REACH_MM, SAME_STEER_DEG, GapCurve, curves_of
from hubwright.checks.house import House
from hubwright.checks.mapped import MapRoom
from hubwright.engineering.placement import Array, compliance_outward
from hubwright.findings import (
    SEVERITY,
    Bound,
    Case,
    Evidence,
    Finding,
    Interval,
    Step,
    Verdict,
    Wanted,
    Window,
    wanted,
    weakest,
)
from hubwright.language import say
from hubwright.language.place_words import place_word, work_word
from hubwright.language.words import evidence_word, kind_word, side_word
from hubwright.parts.base import READERS
from hubwright.parts.job import Axle
from hubwright.quantities.axes import Side
from hubwright.quantities.rounding import at_least
from hubwright.quantities.text import figure, length, number, short, spare, thickness

QUESTION = "clearance"
NO_PUSH = 0.02
"""A point square to the spin axis: a disc neither takes nor gives more than this share of its thickness."""
NEAR_LOCK = 0.9
"""A reading at this share of full lock counts as read at lock."""
RELEASE_TRAVEL_MM = 5.0
RELEASE_STEER_DEG = 3.0
STRAIGHT_DEG = 0.5
"""A smaller steer of a reading is not worth a word."""


@dataclass(frozen=True)
class Swept:
    """One curve with everything owed taken off: ``slack(t) = slack_mm - push t``, for every state."""

    curve: GapCurve
    gain_mm: float
    margin_mm: float
    compliance_mm: Array
    guard_mm: Array
    slack_mm: Array

    def slack_at(self, thickness_mm: float) -> Array:
        """What is left in every state with a disc fitted."""
        return self.slack_mm - self.curve.push * thickness_mm


@dataclass(frozen=True)
class Room:
    """All that is known about the room around one wheel.

    ``missing`` is what neither readings nor map know, ``unread`` whether readings alone would not do.
    """

    side: Side
    swept: tuple[Swept, ...]
    missing: tuple[Wanted, ...]
    unread: bool = False
    mapped: MapRoom | None = None
    house: House | None = None


@dataclass(frozen=True)
class Pinch:
    """Place and state of the smallest margin."""

    swept: Swept
    state: int
    slack_mm: float


def room_of(
    axle: Axle, side: Side, house: House, *, steered: bool, with_work: bool, mapped: MapRoom | None = None
) -> Room:
    """Every curve of one corner with its margin, compliance and doubt taken off.

    Args:
        axle: The axle.
        side: The side.
        house: Margins and policy.
        steered: Whether the axle steers; then readings at lock are needed too.
        with_work: Whether the work offered at the points is reckoned as done.
        mapped: The clearance map of this corner, where there is one.
    """
    swept = [
        swept_of(axle, curve, house, with_work=with_work)
        for point in axle.corner(side).point
        for curve in curves_of(axle, side, point, house.policy.sidewall_curvature_mm)
    ]
    unread = tuple(_missing(axle, side, swept, steered))
    return Room(side, tuple(swept), by_map.still_missing(mapped, unread), bool(unread), mapped, house)


def swept_of(axle: Axle, curve: GapCurve, house: House, *, with_work: bool) -> Swept:
    """One curve with its margin, compliance and doubt taken off."""
    point = curve.point
    gain = sum(work.gain_mm for work in point.work) if with_work else 0.0
    margin = house.margin_mm[point.kind]
    owed = _compliance(axle, curve)
    guard = np.array([house.guard_mm(float(doubt)) for doubt in curve.doubt_mm])
    return Swept(curve, gain, margin, owed, guard, curve.gap_mm + gain - margin - owed - guard)


def _compliance(axle: Axle, curve: GapCurve) -> Array:
    """What the loaded outer wheel gives towards bodywork above it, in bump only."""
    point, give = curve.point, axle.compliance
    owed = np.zeros(len(curve.travel_mm))
    if give is None or point.height_mm is None or point.direction != "outboard" or point.kind == "carried":
        return owed
    for number_, travel in enumerate(curve.travel_mm):
        height = point.height_mm.value - float(travel)
        out = compliance_outward(height, give.side_force_kn, give.camber_deg_per_kn, give.lateral_mm_per_kn)
        owed[number_] = max(0.0, out) if travel > 0 else 0.0
    return owed


def _missing(axle: Axle, side: Side, swept: list[Swept], steered: bool) -> list[Wanted]:
    body = [item.curve for item in swept if item.curve.point.room == "outside" and item.curve.point.kind == "body"]
    found = []
    if axle.bump_travel_mm is None:
        how = say("Spring out, raise the wheel from parked height to the stop, or read the free travel of the damper.")
        found.append(wanted(say("travel from parked to full bump"), how, QUESTION, 9.0, side, about="bump"))
    if axle.bump_travel_mm is None or not any(_covers(curve, axle.bump_travel_mm.value) for curve in body):
        how = say(
            "With the spring out read the gap to the arch parked, at full bump and on the way, or photograph the arch with a "
            "rule and read the tyre's half width at several radii."
        )
        found.append(wanted(say("gap to the arch at full bump"), how, QUESTION, 9.0, side, about="bump"))
    else:
        for name in _parked_only(body, axle.bump_travel_mm.value):
            how = say(
                "With the spring out read this gap parked, at full bump and on the way: a gap seen parked says nothing about "
                "the wheel further up."
            )
            found.append(
                wanted(say("gap over the whole travel: {point}", point=name), how, QUESTION, 9.0, side, about="bump")
            )
    if steered and not _read_at_lock(axle, body):
        how = say(
            "At full lock both ways, parked and in bump: arch lip, liner behind the wheel, bumper corner ahead of it."
        )
        found.append(wanted(say("gaps at full lock"), how, QUESTION, 6.0, side, about="lock"))
    return found


def _covers(curve: GapCurve, bump_mm: float) -> bool:
    """Whether a curve knows the whole way from parked to full bump, straight ahead: the pinch may lie anywhere on it."""
    ahead = abs(curve.steer_deg) <= SAME_STEER_DEG
    return ahead and float(curve.travel_mm[0]) <= REACH_MM and float(curve.travel_mm[-1]) >= bump_mm - REACH_MM


def _parked_only(body: list[GapCurve], bump_mm: float) -> list[str]:
    """Places beside the wheel that were read straight ahead, but not all the way up: each place has its own pinch."""
    beside = [curve for curve in body if curve.point.direction == "outboard" and abs(curve.steer_deg) <= SAME_STEER_DEG]
    covered = {curve.point.name for curve in beside if _covers(curve, bump_mm)}
    return list(dict.fromkeys(curve.point.name for curve in beside if curve.point.name not in covered))


def _read_at_lock(axle: Axle, body: list[GapCurve]) -> bool:
    """Whether a body gap was read at full lock, and one of them in full bump: lock alone, parked, is not the tightest."""
    lock, bump = axle.steer_max_deg, axle.bump_travel_mm
    if lock is None:
        return False
    at_lock = [curve for curve in body if abs(curve.steer_deg) >= NEAR_LOCK * lock]
    up = bump.value - REACH_MM if bump is not None else 0.0
    return any(float(curve.travel_mm[-1]) >= up for curve in at_lock)


def pinch_at(room: Room, thickness_mm: float) -> Pinch | None:
    """The smallest margin with a disc fitted; None when nothing was read."""
    best: Pinch | None = None
    for swept in room.swept:
        slack = swept.slack_at(thickness_mm)
        state = int(slack.argmin())
        if best is None or slack[state] < best.slack_mm:
            best = Pinch(swept, state, float(slack[state]))
    return best


def bounds_of(room: Room) -> tuple[Bound, ...]:
    """The thickest and the thinnest disc each curve allows, the governing one of each kind first."""
    bounds = [bound for swept in room.swept for bound in _bounds(swept)]
    if room.mapped is not None and room.house is not None:
        bounds += by_map.bounds(room.mapped, room.house)
    most = sorted((bound for bound in bounds if bound.kind == "most"), key=lambda bound: bound.at_mm)
    least = sorted((bound for bound in bounds if bound.kind == "least"), key=lambda bound: -bound.at_mm)
    return (*most[:1], *least[:1], *most[1:], *least[1:])


def _bounds(swept: Swept) -> list[Bound]:
    pushes = swept.curve.push
    found = []
    for kind, chosen, pick in (("most", pushes > NO_PUSH, np.argmin), ("least", pushes < -NO_PUSH, np.argmax)):
        states = np.flatnonzero(chosen)
        if len(states):
            at = swept.slack_mm[states] / pushes[states]
            state = int(states[int(pick(at))])
            at_mm = float(swept.slack_mm[state] / pushes[state])
            found.append(
                Bound(kind, at_mm, case_of(swept, state), _owed_words(swept, state), swept.curve.evidence[state])
            )
    still = np.flatnonzero(np.abs(pushes) <= NO_PUSH)
    if len(still) and float(swept.slack_mm[still].min()) < 0:
        state = int(still[int(swept.slack_mm[still].argmin())])
        found.append(
            Bound(
                "most",
                float(swept.slack_mm[state]),
                case_of(swept, state),
                _owed_words(swept, state),
                swept.curve.evidence[state],
            )
        )
    return found


def state_words(curve: GapCurve, state: int) -> str:
    """Ride height and steer of one state in words."""
    return states.state_words(float(curve.travel_mm[state]), curve.steer_deg, STRAIGHT_DEG)


def case_of(swept: Swept, state: int) -> Case:
    """Side, point and state of one margin."""
    return Case(swept.curve.side, place_word(swept.curve.point.name), state_words(swept.curve, state))


def _owed_words(swept: Swept, state: int) -> str:
    gap = float(swept.curve.gap_mm[state]) + swept.gain_mm
    guard, give = float(swept.guard_mm[state]), float(swept.compliance_mm[state])
    places = {"gap": length(gap), "margin": length(swept.margin_mm), "doubt": length(guard), "give": length(give)}
    if guard > 0 and give > 0:
        return say("{gap} of air, less {margin} margin, {doubt} doubt and {give} give", **places)
    if guard > 0:
        return say("{gap} of air, less {margin} margin and {doubt} doubt", **places)
    if give > 0:
        return say("{gap} of air, less {margin} margin and {give} give", **places)
    return say("{gap} of air, less {margin} margin", **places)


def judge(room: Room, house: House, thickness_mm: float) -> Finding:
    """Whether one wheel keeps its air with one disc: by readings and by the map, the worse of them rules."""
    if room.mapped is None:
        return _judge_readings(room, house, thickness_mm)
    found = [by_map.judge(room.mapped, house, thickness_mm, room.missing)]
    if room.swept:
        found.append(_judge_readings(room, house, thickness_mm))
    return max(found, key=lambda f: (SEVERITY[f.verdict], -np.inf if f.margin_mm is None else -f.margin_mm))


def _judge_readings(room: Room, house: House, thickness_mm: float) -> Finding:
    pinch = _settled(room, thickness_mm) or pinch_at(room, thickness_mm)
    if pinch is None:
        return Finding(
            QUESTION,
            Verdict.UNKNOWN,
            say("No gap was read on the {side}.", side=side_word(room.side)),
            None,
            Case(room.side, "", ""),
            Evidence.NONE,
            (),
            say("Measure the corner."),
        )
    swept, state = pinch.swept, pinch.state
    curve = swept.curve
    left = float(curve.gap_mm[state] + swept.gain_mm - curve.push[state] * thickness_mm)
    verdict = _verdict(room, pinch)
    sentence = _sentence(swept, state, thickness_mm, left, pinch.slack_mm)
    todo = ""
    if verdict is Verdict.UNKNOWN:
        sentence = say("{sentence} Not settled without {thing}.", sentence=sentence, thing=room.missing[0].thing)
        todo = room.missing[0].how
    elif verdict is Verdict.CAUTION:
        todo = say("Stated by a customer: read it on the car.")
    return Finding(
        QUESTION,
        verdict,
        sentence,
        pinch.slack_mm,
        case_of(swept, state),
        curve.evidence[state],
        _working(swept, state, thickness_mm, left, house),
        todo,
    )


def _verdict(room: Room, pinch: Pinch) -> Verdict:
    """Short: a failure, unless readings are missing and only the doubt makes it short; then it is not settled."""
    guard = float(pinch.swept.guard_mm[pinch.state])
    if room.missing:
        return Verdict.UNKNOWN if at_least(pinch.slack_mm + guard, 0.0) else Verdict.FAIL
    if not at_least(pinch.slack_mm, 0.0):
        return Verdict.FAIL
    stated = any(Evidence.STATED in swept.curve.evidence for swept in room.swept)
    return Verdict.CAUTION if stated else Verdict.PASS


def _settled(room: Room, thickness_mm: float) -> Pinch | None:
    """With readings missing: the pinch that is short even if its doubt is forgiven, since nothing can still mend it."""
    if not room.missing:
        return None
    best: Pinch | None = None
    for swept in room.swept:
        slack = swept.slack_at(thickness_mm)
        state = int((slack + swept.guard_mm).argmin())
        bare = float(slack[state] + swept.guard_mm[state])
        if not at_least(bare, 0.0) and (best is None or slack[state] < best.slack_mm):
            best = Pinch(swept, state, float(slack[state]))
    return best


def _sentence(swept: Swept, state: int, thickness_mm: float, left: float, slack: float) -> str:
    need = float(swept.margin_mm + swept.guard_mm[state] + swept.compliance_mm[state])
    place = say(
        "{side}, {point}, {state}",
        side=side_word(swept.curve.side),
        point=place_word(swept.curve.point.name),
        state=state_words(swept.curve, state),
    )
    with_disc = say("with {thickness}", thickness=thickness(thickness_mm)) if thickness_mm else say("as it stands")
    verdict = spare(slack) if at_least(slack, 0.0) else short(-slack)
    return say(
        "{place}: {left} of air {with_disc}, {need} wanted: {verdict}.",
        place=place,
        left=length(left),
        with_disc=with_disc,
        need=length(need),
        verdict=verdict,
    )


def _working(swept: Swept, state: int, thickness_mm: float, left: float, house: House) -> tuple[Step, ...]:
    curve = swept.curve
    gap, share = float(curve.gap_mm[state]), float(curve.push[state])
    gained = (
        f" + {figure(swept.gain_mm)} ({', '.join(work_word(work.name) for work in curve.point.work)})"
        if swept.gain_mm
        else ""
    )
    steps = [
        Step(
            say(
                "bare gap {gap} at {state} ({evidence}; {model})",
                gap=length(gap),
                state=state_words(curve, state),
                evidence=evidence_word(curve.evidence[state]),
                model=curve.model,
            ),
            say("readings of the job; shape between them derived"),
        ),
        Step(
            say(
                "gap with disc = {gap}{gained} − {share} × {thickness} = {left}",
                gap=figure(gap),
                gained=gained,
                share=number(share, 3),
                thickness=figure(thickness_mm),
                left=length(left),
            ),
            say("disc acts along the spin axis: share = axis · direction (axes of ISO 8855; derived)"),
        ),
        Step(
            say("margin {margin} to {kind}", margin=length(swept.margin_mm), kind=kind_word(curve.point.kind)),
            house.margin_source[curve.point.kind],
        ),
        Step(
            say(
                "doubt k u = {doubt_k} × {doubt} = {guard}",
                doubt_k=number(house.policy.doubt_k, 3),
                doubt=figure(float(curve.doubt_mm[state]), 2),
                guard=length(float(swept.guard_mm[state])),
            ),
            say("JCGM 100:2008 (doubt), JCGM 106:2012 (guarded decision)"),
        ),
    ]
    if swept.compliance_mm[state] > 0:
        steps.append(
            Step(
                say("give of the loaded wheel {compliance}", compliance=length(float(swept.compliance_mm[state]))),
                say("derived from the compliance stated"),
            )
        )
    return tuple(steps)


def window_of(room: Room) -> Window:
    """The thicknesses one wheel's room allows. With readings missing it is only what can be ruled out."""
    bounds = bounds_of(room)
    most = min((bound.at_mm for bound in bounds if bound.kind == "most"), default=None)
    least = max((bound.at_mm for bound in bounds if bound.kind == "least"), default=None)
    empty = most is not None and (most < 0 or (least is not None and least > most))
    intervals = () if empty else (Interval(least if least and least > 0 else 0.0, most),)
    return Window(
        QUESTION,
        "any",
        room.side,
        intervals,
        bounds,
        known=not room.missing,
        evidence=weakest(bound.evidence for bound in bounds),
        sentence=_window_words(room, intervals, bounds),
        missing=room.missing,
    )


def _window_words(room: Room, intervals: tuple[Interval, ...], bounds: tuple[Bound, ...]) -> str:
    if not bounds:
        return say("{side}: nothing was read", side=side_word(room.side))
    governing = bounds[0]
    if not intervals:
        return say(
            "{side}: none; {item} at {state} has {governing_sentence}",
            side=side_word(room.side),
            item=governing.case.item,
            state=governing.case.state,
            governing_sentence=governing.sentence,
        )
    high = intervals[0].high_mm
    if high is None:
        return say("{side}: no upper bound found", side=side_word(room.side))
    return say(
        "{side}: up to {high}; {item} at {state} has {governing_sentence}",
        side=side_word(room.side),
        high=length(high),
        item=governing.case.item,
        state=governing.case.state,
        governing_sentence=governing.sentence,
    )


def provisional_mm(room: Room) -> tuple[float, Pinch] | None:
    """The thickest disc not ruled out by the readings themselves, doubt forgiven, and its pinch; None without any."""
    best: tuple[float, Pinch] | None = None
    for swept in room.swept:
        pushes = swept.curve.push
        states = np.flatnonzero(pushes > NO_PUSH)
        if len(states):
            at = (swept.slack_mm + swept.guard_mm)[states] / pushes[states]
            state = int(states[int(at.argmin())])
            most = float(at.min())
            if best is None or most < best[0]:
                best = (most, Pinch(swept, state, float(swept.slack_mm[state])))
    return best


def proven_fitted(room: Room, thickness_mm: float) -> bool:
    """Whether the margins of this wheel were read with this very disc fitted.

    Every point towards which a disc moves the wheel must have a reading of the workshop with the disc fitted near the
    state of its own pinch, with its margin kept after the doubt of that very reading: bare readings from before work was
    done, and the work's gain, may stand beside it and must not make up for it.
    """
    closing = [swept for swept in room.swept if float(swept.curve.push.max()) > NO_PUSH]
    return bool(closing) and all(_proven(swept, room.house, thickness_mm) for swept in closing)


def _proven(swept: Swept, house: House | None, thickness_mm: float) -> bool:
    point = swept.curve.point
    slack = swept.slack_at(thickness_mm)
    state = int(slack.argmin())
    travel = float(swept.curve.travel_mm[state])
    return at_least(float(slack[state]), 0.0) and any(
        reading.disc_mm == thickness_mm
        and point.gap(reading).by == READERS[0]
        and abs(reading.travel_mm - travel) <= RELEASE_TRAVEL_MM
        and abs(reading.steer_deg - swept.curve.steer_deg) <= RELEASE_STEER_DEG
        and at_least(
            reading.gap_mm.value - (house.guard_mm(point.gap(reading).doubt) if house else 0.0), swept.margin_mm
        )
        for reading in point.reading
    )
