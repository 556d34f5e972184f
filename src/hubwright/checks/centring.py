"""Centring window: does the wheel still find a pilot, on the hub's spigot or on the disc's own lip?"""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.checks.bored import bored_for, too_tight
from hubwright.checks.house import House
from hubwright.engineering.centring.lip import Lip, Nose, lip_room, overlap_wall_mm
from hubwright.engineering.centring.spigot import plain_engagement_mm, thickest_plain_mm, thinnest_lipped_mm
from hubwright.findings import Bound, Case, Evidence, Finding, Interval, Step, Verdict, Wanted, Window, wanted, worst
from hubwright.language import marked, say
from hubwright.language.words import kind_word, side_word
from hubwright.parts.hub import Hub
from hubwright.parts.shop import DiscKind, StockDisc
from hubwright.parts.wheel import Wheel, WheelSet
from hubwright.quantities.axes import Side
from hubwright.quantities.rounding import at_least
from hubwright.quantities.text import figure, joined, length, short, thickness

QUESTION = "centring"
SOURCE = marked("geometry of spigot, chamfer and lip; least pilot: house policy (common practice, no source)")
BORE_FIT_MM = 0.3
"""A lip smaller than the wheel's bore by more than this does not centre it; a guess."""
BORE_TIGHT_MM = 0.1
"""A lip larger than the wheel's bore by more than this does not go in; the rest is doubt of two readings; a guess."""
Part = tuple[Verdict, float | None, str, Step | None]
"""One thing looked at: verdict, margin, words, working."""


def least_pilot_mm(wheel: Wheel, house: House) -> float:
    """The pilot the shop wants left in this wheel."""
    return house.policy.least_pilot_steel_mm if wheel.material == "steel" else house.policy.least_pilot_mm


def missing_for(hub: Hub, wheel_set: WheelSet, side: Side) -> tuple[Wanted, ...]:
    """What must be read before anything can be said about centring."""
    found = []
    if hub.spigot_length_mm is None:
        how = say("Depth gauge on the seating face, brake disc fitted: cylinder only, without its chamfer.")
        found.append(wanted(say("length of the hub's spigot"), how, QUESTION, 4.0, side))
    if wheel_set.wheel.bore_chamfer_mm is None:
        how = say("Depth of the chamfer at the bore of the wheel, measured along the axis.")
        found.append(wanted(say("chamfer of the bore, {set}", set=wheel_set.title), how, QUESTION, 1.5))
    return tuple(found)


def overlap_possible(hub: Hub, wheel: Wheel, house: House) -> bool:
    """Whether the wheel's bore leaves room for a lip around the hub's own spigot."""
    if hub.spigot_diameter_mm is None or wheel.bore_mm is None:
        return False
    wall = overlap_wall_mm(wheel.bore_mm.value, hub.spigot_diameter_mm.value)
    return at_least(wall, house.policy.least_lip_wall_mm)


@dataclass(frozen=True)
class Pilot:
    """Spigot and chamfer as read, what the shop wants left, and what their stated doubts cost."""

    spigot_mm: float
    chamfer_mm: float
    least_mm: float
    guard_mm: float
    spigot_guard_mm: float


def pilot_of(hub: Hub, wheel: Wheel, house: House) -> Pilot | None:
    """The pilot of one wheel on one hub; None when spigot or chamfer was not read."""
    spigot, chamfer = hub.spigot_length_mm, wheel.bore_chamfer_mm
    if spigot is None or chamfer is None:
        return None
    guard = house.stated_guard_mm(spigot, chamfer)
    return Pilot(spigot.value, chamfer.value, least_pilot_mm(wheel, house), guard, house.stated_guard_mm(spigot))


def judge(hub: Hub, wheel_set: WheelSet, side: Side, house: House, disc: StockDisc) -> Finding:
    """Whether one wheel is centred over one disc."""
    pilot = pilot_of(hub, wheel_set.wheel, house)
    if pilot is None:
        missing = missing_for(hub, wheel_set, side)
        named = joined([item.thing for item in missing])
        return Finding(
            QUESTION,
            Verdict.UNKNOWN,
            say("{side}: not known without {named}.", side=side_word(side), named=named),
            None,
            Case(side, wheel_set.title),
            Evidence.NONE,
            (),
            missing[0].how,
        )
    if disc.kind == "plain":
        return bored_for(hub, wheel_set, side, _plain(pilot, wheel_set, side, disc.thickness_mm))
    return _lipped(hub, pilot, wheel_set, side, house, disc)


def judge_bare(hub: Hub, wheel_set: WheelSet, side: Side, house: House) -> Finding:
    """Whether one wheel is centred by the hub's own spigot, without a disc."""
    pilot, case = pilot_of(hub, wheel_set.wheel, house), Case(side, wheel_set.title)
    if pilot is None:
        missing = missing_for(hub, wheel_set, side)
        sentence = say(
            "{side}: not known without {named}.", side=side_word(side), named=joined([item.thing for item in missing])
        )
        return Finding(QUESTION, Verdict.UNKNOWN, sentence, None, case, Evidence.NONE, (), missing[0].how)
    left = plain_engagement_mm(pilot.spigot_mm, 0.0, pilot.chamfer_mm)
    slack = left - pilot.least_mm - pilot.guard_mm
    verdict = Verdict.PASS if at_least(slack, 0.0) else Verdict.FAIL
    sentence = say(
        "{side}, {wheel_set_title}: {left} of pilot without a disc, {least} wanted.",
        side=side_word(side),
        wheel_set_title=wheel_set.title,
        left=length(left),
        least=length(pilot.least_mm),
    )
    step = Step(
        say(
            "{spigot} − {chamfer} = {left} of pilot",
            spigot=figure(pilot.spigot_mm),
            chamfer=figure(pilot.chamfer_mm),
            left=length(left),
        ),
        say(SOURCE),
    )
    return bored_for(
        hub, wheel_set, side, Finding(QUESTION, verdict, sentence, slack, case, Evidence.MEASURED, (step,))
    )


def _plain(pilot: Pilot, wheel_set: WheelSet, side: Side, thickness_mm: float) -> Finding:
    h, c, e = pilot.spigot_mm, pilot.chamfer_mm, pilot.least_mm
    left = plain_engagement_mm(h, thickness_mm, c)
    slack = left - e - pilot.guard_mm
    step = Step(
        say(
            "{h} − {thickness} − {c} = {left} of pilot",
            h=figure(h),
            thickness=figure(thickness_mm),
            c=figure(c),
            left=length(left),
        ),
        say(SOURCE),
    )
    where = say("{side}, {set}", side=side_word(side), set=wheel_set.title)
    if at_least(slack, 0.0):
        sentence = say(
            "{where}: {left} of pilot left, {least} wanted.", where=where, left=length(left), least=length(e)
        )
        return Finding(QUESTION, Verdict.PASS, sentence, slack, Case(side, wheel_set.title), Evidence.MEASURED, (step,))
    places = {"where": where, "thickness": thickness(thickness_mm), "left": length(left), "least": length(e)}
    if left > 0:
        sentence = say("{where}: a plain {thickness} disc leaves only {left} of pilot, {least} wanted.", **places)
    else:
        sentence = say("{where}: a plain {thickness} disc leaves no pilot, {least} wanted.", **places)
    return Finding(
        QUESTION,
        Verdict.FAIL,
        sentence,
        slack,
        Case(side, wheel_set.title),
        Evidence.MEASURED,
        (step,),
        say("Take a thinner plain disc or one with a lip."),
    )


def _lipped(hub: Hub, pilot: Pilot, wheel_set: WheelSet, side: Side, house: House, disc: StockDisc) -> Finding:
    wheel, policy = wheel_set.wheel, house.policy
    h, t = pilot.spigot_mm, disc.thickness_mm
    case = Case(side, wheel_set.title)
    where = say("{side}, {set}", side=side_word(side), set=wheel_set.title)
    parts: list[Part] = []
    around = overlap_possible(hub, wheel, house)
    least = thinnest_lipped_mm(h, policy.lip_beyond_spigot_mm)
    slack = t - least - pilot.spigot_guard_mm
    if around and wheel.bore_mm is not None and hub.spigot_diameter_mm is not None and not at_least(slack, 0.0):
        wall = overlap_wall_mm(wheel.bore_mm.value, hub.spigot_diameter_mm.value)
        words = say(
            "the lip goes around the hub's spigot with a wall of {wall}; check the depth of the wheel's bore",
            wall=length(wall, 2),
        )
        parts += _around(disc, hub.spigot_diameter_mm.value)
        parts.append(
            (
                Verdict.PASS,
                wall - policy.least_lip_wall_mm,
                words,
                Step(say("wall = {wall}", wall=length(wall, 2)), say(SOURCE)),
            )
        )
    elif at_least(slack, 0.0):
        step = Step(f"{figure(t)} ≥ {figure(h)} + {figure(policy.lip_beyond_spigot_mm)}", say(SOURCE))
        parts.append((Verdict.PASS, slack, say("the spigot of {h} ends inside the disc", h=length(h)), step))
    else:
        words = say(
            "a lip needs at least {least} over a spigot of {h}, {slack}",
            least=length(least),
            h=length(h),
            slack=short(-slack),
        )
        parts.append((Verdict.FAIL, slack, words, Step(f"{figure(t)} < {figure(least)}", say(SOURCE))))
    parts += _nose(hub, pilot, disc, house, around)
    parts += _lip(hub, pilot, wheel, disc, house)
    verdict = worst(part[0] for part in parts)
    governing = next(part for part in parts if part[0] is verdict)
    sentence = say("{where}: {what}.", where=where, what=governing[2])
    steps = tuple(part[3] for part in parts if part[3] is not None)
    todo = {
        Verdict.FAIL: say("Take another disc."),
        Verdict.UNKNOWN: say("Measure it before choosing."),
    }.get(verdict, "")
    return Finding(QUESTION, verdict, sentence, governing[1], case, Evidence.MEASURED, steps, todo)


def _around(disc: StockDisc, spigot_diameter_mm: float) -> list[Part]:
    """A lip that goes around the spigot must be bored for it; one bored for the nose alone strikes its end."""
    if disc.lip_inner_mm is None or at_least(disc.lip_inner_mm, spigot_diameter_mm):
        return []
    air = disc.lip_inner_mm - spigot_diameter_mm
    words = say(
        "a lip of {lip_inner} inside does not go around a spigot of {spigot_diameter}",
        lip_inner=length(disc.lip_inner_mm),
        spigot_diameter=length(spigot_diameter_mm),
    )
    return [(Verdict.FAIL, air, words, Step(words, say(SOURCE)))]


def _nose(hub: Hub, pilot: Pilot, disc: StockDisc, house: House, around: bool) -> list[Part]:
    """Does the axle end pass through the lip?"""
    if around and disc.thickness_mm < pilot.spigot_mm:
        return []
    if hub.nose_length_mm is None:
        return [
            (
                Verdict.UNKNOWN,
                None,
                say("whether an axle end stands out beyond the spigot was not read (0 = none)"),
                None,
            )
        ]
    reach = pilot.spigot_mm + hub.nose_length_mm.value - disc.thickness_mm
    if hub.nose_length_mm.value == 0 or reach <= 0:
        return []
    if hub.nose_diameter_mm is None or disc.lip_inner_mm is None:
        into = {"reach": length(reach)}
        words = (
            say("the diameter of the axle end is not known, and the axle end reaches {reach} into the lip", **into)
            if hub.nose_diameter_mm is None
            else say(
                "the inside diameter of the disc's lip is not known, and the axle end reaches {reach} into the lip",
                **into,
            )
        )
        return [
            (
                Verdict.UNKNOWN,
                None,
                words,
                None,
            )
        ]
    air = disc.lip_inner_mm - hub.nose_diameter_mm.value
    slack = air - house.policy.lip_nose_clearance_mm
    step = Step(
        say(
            "{lip_inner} − {nose_diameter} = {air} around the axle end",
            lip_inner=figure(disc.lip_inner_mm),
            nose_diameter=figure(hub.nose_diameter_mm.value),
            air=length(air),
        ),
        say(SOURCE),
    )
    if at_least(slack, 0.0):
        return [(Verdict.PASS, slack, say("the axle end passes the lip with {air} in diameter", air=length(air)), step)]
    words = say(
        "an axle end of {nose_diameter} does not pass a lip of {lip_inner} inside",
        nose_diameter=length(hub.nose_diameter_mm.value),
        lip_inner=length(disc.lip_inner_mm),
    )
    return [(Verdict.FAIL, slack, words, step)]


def _lip(hub: Hub, pilot: Pilot, wheel: Wheel, disc: StockDisc, house: House) -> list[Part]:
    """Does the lip fit the wheel's bore, with a wall that lasts and enough length?"""
    if disc.lip_length_mm == 0:
        words = say("the disc has no lip to centre the wheel")
        return [(Verdict.FAIL, None, words, Step(words, say(SOURCE)))]
    if disc.lip_inner_mm is None or disc.lip_length_mm is None:
        words = say("the disc states no size of its lip: measure inside, outside and length before it is fitted")
        return [(Verdict.CAUTION, None, words, None)]
    outer = disc.lip_outer_mm if disc.lip_outer_mm is not None else wheel.bore_mm.value if wheel.bore_mm else None
    if outer is None:
        return [(Verdict.UNKNOWN, None, say("neither the wheel's bore nor the lip's outside is known"), None)]
    nose = None
    if hub.nose_diameter_mm is not None and hub.nose_length_mm is not None and hub.nose_length_mm.value > 0:
        nose = Nose(hub.nose_diameter_mm.value, hub.nose_length_mm.value)
    room = lip_room(
        Lip(outer, disc.lip_inner_mm, disc.lip_length_mm),
        spigot_mm=pilot.spigot_mm,
        thickness_mm=disc.thickness_mm,
        nose=nose,
        bore_depth_mm=wheel.bore_depth_mm.value + pilot.chamfer_mm if wheel.bore_depth_mm else disc.lip_length_mm,
        bore_chamfer_mm=pilot.chamfer_mm,
        cap_room_mm=wheel.cap_room_mm.value if wheel.cap_room_mm else None,
    )
    parts: list[Part] = []
    if wheel.bore_mm is not None and not -BORE_TIGHT_MM <= wheel.bore_mm.value - outer <= BORE_FIT_MM:
        sizes = {"outer": length(outer), "bore": length(wheel.bore_mm.value)}
        words = (
            say("a lip of {outer} does not centre a bore of {bore}", **sizes)
            if outer < wheel.bore_mm.value
            else say("a lip of {outer} does not go into a bore of {bore}", **sizes)
        )
        parts.append((Verdict.FAIL, None, words, Step(words, say(SOURCE))))
    for found, need, words in (
        (room.wall_mm, house.policy.least_lip_wall_mm, say("wall of the lip")),
        (room.grip_mm, pilot.least_mm, say("lip inside the wheel's bore")),
        (room.bore_depth_mm, 0.0, say("bore depth left in front of the lip")),
        (room.cap_mm, 0.0, say("room to the centre cap")),
    ):
        if found is not None:
            verdict = Verdict.PASS if at_least(found - need, 0.0) else Verdict.FAIL
            sentence = say("{words} {found}, {need} wanted", words=words, found=length(found), need=length(need))
            parts.append((verdict, found - need, sentence, Step(sentence, say(SOURCE))))
    return parts


def window_of(hub: Hub, wheel_set: WheelSet, side: Side, house: House, kind: DiscKind) -> Window:
    """The thicknesses that centre the wheel over one kind of disc. Between plain and lipped lies the dead zone."""
    pilot = pilot_of(hub, wheel_set.wheel, house)
    if pilot is None:
        return Window(
            QUESTION,
            kind,
            side,
            (Interval(0.0, None),),
            known=False,
            evidence=Evidence.NONE,
            sentence=say("{side}: not known", side=side_word(side)),
            missing=missing_for(hub, wheel_set, side),
        )
    h, c, e = pilot.spigot_mm, pilot.chamfer_mm, pilot.least_mm
    case = Case(side, wheel_set.title)
    if kind == "plain" and too_tight(hub, wheel_set.wheel):
        words = say("{side}: no plain disc (the wheel's bore does not go over the spigot)", side=side_word(side))
        return Window(QUESTION, kind, side, (), sentence=words)
    if kind == "plain":
        most = thickest_plain_mm(h, c, e) - pilot.guard_mm
        words = say("spigot {h}, chamfer {c}, pilot {e}", h=length(h), c=length(c), e=length(e))
        intervals = (Interval(0.0, most),) if most >= 0 else ()
        return Window(
            QUESTION,
            kind,
            side,
            intervals,
            (Bound("most", most, case, words),),
            sentence=say("{side}: plain up to {most} ({words})", side=side_word(side), most=length(most), words=words)
            if most >= 0
            else say("{side}: no plain disc ({words})", side=side_word(side), words=words),
        )
    if overlap_possible(hub, wheel_set.wheel, house):
        return Window(
            QUESTION,
            kind,
            side,
            (Interval(0.0, None),),
            sentence=say("{side}: lip around the hub's spigot", side=side_word(side)),
        )
    least = thinnest_lipped_mm(h, house.policy.lip_beyond_spigot_mm) + pilot.spigot_guard_mm
    words = say("spigot {h} must end inside the disc", h=length(h))
    return Window(
        QUESTION,
        kind,
        side,
        (Interval(least, None),),
        (Bound("least", least, case, words),),
        sentence=say(
            "{side}: {kind} from {least} ({words})",
            side=side_word(side),
            kind=kind_word(kind),
            least=length(least),
            words=words,
        ),
    )
