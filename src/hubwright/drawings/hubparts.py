"""Half sections of hub, disc and wheel pad above the spin axis, in the hub frame: (outboard, radius) in mm."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.drawings.figures import Figure, Standing, read
from hubwright.drawings.scene import Hatch, Spot, box
from hubwright.engineering.centring.spigot import plain_engagement_mm
from hubwright.errors import BadInput
from hubwright.language import say
from hubwright.parts.hole_circle import read_hole_circle
from hubwright.parts.hub import Hub
from hubwright.parts.shop import StockDisc
from hubwright.parts.wheel import Wheel

AROUND_BOLTS_MM = 15.0
"""Metal outside the bolt circle; a guess for the picture."""
UNKNOWN_CIRCLE_MM, UNKNOWN_FLANGE_MM, UNKNOWN_SPIGOT_MM, UNKNOWN_BORE_MM = 110.0, 12.0, 10.0, 65.0
PAD_MM, HAT_DEPTH_MM, UNKNOWN_LIP_MM, LIP_WALL_MM = 16.0, 34.0, 8.0, 3.0
"""Shapes nobody is asked to measure or has not measured; guesses for the picture."""


@dataclass(frozen=True)
class Part:
    """One area of the half section.

    Attributes:
        name: What it is.
        points: Its corners.
        role, fill, hatch: How it looks.
        known: Whether its size was read; else all of its outline is dashed and nothing hatched.
        sure: The part of the outline that is to scale even where the rest is schematic; empty = all of it.
    """

    name: str
    points: tuple[Spot, ...]
    role: str
    fill: str
    hatch: Hatch | None
    known: bool
    sure: tuple[Spot, ...] = ()


@dataclass(frozen=True)
class HubFigures:
    """Figures of the joint, known or not. ``pilot_mm`` is what is left of the spigot in the wheel; None = not known."""

    circle: Figure
    spigot_diameter: Figure
    spigot_length: Figure
    nose: Figure
    flange: Figure
    hat: Figure
    bore: Figure
    chamfer: Figure
    pilot_mm: float | None

    @property
    def rim_radius_mm(self) -> float:
        """Outer radius of flange and disc, as drawn."""
        return max(self.circle.value / 2 + AROUND_BOLTS_MM, self.spigot_diameter.value / 2 + 12.0)


def figures_of(hub: Hub, wheel: Wheel, disc: StockDisc | None, thickness_mm: float) -> HubFigures:
    """The figures of one joint; what is missing gets a drawn value and its name."""
    bore = read(
        say("bore of the wheel"),
        wheel.bore_mm,
        hub.spigot_diameter_mm.value if hub.spigot_diameter_mm else UNKNOWN_BORE_MM,
    )
    spigot = read(say("spigot diameter"), hub.spigot_diameter_mm, bore.value)
    pilot = None
    lipped = disc is not None and disc.kind != "plain"
    if hub.spigot_length_mm is not None and wheel.bore_chamfer_mm is not None and not lipped:
        pilot = plain_engagement_mm(hub.spigot_length_mm.value, thickness_mm, wheel.bore_chamfer_mm.value)
    return HubFigures(
        _circle(hub, wheel),
        spigot,
        read(say("spigot length"), hub.spigot_length_mm, UNKNOWN_SPIGOT_MM),
        read(say("axle end beyond the spigot"), hub.nose_length_mm),
        read(say("hub flange"), hub.flange_thickness_mm, UNKNOWN_FLANGE_MM),
        read(say("brake disc hat"), hub.hat_thickness_mm),
        bore,
        read(say("chamfer of the bore"), wheel.bore_chamfer_mm),
        pilot,
    )


def _circle(hub: Hub, wheel: Wheel) -> Figure:
    for text in (hub.bolt_circle, wheel.bolt_circle):
        if text:
            try:
                return Figure(say("bolt circle"), read_hole_circle(text).diameter_mm, Standing.MARKED)
            except BadInput:
                continue
    return Figure(say("bolt circle"), UNKNOWN_CIRCLE_MM, Standing.MISSING)


def hub_parts(hub: Hub, figures: HubFigures) -> list[Part]:
    """Brake disc hat, flange, spigot and axle end."""
    edge, spigot = figures.rim_radius_mm, figures.spigot_diameter.value / 2
    face = -figures.hat.value
    length = figures.spigot_length.value
    back = face - figures.flange.value
    flange, stub = box(back, 0.0, face, edge), box(face, 0.0, length, spigot)
    sides, end = ((back, edge), (back, 0.0), (face, 0.0)), ((face, spigot), (length, spigot), (length, 0.0))
    whole = figures.spigot_length.known and figures.spigot_diameter.known
    parts = [
        Part("hub flange", flange, "ink", "metal", "falling", figures.flange.known, sides),
        Part("spigot", stub, "ink", "metal", "falling", whole, end),
    ]
    parts.append(Part("seating face", ((face, spigot), (face, edge)), "ink", "", None, True))
    if figures.nose.value > 0:
        diameter = read(say("axle end"), hub.nose_diameter_mm, spigot * 1.6)
        radius = min(diameter.value / 2, 200.0)
        nose = box(length, 0.0, length + figures.nose.value, radius)
        parts.append(Part("axle end", nose, "ink", "metal", "falling", figures.nose.known and diameter.known))
    if figures.hat.value > 0:
        hat = figures.hat.value
        wall = edge + 8.0
        shape = ((0.0, spigot), (0.0, wall), (-HAT_DEPTH_MM, wall), (-HAT_DEPTH_MM, wall - hat), (-hat, wall - hat), (-hat, spigot))  # fmt: skip
        parts.insert(0, Part("brake disc hat", shape, "soft", "ground", None, False))
    return parts


def disc_parts(figures: HubFigures, disc: StockDisc | None, thickness_mm: float) -> list[Part]:
    """The disc: a ring, with its lip where it has one."""
    if thickness_mm <= 0:
        return []
    spigot, edge = figures.spigot_diameter.value / 2, figures.rim_radius_mm
    sure = ((0.0, edge), (0.0, spigot), (thickness_mm, spigot), (thickness_mm, edge))
    ring = Part("disc", box(0.0, spigot, thickness_mm, edge), "disc", "disc-fill", "rising", True, sure)
    if disc is None or disc.kind == "plain":
        return [ring]
    outer = (disc.lip_outer_mm or figures.bore.value) / 2
    inner = disc.lip_inner_mm / 2 if disc.lip_inner_mm else outer - LIP_WALL_MM
    long = disc.lip_length_mm if disc.lip_length_mm is not None else UNKNOWN_LIP_MM
    known = disc.lip_length_mm is not None and disc.lip_inner_mm is not None
    if not 0 < inner < outer or long <= 0:
        return [ring]
    return [ring, Part("disc lip", box(thickness_mm, inner, thickness_mm + long, outer), "disc", "disc-fill", "rising", known)]  # fmt: skip


def pad_part(figures: HubFigures, thickness_mm: float) -> Part:
    """The wheel where it bears on hub or disc: face, bore and chamfer are to scale, the rest is schematic."""
    bore, t = figures.bore.value / 2, thickness_mm
    edge = max(figures.rim_radius_mm - 3.0, bore + 8.0)
    chamfer = min(figures.chamfer.value, PAD_MM - 1)
    points = ((t, edge), (t, bore + chamfer), (t + chamfer, bore), (t + PAD_MM, bore), (t + PAD_MM, edge))
    return Part("wheel pad", points, "ink", "ground", None, figures.bore.known and figures.chamfer.known, points[:4])
