"""Fastener window: does the thread still hold, and does nothing bottom or strike behind the hub?"""

from __future__ import annotations

from dataclasses import dataclass, replace

from hubwright.checks.house import House
from hubwright.engineering.joint.engagement import (
    bolt_engagement_mm,
    closed_nut_room_mm,
    required_length_mm,
    stud_engagement_mm,
    stud_reach_mm,
)
from hubwright.findings import Bound, Case, Evidence, Finding, Interval, Step, Verdict, Wanted, Window
from hubwright.parts.hub import Fastener, Hub
from hubwright.parts.shop import Shop, StockFastener
from hubwright.parts.wheel import WheelSet
from hubwright.quantities.axes import Side
from hubwright.quantities.reading import Reading
from hubwright.quantities.rounding import at_least, at_most
from hubwright.quantities.text import figure, length, number
from hubwright.tables.threads import Thread, thread, turns

QUESTION = "fastener"
STACK = "geometry of the stack; floor 0.8 d (German test practice, secondary), wanted 1.0 d and more (common practice, no source)"


@dataclass(frozen=True)
class Choice:
    """What holds the wheel with the disc fitted.

    Attributes:
        kind: bolt or nut.
        thread: Designation.
        seat: Seat, with its radius where it is a ball.
        length_mm: Bolt or stud length; None where nothing changes but the disc.
        engagement_mm, engagement_turns: With the disc fitted, brake disc fitted.
        change: Whether other fasteners than today's are needed.
        wheel_set: Which wheels it belongs to.
    """

    kind: str
    thread: str
    seat: str
    length_mm: float | None
    engagement_mm: float
    engagement_turns: float
    change: bool
    wheel_set: str

    @property
    def title(self) -> str:
        """Such as ``bolts M14x1.5, cone seat, 33 mm`` or ``nuts M12x1.5, cone seat, on studs of 38 mm``."""
        words = [f"{self.kind}s {self.thread}", f"{self.seat} seat" if self.seat else ""]
        if self.length_mm is not None:
            words.append(f"{'on studs of ' if self.kind == 'nut' else ''}{self.length_mm:g} mm")
        return ", ".join(word for word in words if word)


@dataclass(frozen=True)
class Fastening:
    """Finding and choice for one disc on one wheel set."""

    finding: Finding
    choice: Choice | None


@dataclass(frozen=True)
class Limits:
    """Engagement allowed in one hub."""

    floor_mm: float
    wanted_mm: float
    most_mm: float | None
    most_why: str


def fastener_of(wheel_set: WheelSet, fitted: Fastener | None) -> Fastener | None:
    """The fasteners of a wheel set: its own, else those of the fitted wheels without their engagement.

    Another wheel has another pad under the fastener, so an engagement counted with the fitted wheels says nothing
    about it.
    """
    if wheel_set.fastener is not None or fitted is None:
        return wheel_set.fastener
    return fitted if wheel_set.role == "fitted" else replace(fitted, engagement_mm=None, engagement_turns=None)


def seat_words(fastener: Fastener | StockFastener) -> str:
    """``cone``, ``ball R13`` or ``flat``."""
    if fastener.seat == "ball" and fastener.seat_radius_mm is not None:
        return f"ball R{fastener.seat_radius_mm:g}"
    return fastener.seat or ""


def limits_of(hub: Hub, of: Thread, house: House) -> Limits:
    """Floor, wanted and most engagement in this hub."""
    policy = house.policy
    wanted_d = policy.engagement_wanted_aluminium_d if hub.material == "aluminium" else policy.engagement_wanted_steel_d
    floor, wanted = policy.engagement_floor_d * of.d_mm, wanted_d * of.d_mm
    if hub.blind_depth_mm is not None:
        most = hub.blind_depth_mm.value - policy.tip_clearance_mm
        return Limits(floor, wanted, most, f"{length(most)} before the tip comes near the bottom of the hole")
    if hub.flange_thickness_mm is not None and hub.free_behind_mm is not None:
        most = hub.flange_thickness_mm.value + hub.free_behind_mm.value - policy.tip_clearance_mm
        return Limits(
            floor,
            wanted,
            most,
            f"{length(most)} before the tip comes within {length(policy.tip_clearance_mm)} of what stands behind the flange",
        )
    return Limits(floor, wanted, None, "")


def _engaged_now(fastener: Fastener, of: Thread) -> Reading | None:
    if fastener.engagement_mm is not None:
        return fastener.engagement_mm
    count = fastener.engagement_turns
    if count is None:
        return None
    u = None if count.u is None else count.u * of.pitch_mm
    return Reading(tuple(value * of.pitch_mm for value in count.values), u, count.method, count.by)


def missing_for(hub: Hub, wheel_set: WheelSet, fastener: Fastener | None, side: Side) -> tuple[Wanted, ...]:
    """What must be read before anything can be said about fasteners."""
    whose = f"{wheel_set.title}, {side}"
    wanted = []
    if fastener is None or fastener.thread is None:
        how = "Diameter and pitch with a thread gauge."
        return (Wanted(f"thread of the fasteners, {whose}", how, QUESTION, 3.0),)
    if fastener.kind == "bolt":
        if fastener.engagement_mm is None and fastener.engagement_turns is None:
            how = "Count turns from first hold to seated, brake disc fitted, or measure the stack."
            wanted.append(Wanted(f"engagement now, {whose}", how, QUESTION, 2.5))
        if fastener.length_mm is None:
            how = "From the end of the seat to the tip (flat seat: from under the flange)."
            wanted.append(Wanted(f"length of the bolts, {whose}", how, QUESTION, 2.5))
        if hub.blind_depth_mm is None and (hub.flange_thickness_mm is None or hub.free_behind_mm is None):
            how = "Thickness of the hub flange and the air behind it, wheel turned once round; or the depth of a blind hole."
            wanted.append(Wanted(f"what stands behind the hub flange, {side}", how, QUESTION, 2.0))
        return tuple(wanted)
    for value, what, how in (
        (hub.stud_length_mm, f"length of the studs, {side}", "From the bare hub flange to the tip."),
        (hub.stud_lead_mm, f"lead of the studs, {side}", "Part of the tip without full thread."),
        (
            hub.hat_thickness_mm,
            f"thickness of the brake disc's hat, {side}",
            "Calliper at the mounting face; 0 without one.",
        ),
        (
            wheel_set.wheel.pad_to_thread_mm,
            f"mounting face to start of the nut's thread, {wheel_set.title}",
            "Depth gauge through the wheel's hole with the nut in its seat.",
        ),
    ):
        if value is None:
            wanted.append(Wanted(what, how, QUESTION, 2.0))
    if fastener.closed_depth_mm is None and not fastener.open_end:
        how = "Inside depth of the nut, or open_end = true where the stud may come out."
        wanted.append(Wanted(f"whether the nuts are closed, {wheel_set.title}", how, QUESTION, 1.5))
    return tuple(wanted)


def judge(
    hub: Hub, wheel_set: WheelSet, fitted: Fastener | None, side: Side, shop: Shop, house: House, thickness_mm: float
) -> Fastening:
    """Whether a disc can be fastened on one side with today's or with stock fasteners."""
    fastener = fastener_of(wheel_set, fitted)
    case = Case(side, wheel_set.title)
    missing = missing_for(hub, wheel_set, fastener, side)
    if missing or fastener is None or fastener.thread is None:
        sentence = f"{side}, {wheel_set.title}: not known without {missing[0].thing}."
        return Fastening(
            Finding(QUESTION, Verdict.UNKNOWN, sentence, None, case, Evidence.NONE, (), missing[0].how), None
        )
    wrong = _wrong_seat(fastener, wheel_set)
    if wrong:
        return Fastening(
            Finding(
                QUESTION,
                Verdict.FAIL,
                f"{side}, {wheel_set.title}: {wrong}.",
                None,
                case,
                todo="Find fasteners of the wheel's own seat.",
            ),
            None,
        )
    of = thread(fastener.thread)
    limits = limits_of(hub, of, house)
    if fastener.kind == "bolt":
        return _bolts(hub, wheel_set, fastener, of, limits, side, shop, house, thickness_mm)
    return _studs(hub, wheel_set, fastener, of, limits, side, shop, thickness_mm)


def _wrong_seat(fastener: Fastener, wheel_set: WheelSet) -> str:
    wheel = wheel_set.wheel
    if fastener.seat is None or wheel.seat is None:
        return ""
    if fastener.seat != wheel.seat:
        return f"a {fastener.seat} seat does not sit in a {wheel.seat} seat"
    if (
        fastener.seat == "ball"
        and fastener.seat_radius_mm
        and wheel.seat_radius_mm
        and fastener.seat_radius_mm != wheel.seat_radius_mm
    ):
        return f"a ball of R{fastener.seat_radius_mm:g} does not sit in a seat of R{wheel.seat_radius_mm:g}"
    return ""


def stock_lengths(fastener: Fastener, shop: Shop, kind: str) -> tuple[float, ...]:
    """Stock lengths of the same thread, seat and radius, ascending."""
    wanted = thread(fastener.thread or "").designation
    return tuple(
        sorted(
            {
                size
                for stock in shop.fastener
                if stock.kind == kind
                and thread(stock.thread).designation == wanted
                and (
                    kind == "stud" or (stock.seat == fastener.seat and stock.seat_radius_mm == fastener.seat_radius_mm)
                )
                for size in stock.lengths_mm
            }
        )
    )


@dataclass(frozen=True)
class _Try:
    length_mm: float
    engaged_mm: float
    verdict: Verdict
    words: str


def _bolts(
    hub: Hub,
    wheel_set: WheelSet,
    fastener: Fastener,
    of: Thread,
    limits: Limits,
    side: Side,
    shop: Shop,
    house: House,
    thickness_mm: float,
) -> Fastening:
    now, old = _engaged_now(fastener, of), fastener.length_mm
    assert now is not None and old is not None  # judged before
    guard = house.stated_guard_mm(now)
    required = required_length_mm(old.value, thickness_mm)
    lengths = sorted({old.value, *stock_lengths(fastener, shop, "bolt")})
    tries = [
        _try_bolt(size, bolt_engagement_mm(now.value, old.value, size, thickness_mm), guard, of, limits)
        for size in lengths
    ]
    best = _pick(tries, required, house.policy.next_length_within_mm)
    steps = tuple(
        Step(
            f"{figure(now.value)} + ({item.length_mm:g} − {old.value:g}) − {figure(thickness_mm)} = {length(item.engaged_mm)}"
            f" = {number(turns(item.engaged_mm, of), 1)} turns: {item.words}",
            STACK,
        )
        for item in tries
    )
    case = Case(side, wheel_set.title)
    where = f"{side}, {wheel_set.title}"
    if best is None:
        near = min(tries, key=lambda item: abs(item.length_mm - required))
        sentence = (
            f"{where}: {number(required, 0)} mm bolts are needed; nearest kept, {near.length_mm:g} mm: {near.words}."
        )
        todo = f"Order {of.designation} {seat_words(fastener)} bolts near {number(required, 0)} mm."
        margin = max((_slack(item.engaged_mm, guard, limits) for item in tries), default=None)
        return Fastening(Finding(QUESTION, Verdict.FAIL, sentence, margin, case, Evidence.MEASURED, steps, todo), None)
    changed = best.length_mm != old.value
    choice = Choice(
        "bolt",
        of.designation,
        seat_words(fastener),
        best.length_mm,
        best.engaged_mm,
        turns(best.engaged_mm, of),
        changed,
        wheel_set.title,
    )
    sentence = f"{where}: {best.length_mm:g} mm bolts engage {length(best.engaged_mm)} or {number(choice.engagement_turns, 1)} turns ({best.words})."
    return Fastening(
        Finding(
            QUESTION, best.verdict, sentence, _slack(best.engaged_mm, guard, limits), case, Evidence.MEASURED, steps
        ),
        choice,
    )


def _slack(engaged_mm: float, guard_mm: float, limits: Limits) -> float:
    low = engaged_mm - guard_mm - limits.floor_mm
    return low if limits.most_mm is None else min(low, limits.most_mm - engaged_mm - guard_mm)


def _try_bolt(size: float, engaged: float, guard: float, of: Thread, limits: Limits) -> _Try:
    if not at_least(engaged - guard, limits.floor_mm):
        return _Try(
            size, engaged, Verdict.FAIL, f"{length(engaged)} engaged, below the floor of {length(limits.floor_mm)}"
        )
    if limits.most_mm is not None and not at_most(engaged + guard, limits.most_mm):
        return _Try(size, engaged, Verdict.FAIL, f"{length(engaged)} engaged, too long: {limits.most_why}")
    if not at_least(engaged - guard, limits.wanted_mm):
        return _Try(
            size,
            engaged,
            Verdict.CAUTION,
            f"above the floor of {length(limits.floor_mm)}, below the wanted {length(limits.wanted_mm)}",
        )
    return _Try(size, engaged, Verdict.PASS, f"wanted {length(limits.wanted_mm)}")


def _pick(tries: list[_Try], required_mm: float, within_mm: float) -> _Try | None:
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


def _studs(
    hub: Hub,
    wheel_set: WheelSet,
    fastener: Fastener,
    of: Thread,
    limits: Limits,
    side: Side,
    shop: Shop,
    thickness_mm: float,
) -> Fastening:
    stud, lead, hat, pad = hub.stud_length_mm, hub.stud_lead_mm, hub.hat_thickness_mm, wheel_set.wheel.pad_to_thread_mm
    assert stud and lead and hat and pad  # judged before
    tries = []
    depth = fastener.closed_depth_mm.value if fastener.closed_depth_mm else None
    for size in sorted({stud.value, *stock_lengths(fastener, shop, "stud")}):
        engaged = stud_engagement_mm(size, lead.value, hat.value, pad.value, thickness_mm)
        reach = stud_reach_mm(size, hat.value, pad.value, thickness_mm)
        tries.append(_try_stud(size, engaged, reach, depth, limits))
    own = next(item for item in tries if item.length_mm == stud.value)
    others = [item for item in tries if item is not own]
    best = own
    if own.verdict is not Verdict.PASS:
        best = next((item for item in others if item.verdict is Verdict.PASS), own)
    steps = tuple(
        Step(
            f"{item.length_mm:g} − {figure(lead.value)} − {figure(hat.value)} − {figure(pad.value)} − {figure(thickness_mm)}"
            f" = {length(item.engaged_mm)} = {number(turns(item.engaged_mm, of), 1)} turns: {item.words}",
            STACK,
        )
        for item in tries
    )
    case, where = Case(side, wheel_set.title), f"{side}, {wheel_set.title}"
    count = turns(best.engaged_mm, of)
    sentence = f"{where}: the {best.length_mm:g} mm studs engage {length(best.engaged_mm)} or {number(count, 1)} turns ({best.words})."
    todo = "" if best.verdict is Verdict.PASS else _longer_studs(others)
    finding = Finding(
        QUESTION, best.verdict, sentence, best.engaged_mm - limits.floor_mm, case, Evidence.MEASURED, steps, todo
    )
    if best.verdict is Verdict.FAIL:
        return Fastening(finding, None)
    choice = Choice(
        "nut",
        of.designation,
        seat_words(fastener),
        best.length_mm,
        best.engaged_mm,
        count,
        best is not own,
        wheel_set.title,
    )
    return Fastening(finding, choice)


def _longer_studs(others: list[_Try]) -> str:
    if not others:
        return "Longer studs would be needed."
    return " ".join(f"{item.length_mm:g} mm studs: {item.words}." for item in others)


def _try_stud(size: float, engaged: float, reach: float, depth: float | None, limits: Limits) -> _Try:
    if depth is not None and closed_nut_room_mm(depth, reach) < 0:
        return _Try(
            size,
            engaged,
            Verdict.FAIL,
            f"{length(reach)} of stud bottoms in a closed nut {length(depth)} deep; open nuts or shorter studs",
        )
    if not at_least(engaged, limits.floor_mm):
        return _Try(
            size, engaged, Verdict.FAIL, f"{length(engaged)} engaged, below the floor of {length(limits.floor_mm)}"
        )
    if not at_least(engaged, limits.wanted_mm):
        return _Try(
            size,
            engaged,
            Verdict.CAUTION,
            f"above the floor of {length(limits.floor_mm)}, below the wanted {length(limits.wanted_mm)}: longer studs",
        )
    return _Try(size, engaged, Verdict.PASS, f"wanted {length(limits.wanted_mm)}")


def window_of(hub: Hub, wheel_set: WheelSet, fitted: Fastener | None, side: Side, shop: Shop, house: House) -> Window:
    """The thicknesses that can be fastened as wanted with today's or with stock fasteners."""
    fastener = fastener_of(wheel_set, fitted)
    missing = missing_for(hub, wheel_set, fastener, side)
    if missing or fastener is None or fastener.thread is None:
        return Window(
            QUESTION,
            "any",
            side,
            (Interval(0.0, None),),
            known=False,
            evidence=Evidence.NONE,
            sentence=f"{side}: not known",
            missing=missing,
        )
    of = thread(fastener.thread)
    limits = limits_of(hub, of, house)
    spans = (
        _bolt_spans(fastener, of, limits, shop, house)
        if fastener.kind == "bolt"
        else _stud_spans(hub, wheel_set, fastener, limits, shop)
    )
    merged = _merged(spans)
    case = Case(side, wheel_set.title)
    bounds = (
        (Bound("most", merged[-1].high_mm, case, "thread engaged"),)
        if merged and merged[-1].high_mm is not None
        else ()
    )
    words = "; ".join(f"{length(span.low_mm or 0.0)} to {length(span.high_mm or 0.0)}" for span in merged) or "none"
    return Window(QUESTION, "any", side, merged, bounds, sentence=f"{side}: {words} with {wheel_set.title}")


def _bolt_spans(fastener: Fastener, of: Thread, limits: Limits, shop: Shop, house: House) -> list[tuple[float, float]]:
    now, old = _engaged_now(fastener, of), fastener.length_mm
    assert now is not None and old is not None and limits.most_mm is not None  # judged before
    guard = house.stated_guard_mm(now)
    reach = [now.value + size - old.value for size in {old.value, *stock_lengths(fastener, shop, "bolt")}]
    return [(at - limits.most_mm + guard, at - limits.wanted_mm - guard) for at in reach]


def _stud_spans(
    hub: Hub, wheel_set: WheelSet, fastener: Fastener, limits: Limits, shop: Shop
) -> list[tuple[float, float]]:
    stud, lead, hat, pad = hub.stud_length_mm, hub.stud_lead_mm, hub.hat_thickness_mm, wheel_set.wheel.pad_to_thread_mm
    assert stud and lead and hat and pad  # judged before
    spans = []
    for size in {stud.value, *stock_lengths(fastener, shop, "stud")}:
        reach = stud_reach_mm(size, hat.value, pad.value, 0.0)
        low = reach - fastener.closed_depth_mm.value if fastener.closed_depth_mm else 0.0
        spans.append((low, reach - lead.value - limits.wanted_mm))
    return spans


def _merged(spans: list[tuple[float, float]]) -> tuple[Interval, ...]:
    """Spans of thickness from zero up, overlapping ones joined."""
    joined: list[tuple[float, float]] = []
    for low, high in sorted((max(low, 0.0), high) for low, high in spans if high >= max(low, 0.0)):
        if joined and low <= joined[-1][1] + 1e-9:
            joined[-1] = (joined[-1][0], max(high, joined[-1][1]))
        else:
            joined.append((low, high))
    return tuple(Interval(low, high) for low, high in joined)
