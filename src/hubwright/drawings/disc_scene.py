"""The drawing of a disc for the machine shop: front view from the wheel's side, section A-A through the axis."""

from __future__ import annotations

import math

from hubwright.drawings.frame import SCALES
from hubwright.drawings.machine_disc import MachineDisc, Size, inner_profile, outer_profile, whole_profile
from hubwright.drawings.marks import dimension, paragraph, shortened, wrapped
from hubwright.drawings.scene import CHAIN, Anchor, Group, Item, Label, Ring, Scene, Spot, Stroke, line
from hubwright.language import say
from hubwright.quantities.text import pointed

PAPER_MM = 178.0
LETTER_MM = 3.2
"""Height of letters on paper."""
PX_ON_PAPER_MM = LETTER_MM / 12.0
NAMES_PX, TEXT_PX, STEP_PX = 170.0, 11.0, 16.0
SIDE_PX, BETWEEN_PX, RIGHT_PX, TOP_PX, BOTTOM_PX = 20.0, 128.0, 190.0, 74.0, 82.0


def disc_scene(
    made: MachineDisc, title: str, *, on_paper: bool = True, title_block: tuple[tuple[str, str], ...] = ()
) -> Scene:
    """Both views with every dimension, mm, at the largest usual scale that fits the paper.

    One unit is one mm of the disc. A dimension is a group called ``dimension NAME`` whose first stroke runs between the
    two places measured. A title block, names and values, stands below the views.
    """
    name, factor, px = _scale(made)
    front_x = 0.0
    section_x = made.outer.mm / 2 + BETWEEN_PX * px
    items: list[Item] = [*_front(made, px), *_section(made, section_x, px)]
    left = front_x - made.outer.mm / 2 - SIDE_PX * px
    right = section_x + made.depth_mm + RIGHT_PX * px
    top, bottom = made.outer.mm / 2 + TOP_PX * px, -made.outer.mm / 2 - BOTTOM_PX * px
    words = say("Scale {scale}. Millimetres.", scale=name) if on_paper else say("Millimetres, full size.")
    items += [
        Label((left + 6 * px, top - 16 * px), title, 14.0, bold=True),
        Label((left + 6 * px, top - 34 * px), words, 12.0, "start", "soft"),
    ]
    if title_block:
        rows, bottom = _block(title_block, (left + 6 * px, right - 6 * px), bottom, px)
        items += rows
    text = say("Front view from the wheel's side and section A-A through the axis.")
    return Scene(
        "disc", title, text, tuple(items), left, bottom, right, top, px, (right - left) * factor
    )  # fmt: skip


def _block(rows: tuple[tuple[str, str], ...], sides: Spot, top: float, px: float) -> tuple[list[Item], float]:
    """The title block under a line, the same name only once; returns where it ends."""
    left, right = sides
    items: list[Item] = [line((left, top), (right, top), "ink", 1.4)]
    y, before = top - 6 * px, ""
    for name, value in rows:
        lines = wrapped(value, (right - left) / px - NAMES_PX, TEXT_PX) or [""]
        y -= STEP_PX * px
        if name != before:
            items.append(Label((left, y), shortened(name, 26), TEXT_PX, role="soft"))
        items += paragraph((left + NAMES_PX * px, y), lines, px, TEXT_PX)
        y -= (len(lines) - 1) * TEXT_PX * 1.32 * px
        before = name
    bottom = y - 8 * px
    items.append(line((left, bottom), (right, bottom), "ink", 1.4))
    return [Group("title block", tuple(items))], bottom - 6 * px


def _scale(made: MachineDisc) -> tuple[str, float, float]:
    for name, factor in SCALES:
        px = PX_ON_PAPER_MM / factor
        wide = made.outer.mm + made.depth_mm + (SIDE_PX + BETWEEN_PX + RIGHT_PX) * px
        if factor <= 1.0 and wide * factor <= PAPER_MM:
            return name, factor, px
    name, factor = SCALES[-1]
    return name, factor, PX_ON_PAPER_MM / factor


def _front(made: MachineDisc, px: float) -> list[Item]:
    outer, circle = made.outer.mm / 2, made.circle.mm / 2
    reach = outer + 12 * px
    items: list[Item] = [
        Ring((0, 0), outer, "ink", 1.8, name="outside"),
        Ring((0, 0), circle, "ink", 0.7, CHAIN, "hole circle"),
        line((-reach, 0), (reach, 0), "ink", 0.7, CHAIN),
        line((0, -reach), (0, reach), "ink", 0.7, CHAIN),
    ]
    if made.lip_outer is not None and made.lip_inner is not None:
        items.append(Ring((0, 0), made.lip_outer.mm / 2, "ink", 1.8, name="lip"))
        items.append(Ring((0, 0), min(made.lip_inner.mm, made.bore.mm) / 2, "ink", 1.8, name="lip inside"))
        if made.recess is not None:
            items.append(Ring((0, 0), made.bore.mm / 2, "ink", 0.9, (5.0, 3.0), "bore"))
    else:
        items.append(Ring((0, 0), made.bore.mm / 2, "ink", 1.8, name="bore"))
    for number in range(made.holes):
        angle = math.radians(90 + 360 * number / made.holes)
        at = (circle * math.cos(angle), circle * math.sin(angle))
        items.append(Ring(at, made.hole.mm / 2, "ink", 1.8, name="hole"))
    items += [
        Label((6 * px, outer + 16 * px), "A", 15.0, "start", "ink", True),
        Label((6 * px, -outer - 24 * px), "A", 15.0, "start", "ink", True),
    ]
    hole, circle_words = figure(made.hole.mm), figure(made.circle.mm)
    holes = say("{count} × Ø{hole} on Ø{circle}, evenly spaced", count=made.holes, hole=hole, circle=circle_words)
    y = -outer - 48 * px
    items.append(Label((-outer, y), holes, 12.0))
    chamfer = say("Bore chamfered {size} × 45° on the hub's side", size=figure(made.chamfer.mm))
    items.append(Label((-outer, y - 17 * px), chamfer, 12.0))
    return items


def _section(made: MachineDisc, x: float, px: float) -> list[Item]:
    even = made.holes % 2 == 0
    areas = [(inner_profile(made), 1), (outer_profile(made), 1)]
    areas += [(inner_profile(made), -1), (outer_profile(made), -1)] if even else [(whole_profile(made), -1)]
    items: list[Item] = [
        Stroke(tuple((x + a, sign * r) for a, r in points), "ink", 1.8, (), True, "metal", "rising", "section")
        for points, sign in areas
    ]
    outer, end = made.outer.mm / 2, x + made.depth_mm
    items.append(line((x - 14 * px, 0), (end + 14 * px, 0), "ink", 0.7, CHAIN))
    holes = (1, -1) if even else (1,)
    for sign in holes:
        middle = sign * made.circle.mm / 2
        items.append(line((x - 8 * px, middle), (x + made.thickness.mm + 8 * px, middle), "ink", 0.7, CHAIN))
    items.append(Label((x + made.thickness.mm / 2, outer + 44 * px), "A-A", 15.0, "middle", "ink", True))
    items.append(Label((x - 6 * px, -outer - 62 * px), say("hub's side"), 12.0, "end", "soft"))
    items.append(Label((end + 6 * px, -outer - 62 * px), say("wheel's side"), 12.0, "start", "soft"))
    items += _lengths(made, x, px)
    items += _diameters(made, x, px)
    return items


def _lengths(made: MachineDisc, x: float, px: float) -> list[Item]:
    outer, t = made.outer.mm / 2, made.thickness.mm
    items: list[Item] = [_across("thickness", (x, outer), (x + t, outer), outer + 22 * px, figure(t), px)]
    if made.lip_length is not None and made.lip_outer is not None:
        foot = -made.lip_outer.mm / 2
        items.append(
            _across(
                "lip length", (x + t, foot), (x + made.depth_mm, foot), -outer - 16 * px, figure(made.lip_length.mm), px
            )
        )
    if made.recess is not None:
        low = -made.bore.mm / 2
        items.append(
            _across("recess", (x, low), (x + made.recess.mm, low), -outer - 34 * px, figure(made.recess.mm), px)
        )
    return items


def _across(name: str, a: Spot, b: Spot, y: float, text: str, px: float) -> Group:
    """A length along the axis, measured at a height clear of the section."""
    first, second = (a[0], y), (b[0], y)
    legs = [line(spot, (spot[0], y + math.copysign(4 * px, y)), "soft", 0.6) for spot in (a, b)]
    label = Label((b[0] + 17 * px, y - 4 * px), text, 12.0, "start", "ink", True)
    return Group(f"dimension {name}", (*dimension(first, second, px, "ink", name), *legs, label), text)


def _diameters(made: MachineDisc, x: float, px: float) -> list[Item]:
    """Diameters beside the section: of the hub's side to the left, of the wheel's side to the right."""
    end = x + made.depth_mm
    items: list[Item] = [_upright("bore", made.bore, x, x - 30 * px, "end", px)]
    place = end + 30 * px
    if made.lip_inner is not None and made.lip_inner.mm < made.bore.mm:
        items.append(_upright("lip inside", made.lip_inner, end, place, "start", px, -22.0))
        place += 46 * px
    if made.lip_outer is not None:
        items.append(_upright("lip", made.lip_outer, end, place, "start", px, 22.0))
        place += 76 * px
    items.append(_upright("outside", made.outer, x + made.thickness.mm, place, "start", px))
    return items


def _upright(name: str, size: Size, foot: float, at: float, side: Anchor, px: float, lift_px: float = 0.0) -> Group:
    r = size.mm / 2
    legs = [line((foot, y), (at + math.copysign(4 * px, at - foot), y), "soft", 0.6) for y in (r, -r)]
    text = f"Ø{figure(size.mm)} {size.fit}".strip()
    shift = 5 * px if side == "start" else -5 * px
    label = Label((at + shift, lift_px * px), text, 12.0, side, "ink", True)
    return Group(f"dimension {name}", (*dimension((at, -r), (at, r), px, "ink", name), *legs, label), text)


def figure(value_mm: float) -> str:
    """A size in mm, three decimals at most."""
    return pointed(f"{value_mm:.3f}".rstrip("0").rstrip("."))
