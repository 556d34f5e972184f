"""Every window of a plan on one thickness scale, one row above another, so that the valid set is seen at a glance."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from hubwright.drawings.bands import Band, bands_of, words
from hubwright.drawings.marks import BOLD_LETTER, LETTER, length_ticks, paragraph, shape_of, shortened, wrapped
from hubwright.drawings.scene import DASHED, Group, Item, Label, Scene, Stroke, box, line
from hubwright.drawings.svg import svg_of
from hubwright.drawings.table import Table
from hubwright.findings import Interval, Window
from hubwright.jobs.answer import DiscAnswer, PlanAnswer
from hubwright.language import say, say_as
from hubwright.language.words import kind_word, question_word, side_word, status_word
from hubwright.quantities.rounding import down
from hubwright.quantities.text import joined, length, step_mm, thickness, unit

LEFT_PX, EDGE_PX = 14.0, 14.0
BAR_PX, ROW_PX = 15.0, 40.0
LEAST_SCALE_MM, BEYOND_DISCS_MM, MOST_SCALE_MM = 20.0, 5.0, 160.0
MOST_RANGES = 3
STATUSES = ("valid", "caution", "not known", "refused")


@dataclass(frozen=True)
class Row:
    """One line of the drawing: windows of one question that allow the same."""

    title: str
    windows: tuple[Window, ...]

    @property
    def known(self) -> bool:
        """Whether no reading is missing behind it."""
        return all(window.known for window in self.windows)


@dataclass(frozen=True)
class Look:
    """How the picture is laid out.

    Attributes:
        width_px: In nominal pixels: the narrower, the larger its letters.
        present_mm: A thickness being tried, marked through all rows; None = none.
        discs: Whether the stock discs are listed by their verdict below the scale.
    """

    width_px: float = 410.0
    present_mm: float | None = None
    discs: bool = True


SCREEN = Look()


@dataclass(frozen=True)
class _Scale:
    top_mm: float
    right_px: float

    @property
    def letters(self) -> int:
        """How many letters a line of a row may have."""
        return int((self.right_px - LEFT_PX) / 9.55)

    def x(self, thickness_mm: float) -> float:
        inside = min(max(thickness_mm, 0.0), self.top_mm)
        return LEFT_PX + (self.right_px - LEFT_PX) * inside / self.top_mm


def rows_of(windows: Iterable[Window]) -> tuple[Row, ...]:
    """Windows as rows; left and right that say the same share one."""
    grouped: dict[tuple[str, str], list[Window]] = {}
    for window in windows:
        grouped.setdefault((window.question, window.disc), []).append(window)
    rows = []
    for (question, disc), members in grouped.items():
        name = question_word(question)
        if disc != "any":
            name = say("{question}, {disc} disc", question=name, disc=kind_word(disc))
        alike = len({(window.intervals, window.known) for window in members}) == 1
        if alike:
            named = [side_word(window.side) for window in members if window.side != "both"]
            sides = say_as("short", "both sides") if len(named) > 1 else "".join(named)
            rows.append(Row(f"{name}, {sides}" if sides else name, tuple(members)))
        else:
            rows += [Row(f"{name}, {side_word(window.side)}", (window,)) for window in members]
    return tuple(rows)


def windows_svg(plan: PlanAnswer, wish_mm: float | None = None, title: str = "") -> str:
    """The windows of one plan as SVG.

    Every row is one question: a solid bar where it lets pass, a dashed open bar with a question mark where a reading
    is missing and the bar is only what is not ruled out. The band through all rows is what passes every question. Stock
    discs stand below with a shape and, under the scale, a word for their verdict.

    Args:
        plan: The plan.
        wish_mm: The thickness asked for, per side.
        title: Heading, such as the axle.
    """
    return svg_of(windows_scene(plan, wish_mm, title))


def windows_scene(plan: PlanAnswer, wish_mm: float | None = None, title: str = "", look: Look = SCREEN) -> Scene:
    """The same as a scene. Arguments as `windows_svg`."""
    scale = _Scale(top_mm(plan, wish_mm), look.width_px - EDGE_PX)
    across = scale.right_px - LEFT_PX
    rows = rows_of(plan.windows)
    bands = bands_of(plan.windows, _kinds(plan))
    heading = title or say("Windows")
    items: list[Item] = []
    y = -20.0
    items.append(Label((LEFT_PX, y), shortened(heading, int(across / 8.3)), 14.0, bold=True))
    subtitle = say("as the car stands; {unit} per side", unit=unit())
    if plan.work:
        subtitle = say("with work done: {work}; {unit} per side", work=joined(plan.work), unit=unit())
    for text in (subtitle, *_band_lines(bands)):
        lines = wrapped(text, across, 11.5)
        items += paragraph((LEFT_PX, y - 17), lines, 1.0, 11.5, "soft" if text == subtitle else "ink")
        y -= 15.2 * len(lines)
    marks_y = y - 20.0
    top = marks_y - (24.0 if look.present_mm is None else 32.0)
    bottom = top - ROW_PX * len(rows) - 4.0
    items += [_band_item(band, scale, top, bottom) for band in bands if band.intervals]
    items += _flags(plan, wish_mm, scale, marks_y, bottom)
    items += [_row_item(row, scale, top - ROW_PX * number_) for number_, row in enumerate(rows)]
    items += _scale_items(scale, bottom)
    if look.present_mm is not None:
        items.append(present_mark(look.present_mm, scale.x(look.present_mm), top + 1, bottom - 26))
    discs_y = bottom - 38.0
    items.append(_discs_item(plan.discs, scale, discs_y))
    y = discs_y - 24.0
    for status in STATUSES if look.discs else ():
        named = [disc for disc in plan.discs if disc.status == status]
        if named:
            text = f"{status_word(status)}: {', '.join(_disc_words(disc) for disc in named)}"
            lines = wrapped(text, across - 18, 11.5)
            items += shape_of(status, (LEFT_PX + 5, y + 4), 1.0, 4.5)
            items += paragraph((LEFT_PX + 18, y), lines, 1.0, 11.5)
            y -= 15.2 * len(lines) + 2
    description = " ".join([subtitle + ".", *_band_lines(bands), plan.decision])
    about = say("{heading}: which thickness passes", heading=heading)
    return Scene("windows", about, description, tuple(items), 0, y, look.width_px, 0)


def windows_table(plan: PlanAnswer) -> Table:
    """The same as rows of text: every window, then every disc."""
    rows = [
        (row.title, words(_merged(row)), say("known") if row.known else say("a reading is missing"),
         " ".join(dict.fromkeys(window.sentence for window in row.windows)))
        for row in rows_of(plan.windows)
    ]  # fmt: skip
    rows += [
        (say("disc {disc}", disc=_disc_words(disc)), status_word(disc.status), "", " ".join(disc.reasons))
        for disc in sorted(plan.discs, key=lambda disc: disc.thickness_mm)
    ]
    return Table(
        say("Windows and discs, per side"), (say("what"), say("passes"), say("readings"), say("why")), tuple(rows)
    )


def _merged(row: Row) -> tuple[Interval, ...]:
    return row.windows[0].intervals


def _kinds(plan: PlanAnswer) -> tuple[str, ...]:
    named = [window.disc for window in plan.windows if window.disc != "any"]
    return tuple(dict.fromkeys([*named, *(disc.kind for disc in plan.discs)]))


def top_mm(plan: PlanAnswer, wish_mm: float | None) -> float:
    """The end of the thickness scale: somewhat beyond the thickest disc of the shelf and the one asked for."""
    largest = max([disc.thickness_mm for disc in plan.discs] + [wish_mm or 0.0], default=0.0)
    return min(max(largest + BEYOND_DISCS_MM, LEAST_SCALE_MM), MOST_SCALE_MM)


def _band_lines(bands: tuple[Band, ...]) -> list[str]:
    lines = []
    for band in bands:
        lines.append(_band_line(band))
    return lines


def _band_line(band: Band) -> str:
    places = {"kind": kind_word(band.kind), "ranges": words(band.intervals)}
    if not band.intervals:
        return say("{kind} disc: nothing passes everything.", **places)
    if band.settled and band.law_open:
        return say("{kind} disc: {ranges} passes everything (law not answered).", **places)
    if band.settled:
        return say("{kind} disc: {ranges} passes everything.", **places)
    if band.law_open:
        return say("{kind} disc: {ranges} not ruled out, readings missing (law not answered).", **places)
    return say("{kind} disc: {ranges} not ruled out, readings missing.", **places)


def _band_item(band: Band, scale: _Scale, top: float, bottom: float) -> Group:
    strips: list[Item] = []
    for interval in band.intervals:
        low = scale.x(interval.low_mm or 0.0)
        high = scale.x(math.inf if interval.high_mm is None else interval.high_mm)
        if high - low < 1.0:
            low, high = low - 0.5, high + 0.5
        edge = box(low, bottom, high, top + 6)
        if band.settled:
            strips.append(Stroke(edge, "good", 1.4, (), True, "good-fill", name=f"band-{band.kind}"))
        else:
            strips.append(Stroke(edge, "doubt", 1.2, DASHED, True, name=f"band-{band.kind}"))
    return Group(
        f"bands-{band.kind}",
        tuple(strips),
        say("{kind} disc: {ranges}", kind=kind_word(band.kind), ranges=words(band.intervals)),
    )


def _row_item(row: Row, scale: _Scale, y: float) -> Group:
    bar_top, bar_bottom = y - 17.0, y - 17.0 - BAR_PX
    window = row.windows[0]
    said = _said(window) if row.known else say("not known yet") if window.intervals else say("none")
    room = scale.right_px - LEFT_PX - 11.5 * LETTER * (min(len(said), scale.letters) + 2)
    name = shortened(row.title, int(room / (11.5 * BOLD_LETTER)))
    items: list[Item] = [
        Stroke(box(LEFT_PX, bar_bottom, scale.right_px, bar_top), "faint", 0.8, (), True),
        Label((LEFT_PX, y - 12), name, 11.5, bold=True),
        Label(
            (scale.right_px, y - 12), shortened(said, scale.letters), 11.5, "end", "ink" if window.intervals else "bad"
        ),
    ]
    for interval in window.intervals:
        low = scale.x(interval.low_mm or 0.0)
        high = scale.x(math.inf if interval.high_mm is None else interval.high_mm)
        edge = box(low, bar_bottom, high, bar_top)
        if row.known:
            items.append(Stroke(edge, "good", 1.2, (), True, "", "rising", f"pass-{row.title}"))
        else:
            items.append(Stroke(edge, "doubt", 1.2, DASHED, True, name=f"open-{row.title}"))
            beside = high + 6 if high < (LEFT_PX + scale.right_px) / 2 else low + 6
            items.append(Label((beside, bar_bottom + 3.5), say("? reading missing"), 10.5, "start", "doubt"))
    if not window.intervals:
        items.append(Label((LEFT_PX + 8, bar_bottom + 3.5), say("✕ no thickness passes"), 10.5, "start", "bad"))
    return Group(
        f"row-{row.title}",
        tuple(items),
        "; ".join(dict.fromkeys(w.sentence for w in row.windows)),
    )


def _said(window: Window) -> str:
    """The intervals, or how many there are when they are too many for the line."""
    if len(window.intervals) <= MOST_RANGES:
        return words(window.intervals)
    high = window.intervals[-1].high_mm
    count = len(window.intervals)
    if high is None:
        return say("{count} ranges", count=count)
    return say("{count} ranges, up to {high}", count=count, high=length(down(high, step_mm())))


def _scale_items(scale: _Scale, y: float) -> list[Item]:
    items: list[Item] = [line((LEFT_PX, y), (scale.right_px, y), "ink", 1.2)]
    for mark, words_ in length_ticks(0.0, scale.top_mm, 8):
        x = scale.x(mark)
        items += [line((x, y), (x, y - 5), "ink"), Label((x, y - 17), words_, 11.0, "middle", "soft")]
    return items


def _flags(plan: PlanAnswer, wish_mm: float | None, scale: _Scale, y: float, bottom: float) -> list[Item]:
    flags: list[tuple[float, str, str, str, tuple[float, ...], float]] = []
    if wish_mm is not None and 0 <= wish_mm <= scale.top_mm:
        flags.append((wish_mm, "asked for", say("asked for: {wish}", wish=thickness(wish_mm)), "wish", DASHED, y + 1))
    if plan.recommended_mm is not None:
        flags.append(
            (
                plan.recommended_mm,
                "recommended",
                say("recommended: {disc}", disc=thickness(plan.recommended_mm)),
                "ink",
                (),
                y - 14,
            )
        )
    items: list[Item] = []
    for at_mm, name, text, role, dash, label_y in flags:
        x = scale.x(at_mm)
        right_half = x > (LEFT_PX + scale.right_px) / 2
        items.append(Stroke(((x, label_y - 3), (x, bottom)), role, 1.6, dash, name=name))
        items.append(
            Label((x - 5 if right_half else x + 5, label_y), text, 11.5, "end" if right_half else "start", role, True)
        )
    return items


def present_mark(thickness_mm: float, x: float, top: float, bottom: float) -> Group:
    """A thickness being tried: a line through all rows with a grip at both ends."""
    grips = [
        Stroke(((x, y), (x - 5.0, y + d), (x + 5.0, y + d)), "disc", 1.0, (), True, "disc") for y, d in ((top, 8.0), (bottom, -8.0))
    ]  # fmt: skip
    return Group("present", (line((x, top), (x, bottom), "disc", 2.2), *grips), thickness(thickness_mm))


def _discs_item(discs: tuple[DiscAnswer, ...], scale: _Scale, y: float) -> Group:
    """Shapes of the discs under their thickness; discs of one thickness stand below each other."""
    items: list[Item] = []
    seen: dict[float, int] = {}
    for disc in sorted(discs, key=lambda disc: (disc.thickness_mm, disc.kind)):
        level = seen.get(disc.thickness_mm, 0)
        seen[disc.thickness_mm] = level + 1
        if level < 2:
            title = f"{_disc_words(disc)}: {status_word(disc.status)}"
            shape = shape_of(disc.status, (scale.x(disc.thickness_mm), y - 1 + 12.0 * level), 1.0, 4.5)
            items.append(Group("disc", shape, title))
    return Group("discs", tuple(items), say("stock discs"))


def _disc_words(disc: DiscAnswer) -> str:
    return f"{thickness(disc.thickness_mm)} {kind_word(disc.kind)}"
