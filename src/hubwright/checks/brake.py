"""Brake window: a disc gives room along the axis and may take it from the barrel."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from hubwright.checks.house import House
from hubwright.engineering.placement import barrel_loss
from hubwright.findings import Bound, Case, Evidence, Finding, Interval, Step, Verdict, Wanted, Window, wanted
from hubwright.language import marked, say, say_as
from hubwright.language.part_words import part_word
from hubwright.language.words import side_word
from hubwright.parts.corner import Brake
from hubwright.parts.job import Axle
from hubwright.quantities.axes import Side
from hubwright.quantities.rounding import at_least, down, up
from hubwright.quantities.text import figure, length, number, short, thickness

if TYPE_CHECKING:
    from hubwright.checks.brake_profile import BrakeRoom

QUESTION = "brake"
OUTLINE_SOURCE = marked("outlines of wheel and caliper held against each other in one half-plane; derived")
MOST_LOOKED_AT_MM = 60.0
"""Thicker discs are not looked for between outlines."""
STRAIGHT_DEG = 0.01
"""A slope below this takes less than 0.03 mm from any disc there is: the barrel is straight."""
RAMP_SOURCE = marked("slope of the barrel over the caliper; derived")


def _missing(axle: Axle, side: Side) -> tuple[Wanted, ...]:
    brake = axle.corner(side).brake
    found = []
    if brake.radial_gap_mm is None:
        how = say("Modelling clay or feeler between barrel and caliper, wheel turned once round.")
        found.append(wanted(say("barrel room over the caliper"), how, QUESTION, 2.0, side))
    if brake.ramp_deg is None or (brake.ramp_deg > 0 and brake.ramp_start_mm is None):
        how = say("Profile of the barrel inside: where its slope begins and at what angle; 0 for a straight one.")
        found.append(wanted(say("slope of the barrel"), how, QUESTION, 1.5, side))
    return tuple(found)


def judge(axle: Axle, side: Side, house: House, thickness_mm: float) -> Finding:
    """Whether wheel and brake keep apart with one disc."""
    brake = axle.corner(side).brake
    need = house.margin_mm["caliper"]
    room = _by_outline(axle, side)
    if room is not None:
        return _judge_outline(room, brake, side, house, thickness_mm)
    parts: list[tuple[float, str, float, Step]] = []
    if brake.axial_gap_mm is not None:
        lining = brake.new_lining_mm or 0.0
        left = brake.axial_gap_mm.value + thickness_mm - lining
        slack = left - need - house.stated_guard_mm(brake.axial_gap_mm)
        sum_ = f"{figure(brake.axial_gap_mm.value)} + {figure(thickness_mm)} − {figure(lining)}"
        text = say("axial: {sum} = {left}", sum=sum_, left=length(left))
        parts.append(
            (
                slack,
                "spokes",
                left,
                Step(text, say("disc gives axial room 1:1; derived")),
            )
        )
    missing = _missing(axle, side)
    if not missing and brake.radial_gap_mm is not None and brake.ramp_deg is not None:
        loss = barrel_loss(thickness_mm, brake.ramp_deg, brake.ramp_start_mm or 0.0)
        weights = brake.weight_height_mm or 0.0
        left = brake.radial_gap_mm.value - loss - weights
        slack = left - need - house.stated_guard_mm(brake.radial_gap_mm)
        sum_ = say(
            "{radial_gap} − {loss} (slope) − {weights}",
            radial_gap=figure(brake.radial_gap_mm.value),
            loss=figure(loss, 2),
            weights=figure(weights),
        )
        text = say("radial: {sum} = {left}", sum=sum_, left=length(left))
        parts.append((slack, "barrel", left, Step(text, say(RAMP_SOURCE))))
    if not parts:
        return Finding(
            QUESTION,
            Verdict.UNKNOWN,
            say("{side}: room over the caliper was not read.", side=side_word(side)),
            None,
            Case(side, say("caliper")),
            Evidence.NONE,
            (),
            missing[0].how if missing else "",
        )
    slack, part, left, _ = min(parts, key=lambda part: part[0])
    verdict = Verdict.FAIL if not at_least(slack, 0.0) else Verdict.UNKNOWN if missing else Verdict.PASS
    places = {
        "side": side_word(side),
        "left": length(left),
        "thickness": thickness(thickness_mm),
        "need": _need(need, slack),
    }
    if part == "spokes":
        sentence = say("{side}: spokes {left} clear of the caliper with {thickness}, {need}.", **places)
    else:
        sentence = say("{side}: barrel {left} clear of the caliper with {thickness}, {need}.", **places)
    if verdict is Verdict.UNKNOWN:
        sentence = say("{sentence} Not settled: {thing} is missing.", sentence=sentence, thing=missing[0].thing)
    steps = (
        *(step for *_, step in parts),
        Step(say("margin {need}", need=length(need)), house.margin_source["caliper"]),
    )
    return Finding(
        QUESTION,
        verdict,
        sentence,
        slack,
        Case(side, say("caliper")),
        Evidence.MEASURED,
        steps,
        missing[0].how if missing else "",
    )


def _need(need_mm: float, slack_mm: float) -> str:
    if at_least(slack_mm, 0.0):
        return say("{need} wanted", need=length(need_mm))
    return say("{need} wanted, {short}", need=length(need_mm), short=short(-slack_mm))


def _by_outline(axle: Axle, side: Side) -> BrakeRoom | None:
    """Room from the outlines of wheel and caliper; a room that was read goes before it."""
    brake, fitted = axle.corner(side).brake, axle.fitted
    if fitted is None or brake.axial_gap_mm is not None or brake.radial_gap_mm is not None or brake.caliper_mm is None:
        return None
    from hubwright.checks.brake_profile import brake_room  # noqa: PLC0415 - compiled sums load slowly

    return brake_room(fitted.wheel, brake)


def _outline_rooms(room: BrakeRoom, brake: Brake, thickness_mm: float) -> tuple[tuple[float, str], ...]:
    lining = brake.new_lining_mm or 0.0
    return (
        (room.axial_mm(thickness_mm) - lining, "spokes"),
        (room.radial_mm(thickness_mm), "barrel"),
    )


def _judge_outline(room: BrakeRoom, brake: Brake, side: Side, house: House, thickness_mm: float) -> Finding:
    need = house.margin_mm["caliper"]
    rooms = _outline_rooms(room, brake, thickness_mm)
    left, part = min(rooms)
    slack = left - need
    disc = say("with {thickness}", thickness=thickness(thickness_mm)) if thickness_mm else say("without a disc")
    places = {"side": side_word(side), "left": length(left), "disc": disc, "need": _need(need, slack)}
    if part == "spokes":
        sentence = say("{side}: spokes {left} clear of the caliper {disc} by their outlines, {need}.", **places)
    else:
        sentence = say("{side}: barrel {left} clear of the caliper {disc} by their outlines, {need}.", **places)
    steps = (*(Step(f"{part_word(name)}: {length(value)}", say(OUTLINE_SOURCE)) for value, name in rooms),)
    verdict = Verdict.PASS if at_least(slack, 0.0) else Verdict.FAIL
    margin = Step(say("margin {need}", need=length(need)), house.margin_source["caliper"])
    return Finding(
        QUESTION, verdict, sentence, slack, Case(side, say("caliper")), Evidence.PREDICTED, (*steps, margin),
        say("Turn the wheel once round by hand with modelling clay on the caliper."),
    )  # fmt: skip


def _outline_window(room: BrakeRoom, brake: Brake, side: Side, house: House) -> Window:
    """The thicknesses the outlines allow, looked at every 0.1 mm; outline against outline knows no formula."""
    need = house.margin_mm["caliper"]
    good = [
        0.1 * step
        for step in range(int(MOST_LOOKED_AT_MM * 10) + 1)
        if at_least(min(value for value, _ in _outline_rooms(room, brake, 0.1 * step)), need)
    ]
    intervals: list[Interval] = []
    for value in good:
        if intervals and intervals[-1].high_mm is not None and value - intervals[-1].high_mm < 0.15:
            intervals[-1] = Interval(intervals[-1].low_mm, value)
        else:
            intervals.append(Interval(value, value))
    case = Case(side, say("outline of the caliper"))
    bounds = []
    words = say("{side}: no disc by the outlines of wheel and caliper", side=side_word(side))
    if intervals:
        low, high = intervals[0].low_mm or 0.0, intervals[-1].high_mm or 0.0
        if low > 0:
            bounds.append(Bound("least", low, case, say("spokes over the caliper"), Evidence.PREDICTED))
        if high < MOST_LOOKED_AT_MM - 0.05:
            bounds.append(Bound("most", high, case, say("barrel over the caliper"), Evidence.PREDICTED))
        else:
            intervals[-1] = Interval(intervals[-1].low_mm, None)
        words = say(
            "{side}: {low} to {high} by the outlines of wheel and caliper",
            side=side_word(side),
            low=length(low),
            high=length(high),
        )
    return Window(QUESTION, "any", side, tuple(intervals), tuple(bounds), evidence=Evidence.PREDICTED, sentence=words)


def window_of(axle: Axle, side: Side, house: House) -> Window:
    """The thicknesses the brake allows: axial room gives a least, the slope of the barrel a most."""
    brake = axle.corner(side).brake
    need = house.margin_mm["caliper"]
    room = _by_outline(axle, side)
    if room is not None:
        return _outline_window(room, brake, side, house)
    bounds: list[Bound] = []
    if brake.axial_gap_mm is not None:
        least = (
            need + house.stated_guard_mm(brake.axial_gap_mm) + (brake.new_lining_mm or 0.0) - brake.axial_gap_mm.value
        )
        if least > 0:
            bounds.append(
                Bound(
                    "least",
                    least,
                    Case(side, say("spokes over caliper")),
                    say("{axial_gap} axial room", axial_gap=length(brake.axial_gap_mm.value)),
                )
            )
    if brake.radial_gap_mm is not None and brake.ramp_deg is not None:
        spare = (
            brake.radial_gap_mm.value
            - (brake.weight_height_mm or 0.0)
            - need
            - house.stated_guard_mm(brake.radial_gap_mm)
        )
        words = say(
            "{radial_gap} over the caliper, slope {ramp}°",
            radial_gap=length(brake.radial_gap_mm.value),
            ramp=number(brake.ramp_deg, 0),
        )
        if spare < 0:
            bounds.append(Bound("most", spare, Case(side, say("barrel over caliper")), words))
        elif brake.ramp_deg > STRAIGHT_DEG and brake.ramp_start_mm is not None:
            most = brake.ramp_start_mm + spare / math.tan(math.radians(brake.ramp_deg))
            bounds.append(Bound("most", most, Case(side, say("barrel over caliper")), words))
    low = max((bound.at_mm for bound in bounds if bound.kind == "least"), default=0.0)
    high = min((bound.at_mm for bound in bounds if bound.kind == "most"), default=None)
    intervals = () if high is not None and high < low else (Interval(low, high),)
    missing = _missing(axle, side)
    words = (
        say("not read")
        if missing
        else say_as("thickness", "any")
        if high is None and low == 0
        else say("{low} to any", low=figure(up(low, 0.1)))
        if high is None
        else say("{low} to {high}", low=figure(up(low, 0.1)), high=length(down(high, 0.1)))
    )
    return Window(
        QUESTION,
        "any",
        side,
        intervals,
        tuple(bounds),
        known=not missing,
        evidence=Evidence.MEASURED,
        sentence=say("{side}: {what}", side=side_word(side), what=words),
        missing=missing,
    )
