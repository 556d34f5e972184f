"""One package over another: both half sections above the spin axis, to scale, with what changes dimensioned."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from hubwright.checks.outlines import Built, try_built
from hubwright.checks.standing import standing_words, standings
from hubwright.drawings.corner import axle_of, empty_scene
from hubwright.drawings.frame import headed, scale_bar, scale_of
from hubwright.drawings.marks import dimension, paragraph, wrapped
from hubwright.drawings.scene import CHAIN, DASHED, Group, Item, Label, Scene, Spot, Stroke, box, line
from hubwright.drawings.svg import svg_of
from hubwright.engineering.tyrewheel.figures import figures_of
from hubwright.engineering.tyrewheel.outline import Package, outline, standing, tyre_radii
from hubwright.engineering.tyrewheel.replace import Change, change
from hubwright.engineering.tyrewheel.surface import half_width_mm
from hubwright.engineering.tyrewheel.wheel import estimate_barrel, wheel_parts
from hubwright.errors import OutsideValidity
from hubwright.jobs.compare import package_of
from hubwright.language import say
from hubwright.language.part_words import estimate_word, standing_word
from hubwright.language.words import axle_word, corner_title
from hubwright.parts.job import AxleName, Job
from hubwright.quantities.axes import Side
from hubwright.quantities.text import change_of, figure, length, percent, unit

WIDTH_PX, LEFT_PX, RIGHT_PX = 430.0, 96.0, 128.0
TEXT_PX = 11.5
DISC_LOW_MM, DISC_HIGH_MM = 30.0, 75.0
MOST_POINTS = 160


@dataclass(frozen=True)
class Drawn:
    """One of the two packages on its disc, with its name and what nobody measured."""

    name: str
    package: Package
    guessed: tuple[str, ...]


@dataclass(frozen=True)
class BodyMark:
    """A point of the body edge as seen from the wheel: its place along the axis, and how the new package stands to it."""

    name: str
    at_mm: float
    radius_mm: float
    poke_mm: float
    word: str


def compare_svg(
    old: str, new: str, old_disc_mm: float = 0.0, disc_mm: float = 0.0, body_line_mm: float | None = None
) -> str:
    """Two packages written in one line each, over each other.

    Args:
        old: Such as ``225/45R17 91W on 7.5Jx17 ET47``; dashed.
        new: Such as ``235/40R18 95W on 8Jx18 ET45``; solid.
        old_disc_mm: Disc per side under the old wheel.
        disc_mm: Disc per side under the new wheel.
        body_line_mm: A point of the body edge outboard of the hub face, the wheel upright; None = none.

    Raises:
        BadInput: for a text or a disc that cannot be used.
        OutsideValidity: where tyre and rim do not go together.
    """
    first, second = _drawn(old, old_disc_mm), _drawn(new, disc_mm)
    mark = None
    if body_line_mm is not None:
        seen = standing(outline(second.package), body_line_mm)
        mark = BodyMark(say("body line"), body_line_mm, seen.radius_mm, seen.poke_mm, seen.word)
    return svg_of(compare_scene(first, second, mark, say("One package over the other")))


def package_svg(
    job: Job, axle_name: AxleName, side: Side, number_: int, disc_mm: float = 0.0, *, width_px: float = WIDTH_PX
) -> str:
    """An offered package of a job over the fitted wheels, against the first body line of one side.

    Args:
        job: The job; anything in it may be missing.
        axle_name: Which axle.
        side: Whose body line.
        number_: Which offered package, from 0.
        disc_mm: Disc per side under it.
        width_px: Width in nominal pixels: the narrower, the larger its letters.

    Raises:
        IndexError: where the job offers no such package.
    """
    axle = axle_of(job, axle_name)
    heading = corner_title(axle_name, side)
    if axle is None:
        return svg_of(
            empty_scene(
                "compare", heading, say("The job says nothing about the {axle} axle.", axle=axle_word(axle_name))
            )
        )
    offered = axle.package[number_]
    heading = f"{heading}: {offered.title}"
    new, why = try_built(offered.wheel, offered.tyre)
    if axle.fitted is None or new is None:
        return svg_of(empty_scene("compare", heading, why or say("No fitted wheels are stated.")))
    old, why = try_built(axle.fitted.wheel, axle.fitted.tyre)
    if old is None:
        return svg_of(empty_scene("compare", heading, why))
    mark = None
    for seen in standings(axle, new, disc_mm):
        if seen.side == side and mark is None:
            at = _outer_at(new, disc_mm, seen.radius_mm) - seen.poke_mm
            mark = BodyMark(seen.name, at, seen.radius_mm, seen.poke_mm, seen.word)
    first = Drawn(axle.fitted.title, old.package, old.guessed)
    second = Drawn(offered.title, Package(new.tyre, new.wheel, disc_mm), new.guessed)
    return svg_of(compare_scene(first, second, mark, heading, width_px))


def _outer_at(built: Built, disc_mm: float, radius_mm: float) -> float:
    return float(outline(Package(built.tyre, built.wheel, disc_mm), [radius_mm]).outer_mm[0])


def _drawn(text: str, disc_mm: float) -> Drawn:
    shape, package = package_of(text, disc_mm)
    name = " ".join(text.split())
    if disc_mm:
        name = say("{package} on {disc}", package=name, disc=length(disc_mm))
    return Drawn(name, package, shape.guessed)


def compare_scene(old: Drawn, new: Drawn, mark: BodyMark | None, title: str, width_px: float = WIDTH_PX) -> Scene:
    """Both packages as a scene; a mm of the geometry is a mm of the user units, outboard to the right.

    Raises:
        OutsideValidity: for a bare wheel.
    """
    spots = [*_tyre(old.package), *_tyre(new.package)]
    low, high = min(spot[0] for spot in spots), max(spot[0] for spot in spots)
    if mark is not None:
        high = max(high, mark.at_mm)
    crown = max(spot[1] for spot in spots)
    px = (high - low) / (width_px - LEFT_PX - RIGHT_PX)
    left, right = low - LEFT_PX * px, high + RIGHT_PX * px
    moved = change(figures_of(old.package), figures_of(new.package))
    items: list[Item] = [
        Group("then", tuple(_package(new.package, px, old=False)), new.name),
        Group("now", tuple(_package(old.package, px, old=True)), old.name),
        *_axis(low, high, new.package, px),
        *_dimensions(old.package, new.package, moved, (high, crown), px),
    ]
    if mark is not None:
        items += _body(mark, crown, px)
    scale = scale_of(width_px * px)[0]
    words = say("Half section above the spin axis, wheel upright, outboard to the right. Scale {scale}.", scale=scale)
    sub = wrapped(words, width_px - 28, TEXT_PX)
    roof = crown + 50 * px
    top = roof + (44 + 15.2 * len(sub)) * px
    items.append(Label((left + 14 * px, top - 20 * px), title, 14.0, bold=True))
    items += paragraph((left + 14 * px, top - 37 * px), sub, px, TEXT_PX, "soft")
    floor = -34 * px
    items += scale_bar(left + 14 * px, floor, px)
    items += _key(old, new, left + 14 * px, floor - 26 * px, px)
    notes = _notes(old, new, moved, mark)
    lines = [part for text in notes for part in wrapped(text, width_px - 28, TEXT_PX)]
    items += paragraph((left + 14 * px, floor - 70 * px), lines, px, TEXT_PX)
    bottom = floor - (74 + 15.2 * len(lines)) * px
    description = say("Now: {old}. Then: {new}. {notes}", old=old.name, new=new.name, notes=" ".join(notes))
    return headed("compare", title, description, tuple(items), (left, bottom, right, top), px)


def _thinned(spots: list[Spot]) -> list[Spot]:
    """At most so many points, both ends among them: half a millimetre is more than paper shows."""
    step = max(1, len(spots) // MOST_POINTS)
    return [*spots[:-1:step], spots[-1]]


def _tyre(package: Package) -> tuple[Spot, ...]:
    """Outboard side upwards, inboard side downwards, rounded to a hundredth."""
    tyre = package.tyre
    if tyre is None:
        raise OutsideValidity("Comparison", "tyre", None, "packages with tyres", "geometry")
    radii = tyre_radii(tyre)
    sides = []
    for side, sign in (("outboard", 1.0), ("inboard", -1.0)):
        half = half_width_mm(tyre, radii, side)  # type: ignore[arg-type]  # the pair is of literals
        there = ~np.isnan(half)
        x = np.round(package.centre_plane_mm + sign * half[there], 2)
        sides.append(_thinned(list(zip(x.tolist(), np.round(radii[there], 2).tolist(), strict=True))))
    return (*sides[0], *sides[1][::-1])


def _package(package: Package, px: float, *, old: bool) -> list[Item]:
    role, dash, width = ("disc", DASHED, 1.5) if old else ("ink", (), 1.6)
    fill = "" if old else "rubber"
    shape = _tyre(package)
    items: list[Item] = [Stroke(shape, "", 0.0, (), True, fill, name="tyre, filled")] if fill else []
    items.append(Stroke(shape, role, width, dash, name="tyre"))
    wheel, t = package.wheel, package.thickness_mm
    for part in wheel_parts(wheel):
        points = tuple((round(y + t, 2), round(rho, 2)) for rho, y in zip(part.rho_mm, part.y_mm, strict=True))
        items.append(Stroke(points, role, 2.4 if part.name == "rim flange" else width, dash, name=part.name))
    if wheel.barrel is None and not old:
        barrel = tuple((round(y + t, 2), rho) for rho, y in estimate_barrel(wheel.rim, wheel.inset_mm))
        items.append(Stroke(barrel, "soft", 1.0, (2.0, 3.0), name="barrel, schematic"))
    if t > 0:
        area = box(0.0, DISC_LOW_MM, t, DISC_HIGH_MM)
        items.append(Stroke(area, role, 1.0, dash, True, "" if old else "disc-fill", name="disc"))
    plane = package.centre_plane_mm
    top = package.tyre.radius_mm if package.tyre is not None else 0.0
    items.append(line((plane, top * 0.42), (plane, top + 5 * px), role, 0.8, CHAIN))
    return items


def _axis(low: float, high: float, new: Package, px: float) -> list[Item]:
    return [
        line((low - 8 * px, 0.0), (high + 8 * px, 0.0), "ink", 0.9, CHAIN),
        Label((high + 12 * px, -4 * px), say("spin axis"), 10.5, "start", "soft"),
        line((0.0, 8.0), (0.0, DISC_HIGH_MM + 22), "ink", 1.4),
        Label((-6 * px, 14.0), say("hub face"), 10.5, "end", "soft"),
    ]


def _edges(package: Package) -> tuple[float, float, float, float]:
    """Inner edge and its radius, outer edge and its radius."""
    shape = outline(package)
    (r_in, y_in, _), (r_out, y_out, _) = shape.innermost, shape.outermost
    return y_in, r_in, y_out, r_out


def _dimensions(old: Package, new: Package, moved: Change, room: tuple[float, float], px: float) -> list[Item]:
    high, crown = room
    (in_a, rin_a, out_a, rout_a), (in_b, rin_b, out_b, rout_b) = _edges(old), _edges(new)
    row = crown + 30 * px
    items: list[Item] = []
    for x, r in ((in_a, rin_a), (in_b, rin_b), (out_a, rout_a), (out_b, rout_b)):
        items.append(line((x, r), (x, row + 4 * px), "faint", 0.8))
    items += dimension((out_a, row), (out_b, row), px, "ink", "outer")
    items += dimension((in_a, row), (in_b, row), px, "ink", "inner")
    beside = 20 * px
    items.append(
        Label(
            (max(out_a, out_b) + beside, row - 4 * px),
            say("outer {outward}", outward=change_of(moved.outward_mm)),
            12.0,
            bold=True,
        )
    )
    inner = say("inner {inward}", inward=change_of(moved.inward_mm))
    items.append(Label((min(in_a, in_b) - beside, row - 4 * px), inner, 12.0, "end", bold=True))
    tops = [package.tyre.radius_mm for package in (old, new) if package.tyre is not None]
    x = high + 22 * px
    for top, package in zip(tops, (old, new), strict=True):
        items.append(line((package.centre_plane_mm, top), (x + 4 * px, top), "faint", 0.8))
    items += dimension((x, tops[0]), (x, tops[1]), px, "ink", "radius")
    middle = (tops[0] + tops[1]) / 2
    items.append(
        Label((x + 8 * px, middle - 4 * px), say("radius {radius}", radius=change_of(moved.radius_mm)), 12.0, bold=True)
    )
    level = min(tops) * 0.46
    a, b = old.centre_plane_mm, new.centre_plane_mm
    items += dimension((a, level), (b, level), px, "ink", "centre plane")
    words = say("centre plane {centre_plane}", centre_plane=change_of(moved.centre_plane_mm))
    items.append(Label((min(a, b) - beside, level - 4 * px), words, 12.0, "end", bold=True))
    return items


def _body(mark: BodyMark, crown: float, px: float) -> list[Item]:
    x = mark.at_mm
    edge = x + mark.poke_mm
    level = mark.radius_mm
    items: list[Item] = [
        line((x, level - 40 * px), (x, crown + 14 * px), "body", 1.6, (7.0, 3.0)),
        *dimension((x, level), (edge, level), px, "body", "stands"),
    ]
    word = standing_word(mark.word)
    text = word if mark.word == "flush" else f"{word} {figure(abs(mark.poke_mm))}"
    beside = max(x, edge) + (20 * px if abs(mark.poke_mm) < 22 * px else 7 * px)
    items.append(Label((beside, level - 4 * px), text, 12.0, "start", "body", True))
    items.append(Label((x + 6 * px, level - 38 * px), say("body"), 10.5, "start", "body"))
    return items


def _key(old: Drawn, new: Drawn, left: float, y: float, px: float) -> list[Item]:
    items: list[Item] = []
    for row, (drawn, role, dash, word) in enumerate(((old, "disc", DASHED, say("now")), (new, "ink", (), say("then")))):
        at = y - 17 * row * px
        text = wrapped(f"{word}: {drawn.name}", WIDTH_PX - 80, 12.0)[0]
        items += [line((left, at + 4 * px), (left + 28 * px, at + 4 * px), role, 1.8, dash), Label((left + 36 * px, at), text, 12.0)]  # fmt: skip
    return items


def _notes(old: Drawn, new: Drawn, moved: Change, mark: BodyMark | None) -> list[str]:
    a, b = figures_of(old.package), figures_of(new.package)
    notes = [
        say(
            "Figures in {unit}, per side. Diameter {before} to {after} ({share}), widest section {width} to {then}.",
            unit=unit(),
            before=figure(a.overall_diameter_mm),
            after=figure(b.overall_diameter_mm),
            share=percent(moved.diameter_percent / 100),
            width=figure(a.width_mm),
            then=figure(b.width_mm),
        )
    ]
    if mark is not None:
        stands = standing_words(mark.poke_mm, flush=mark.word == "flush")
        notes.append(
            say(
                "Then {stands} against {mark}, as seen from the wheel at radius {radius}.",
                stands=stands,
                mark=mark.name,
                radius=length(mark.radius_mm, 0),
            )
        )
    guessed = sorted({estimate_word(name) for name in (*old.guessed, *new.guessed)})
    if guessed:
        notes.append(say("Not measured, by size or estimate: {guessed}.", guessed=", ".join(guessed)))
    if new.package.wheel.barrel is None:
        notes.append(say("Dotted: barrel, schematic."))
    return notes
