"""Sketches of readings around the wheel: from behind, from above at lock, at the brake, across the tyre.

Outboard is to the right (a right wheel seen from behind); `reading_sketch` mirrors them for the left.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from itertools import pairwise

from hubwright.drawings.marks import LETTER
from hubwright.drawings.reading_parts import WIDE_PX, area, axis, feet, framed, marked, word
from hubwright.drawings.scene import Dot, Item, Scene, Spot, Stroke, box, line
from hubwright.language import say

TYPICAL: dict[str, float] = {
    "radius_mm": 320.0, "width_mm": 235.0, "rim_mm": 229.0, "gap_mm": 30.0, "height_mm": 305.0, "return_mm": 12.0,
    "ride_height_mm": 352.0, "bump_travel_mm": 70.0, "droop_travel_mm": 60.0, "steer_max_deg": 36.0, "inset_mm": 45.0,
    "camber_deg": -1.5,
}  # fmt: skip
"""Where nothing was read: shapes of a usual car, for the picture only."""


def tyre_outline(size: Mapping[str, float], lift: float = 0.0) -> tuple[Spot, ...]:
    """The tyre seen from behind, as a closed line; widest at four fifths of its radius."""
    r, w, rim = size["radius_mm"], size["width_mm"] / 2, size["rim_mm"]
    half = [(0.80 * w, r), (0.93 * w, r - 12), (0.985 * w, r - 32), (w, (r + rim) / 2), (0.97 * w, rim + 4), (0.93 * w, rim)]  # fmt: skip
    right = [*half, *[(x, -y) for x, y in reversed(half)]]
    return tuple((x, y + lift) for x, y in [*right, *[(-x, y) for x, y in reversed(right)]])


def half_width(size: Mapping[str, float], height: float) -> float:
    """Half the width of that outline at a height above its centre."""
    points = sorted((y, x) for x, y in tyre_outline(size) if x > 0 and y > 0)
    for (low, at_low), (high, at_high) in pairwise(points):
        if low <= height <= high and high > low:
            return at_low + (at_high - at_low) * (height - low) / (high - low)
    return points[0][1] if height < points[0][0] else points[-1][1]


def from_behind(what: str, read: Mapping[str, float], words: str, title: str, description: str) -> Scene:
    """The wheel in its arch seen from behind.

    Args:
        what: ride_height, cover, camber, travel, droop, height, return, gap (outside), inside, above.
        read: Figures of the job by name; ``lift_mm`` raises the wheel.
        words: At the marked dimension.
        title: For the screen reader.
        description: For the screen reader.
    """
    size = {**TYPICAL, **read}
    lift = size.get("lift_mm", 0.0)
    near = what in ("gap", "return")
    frame = (10.0, 190.0, 240.0, 430.0) if near else (-200.0, -95.0, 235.0, 440.0)
    px = (frame[2] - frame[0]) / WIDE_PX
    height, lip_in = size["height_mm"], half_width(size, min(size["height_mm"], size["radius_mm"] - 2)) + size["gap_mm"]
    lip_out = lip_in + size["return_mm"]
    items: list[Item] = [area(tyre_outline(size, lift), "rubber", "tyre")]
    items += _rim(size, lift)
    items += _arch(lip_in, lip_out, height, frame[2], px)
    if not near:
        items += [axis((frame[0] + 8, lift), (150, lift)), Dot((0, lift), 3.0, "ink", "ink")]
    items.append(word((frame[2] - 6, frame[1] + 6 * px), say("outboard"), "end"))
    items += _behind_mark(what, size, lip_in, lip_out, height, lift, px, words)
    return framed(items, frame, title, description, px)


def _behind_mark(
    what: str,
    size: Mapping[str, float],
    lip_in: float,
    lip_out: float,
    height: float,
    lift: float,
    px: float,
    words: str,
) -> list[Item]:
    r, w = size["radius_mm"], size["width_mm"] / 2
    if what == "ride_height":
        top = size["ride_height_mm"]
        reach: list[Item] = [
            line((lip_out, height), (lip_out, top), "body", 1.6),
            line((20, top), (lip_out, top), "disc", 0.9),
        ]
        return [*reach, *marked((40, 0), (40, top), px, words, (36, 130), "end")]
    if what == "cover":
        drop = line((lip_out, height), (lip_out, -40), "body", 0.9)
        return [drop, Dot((lip_out, -40), 4.0, "body", "body"), *marked((0.80 * w, r - 90), (lip_out, r - 90), px, words, (60, r - 80), "end"),
                line((0.80 * w, r), (0.80 * w, r - 100), "disc", 0.9)]  # fmt: skip
    if what == "camber":
        lean = math.radians(12)
        crown: Spot = (-math.sin(lean) * 400, math.cos(lean) * 400)
        return [Stroke(((0, -60), (0, 420)), "soft", 1.0, (5.0, 3.0)), Stroke(((0, 0), crown), "disc", 2.4, name="reading"),
                *marked((0, 400), crown, px, words, (crown[0] - 6, 415), "end")]  # fmt: skip
    if what in ("travel", "droop"):
        move = size["bump_travel_mm"] if what == "travel" else -size["droop_travel_mm"]
        moved = Stroke(tyre_outline(size, move), "soft", 1.2, (5.0, 3.0), True, "", None, "moved wheel")
        return [moved, Dot((0, move), 3.0, "disc", "disc"), line((-150, 0), (0, 0), "disc", 0.9), line((-150, move), (0, move), "disc", 0.9),
                *marked((-140, 0), (-140, move), px, words, (-132, move / 2 - 4), "start")]  # fmt: skip
    if what == "height":
        return [
            line((lip_in, height), (185, height), "disc", 0.9),
            *marked((175, 0), (175, height), px, words, (168, 150), "end"),
        ]
    if what == "return":
        return [*marked((lip_in, height - 8), (lip_out, height - 8), px, words, (lip_out + 6, height - 48), "end")]
    if what == "inside":
        strut = -w - size["gap_mm"]
        tube = area(box(strut - 46, 90, strut, 430), "metal", "strut or damper", hatched=True)
        edge = -half_width(size, 250)
        return [
            tube,
            word((strut - 23, 74), say("strut")),
            *marked((strut, 250 + lift), (edge, 250 + lift), px, words, (edge + 12, 262 + lift), "start"),
        ]
    if what == "above":
        return [area(box(-90, r + lift + size["gap_mm"], 60, r + lift + size["gap_mm"] + 22), "ground", "part above", hatched=True),
                *marked((-10, r + lift), (-10, r + lift + size["gap_mm"]), px, words, (0, r + lift + size["gap_mm"] / 2), "start")]  # fmt: skip
    if height - lift > r - 6:
        shoulder: Spot = (0.86 * w, r - 6 + lift)
        dot = Dot((lip_in, height), 3.5, "disc", "disc")
        return [
            *marked(shoulder, (lip_in, height), px, words, (lip_in - 20, (height + shoulder[1]) / 2 + 4), "end"),
            dot,
        ]
    edge = half_width(size, height - lift)
    return [
        *marked((edge, height), (lip_in, height), px, words, (edge - 12, height - 5), "end"),
        Dot((lip_in, height), 3.5, "disc", "disc"),
    ]


def _rim(size: Mapping[str, float], lift: float) -> list[Item]:
    rim, w = size["rim_mm"], size["width_mm"] / 2 * 0.93
    return [Stroke(((-w, y + lift), (w, y + lift)), "soft", 1.0) for y in (rim, -rim) if y + lift > -90]


def _arch(lip_in: float, lip_out: float, height: float, right: float, px: float) -> list[Item]:
    panel = ((lip_out, height), (lip_out + 5, height + 20), (lip_out + 4, height + 75), (lip_out - 10, height + 130))
    house = ((lip_in, height), (lip_in - 4, height + 35), (lip_in - 45, height + 75), (lip_in - 120, height + 95), (-150, height + 95))  # fmt: skip
    name = word((lip_out + 8, height + 100), say("arch"), "start")
    if (
        name.at[0] + LETTER * name.size_px * len(name.text) * px > right
    ):  # no room beside the panel: in the open below the lip
        name = word((right - 6 * px, height - 30 * px), say("arch"), "end")
    return [
        Stroke(((lip_in, height), (lip_out, height), *panel[1:]), "body", 3.2, name="arch"),
        Stroke(house, "body", 1.4, (5.0, 3.0), name="wheel house"),
        name,
    ]


def from_above(what: str, read: Mapping[str, float], words: str, title: str, description: str) -> Scene:
    """The steered wheel seen from above, ahead upwards.

    Args:
        what: rearward, forward, outboard, inboard: where the gap lies; toe; lock.
        read: Figures of the job by name; ``turn_deg`` is the steer angle in the sense of a right wheel.
        words: At the marked dimension.
        title: For the screen reader.
        description: For the screen reader.
    """
    size = {**TYPICAL, **read}
    turn = math.radians(size.get("turn_deg", 0.0))
    r, w, gap = size["radius_mm"], size["width_mm"] / 2, size["gap_mm"]
    frame = (-330.0, -470.0, 330.0, 500.0)
    px = (frame[2] - frame[0]) / WIDE_PX

    def turned(x: float, y: float) -> Spot:
        return (x * math.cos(turn) + y * math.sin(turn), -x * math.sin(turn) + y * math.cos(turn))

    tread = (
        (w, r - 30),
        (w - 25, r),
        (-w + 25, r),
        (-w, r - 30),
        (-w, -r + 30),
        (-w + 25, -r),
        (w - 25, -r),
        (w, -r + 30),
    )
    corners = [turned(x, y) for x, y in tread]
    items: list[Item] = [
        Stroke(((225, 430), (212, 250), (205, 0), (212, -250), (225, -430)), "body", 3.0, name="arch edge"),
        Stroke(((225, 430), (-60, 440), (-210, 400)), "body", 1.4, (5.0, 3.0), name="liner ahead"),
        Stroke(((225, -430), (-60, -440), (-210, -400)), "body", 1.4, (5.0, 3.0), name="liner behind"),
        area(tuple(corners), "rubber", "tyre"),
        axis(turned(0, -r - 20), turned(0, r + 20)),
        word((0, 466), say("ahead")),
    ]
    front, back = max(corners, key=lambda spot: spot[1]), min(corners, key=lambda spot: spot[1])
    side, inner = max(corners, key=lambda spot: spot[0]), min(corners, key=lambda spot: spot[0])
    if what in ("toe", "lock"):
        reach = turned(0, r + 60)
        upright: Spot = (0, math.hypot(*reach))
        items += [line((0, 0), upright, "soft", 1.0, (5.0, 3.0)), Stroke(((0, 0), reach), "disc", 2.4, name="reading")]
        items += marked(upright, reach, px, words, (reach[0] * 0.5, r * 0.5), "middle")
    elif what == "forward":
        items += marked(front, (front[0], front[1] + gap), px, words, (front[0] - 14, front[1] + gap / 2 - 30), "end")
        items.append(
            area(box(front[0] - 30, front[1] + gap, front[0] + 40, front[1] + gap + 14), "ground", "bumper corner")
        )
    elif what == "rearward":
        items += marked(back, (back[0], back[1] - gap), px, words, (back[0] - 14, back[1] + 40), "middle")
        items.append(area(box(back[0] - 40, back[1] - gap - 14, back[0] + 40, back[1] - gap), "ground", "liner"))
    elif what == "inboard":
        items.append(
            area(box(inner[0] - gap - 30, inner[1] - 40, inner[0] - gap, inner[1] + 40), "metal", "inner part")
        )
        items += marked((inner[0] - gap, inner[1]), inner, px, words, (inner[0] + 14, inner[1] + 12), "start")
    else:
        items += marked(side, (210, side[1]), px, words, (side[0] - 14, side[1] - 6), "end")
    return framed(items, frame, title, description, px)


def at_brake(what: str, read: Mapping[str, float], words: str, title: str, description: str) -> Scene:
    """Half section through spokes, barrel and caliper."""
    axial, radial = read.get("axial_gap_mm", 6.0), read.get("radial_gap_mm", 6.0)
    ramp, start = read.get("ramp_deg", 15.0), read.get("ramp_start_mm", 8.0)
    frame = (-150.0, 95.0, 75.0, 262.0)
    px = (frame[2] - frame[0]) / WIDE_PX
    spoke, barrel = 15.0, 205.0
    right = spoke - max(axial, 1)
    top = barrel - max(radial, 1)
    drop = math.tan(math.radians(ramp)) * 40
    edge = right + start - 30
    inside = ((-140.0, barrel), (edge, barrel), (edge + 40, barrel - drop), (spoke + 4, barrel - drop - 4))
    items: list[Item] = [
        area(((spoke, 95), (spoke, barrel - drop - 16), *inside[::-1], (-140, barrel + 10), (spoke + 30, barrel + 10),
              (spoke + 34, barrel + 28), (spoke + 40, barrel + 28), (spoke + 40, 95)), "metal", "wheel", hatched=True),
        area(((right, 120), (right, top - drop * 0.9), (edge + 6, top), (right - 95, top), (right - 95, 120)), "disc-fill", "caliper"),
        area(box(right - 58, 95, right - 34, 165), "ground", "brake disc"),
        word((right - 66, 140), say("caliper"), "middle"), word((spoke + 26, 106), say("spoke"), "middle"),
        word((-100, barrel + 14), say("barrel")),
    ]  # fmt: skip
    if what == "axial_gap_mm":
        items += marked((right, 150), (spoke, 150), px, words, (right - 6, 156), "end")
    elif what in ("radial_gap_mm", "weight_height_mm"):
        if what == "weight_height_mm":
            items.append(area(box(-110, barrel - 4, -80, barrel), "good-fill", "weight"))
            items += marked((-95, barrel - 4), (-95, barrel), px, words, (-88, barrel - 20), "middle")
        else:
            items += marked((-70, top), (-70, barrel), px, words, (-70, top - 24), "middle")
    elif what == "ramp_deg":
        foot: Spot = (edge, barrel)
        items += [Stroke(((edge - 5, barrel), (edge + 60, barrel)), "disc", 1.0, (5.0, 3.0)),
                  *marked((edge + 40, barrel), (edge + 40, barrel - drop), px, words, (foot[0] + 30, barrel + 36), "middle")]  # fmt: skip
    elif what == "ramp_start_mm":
        items += marked((edge - start, barrel - 2), (edge, barrel - 2), px, words, (edge, barrel + 36), "middle")
    else:
        items += marked((right, 128), (right + 9, 128), px, words, (right - 4, 134), "end")
    return framed(items, frame, title, description, px)


def across_tyre(what: str, read: Mapping[str, float], words: str, title: str, description: str) -> Scene:
    """Half section across tyre and rim, spin axis below, outboard to the right."""
    size = {**TYPICAL, **read}
    r, w, rim, face = size["radius_mm"], size["width_mm"] / 2, size["rim_mm"], size["inset_mm"]
    frame = (-185.0, -22.0, 185.0, r + 66)
    px = (frame[2] - frame[0]) / WIDE_PX
    outline = tuple(spot for spot in tyre_outline(size) if spot[1] > 0)
    half = tuple(sorted((s for s in outline if s[0] > 0), key=lambda s: -s[1]))
    left = tuple((-x, y) for x, y in half[::-1])
    items: list[Item] = [
        area((*left, *half), "rubber", "tyre"),
        Stroke(((-0.93 * w, rim), (-0.9 * w, rim - 14), (0.9 * w, rim - 14), (0.93 * w, rim)), "ink", 2.0, name="rim"),
        area(box(face, 40, face + 16, rim - 14), "metal", "spoke", hatched=True),
        axis((frame[0] + 6, 0), (frame[2] - 6, 0)),
        axis((0, 8), (0, r + 10)),
        word((4, 12), say("rim centre"), "start"),
        word((face + 20, 48), say("mounting face"), "start"),
    ]
    if what == "section_width_mm":
        lines, a, b = feet((-w, (r + rim) / 2), (w, (r + rim) / 2), (0, r - (r + rim) / 2 + 34))
        items += [*lines, *marked(a, b, px, words)]
    elif what == "free_radius_mm":
        items += [line((0, r), (150, r), "disc", 0.9), *marked((145, 0), (145, r), px, words, (138, 150), "end")]
    elif what == "half_width_mm":
        at = min(max(size.get("at_mm", (r + rim) / 2), rim), r - 4)
        reach = half_width(size, at)
        items += [
            *marked((0, at), (reach, at), px, words),
            line((-150, at), (0, at), "soft", 0.9),
            word((-152, at + 4), say("radius"), "start"),
        ]
    elif what == "inset_mm":
        lines, a, b = feet((0, 60), (face, 60), (0, 70))
        items += [*lines, *marked(a, b, px, words)]
    elif what == "overall_width_mm":
        lines, a, b = feet((-0.93 * w, rim), (0.93 * w, rim), (0, -70))
        items += [*lines, *marked(a, b, px, words)]
    else:
        items += marked((0, r - 8), (0, r), px, words, (8, r + 22), "start")
    return framed(items, frame, title, description, px)


def marking(what: str, words: str, title: str, description: str) -> Scene:
    """The wheel seen from the side, with the place where a marking stands."""
    frame = (-360.0, -340.0, 360.0, 350.0)
    px = (frame[2] - frame[0]) / WIDE_PX

    def ring(radius: float) -> tuple[Spot, ...]:
        return tuple((radius * math.cos(n * math.pi / 36), radius * math.sin(n * math.pi / 36)) for n in range(72))

    items: list[Item] = [
        area(ring(320), "rubber", "tyre"),
        area(ring(229), "ground", "rim"),
        area(ring(33), "paper", "bore"),
    ]
    for spoke in range(5):
        turn = math.pi / 2 + spoke * 2 * math.pi / 5
        items.append(
            line((70 * math.cos(turn), 70 * math.sin(turn)), (222 * math.cos(turn), 222 * math.sin(turn)), "soft", 9.0)
        )
    items.append(area(ring(80), "metal", "pad"))
    items += [
        area(tuple((x + 56 * math.cos(n), y + 56 * math.sin(n)) for x, y in ring(8)), "paper", "hole")
        for n in (0.94, 2.2, 3.46, 4.71, 5.97)
    ]
    at: Spot = {"tyre": (0.0, 272.0), "rim": (0.0, -150.0)}.get(what, (45.0, 34.0))
    items += [Dot(at, 12.0, "disc", width_px=3.0, name="reading"), word((0, -334), words)]
    return framed(items, frame, title, description, px)
