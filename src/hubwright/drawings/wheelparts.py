"""Tyre, rim, spokes and the bodywork near them as strokes, in the frame of one corner."""

from __future__ import annotations

from hubwright.drawings.frame import Frame
from hubwright.drawings.hubparts import PAD_MM
from hubwright.drawings.outline import Outline
from hubwright.drawings.places import Place
from hubwright.drawings.scene import DASHED, Dot, Group, Item, Label, Stroke
from hubwright.language import say

Knots = tuple[tuple[float, float], ...]
UNKNOWN_RETURN_MM, PANEL_MM = 10.0, 26.0


def tyre(frame: Frame, outline: Outline, plane_mm: float) -> list[Item]:
    """The tyre about its centre plane: solid where it was read, dashed where it is assumed, readings as rings."""
    if not outline.knots or outline.radius is None:
        return []
    profile = outline.profile()
    whole = tuple((plane_mm + half, r) for r, half in profile) + tuple(
        (plane_mm - half, r) for r, half in profile[::-1]
    )
    items: list[Item] = [Stroke(frame.all(whole), "", 0.0, (), True, "rubber", name="tyre")]
    for piece, known in _pieces(outline, profile):
        solid = known and outline.inset.known
        points = frame.all(tuple((plane_mm + half, r) for r, half in piece))
        items.append(Stroke(points, "ink", 1.6 if solid else 1.0, () if solid else DASHED, name="tyre, outer side"))
    inner = frame.all(tuple((plane_mm - half, r) for r, half in profile))
    items.append(Stroke(inner, "ink", 1.0, DASHED, name="tyre, inner side"))
    top, half = profile[-1]
    solid = outline.radius.known and outline.inset.known
    tread = frame.all(((plane_mm - half, top), (plane_mm + half, top)))
    items.append(Stroke(tread, "ink", 1.6 if solid else 1.0, () if solid else DASHED, name="tread"))
    rings = tuple(Dot(frame.at((plane_mm + half, r)), 2.6, "ink", "paper", 1.0) for r, half in outline.marks)
    return [*items, Group("half widths read", rings, say("half widths read"))] if rings else items


def _pieces(outline: Outline, profile: Knots) -> list[tuple[Knots, bool]]:
    """The profile cut at the ends of the readings, with whether each piece was read."""
    low, high = outline.read_from_mm, outline.read_to_mm
    if low is None or high is None:
        return [(profile, False)]
    cuts = ((profile[0][0], low, False), (low, high, True), (high, profile[-1][0], False))
    pieces = [(tuple(knot for knot in profile if first <= knot[0] <= last), read) for first, last, read in cuts]
    return [(piece, read) for piece, read in pieces if len(piece) > 1]


def rim(frame: Frame, outline: Outline, plane_mm: float, pad_edge_mm: float, thickness_mm: float) -> list[Item]:
    """Bead seats and flanges by the designation, the rest schematic."""
    if outline.rim is None:
        return []
    half, seat, flange = outline.rim.width_mm / 2, outline.rim.seat_radius_mm, outline.rim.flange_radius_mm
    over = max(outline.rim.overall.value / 2, half + 4.0)
    well = seat - 17.0
    dash = () if outline.inset.known else DASHED
    items: list[Item] = []
    for sign in (1.0, -1.0):
        bead = ((half - 20, seat - 2), (half - 3, seat), (half, seat + 3), (half, flange - 4), (half + 4, flange))
        edge = ((half + 4, flange), (over - 3, flange - 1), (over, flange - 5), (over - 1, flange - 11))
        for points, name, known in (
            (bead, say("bead seat"), True),
            (edge, say("rim flange"), outline.rim.overall.known),
        ):
            place = frame.all(tuple((plane_mm + sign * y, r) for y, r in points))
            items.append(Stroke(place, "ink", 2.2, dash if known else DASHED, name=name))
    span = half - 20.0
    barrel = ((span, seat - 2), (span - 0.2 * half, well), (span - 0.45 * half, well), (span - 0.6 * half, seat - 5), (-span, seat - 2))  # fmt: skip
    items.append(
        Stroke(frame.all(tuple((plane_mm + y, r) for y, r in barrel)), "soft", 1.2, DASHED, name="barrel, schematic")
    )
    face = plane_mm + span - 0.28 * half
    spoke = ((thickness_mm, pad_edge_mm), (face - 14, well), (face + 6, well), (thickness_mm + PAD_MM, pad_edge_mm))
    items.append(Stroke(frame.all(spoke), "soft", 1.0, DASHED, True, name="spoke, schematic"))
    return items


def body(frame: Frame, place: Place, letter: str) -> list[Item]:
    """The edge of the bodywork in one state: return to scale, panel schematic, and its letter and gap."""
    inward = place.inward
    up = (inward[1], -inward[0]) if place.outward else (-inward[1], inward[0])
    back = place.return_mm if place.return_mm is not None else UNKNOWN_RETURN_MM
    corner = (place.at[0] - inward[0] * back, place.at[1] - inward[1] * back)
    end = (corner[0] + up[0] * PANEL_MM, corner[1] + up[1] * PANEL_MM)
    known = place.return_mm is not None
    spot = frame.at(place.at)
    items: list[Item] = []
    if back > 0:
        items.append(Stroke(frame.all((place.at, corner)), "body", 2.4, () if known else DASHED, name=f"arch lip, {place.state}"))  # fmt: skip
    items.append(Stroke(frame.all((corner, end)), "body", 1.6, DASHED, name="panel, schematic"))
    items.append(Dot(spot, 3.2, "body", "paper" if place.parked else "body", 1.4, f"point {letter}"))
    return items


def letter_label(frame: Frame, place: Place, text: str, px: float) -> Label:
    """Letter and gap beside the bodywork, on the side away from the tyre."""
    back = place.return_mm if place.return_mm is not None else UNKNOWN_RETURN_MM
    away = frame.at((place.at[0] - place.inward[0] * back, place.at[1] - place.inward[1] * back))
    sign = frame.sign if place.outward else -frame.sign
    return Label((away[0] + sign * 8 * px, away[1] - 4 * px), text, 12.0, frame.outer if place.outward else frame.inner, "ink", True)  # fmt: skip
