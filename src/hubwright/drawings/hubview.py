"""The joint close up: hub, disc and wheel pad in half section, with what centres the wheel."""

from __future__ import annotations

from hubwright.drawings.figures import Standing
from hubwright.drawings.frame import SCREEN, Frame, Layout, Setting, headed, scale_bar, scale_of
from hubwright.drawings.hubparts import HubFigures, Part, disc_parts, figures_of, hub_parts, pad_part
from hubwright.drawings.marks import dimension, paragraph, wrapped
from hubwright.drawings.scene import CHAIN, Item, Label, Scene, Spot, Stroke, box, line, spots_of
from hubwright.language import say
from hubwright.language.words import kind_word
from hubwright.quantities.text import length, thickness

AROUND_PX = 170.0
MOST_ASPECT = 1.6


def hub_scene(setting: Setting, title: str, subtitle: str, layout: Layout = SCREEN) -> Scene:
    """The close view: the half section above the spin axis, the axis level."""
    frame = Frame(setting.side)
    width = layout.width_px
    geometry = width - AROUND_PX
    figures = figures_of(setting.hub, setting.wheel, setting.disc, setting.thickness_mm)
    parts = [pad_part(figures, setting.thickness_mm), *hub_parts(setting.hub, figures)]
    parts += disc_parts(figures, setting.disc, setting.thickness_mm)
    drawn = [frame.part(part) for part in parts]
    xs = [spot[0] for spot in spots_of(drawn)]
    high = max(spot[1] for spot in spots_of(drawn))
    px = max((max(xs) - min(xs)) / geometry, high / (geometry * MOST_ASPECT))
    middle = (max(xs) + min(xs)) / 2
    left, right = middle - width / 2 * px, middle + width / 2 * px
    items: list[Item] = [*drawn, *_names(frame, parts, px)]
    ends = (min(part.points[0][0] for part in parts), max(point[0] for part in parts for point in part.points))
    axis = frame.line((ends[0] - 12 * px, 0.0), (ends[1] + 12 * px, 0.0), "ink", 0.9, CHAIN)
    items.append(axis)
    circle = figures.circle.value / 2
    items.append(frame.line((ends[0] - 8 * px, circle), (ends[1] + 8 * px, circle), "soft", 0.7, CHAIN))
    items += _dimensions(frame, setting, figures, high, px)
    notes = hub_notes(figures, setting)
    lines = [part for text in notes for part in wrapped(text, width - 28, 11.5)] if layout.notes else []
    scale = scale_of(width * px, layout.paper_mm)[0]
    header = wrapped(say("{subtitle} Scale {scale}.", subtitle=subtitle, scale=scale), width - 28, 11.5)
    top = high + (84 + 15.2 * len(header)) * px
    items.append(Label((left + 14 * px, top - 20 * px), title, 14.0, bold=True))
    items += paragraph((left + 14 * px, top - 37 * px), header, px, 11.5, "soft")
    floor = -82 * px
    items += scale_bar(left + 14 * px, floor, px)
    side = say("outboard →") if frame.sign > 0 else say("← outboard")
    items.append(Label((right - 14 * px, floor - 4 * px), side, 12.0, "end", bold=True))
    items += paragraph((left + 14 * px, floor - 26 * px), lines, px, 11.5)
    bottom = floor - (26 + 15.2 * len(lines)) * px
    return headed(
        "hub", title, f"{subtitle} {' '.join(notes)}", tuple(items), (left, bottom, right, top), px, layout.paper_mm
    )


def hub_notes(figures: HubFigures, setting: Setting) -> list[str]:
    """What was read and what was not, in sentences."""
    joint = [figures.spigot_diameter, figures.spigot_length, figures.nose, figures.flange, figures.hat]
    every = [*joint, figures.bore, figures.chamfer, figures.circle]
    known = [f"{figure.what} {figure.words}" for figure in every if figure.known]
    missing = [figure.what for figure in every if figure.standing is Standing.MISSING]
    notes = []
    if setting.disc is None and setting.thickness_mm:
        notes.append(
            say("No {thickness} disc on the shelf: drawn as a plain one.", thickness=thickness(setting.thickness_mm))
        )
    if figures.pilot_mm is not None:
        left = figures.pilot_mm
        notes.append(
            say("Pilot left in the wheel: {left}.", left=length(left))
            if left > 0
            else say("No pilot left in the wheel.")
        )
    elif setting.disc is not None and setting.disc.kind != "plain" and setting.thickness_mm:
        notes.append(say("The wheel sits on the lip of the disc."))
        if setting.disc.lip_inner_mm is None or setting.disc.lip_length_mm is None:
            notes.append(say("Lip of the disc: size not stated, drawn dashed."))
    if known:
        notes.append(say("Read or marked: {known}.", known=", ".join(known)))
    if missing:
        notes.append(say("Not measured, dashed or left out: {missing}.", missing=", ".join(missing)))
    return [*notes, say("Outside of flange and disc, thickness of the wheel pad: schematic.")]


def _names(frame: Frame, parts: list[Part], px: float) -> list[Item]:
    """Names inside the areas that have room for them; the disc is named by its dimension."""
    words = {"hub flange": say("hub"), "wheel pad": say("wheel"), "spigot": say("spigot"), "axle end": say("axle end")}
    items: list[Item] = []
    for part in parts:
        name = words.get(part.name)
        ys = [point[0] for point in part.points]
        radii = [point[1] for point in part.points]
        width = (max(ys) - min(ys)) / px
        if name and width >= len(name) * 6.4:
            share = 0.8 if part.name in ("hub flange", "wheel pad") else 0.45
            height = min(radii) + (max(radii) - min(radii)) * share
            x, y = frame.at(((max(ys) + min(ys)) / 2, height))
            half = len(name) * 3.4 * px
            if part.hatch:  # a halo around the letters is not enough over a hatch
                items.append(Stroke(box(x - half, y - 4 * px, x + half, y + 11 * px), "", 0.0, (), True, "paper"))
            items.append(Label((x, y), name, 11.0, "middle"))
    return items


def _dimensions(frame: Frame, setting: Setting, figures: HubFigures, high: float, px: float) -> list[Item]:
    t, h, c = setting.thickness_mm, figures.spigot_length.value, figures.chamfer.value
    edge = figures.rim_radius_mm
    items: list[Item] = []
    if t > 0:
        kind = say("{kind} disc", kind=kind_word(setting.disc.kind)) if setting.disc else say("disc")
        text = f"{kind} {thickness(t)}"
        items += _above(frame, 0.0, t, edge, high + 16 * px, text, px, "disc")
    if figures.spigot_length.known:
        items += _below(
            frame,
            0.0,
            h,
            figures.spigot_diameter.value / 2,
            -16 * px,
            say("spigot {length}", length=length(h)),
            px,
            "spigot length",
        )
    if figures.pilot_mm is not None and figures.pilot_mm > 0 and figures.spigot_length.known:
        items += _below(
            frame,
            t + c,
            h,
            0.0,
            -40 * px,
            say("pilot left {pilot}", pilot=length(figures.pilot_mm)),
            px,
            "pilot left",
        )
    if figures.chamfer.known and c > 0:
        items += _below(
            frame, t, t + c, figures.bore.value / 2, -62 * px, say("chamfer {depth}", depth=length(c)), px, "chamfer"
        )
    return items


def _above(frame: Frame, a: float, b: float, foot: float, height: float, text: str, px: float, name: str) -> list[Item]:
    first, second = frame.at((a, height)), frame.at((b, height))
    legs = [line(frame.at((value, foot + 2 * px)), frame.at((value, height + 4 * px)), "soft", 0.6) for value in (a, b)]
    label: Spot = ((first[0] + second[0]) / 2, height + 9 * px)
    return [*legs, *dimension(first, second, px, "disc", name), Label(label, text, 12.0, "middle", "ink", True)]


def _below(frame: Frame, a: float, b: float, foot: float, height: float, text: str, px: float, name: str) -> list[Item]:
    first, second = frame.at((a, height)), frame.at((b, height))
    legs = [line(frame.at((value, foot)), frame.at((value, height - 4 * px)), "soft", 0.5) for value in (a, b)]
    label: Spot = (second[0] + frame.sign * 20 * px, height - 4 * px)
    return [*legs, *dimension(first, second, px, "ink", name), Label(label, text, 11.5, frame.outer)]
