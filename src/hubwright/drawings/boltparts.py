"""Areas of a section along one wheel bolt or stud: hub flange, hat, disc, wheel and fastener, mm, outboard to the right.

``x`` is the distance from the seating face of the hub, positive outboard; ``y`` the distance from the fastener's axis.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from hubwright.drawings.scene import DASHED, Group, Hatch, Item, Spot, Stroke, box, line
from hubwright.jobs.fastener_table import LengthRow, Stacked

HOLE_MM = 1.0
"""Air around the shank in disc and wheel, each side; a guess for the picture."""
UNKNOWN_FLANGE_MM, BODY_MM = 12.0, 12.0
CONE_DEG = 60.0


@dataclass(frozen=True)
class Places:
    """Where things begin and end along the axis, mm from the seating face.

    Attributes:
        flange_front, flange_back: Hub flange.
        tip: Inboard end of a bolt, outboard end of a stud.
        pad: Mounting face of the wheel.
        seat: End of the seat (bolts), start of the nut's thread.
        wall: What stands behind the flange, or the bottom of a blind hole; None where not read.
        half: Half height of what is drawn.
    """

    flange_front: float
    flange_back: float
    tip: float
    pad: float
    seat: float
    wall: float | None
    half: float


def places_of(stack: Stacked, row: LengthRow, thickness_mm: float) -> Places:
    """Where everything stands with one length and one disc."""
    front = -(stack.hat_mm or 0.0)
    deep = stack.flange_mm or (None if stack.blind_mm is None else stack.blind_mm + 4.0) or UNKNOWN_FLANGE_MM
    back = front - deep
    wall = None
    if stack.blind_mm is not None:
        wall = front - stack.blind_mm
    elif stack.flange_mm is not None and stack.behind_mm is not None:
        wall = back - stack.behind_mm
    tip = front - row.engaged_mm if stack.kind == "bolt" else front + row.length_mm
    return Places(front, back, tip, thickness_mm, thickness_mm + stack.pad_mm, wall, 1.75 * stack.d_mm)


def mirrored(points: tuple[Spot, ...]) -> tuple[tuple[Spot, ...], tuple[Spot, ...]]:
    """The upper area and the same below the axis."""
    return points, tuple((x, -y) for x, y in points)


def area(
    name: str, points: tuple[Spot, ...], fill: str, hatch: Hatch | None, role: str = "ink", known: bool = True
) -> Group:
    """One part above and below the axis; what is not to scale is dashed."""
    drawn = [
        Stroke(half, role, 1.1, () if known else DASHED, True, fill, hatch if known else None, name)
        for half in mirrored(points)
    ]
    return Group(name, tuple(drawn))


def hub_areas(stack: Stacked, at: Places) -> list[Item]:
    """Flange with its hole, brake disc hat, and what stands behind."""
    d = stack.d_mm / 2
    known = stack.flange_mm is not None or stack.blind_mm is not None
    items: list[Item] = []
    inner = d if stack.kind == "bolt" else 0.0
    shape: tuple[Spot, ...]
    if stack.blind_mm is not None and at.wall is not None:
        shape = ((at.flange_front, inner), (at.wall, inner), (at.wall, 0.0), (at.flange_back, 0.0),
                 (at.flange_back, at.half), (at.flange_front, at.half))  # fmt: skip
    else:
        shape = box(at.flange_back, inner, at.flange_front, at.half)
    items.append(area("hub flange", shape, "metal", "falling", known=known))
    if stack.hat_mm:
        items.append(
            area("brake disc hat", box(at.flange_front, d + HOLE_MM, 0.0, at.half), "ground", "sparse", "soft")
        )
    if at.wall is not None and stack.blind_mm is None and stack.kind == "bolt":
        wall = box(at.wall - 2.5, -at.half, at.wall, at.half)
        items.append(Stroke(wall, "bad", 1.2, (), True, "ground", "rising", "what stands behind"))
    return items


def wheel_areas(stack: Stacked, at: Places, thickness_mm: float) -> list[Item]:
    """Disc and wheel, the wheel's seat cut as the fastener's."""
    d = stack.d_mm / 2 + HOLE_MM
    items: list[Item] = []
    if thickness_mm > 0:
        items.append(area("disc", box(0.0, d, thickness_mm, at.half), "disc-fill", "rising", "disc"))
    rise, wide = seat_size(stack)
    pad = at.seat if stack.kind == "bolt" else max(at.seat, at.pad + 1.0)
    wheel: tuple[Spot, ...] = ((at.pad, d), (pad, d), (pad + 1.5, d), (pad + 1.5, at.half), (at.pad, at.half))
    if rise > 0:
        outside = pad + rise + 1.5
        wheel = (
            (at.pad, d),
            (pad, d),
            (pad + rise, wide),
            (outside, wide + 0.5),
            (outside, at.half),
            (at.pad, at.half),
        )
    items.append(area("wheel", wheel, "ground", "sparse"))
    return items


def seat_size(stack: Stacked) -> tuple[float, float]:
    """Length of the seat along the axis and its outer radius, as drawn: 60 deg cone, ball of its radius, flat."""
    d = stack.d_mm / 2
    wide = 1.75 * d
    if stack.seat == "cone":
        return (wide - d) / math.tan(math.radians(CONE_DEG / 2)), wide
    if stack.seat == "ball":
        radius = stack.seat_radius_mm or 13.0
        wide = min(wide, radius * 0.95)
        return math.sqrt(radius**2 - d**2) - math.sqrt(radius**2 - wide**2) if radius > wide > d else 4.0, wide
    return 0.0, wide


def bolt_areas(stack: Stacked, at: Places, row: LengthRow) -> list[Item]:
    """Shank with thread, seat and head; the thread in use stands out."""
    d, (rise, wide) = stack.d_mm / 2, seat_size(stack)
    shank = box(at.tip, 0.0, at.seat, d)
    head_from = at.seat + rise
    seat: tuple[Spot, ...]
    if rise > 0:
        seat = ((at.seat, d), (head_from, wide), (head_from, 0.0), (at.seat, 0.0))
    else:
        seat = box(at.seat, 0.0, at.seat + 3.0, 2.1 * d)
        head_from = at.seat + 3.0
    head = box(head_from, 0.0, head_from + 0.8 * stack.d_mm, 1.45 * d)
    if row.engaged_mm <= 0:
        return _metal("bolt", (shank, seat, head))
    return [*_metal("bolt", (shank, seat, head)), *in_use(stack, max(at.tip, at.flange_back), at.flange_front)]


def nut_areas(stack: Stacked, at: Places, row: LengthRow) -> list[Item]:
    """Stud, its lead, and the nut, open or closed."""
    d, (rise, wide) = stack.d_mm / 2, seat_size(stack)
    stud = box(at.flange_back, 0.0, at.tip, d)
    depth = stack.closed_mm if stack.closed_mm is not None else 1.7 * stack.d_mm
    end = at.seat + depth
    outer = 1.55 * d
    cone = ((at.seat, d), (at.seat + rise, wide)) if rise > 0 else ((at.seat, d), (at.seat, 2.0 * d))
    nut = (*cone, (cone[1][0] + 1.0, wide), (cone[1][0] + 1.0, outer), (end, outer), (end, d))
    items: list[Item] = [*_metal("stud", (stud,)), area("nut", nut, "metal", "dots")]
    if stack.closed_mm is not None:
        cap = box(end, -outer, end + 2.0, outer)
        items.append(Stroke(cap, "ink", 1.1, (), True, "metal", "dots", "closed end"))
    full = at.tip - stack.lead_mm
    items += in_use(stack, at.seat, min(max(full, at.seat), end))
    if stack.lead_mm > 0:
        items += [line((full, -d), (full, d), "soft", 0.9, DASHED)]
    return items


def in_use(stack: Stacked, low: float, high: float) -> list[Item]:
    """The thread in use: filled, with its turns as strokes."""
    if high <= low:
        return []
    d = stack.d_mm / 2
    items: list[Item] = [Stroke(box(low, -d, high, d), "good", 1.6, (), True, "good-fill", name="thread in use")]
    x = low + stack.pitch_mm
    while x < high - 1e-6:
        items.append(line((x, -d), (x - 0.5 * stack.pitch_mm, d), "good", 0.7))
        x += stack.pitch_mm
    return items


def _metal(name: str, shapes: tuple[tuple[Spot, ...], ...]) -> list[Item]:
    return [
        Group(name, tuple(Stroke(half, "ink", 1.1, (), True, "metal", None, name) for half in mirrored(shape)))
        for shape in shapes
    ]
