"""Where to measure: a corner seen from behind, and the hub in half section, with a letter at each reading. Not to scale."""

from __future__ import annotations

from hubwright.drawings.marks import dimension
from hubwright.drawings.scene import CHAIN, DASHED, Group, Item, Label, Scene, Spot, Stroke, box, line
from hubwright.language import say

LETTER_PX = 15.0


def corner_sketch() -> Scene:
    """Wheel, arch and strut of a right corner seen from behind: A, B, and the gaps 1 and 2."""
    outer = ((182, 0), (188, 6), (192, 60), (192, 120), (188, 174), (182, 180))
    tyre = (*outer, *((310 - x, y) for x, y in reversed(outer)))
    arch = ((204, 166), (212, 164), (214, 200), (208, 232), (186, 250), (150, 256))
    items: list[Item] = [
        line((20, 0), (290, 0), "ink", 1.6),
        Stroke(tyre, "ink", 1.4, (), True, "rubber", name="tyre"),
        Stroke(box(118, 84, 136, 96), "ink", 1.0, (), True, "metal", name="hub"),
        line((40, 90), (280, 90), "ink", 0.8, CHAIN),
        Stroke(arch, "body", 3.0, name="arch"),
        Stroke(box(88, 112, 102, 240), "soft", 1.2, DASHED, True, "ground", name="strut"),
        line((208, 164), (208, 40), "soft", 0.8, DASHED),
        Label((212, 34), say("plumb line"), 10.5, "start", "soft"),
        Label((95, 100), say("strut"), 10.5, "middle", "soft"),
        Label((290, 78), say("wheel centre"), 10.5, "end", "soft"),
        Label((155, 264), say("arch"), 10.5, "middle", "soft"),
        Label((290, -14), say("outboard ›"), 11.0, "end", "ink", True),
        *_dimension((262, 90), (262, 165), "A", (272, 122)),
        line((212, 165), (268, 165), "faint", 0.8),
        *_dimension((188, 206), (208, 206), "B", (198, 214)),
        line((188, 176), (188, 210), "faint", 0.8),
        *_dimension((191, 150), (205, 165), "1", (222, 146)),
        *_dimension((102, 140), (118, 140), "2", (110, 150)),
    ]
    title = say("Where to measure at the corner")
    text = say(
        "A: wheel centre to arch edge. B: arch edge beyond the tread. 1: tyre to arch lip, the shortest way. "
        "2: tyre to strut, arm or hose."
    )
    return Scene("where", title, text, (Group("where", tuple(items), title),), 10, -24, 300, 280)


def hub_sketch() -> Scene:
    """Half section of a hub with brake and wheel: C to K."""
    items: list[Item] = [
        Stroke(box(96, 0, 122, 120), "ink", 1.3, (), True, "metal", "falling", "flange"),
        Stroke(box(122, 0, 158, 42), "ink", 1.3, (), True, "metal", "falling", "spigot"),
        Stroke(box(158, 0, 174, 26), "ink", 1.3, (), True, "metal", "falling", "axle end"),
        Stroke(box(58, 20, 70, 150), "soft", 1.0, DASHED, True, "ground", name="behind"),
        Stroke(box(90, 86, 176, 98), "ink", 1.1, (), True, "paper", name="stud"),
        Stroke(box(128, 158, 190, 206), "ink", 1.2, (), True, "ground", name="caliper"),
        Stroke(((206, 60), (214, 232), (70, 232)), "ink", 2.4, name="wheel"),
        line((40, 0), (250, 0), "ink", 0.8, CHAIN),
        Label((159, 178), say("caliper"), 10.5, "middle", "ink"),
        Label((220, 200), say("wheel"), 10.5, "start", "soft"),
        Label((250, 244), say("outboard ›"), 11.0, "end", "ink", True),
        *_dimension((190, 182), (211, 182), "C", (201, 190)),
        *_dimension((150, 206), (150, 232), "D", (162, 214)),
        *_dimension((230, 0), (230, 42), "E/2", (252, 14)),
        line((158, 42), (236, 42), "faint", 0.8),
        *_dimension((122, -18), (158, -18), "F", (140, -38)),
        *_dimension((158, -18), (174, -18), "G", (172, -38)),
        *_dimension((96, 134), (122, 134), "H", (109, 141)),
        *_dimension((70, 134), (96, 134), "I", (83, 141)),
        *_dimension((122, 110), (176, 110), "K", (150, 116)),
        line((176, 98), (176, 114), "faint", 0.8),
        line((122, 0), (122, -22), "faint", 0.8),
        line((158, 0), (158, -22), "faint", 0.8),
        line((174, 0), (174, -22), "faint", 0.8),
    ]
    title = say("Where to measure at the hub")
    text = say(
        "C: spoke to caliper. D: barrel to caliper. E: spigot, diameter. F: its length. G: axle end beyond it. "
        "H: flange. I: air behind it. K: stud beyond the face."
    )
    return Scene("where", title, text, (Group("where", tuple(items), title),), 30, -48, 320, 256)


def _dimension(a: Spot, b: Spot, letter: str, at: Spot) -> tuple[Item, ...]:
    return (*dimension(a, b, 1.0, "ink", f"reading {letter}"), Label(at, letter, LETTER_PX, "middle", "ink", True))
