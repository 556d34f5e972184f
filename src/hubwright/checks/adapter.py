"""Bolted adapters: the hidden inner joint, and the original studs behind every wheel that goes on."""

from __future__ import annotations

from hubwright.checks.house import House
from hubwright.engineering.joint.adapter import inner_joint, stud_room
from hubwright.errors import BadInput
from hubwright.findings import Case, Evidence, Finding, Step, Verdict, worst
from hubwright.language import marked, say
from hubwright.language.words import side_word
from hubwright.parts.hole_circle import read_hole_circle
from hubwright.parts.hub import Fastener, Hub
from hubwright.parts.shop import StockDisc
from hubwright.parts.wheel import Wheel, WheelSet
from hubwright.quantities.axes import Side
from hubwright.quantities.rounding import at_least
from hubwright.quantities.text import figure, length
from hubwright.tables.threads import thread

QUESTION = "fastener"
SOURCE = marked("geometry of a bolted disc (derived); least web: house policy (common practice, no source)")
Part = tuple[Verdict, float | None, str, Step | None]


def proud_mm(hub: Hub) -> float | None:
    """Original studs beyond the seating face: as read, else length less hat; None when neither is known."""
    if hub.stud_proud_mm is not None:
        return hub.stud_proud_mm.value
    if hub.stud_length_mm is not None and hub.hat_thickness_mm is not None:
        return hub.stud_length_mm.value - hub.hat_thickness_mm.value
    return None


def judge(
    hub: Hub, wheel_sets: tuple[WheelSet, ...], fastener: Fastener | None, side: Side, house: House, disc: StockDisc
) -> Finding:
    """Whether a bolted adapter can be fastened to the hub, and every wheel set to it."""
    parts = [*_inner(hub, fastener, house, disc)]
    for wheel_set in wheel_sets:
        if wheel_set.discs == "stay":
            parts += _pockets(hub, wheel_set, fastener, house, disc)
    verdict = worst(part[0] for part in parts)
    governing = next(part for part in parts if part[0] is verdict)
    steps = tuple(part[3] for part in parts if part[3] is not None)
    todo = {
        Verdict.FAIL: say(
            "Another adapter, wheels with pockets, or shorter studs from the vehicle maker; studs are never cut."
        ),
        Verdict.UNKNOWN: say("Measure it before choosing."),
    }.get(verdict, say("The inner joint has a torque of its own; re-checking it means wheels off."))
    return Finding(
        QUESTION,
        verdict,
        say("{side}: {what}.", side=side_word(side), what=governing[2]),
        governing[1],
        Case(side, say("bolted adapter")),
        Evidence.MEASURED,
        steps,
        todo,
    )


def _inner(hub: Hub, fastener: Fastener | None, house: House, disc: StockDisc) -> list[Part]:
    if disc.counterbore_mm is None or disc.inner_height_mm is None:
        return [(Verdict.UNKNOWN, None, say("depth of the counterbore or height of the inner nuts is not known"), None)]
    joint = inner_joint(disc.thickness_mm, disc.counterbore_mm, disc.inner_height_mm)
    web_spare = joint.web_mm - house.policy.least_web_mm
    sum_ = f"{figure(disc.thickness_mm)} − {figure(disc.counterbore_mm)}"
    web = say(
        "web under the inner nuts {web}, {least_web} wanted",
        web=length(joint.web_mm),
        least_web=length(house.policy.least_web_mm),
    )
    parts: list[Part] = [
        (
            _ok(web_spare),
            web_spare,
            web,
            Step(say("{sum} = {web} of web", sum=sum_, web=length(joint.web_mm)), say(SOURCE)),
        ),
        (
            _ok(joint.head_below_face_mm),
            joint.head_below_face_mm,
            say("inner nuts {depth} below the face", depth=length(joint.head_below_face_mm))
            if joint.head_below_face_mm >= 0
            else say("inner nuts {height} above the face", height=length(-joint.head_below_face_mm)),
            Step(
                say(
                    "counterbore {counterbore}, nuts {inner_height}",
                    counterbore=length(disc.counterbore_mm),
                    inner_height=length(disc.inner_height_mm),
                ),
                say(SOURCE),
            ),
        ),
    ]
    proud = proud_mm(hub)
    if proud is None or fastener is None or fastener.thread is None:
        parts.append(
            (Verdict.UNKNOWN, None, say("how far the original studs stand out, or their thread, was not read"), None)
        )
        return parts
    of = thread(fastener.thread)
    engaged = min(proud - joint.web_mm, disc.inner_height_mm)
    floor = house.policy.engagement_floor_d * of.d_mm
    wanted = house.policy.engagement_wanted_steel_d * of.d_mm
    verdict = Verdict.FAIL if not at_least(engaged, floor) else _ok(engaged - wanted, Verdict.CAUTION)
    words = say("inner nuts engage {engaged}, {wanted} wanted", engaged=length(engaged), wanted=length(wanted))
    parts.append(
        (
            verdict,
            engaged - floor,
            words,
            Step(f"{figure(proud)} − {figure(joint.web_mm)} = {length(engaged)}", say(SOURCE)),
        )
    )
    return parts


def _pockets(hub: Hub, wheel_set: WheelSet, fastener: Fastener | None, house: House, disc: StockDisc) -> list[Part]:
    """The original studs stand out of a disc thinner than they are long: the wheel needs pockets for them."""
    proud = proud_mm(hub)
    if proud is None:
        return []
    beyond, wheel = proud - disc.thickness_mm, wheel_set.wheel
    beyond_step = Step(
        say(
            "{proud} − {thickness} = {beyond} of stud beyond the face",
            proud=figure(proud),
            thickness=figure(disc.thickness_mm),
            beyond=length(beyond),
        ),
        say(SOURCE),
    )
    if beyond <= 0:
        return [
            (Verdict.PASS, -beyond, say("studs end {beyond} inside the adapter", beyond=length(-beyond)), beyond_step)
        ]
    if wheel.relief_depth_mm is None:
        words = say(
            "studs stand {beyond} out of the adapter and the pockets of the {wheel_set_title} were not read (0 = flat)",
            beyond=length(beyond),
            wheel_set_title=wheel_set.title,
        )
        return [(Verdict.UNKNOWN, None, words, beyond_step)]
    spare = wheel.relief_depth_mm.value - beyond
    if wheel.relief_depth_mm.value == 0:
        words = say(
            "studs stand {beyond} out of the adapter and the {wheel_set_title} is flat: it cannot be mounted",
            beyond=length(beyond),
            wheel_set_title=wheel_set.title,
        )
        return [(Verdict.FAIL, spare, words, beyond_step)]
    words = say(
        "studs stand {beyond} out, pockets of the {wheel_set_title} are {relief_depth} deep",
        beyond=length(beyond),
        wheel_set_title=wheel_set.title,
        relief_depth=length(wheel.relief_depth_mm.value),
    )
    parts: list[Part] = [(_ok(spare - house.policy.pocket_spare_mm), spare, words, beyond_step)]
    if wheel.relief_width_mm is not None and fastener is not None and fastener.thread is not None:
        side_room = _beside(hub, wheel, thread(fastener.thread).d_mm, proud, disc)
        words = say(
            "{side_room} beside each stud in the pockets of the {wheel_set_title}",
            side_room=length(side_room),
            wheel_set_title=wheel_set.title,
        )
        parts.append((_ok(side_room - house.policy.pocket_spare_mm), side_room, words, Step(words, say(SOURCE))))
    else:
        parts.append(
            (
                Verdict.UNKNOWN,
                None,
                say("width of the pockets of the {wheel_set_title} was not read", wheel_set_title=wheel_set.title),
                None,
            )
        )
    return parts


def _beside(hub: Hub, wheel: Wheel, stud_diameter_mm: float, proud: float, disc: StockDisc) -> float:
    """Least gap between a proud stud and its pocket; where circle or angle are stated the pocket may lie beside the stud."""
    width = wheel.relief_width_mm.value if wheel.relief_width_mm else 0.0
    circle = _circle_mm(hub.bolt_circle)
    if circle is None or (wheel.relief_angle_deg is None and wheel.relief_circle_mm is None):
        return (width - stud_diameter_mm) / 2
    room = stud_room(
        stud_mm=proud,
        stud_diameter_mm=stud_diameter_mm,
        thickness_mm=disc.thickness_mm,
        pocket_depth_mm=wheel.relief_depth_mm.value if wheel.relief_depth_mm else 0.0,
        pocket_width_mm=width,
        stud_circle_mm=circle,
        pocket_circle_mm=wheel.relief_circle_mm or circle,
        pocket_angle_deg=wheel.relief_angle_deg,
    )
    return room.radial_room_mm if room.side_room_mm is None else min(room.side_room_mm, room.radial_room_mm)


def _circle_mm(text: str | None) -> float | None:
    try:
        return None if text is None else read_hole_circle(text).diameter_mm
    except BadInput:
        return None


def _ok(slack: float, otherwise: Verdict = Verdict.FAIL) -> Verdict:
    return Verdict.PASS if at_least(slack, 0.0) else otherwise
