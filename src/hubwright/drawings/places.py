"""Where the points around a wheel lie, seen from the hub: parked, and at the pinch.

A point is not measured in space; its gap is. So it is put on the outline at its height, one gap away, in the state in
which the gap was read, and then turned into the hub frame, where the wheel stands still and the body moves.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from hubwright.checks.clearance import Room, Swept, case_of
from hubwright.checks.gaps import SAME_STEER_DEG, camber_at
from hubwright.drawings.outline import Outline
from hubwright.language import say
from hubwright.language.part_words import direction_word
from hubwright.language.place_words import place_word
from hubwright.parts.job import Axle

NEAR_PARKED_MM = 3.0


@dataclass(frozen=True)
class Place:
    """A point in one state.

    Attributes:
        name, state: Which point, and when, in words.
        parked: Whether this is the parked state.
        at: Its place in the hub frame, outboard and radius, mm.
        inward: Unit vector from the point to the tyre, same frame.
        gap_mm: Free air with the disc fitted and the work done.
        need_mm: What must be left there.
        bare_mm: Free air without disc.
        return_mm: How far the arch lip returns, less what the work takes; None = not measured.
        height_mm: Above the wheel centre in this state.
        outward: Whether it lies outboard.
    """

    name: str
    state: str
    parked: bool
    at: tuple[float, float]
    inward: tuple[float, float]
    gap_mm: float
    need_mm: float
    bare_mm: float
    return_mm: float | None
    height_mm: float
    outward: bool


def places_of(
    axle: Axle, room: Room, outline: Outline, thickness_mm: float
) -> tuple[tuple[Place, ...], tuple[str, ...]]:
    """The places that lie in the plane of the section, and one sentence for each point that does not."""
    found: list[Place] = []
    left_out: list[str] = []
    for swept in room.swept:
        curve, point = swept.curve, swept.curve.point
        if abs(curve.steer_deg) > SAME_STEER_DEG:
            left_out.append(say("{point}: read steered, not in this plane.", point=place_word(point.name)))
        elif point.direction not in ("outboard", "inboard"):
            left_out.append(
                say(
                    "{point}: lies {direction} of the tyre, not in this plane.",
                    point=place_word(point.name),
                    direction=direction_word(point.direction),
                )
            )
        elif point.height_mm is None:
            left_out.append(
                say("{point}: height above the wheel centre not measured, so not drawn.", point=place_word(point.name))
            )
        elif not outline.knots:
            left_out.append(say("{point}: no tyre to draw its gap from.", point=place_word(point.name)))
        else:
            states = {int(swept.slack_at(thickness_mm).argmin()): False}
            parked = int(np.abs(curve.travel_mm).argmin())
            if abs(float(curve.travel_mm[parked])) <= NEAR_PARKED_MM:
                states[parked] = True
            found += [_place(axle, swept, outline, thickness_mm, state, flag) for state, flag in sorted(states.items())]
    return tuple(found), tuple(dict.fromkeys(left_out))


def surface_mm(outline: Outline, height_mm: float, camber_deg: float, sign: float) -> float:
    """How far the tyre stands out sideways at a height above the wheel centre, leaning with its camber.

    The outline is turned by the camber, ``(w cos c + r sin c, -w sin c + r cos c)`` outboard and up; the radius whose
    height fits is found by repeated substitution. Source: derived.
    """
    camber = math.radians(camber_deg)
    radius = height_mm
    for _ in range(8):
        radius = (height_mm + sign * outline.half_width(radius) * math.sin(camber)) / math.cos(camber)
    return sign * outline.half_width(radius) * math.cos(camber) + radius * math.sin(camber)


def _place(axle: Axle, swept: Swept, outline: Outline, thickness_mm: float, state: int, parked: bool) -> Place:
    curve, point = swept.curve, swept.curve.point
    travel = float(curve.travel_mm[state])
    camber_deg = float(camber_at(axle, curve.side, np.array([travel]))[0])
    assert point.height_mm is not None  # asked before
    height = point.height_mm.value - (0.0 if point.kind == "carried" else travel)
    sign = 1.0 if point.direction == "outboard" else -1.0
    bare = float(curve.gap_mm[state]) + swept.gain_mm
    out = surface_mm(outline, height, camber_deg, sign) + sign * bare
    camber = math.radians(camber_deg)
    axial, radius = (
        out * math.cos(camber) - height * math.sin(camber),
        out * math.sin(camber) + height * math.cos(camber),
    )
    return Place(
        place_word(point.name),
        case_of(swept, state).state,
        parked,
        (axial - outline.inset.value, radius),
        (-sign * math.cos(camber), -sign * math.sin(camber)),
        bare - float(curve.push[state]) * thickness_mm,
        float(swept.margin_mm + swept.compliance_mm[state] + swept.guard_mm[state]),
        bare,
        None if point.return_mm is None else max(point.return_mm - swept.gain_mm, 0.0),
        height,
        sign > 0,
    )
