"""The corner as a whole: half section above the spin axis through hub, disc, wheel, tyre and the edge of the arch."""

from __future__ import annotations

from hubwright.drawings.figures import Figure, Standing, figure_word, read
from hubwright.drawings.frame import SCREEN, Edges, Frame, Layout, Setting, headed, scale_bar, scale_of
from hubwright.drawings.hubparts import disc_parts, figures_of, hub_parts, pad_part
from hubwright.drawings.marks import dimension, paragraph, wrapped
from hubwright.drawings.nearby import Line, Nearest
from hubwright.drawings.outline import Outline
from hubwright.drawings.places import Place
from hubwright.drawings.scene import CHAIN, Dot, Group, Item, Label, Scene, Spot, Stroke, line, spots_of
from hubwright.drawings.wheelparts import body, letter_label, rim, tyre
from hubwright.language import say
from hubwright.quantities.text import figure, length, thickness

OUTER_PX, INNER_PX = 120.0, 40.0
LEAST_WIDTH_MM = 150.0
LABEL_PX = 40.0
DISC_WORDS_PX = 96.0
"""Room for the name of the disc between wheel and edge of the picture."""
MOST_PLACES = 8
WIDTH_PX, LINE_PX = 16.0, 15.0
"""How far over the tyre its width stands; from one line of words to the next."""
DOTTED = (1.5, 3.0)
WHEEL = "wheel"
"""Name of the group that a disc moves as one."""


def corner_scene(
    setting: Setting,
    outline: Outline,
    places: tuple[Place, ...],
    left_out: tuple[str, ...],
    title: str,
    subtitle: str,
    layout: Layout = SCREEN,
    nearby: tuple[tuple[Line, ...], Nearest | None] = ((), None),
) -> Scene:
    """The whole corner; every mm of the geometry is a mm of the user units. ``nearby``: what a map knows around it."""
    camber = read(say("camber"), setting.axle.corner(setting.side).camber_deg, unit="°")
    frame = Frame(setting.side, camber.value)
    shown = places[:MOST_PLACES]
    plane = setting.thickness_mm - outline.inset.value
    width = layout.width_px
    low, base, high, roof = layout.edges or edges_of(setting, outline, places)
    inner = INNER_PX if all(place.outward for place in shown) else INNER_PX + LABEL_PX
    px = max(high - low, LEAST_WIDTH_MM) / (width - OUTER_PX - inner)
    left = low - (inner if frame.sign > 0 else OUTER_PX) * px
    right = left + width * px
    scale = scale_of(width * px, layout.paper_mm)[0]
    header = wrapped(say("{subtitle} Scale {scale}.", subtitle=subtitle, scale=scale), width - 28, 11.5)
    top = roof + (66 + 15.2 * len(header)) * px
    floor = base - 30 * px
    side = say("outboard →") if frame.sign > 0 else say("← outboard")
    notes = [*corner_notes(setting, outline, camber, places, left_out), *nearby_notes(*nearby)]
    lines = [part for text in notes for part in wrapped(text, width - 28, 11.5)] if layout.notes else []
    bottom = floor - (24 + 15.2 * len(lines)) * px
    still: list[Item] = (
        []
        if not layout.draws("still")
        else [
            *_still(frame, setting),
            *_lines(frame, nearby[0]),
            Label((left + 14 * px, top - 20 * px), title, 14.0, bold=True),
            *paragraph((left + 14 * px, top - 37 * px), header, px, 11.5, "soft"),
            *scale_bar(left + 14 * px, floor, px),
            Label((right - 14 * px, floor - 4 * px), side, 12.0, "end", bold=True),
            *paragraph((left + 14 * px, floor - 24 * px), lines, px, 11.5),
        ]
    )
    wheel: list[Item] = []
    if layout.draws(WHEEL):
        wheel = [*_wheel(frame, setting, outline), *_wheel_dimensions(frame, setting, outline, plane, px)]
    trial = [
        *_disc(frame, setting),
        *_bodies(frame, shown),
        *_trial_dimensions(frame, setting, outline, shown, plane, px),
    ]
    trial += [item for number_, place in enumerate(shown) for item in _gap(frame, place, _letter(number_), px)]
    trial += _nearest(frame, nearby[1], _width_words(frame, outline, plane, px), px)
    items = (Group("still", tuple(still)), Group(WHEEL, tuple(wheel)), Group("trial", tuple(trial)))
    words = f"{subtitle} {' '.join(notes)}"
    return headed("section", title, words, items, (left, bottom, right, top), px, layout.paper_mm)


def edges_of(setting: Setting, outline: Outline, places: tuple[Place, ...], lines: tuple[Line, ...] = ()) -> Edges:
    """How far the corner reaches on paper, in mm."""
    camber = read(say("camber"), setting.axle.corner(setting.side).camber_deg, unit="°")
    frame = Frame(setting.side, camber.value)
    solids = [*_wheel(frame, setting, outline), *_still(frame, setting), *_disc(frame, setting)]
    spots = list(spots_of([*solids, *_bodies(frame, places[:MOST_PLACES]), *_lines(frame, lines)]))
    xs, ys = [spot[0] for spot in spots], [spot[1] for spot in spots]
    return (min(xs), min(ys), max(xs), max(ys))


def moved_by(setting: Setting) -> tuple[float, float]:
    """How far the wheel moves on paper, x to the right and y up, for each mm of disc: along its spin axis."""
    camber = read(say("camber"), setting.axle.corner(setting.side).camber_deg, unit="°")
    frame = Frame(setting.side, camber.value)
    return frame.at((1.0, 0.0))


def nearby_notes(lines: tuple[Line, ...], nearest: Nearest | None) -> list[str]:
    """What the lines of a map mean, in sentences."""
    if not lines:
        return [nearest.words] if nearest is not None else []
    names = ", ".join(dict.fromkeys(line.name for line in lines))
    said = say("Dotted: how near {names} ever comes over all travel and lock, as the wheel sees it.", names=names)
    return [said, *([nearest.words] if nearest is not None else [])]


def _lines(frame: Frame, lines: tuple[Line, ...]) -> list[Item]:
    return [Stroke(frame.all(line.points), "body", 2.0, DOTTED, name="by the map") for line in lines]


def _nearest(frame: Frame, nearest: Nearest | None, words: Spot | None, px: float) -> list[Item]:
    """The least gap of the map, dimensioned, with its letter, which stays clear of the words over the tyre."""
    if nearest is None:
        return []
    start, end = frame.at(nearest.start), frame.at(nearest.end)
    short = nearest.air_mm < nearest.owed_mm - 1e-9
    text = f"M {'✕ ' if short else ''}{figure(nearest.air_mm)}"
    up = start[1] + 6 * px
    if words is not None and abs(up - words[1]) < LINE_PX * px:
        up = words[1] + LINE_PX * px
    out = start[0] + frame.sign * 12 * px, up
    label = Label(out, text, 12.0, frame.outer, "ink", True)
    return [*dimension(start, end, px, "bad" if short else "ink", "gap M"), Dot(start, 3.2, "body", "body", 1.4), label]


def _still(frame: Frame, setting: Setting) -> list[Item]:
    """The hub, which no disc moves."""
    figures = figures_of(setting.hub, setting.wheel, setting.disc, setting.thickness_mm)
    return [frame.part(part) for part in hub_parts(setting.hub, figures)]


def _wheel(frame: Frame, setting: Setting, outline: Outline) -> list[Item]:
    """Tyre, rim and pad, which every disc moves as one."""
    figures = figures_of(setting.hub, setting.wheel, setting.disc, setting.thickness_mm)
    plane = setting.thickness_mm - outline.inset.value
    pad = pad_part(figures, setting.thickness_mm)
    over_pad = max(point[1] for point in pad.points)
    return [*tyre(frame, outline, plane), *rim(frame, outline, plane, over_pad, setting.thickness_mm), frame.part(pad)]


def _disc(frame: Frame, setting: Setting) -> list[Item]:
    figures = figures_of(setting.hub, setting.wheel, setting.disc, setting.thickness_mm)
    return [frame.part(part) for part in disc_parts(figures, setting.disc, setting.thickness_mm)]


def _bodies(frame: Frame, places: tuple[Place, ...]) -> list[Item]:
    """The bodywork near the tyre."""
    return [
        Group(f"place-{_letter(number_)}", tuple(body(frame, place, _letter(number_))), place_words(place))
        for number_, place in enumerate(places)
    ]


def place_words(place: Place) -> str:
    """One place in a sentence."""
    places = {
        "place": place.name, "state": place.state, "gap": length(place.gap_mm), "need": length(place.need_mm),
    }  # fmt: skip
    if place.parked:
        return say("{place}, {state}: {gap} of air, {need} needed.", **places)
    return say("{place}, {state}, least margin: {gap} of air, {need} needed.", **places)


def corner_notes(
    setting: Setting, outline: Outline, camber: Figure, places: tuple[Place, ...], left_out: tuple[str, ...]
) -> list[str]:
    """What the letters mean, what was read, what is assumed, what nobody measured."""
    notes = [f"{_letter(number_)}: {place_words(place)}" for number_, place in enumerate(places[:MOST_PLACES])]
    if places:
        notes.append(say("Wheel drawn parked; bodywork in bump is drawn where it stands as seen from the wheel."))
    figures = [outline.inset, outline.section, outline.radius, camber, outline.rim.overall if outline.rim else None]
    there = [figure for figure in figures if figure is not None]
    known = [f"{figure.what} {figure.words} ({figure_word(figure.standing)})" for figure in there if figure.known]
    if outline.marks:
        known.append(say("half widths at {marks} radii (rings)", marks=len(outline.marks)))
    if outline.rim is not None:
        known.append(say("rim {rim} (by its marking)", rim=setting.wheel.rim))
    if known:
        notes.append(say("Solid: {known}.", known=", ".join(known)))
    missing = [figure.what for figure in there if figure.standing is Standing.MISSING]
    missing += [] if outline.knots else [say("tyre")]
    missing += [] if outline.rim else [say("rim")]
    if missing:
        notes.append(say("Not measured: {missing}.", missing=", ".join(missing)))
    assumed = [
        say("inner side of the tyre (mirrored)"),
        say("spokes and barrel (schematic)"),
        say("panel of the arch (schematic)"),
    ]
    if outline.knots and outline.read_from_mm is None:
        assumed.insert(0, say("outline of the tyre (from its size)"))
    if not outline.inset.known:
        assumed.insert(0, say("place of the wheel along the axis"))
    if outline.rim is not None and not outline.rim.overall.known:
        assumed.append(say("width over the rim flanges (common practice, no source)"))
    return [*notes, say("Dashed, assumed: {assumed}.", assumed=", ".join(assumed)), *left_out]


def _letter(number_: int) -> str:
    return "ABCDEFGH"[number_]


def _gap(frame: Frame, place: Place, letter: str, px: float) -> list[Item]:
    end = (place.at[0] + place.inward[0] * place.gap_mm, place.at[1] + place.inward[1] * place.gap_mm)
    role = "bad" if place.gap_mm < place.need_mm - 1e-9 else "ink"
    measure = dimension(frame.at(place.at), frame.at(end), px, role, f"gap {letter}")
    mark = "✕ " if role == "bad" else ""
    return [*measure, letter_label(frame, place, f"{letter} {mark}{figure(place.gap_mm)}", px)]


def _wheel_dimensions(frame: Frame, setting: Setting, outline: Outline, plane: float, px: float) -> list[Item]:
    """Centre plane, inset and section width: they move with the wheel."""
    t = setting.thickness_mm
    seat = outline.rim.seat_radius_mm if outline.rim else 220.0
    rail, top = seat * 0.6, outline.radius.value if outline.radius else seat
    items: list[Item] = []
    if outline.knots or outline.rim:
        items.append(frame.line((plane, seat * 0.55), (plane, top + 6), "soft", 0.8, CHAIN))
    if outline.inset.known:
        items.append(frame.line((t, 60.0), (t, rail + 4 * px), "soft", 0.6))
        items += dimension(frame.at((plane, rail)), frame.at((t, rail)), px, "soft", "inset")
        words = say("inset") if outline.inset.value >= 0 else say("outset")
        text = f"{words} {figure(abs(outline.inset.value))}"
        spot = frame.at((min(plane, t), rail))
        items.append(Label((spot[0] - frame.sign * 6 * px, spot[1] - 4 * px), text, 11.5, frame.inner))
    if outline.section is not None and outline.radius is not None and outline.knots:
        height = outline.radius.value + WIDTH_PX * px
        half = outline.section.value / 2
        ends = frame.at((plane - half, height)), frame.at((plane + half, height))
        items += dimension(*ends, px, "soft", "section width")
        middle = _width_words(frame, outline, plane, px)
        assert middle is not None  # both figures are there
        standing = figure_word(outline.section.standing)
        text = say("section {width} ({standing})", width=outline.section.words, standing=standing)
        items.append(Label(middle, text, 11.5, "middle"))
    return items


def _width_words(frame: Frame, outline: Outline, plane: float, px: float) -> Spot | None:
    """Where the words of the section width stand: over the middle of the tyre."""
    if outline.section is None or outline.radius is None or not outline.knots:
        return None
    x, y = frame.at((plane, outline.radius.value + WIDTH_PX * px))
    return x, y + 5 * px


def _trial_dimensions(
    frame: Frame, setting: Setting, outline: Outline, places: tuple[Place, ...], plane: float, px: float
) -> list[Item]:
    """Spin axis, disc and the height of the arch: they change with the disc."""
    t = setting.thickness_mm
    ends = sorted((plane, t + 40.0, -60.0))
    items: list[Item] = [frame.line((ends[0] - 10, 0.0), (ends[-1] + 10, 0.0), "ink", 0.9, CHAIN)]
    if t > 0:
        spot = frame.at((t, 18.0))
        out = (spot[0] + frame.sign * 34 * px, spot[1] - 4 * px)
        items.append(line(frame.at((t / 2, 45.0)), (out[0] - frame.sign * 3 * px, out[1] + 4 * px), "disc", 0.9))
        words = wrapped(say("disc {thickness}", thickness=thickness(t)), DISC_WORDS_PX, 12.0)
        items += [
            Label((out[0], out[1] - 14 * row * px), text, 12.0, frame.outer, "disc", True)
            for row, text in enumerate(words)
        ]
    parked = [place for place in places if place.parked and place.outward]
    if parked:
        items += _lip_height(frame, parked[0], outline, px)
    return items


def _lip_height(frame: Frame, place: Place, outline: Outline, px: float) -> list[Item]:
    """From the wheel centre of the bare wheel straight up to the parked point."""
    centre = frame.at((-outline.inset.value, 0.0))
    lip = frame.at(place.at)
    x = lip[0] + frame.sign * 84 * px
    low, high = (x, centre[1]), (x, lip[1])
    return [
        line((lip[0], lip[1]), (x + frame.sign * 4 * px, lip[1]), "faint", 0.6),
        line((centre[0], centre[1]), (x + frame.sign * 4 * px, centre[1]), "faint", 0.6),
        *dimension(low, high, px, "soft", "lip height"),
        Label((x + frame.sign * 5 * px, (low[1] + high[1]) / 2), figure(place.height_mm, 0), 11.5, frame.outer),
        Label((x + frame.sign * 5 * px, (low[1] + high[1]) / 2 - 14 * px), say("high"), 11.5, frame.outer),
    ]
