"""Sketches of readings at the hub: section through flange, spigot and wheel pad, the face with its holes, studs and bolts."""

from __future__ import annotations

import math
from collections.abc import Mapping

from hubwright.drawings.reading_parts import WIDE_PX, area, axis, feet, framed, ghost, marked, word
from hubwright.drawings.scene import Item, Scene, Spot, box, line
from hubwright.language import say

TYPICAL: dict[str, float] = {
    "spigot_diameter_mm": 66.0, "spigot_length_mm": 12.0, "nose_length_mm": 6.0, "nose_diameter_mm": 50.0,
    "hat_thickness_mm": 6.0, "flange_thickness_mm": 13.0, "free_behind_mm": 6.0, "blind_depth_mm": 16.0,
    "screw_proud_mm": 2.0, "bore_mm": 66.0, "bore_chamfer_mm": 3.0, "bore_depth_mm": 9.0, "stud_length_mm": 38.0,
    "stud_lead_mm": 1.5, "stud_proud_mm": 31.0, "length_mm": 27.0, "engagement_mm": 13.0, "closed_depth_mm": 24.0,
    "pad_to_thread_mm": 11.0, "circle_mm": 112.0, "holes": 5.0, "fillet_mm": 1.5, "face_outer_mm": 146.0, "face_inner_mm": 72.0,
}  # fmt: skip
"""Where nothing was read: shapes of a usual car, for the picture only."""
SWING_MM = 4.0
"""How far the dial's swing is drawn apart, so that it can be seen; a run-out is a hundredth of it."""
HIGH = 74.0
SECTION_BOX = (-58.0, -80.0, 62.0, 80.0)


def hub_section(what: str, read: Mapping[str, float], words: str, title: str, description: str) -> Scene:
    """Full section through hub, brake disc hat and the wheel's pad, outboard to the right, with one dimension marked."""
    size = {**TYPICAL, **read}
    px = (SECTION_BOX[2] - SECTION_BOX[0]) / WIDE_PX
    hat, flange, spigot = size["hat_thickness_mm"], size["flange_thickness_mm"], size["spigot_diameter_mm"] / 2
    back = -hat - flange
    items: list[Item] = []
    wheel = what.startswith(("bore", "pad", "cap"))
    for sign in (1, -1):
        items += _half(size, sign, wheel, what)
    items.append(axis((SECTION_BOX[0], 0), (SECTION_BOX[2], 0)))
    items += [word((back - 4, 12), say("hub"), "end"), word((36, HIGH - 10), say("wheel"))]
    length, nose = size["spigot_length_mm"], size["nose_length_mm"]
    behind = back - size["free_behind_mm"]
    pad = size["bore_mm"] / 2
    chamfer = size["bore_chamfer_mm"]
    at: dict[str, tuple[Spot, Spot, Spot]] = {
        "spigot_length_mm": ((0, spigot), (length, spigot), (0, 9)),
        "spigot_diameter_mm": ((length, -spigot), (length, spigot), (16, 0)),
        "nose_length_mm": ((length, size["nose_diameter_mm"] / 2), (length + nose, size["nose_diameter_mm"] / 2), (0, 8)),
        "nose_diameter_mm": ((length + nose, -size["nose_diameter_mm"] / 2), (length + nose, size["nose_diameter_mm"] / 2), (12, 0)),
        "hat_thickness_mm": ((-hat, HIGH), (0, HIGH), (0, -12)),
        "flange_thickness_mm": ((back, 56), (-hat, 56), (0, -6)),
        "free_behind_mm": ((behind, 56), (back, 56), (0, -6)),
        "blind_depth_mm": ((-hat - size["blind_depth_mm"], 56), (-hat, 56), (0, 8)),
        "screw_proud_mm": ((0, 44), (size["screw_proud_mm"], 44), (0, 5)),
        "bore_mm": ((15, -pad), (15, pad), (14, 0)),
        "bore_chamfer_mm": ((0, pad + chamfer), (chamfer, pad + chamfer), (0, 9)),
        "bore_depth_mm": ((chamfer, pad), (chamfer + size["bore_depth_mm"], pad), (0, 16)),
        "cap_room_mm": ((0, 6), (30, 6), (0, 0)),
        "fillet_mm": ((0, spigot), (size["fillet_mm"], spigot), (0, 9)),
        "runout_pilot_mm": ((length * 0.6, spigot), (length * 0.6, spigot + SWING_MM), (0, 0)),
        "runout_face_mm": ((0, 62), (SWING_MM, 62), (0, 0)),
    }  # fmt: skip
    a, b, shift = at[what]
    lines, first, second = feet(a, b, shift)
    upright = abs(first[0] - second[0]) < 1e-9
    place = (first[0] + 3, 3.0) if upright else None
    items += [*lines, *marked(first, second, px, words, place, "start" if upright else "middle")]
    return framed(items, SECTION_BOX, title, description, px)


def _half(size: Mapping[str, float], sign: int, wheel: bool, what: str) -> list[Item]:
    hat, flange, spigot = size["hat_thickness_mm"], size["flange_thickness_mm"], size["spigot_diameter_mm"] / 2
    length, nose, nose_radius = size["spigot_length_mm"], size["nose_length_mm"], size["nose_diameter_mm"] / 2
    back, bore, c = -hat - flange, size["bore_mm"] / 2, size["bore_chamfer_mm"]

    def up(points: tuple[Spot, ...]) -> tuple[Spot, ...]:
        return tuple((x, sign * y) for x, y in points)

    items: list[Item] = [
        area(up(((back - 22, 0), (back - 22, 30), (back, 30), (back, HIGH - 4), (-hat, HIGH - 4), (-hat, 0))), "metal", "hub flange", hatched=True),
        area(up(((-hat, 0), (-hat, spigot), (length - 1, spigot), (length, spigot - 1), (length, 0))), "metal", "spigot", hatched=True),
        area(up(((-hat, spigot), (-hat, HIGH), (-hat - 30, HIGH), (-hat - 30, HIGH + 4), (0, HIGH + 4), (0, spigot))), "ground", "brake disc hat"),
    ]  # fmt: skip
    if nose > 0:
        items.append(area(up(((length, 0), (length, nose_radius), (length + nose, nose_radius), (length + nose, 0))), "metal", "nose"))  # fmt: skip
    pad = up(((0, bore + c), (c, bore), (c + size["bore_depth_mm"], bore), (26, bore + 4), (26, HIGH - 2), (0, HIGH - 2)))  # fmt: skip
    items.append(area(pad, "disc-fill", "wheel pad") if wheel else ghost(pad, "wheel pad"))
    if what == "free_behind_mm" and sign > 0:
        behind = back - size["free_behind_mm"]
        items.append(area(box(behind - 10, 40, behind, 72), "ground", "first part behind", hatched=True))
        items.append(word((behind - 5, 32), say("knuckle")))
    if what == "blind_depth_mm" and sign > 0:
        items.append(area(box(-hat - size["blind_depth_mm"], 49, -hat, 63), "paper", "blind hole"))
    if what == "screw_proud_mm" and sign > 0:
        items.append(area(box(-hat, 40, size["screw_proud_mm"], 49), "metal", "retaining screw"))
    return items


def hub_face(what: str, read: Mapping[str, float], words: str, title: str, description: str) -> Scene:
    """The face of the hub with its holes; two neighbouring ones or the circle marked."""
    size = {**TYPICAL, **read}
    radius, holes = size["circle_mm"] / 2, max(int(size["holes"]), 3)
    edge = max(radius + 22, size["face_outer_mm"] / 2 if what.startswith("face") else 0.0)
    frame = (-edge - 20, -edge - 6, edge + 20, edge + 16)
    px = (frame[2] - frame[0]) / WIDE_PX
    items: list[Item] = [
        area(_ring(edge), "metal", "hub face"),
        area(_ring(size["spigot_diameter_mm"] / 2), "paper", "spigot"),
    ]
    centres = [
        (radius * math.sin(2 * math.pi * (n + 0.5) / holes), radius * math.cos(2 * math.pi * (n + 0.5) / holes))
        for n in range(holes)
    ]
    items += [area(_ring(7.0, at), "paper", "hole") for at in centres]
    items.append(ghost(_ring(radius), "circle through the holes"))
    first, last = centres[0], centres[-1]
    if what == "chord_mm":
        lines, a, b = feet(last, first, (0, edge - first[1] + 4))
        items += [*lines, *marked(a, b, px, words)]
    elif what.startswith("face"):
        ring = size[what] / 2
        items += [ghost(_ring(ring), "ring the wheel sits on"), *marked((-ring, 0), (ring, 0), px, words, (0, 8 * px))]
    else:
        items += marked((-radius, 0), (radius, 0), px, words, (0, 8 * px))
    return framed(items, frame, title, description, px)


def stud_side(what: str, read: Mapping[str, float], words: str, title: str, description: str) -> Scene:
    """A stud or bolt from the side, seated where it is, with one dimension marked. Outboard to the right."""
    size = {**TYPICAL, **read}
    frame = (-34.0, -30.0, 56.0, 38.0)
    px = (frame[2] - frame[0]) / WIDE_PX
    draw = {"stud": _stud, "nut": _nut}.get(_family(what), _bolt)
    items, a, b = draw(what, size)
    lines, first, second = feet(a, b, (0, 24 - a[1]))
    items += [*lines, *marked(first, second, px, words)]
    return framed(items, frame, title, description, px)


def _family(what: str) -> str:
    return "stud" if what.startswith("stud") else "nut" if what in ("closed_depth_mm", "pad_to_thread_mm") else "bolt"


def _stud(what: str, size: Mapping[str, float]) -> tuple[list[Item], Spot, Spot]:
    hat = size["hat_thickness_mm"]
    long, lead = size["stud_length_mm"], size["stud_lead_mm"]
    items: list[Item] = [
        area(box(-22, -26, 0, 26), "metal", "hub flange", hatched=True),
        area(box(0, -26, hat, 26), "ground", "brake disc hat"),
        area(((0, -6), (0, 6), (long - lead, 6), (long, 4.6), (long, -4.6), (long - lead, -6)), "disc-fill", "stud"),
        *_threads(hat + 2, long - lead, 6),
        word((-11, -28), say("hub")),
        word((hat + 2, -28), say("brake disc"), "start"),
    ]
    ends = {"stud_length_mm": (0.0, long), "stud_lead_mm": (long - lead, long), "stud_proud_mm": (hat, long)}[what]
    return items, (ends[0], 6), (ends[1], 6)


def _bolt(what: str, size: Mapping[str, float]) -> tuple[list[Item], Spot, Spot]:
    long, engaged = size["length_mm"], size["engagement_mm"]
    seat = 20.0
    tip = seat - long
    face = tip + engaged
    items: list[Item] = [
        area(box(face - 18, -26, face, 26), "metal", "hub flange", hatched=True),
        ghost(((face, -26), (face, 26), (seat + 7, 26), (seat + 7, 12), (seat, 7), (seat, -7), (seat + 7, -12), (seat + 7, -26)), "wheel pad"),
        area(((tip, -6.5), (tip, 6.5), (seat, 6.5), (seat + 7, 12), (seat + 11, 12), (seat + 11, 9), (seat + 26, 9),
              (seat + 26, -9), (seat + 11, -9), (seat + 11, -12), (seat + 7, -12), (seat, -6.5)), "disc-fill", "bolt"),
        *_threads(tip + 1, seat - 3, 6.5),
        word((face - 9, -28), say("hub")),
        word((seat + 18, -28), say("bolt")),
    ]  # fmt: skip
    ends = (tip, seat) if what == "length_mm" else (tip, face)
    return items, (ends[0], 6.5), (ends[1], 6.5)


def _nut(what: str, size: Mapping[str, float]) -> tuple[list[Item], Spot, Spot]:
    if what == "pad_to_thread_mm":
        start = size["pad_to_thread_mm"]
        items: list[Item] = [
            area(((0, 7), (0, 26), (18, 26), (18, 14), (start, 7)), "disc-fill", "wheel pad", hatched=True),
            area(((0, -7), (0, -26), (18, -26), (18, -14), (start, -7)), "disc-fill", "wheel pad", hatched=True),
            area(((start, 6), (18, 13), (40, 13), (40, -13), (18, -13), (start, -6)), "metal", "nut"),
            ghost(box(-16, -5.5, 34, 5.5), "stud"),
            word((9, -29), say("wheel")),
            word((32, -28), say("nut")),
        ]
        return items, (0, 7), (start, 7)
    deep = size["closed_depth_mm"]
    items = [
        area(((0, 6), (8, 13), (deep + 7, 13), (deep + 10, 8), (deep + 10, -8), (deep + 7, -13), (8, -13), (0, -6)), "metal", "nut", hatched=True),
        area(box(0, -6, deep, 6), "paper", "inside of the nut"),
        *_threads(1, deep - 2, 6),
        word((deep / 2, -28), say("closed nut")),
    ]  # fmt: skip
    return items, (0, 6), (deep, 6)


def _threads(low: float, high: float, radius: float) -> list[Item]:
    """The turns of a thread, 1.5 mm apart, as slanted lines."""
    count = max(int((high - low) / 3), 0)
    return [line((low + 3 * n, -radius), (low + 3 * n + 1.5, radius), "soft", 0.7) for n in range(count + 1)]


def _ring(radius: float, at: Spot = (0.0, 0.0)) -> tuple[Spot, ...]:
    turns = [2 * math.pi * n / 48 for n in range(48)]
    return tuple((at[0] + radius * math.cos(turn), at[1] + radius * math.sin(turn)) for turn in turns)
