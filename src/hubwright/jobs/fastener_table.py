"""What holds the wheels with one disc: every wheel set on both sides, every stock length, with what stands at either end."""

from __future__ import annotations

from dataclasses import dataclass, replace

from hubwright.checks import bolts, fastening, joints, studs
from hubwright.checks.house import House, house_of
from hubwright.checks.joint import Choice, Joint, Try, fastener_of, seat_words
from hubwright.engineering.joint.engagement import closed_nut_room_mm, required_length_mm, stud_reach_mm
from hubwright.findings import Case, Finding, Verdict, Wanted
from hubwright.jobs.adapter_stack import AdapterStack, adapter_stack
from hubwright.language import say
from hubwright.language.words import side_word
from hubwright.parts.hub import Fastener, Hub
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.parts.shop import StockDisc
from hubwright.parts.wheel import WheelSet
from hubwright.quantities.axes import SIDES, Side
from hubwright.tables.threads import turns


@dataclass(frozen=True)
class LengthRow:
    """One length of bolt or stud with the disc.

    Attributes:
        length_mm: By its seat's reference; a stud from the bare hub flange.
        engaged_mm, engaged_turns: Thread in use; negative where it does not reach.
        free_mm: Bolt: tip to whatever stands behind. Closed nut: stud end to its bottom. None where nothing does.
        verdict: How it ends.
        words: Why.
        now: Whether it is fitted today.
        taken: Whether it is the one to take.
    """

    length_mm: float
    engaged_mm: float
    engaged_turns: float
    free_mm: float | None
    verdict: Verdict
    words: str
    now: bool
    taken: bool


@dataclass(frozen=True)
class Stacked:
    """The stack one fastener goes through, mm, from the seating face of the hub; None where nobody read it.

    Attributes:
        kind: bolt or nut.
        d_mm, pitch_mm: Thread.
        hat_mm: Brake disc hat between hub flange and seating face.
        flange_mm: Thread length in the hub flange (bolts), or the flange as read (studs).
        behind_mm: Air behind the flange.
        blind_mm: Thread depth where the hole has a bottom.
        pad_mm: Wheel from its mounting face to the end of the seat (bolts) or to the start of the nut's thread.
        lead_mm: Stud tip without full thread.
        closed_mm: Inside depth of a closed nut.
        tip_wanted_mm: Air wanted between the tip and what stands behind.
        seat, seat_radius_mm: Of the fastener.
    """

    kind: str
    d_mm: float
    pitch_mm: float
    hat_mm: float | None
    flange_mm: float | None
    behind_mm: float | None
    blind_mm: float | None
    pad_mm: float
    lead_mm: float
    closed_mm: float | None
    tip_wanted_mm: float
    seat: str | None
    seat_radius_mm: float | None


@dataclass(frozen=True)
class JointAnswer:
    """One wheel set on one side, or on both where they agree in every figure.

    Attributes:
        title: Of the wheel set.
        fitted: Whether it is the one on the car.
        side: left, right or both.
        come_off: The discs come off for this set: nothing about it changes.
        fastener: In words: kind, thread and seat; empty where unknown.
        wheel_seat: The seat cut into the wheel; empty where not read.
        mismatch: Why the seats do not match; empty where they do.
        required_mm: Bolt length that keeps today's engagement: old + t. None for studs and where unknown.
        next_longer_mm: Next longer stock length from there; None where the shelf has none.
        floor_mm, wanted_mm, most_mm: Engagement: hard floor, wanted, and the most that what stands
            behind, or a closed nut, allows.
        rows: Every length by length; empty where readings are missing or the disc is a bolted adapter.
        finding: The answer.
        missing: Readings without which nothing can be said.
        stack: For the drawing; None where readings are missing and for a bolted adapter.
        adapter: For the drawing of a bolted adapter.
    """

    title: str
    fitted: bool
    side: str
    come_off: bool
    fastener: str
    wheel_seat: str
    mismatch: str
    required_mm: float | None
    next_longer_mm: float | None
    floor_mm: float | None
    wanted_mm: float | None
    most_mm: float | None
    rows: tuple[LengthRow, ...]
    finding: Finding
    missing: tuple[Wanted, ...]
    stack: Stacked | None
    adapter: AdapterStack | None = None

    @property
    def taken(self) -> LengthRow | None:
        """The length to take."""
        return next((row for row in self.rows if row.taken), None)

    @property
    def now(self) -> LengthRow | None:
        """The length fitted today."""
        return next((row for row in self.rows if row.now), None)


@dataclass(frozen=True)
class FastenerTable:
    """One axle with one disc; fitted wheels first. ``joint`` holds clamp range and warnings of the fitted wheels."""

    axle: AxleName
    disc: StockDisc
    joints: tuple[JointAnswer, ...]
    joint: tuple[Finding, ...]


def fastener_table(job: Job, name: AxleName, disc: StockDisc) -> FastenerTable:
    """Every wheel set on both sides with one disc."""
    axle, house = dict(job.axles)[name], house_of(job)
    sets = sorted(axle.wheel_set or (WheelSet(role="fitted"),), key=lambda one: one.role != "fitted")
    found: list[JointAnswer] = []
    choices: list[Choice] = []
    for wheel_set in sets:
        sides = [_joint(job, axle, wheel_set, side, house, disc) for side in SIDES]
        choices += [choice for _, choice in sides if choice is not None]
        found += _agreeing([answer for answer, _ in sides])
    return FastenerTable(name, disc, tuple(found), joints.judge(job, name, axle, disc, tuple(choices)))


def _agreeing(sides: list[JointAnswer]) -> list[JointAnswer]:
    """One answer for both sides where they differ in nothing but the side."""
    left, right = sides
    bare = replace(right, side=left.side, finding=left.finding, missing=left.missing)
    return [replace(left, side="both")] if left == bare and left.finding.verdict is right.finding.verdict else sides


def _joint(
    job: Job, axle: Axle, wheel_set: WheelSet, side: Side, house: House, disc: StockDisc
) -> tuple[JointAnswer, Choice | None]:
    hub, shop = axle.hub_at(side), job.shop
    fitted = wheel_set.role == "fitted"
    comes_off = not fitted and wheel_set.discs == "come off"
    fastener = fastener_of(wheel_set, axle.fastener)
    if comes_off:
        return _bare(wheel_set, side, fastener, _untouched(wheel_set, side), comes_off=True), None
    if disc.kind == "bolted":
        from hubwright.checks import adapter  # noqa: PLC0415 - only where there is one

        finding = adapter.judge(hub, (wheel_set,), axle.fastener, side, house, disc)
        answer = _bare(wheel_set, side, fastener, finding, comes_off=False)
        return replace(answer, adapter=adapter_stack(hub, wheel_set, axle.fastener, house, disc)), None
    result = fastening.judge(hub, wheel_set, axle.fastener, side, shop, house, disc.thickness_mm)
    read = fastening.read(hub, wheel_set, axle.fastener, side, shop, house)
    answer = _bare(wheel_set, side, fastener, result.finding, comes_off=False)
    if isinstance(read, tuple):
        return replace(answer, missing=read), None
    joint, limits = read.joint, read.joint.limits
    answer = replace(
        answer, floor_mm=limits.floor_mm, wanted_mm=limits.wanted_mm, most_mm=limits.most_mm,
        mismatch=fastening.wrong_seat(joint.fastener, wheel_set),
    )  # fmt: skip
    if isinstance(read.stack, bolts.Stack):
        answer = _bolted(answer, hub, joint, read.stack, disc.thickness_mm)
    else:
        answer = _on_studs(answer, hub, joint, read.stack, disc.thickness_mm)
    return answer, result.choice


def _untouched(wheel_set: WheelSet, side: Side) -> Finding:
    text = say("{side}, {wheels}: the discs come off for them; today's fasteners stay with that set.",
               side=side_word(side), wheels=wheel_set.title)  # fmt: skip
    return Finding("fastener", Verdict.PASS, text, None, Case(side, wheel_set.title))


def _bare(
    wheel_set: WheelSet, side: Side, fastener: Fastener | None, finding: Finding, *, comes_off: bool
) -> JointAnswer:
    wheel = wheel_set.wheel
    cut = Fastener(kind="bolt", seat=wheel.seat, seat_radius_mm=wheel.seat_radius_mm)
    words = "" if fastener is None else _fastener_words(fastener)
    seat = seat_words(cut)
    return JointAnswer(
        wheel_set.title, wheel_set.role == "fitted", side, comes_off, words, seat, "", None, None, None, None, None, (),
        finding, (), None,
    )  # fmt: skip


def _fastener_words(fastener: Fastener) -> str:
    """Such as ``bolts M14x1.5, cone seat``."""
    if fastener.thread is None:
        words = [say("bolts") if fastener.kind == "bolt" else say("nuts on studs")]
    elif fastener.kind == "bolt":
        words = [say("bolts {thread}", thread=fastener.thread)]
    else:
        words = [say("nuts on studs {thread}", thread=fastener.thread)]
    seat = seat_words(fastener)
    return ", ".join([*words, *([say("{seat} seat", seat=seat)] if seat else [])])


def _bolted(answer: JointAnswer, hub: Hub, joint: Joint, stack: bolts.Stack, thickness_mm: float) -> JointAnswer:
    tries, best = bolts.tried(joint, stack, thickness_mm)
    tip = joint.house.policy.tip_clearance_mm
    hat = hub.hat_thickness_mm
    rows = tuple(
        _row(
            joint,
            item,
            stack.most_mm + tip - item.engaged_mm,
            stack.length_mm,
            None if best is None else best.length_mm,
        )
        for item in tries
    )
    required = required_length_mm(stack.length_mm, thickness_mm)
    longer = min((row.length_mm for row in rows if row.length_mm >= required - 1e-9), default=None)
    pad = stack.length_mm - stack.engaged_mm - (hat.value if hat else 0.0)
    stacked = _stacked(joint, hub, max(pad, 0.0), 0.0, None)
    return replace(answer, required_mm=required, next_longer_mm=longer, rows=rows, stack=stacked)


def _on_studs(answer: JointAnswer, hub: Hub, joint: Joint, stack: studs.Stack, thickness_mm: float) -> JointAnswer:
    tries, best = studs.tried(joint, stack, thickness_mm)
    depth = stack.closed_depth_mm
    rows = []
    for item in tries:
        reach = stud_reach_mm(item.length_mm, stack.hat_mm, stack.pad_mm, thickness_mm)
        free = None if depth is None else closed_nut_room_mm(depth, reach)
        rows.append(
            _row(joint, item, free, stack.stud_mm, best.length_mm if best.verdict is not Verdict.FAIL else None)
        )
    stacked = _stacked(joint, hub, stack.pad_mm, stack.lead_mm, depth)
    most = None if depth is None else depth - stack.lead_mm - stack.bottom_guard_mm
    return replace(answer, rows=tuple(rows), stack=stacked, most_mm=most)


def _row(joint: Joint, item: Try, free_mm: float | None, now_mm: float, taken_mm: float | None) -> LengthRow:
    count = turns(item.engaged_mm, joint.thread)
    return LengthRow(
        item.length_mm, item.engaged_mm, count, free_mm, item.verdict, item.words, item.length_mm == now_mm,
        item.length_mm == taken_mm,
    )  # fmt: skip


def _stacked(joint: Joint, hub: Hub, pad_mm: float, lead_mm: float, closed_mm: float | None) -> Stacked:
    def value(name: str) -> float | None:
        reading = getattr(hub, name)
        return None if reading is None else float(reading.value)

    return Stacked(
        joint.fastener.kind, joint.thread.d_mm, joint.thread.pitch_mm, value("hat_thickness_mm"),
        value("flange_thickness_mm"), value("free_behind_mm"), value("blind_depth_mm"), pad_mm, lead_mm, closed_mm,
        joint.house.policy.tip_clearance_mm, joint.fastener.seat, joint.fastener.seat_radius_mm,
    )  # fmt: skip
