"""The least gap of all states by thickness of the disc, against what is wanted."""

from __future__ import annotations

from hubwright.drawings.marks import length_ticks, paragraph, shape_of, wrapped
from hubwright.drawings.scene import DASHED, Item, Label, Scene, Stroke, line
from hubwright.drawings.svg import svg_of
from hubwright.drawings.table import Table
from hubwright.jobs.room_table import GapRow, RoomTable
from hubwright.language import say
from hubwright.language.place_words import place_word
from hubwright.language.words import corner_title
from hubwright.quantities.text import left_over, length, thickness, unit

WIDTH_PX, LEFT_PX, RIGHT_PX, PLOT_PX = 440.0, 52.0, 420.0, 190.0


def thickness_svg(room: RoomTable, disc_mm: float) -> str:
    """The tightest obstacle at each thickness: circle where enough is left, cross where not; the disc looked at marked."""
    rows = room.by_thickness
    most_t = max(row.thickness_mm for row in rows)
    gaps = [row.gap_mm for row in rows] + [row.owed_mm for row in rows]
    low, high = min(0.0, *gaps), max(gaps) + 2.0
    top = -52.0
    bottom = top - PLOT_PX

    def x(value: float) -> float:
        return LEFT_PX + (RIGHT_PX - LEFT_PX) * value / most_t

    def y(value: float) -> float:
        return bottom + PLOT_PX * (value - low) / (high - low)

    title = say("{corner}: least gap by thickness", corner=corner_title(room.axle, room.side))
    items: list[Item] = [Label((14, -20), title, 14.0, bold=True)]
    for value, words_ in length_ticks(low, high, 6):
        items.append(line((LEFT_PX, y(value)), (RIGHT_PX, y(value)), "faint", 0.7))
        items.append(Label((LEFT_PX - 6, y(value) - 4), words_, 11.5, "end", "soft"))
    for value, words_ in length_ticks(0.0, most_t, 8):
        items.append(line((x(value), bottom), (x(value), bottom - 4), "soft", 0.8))
        items.append(Label((x(value), bottom - 17), words_, 11.5, "middle", "soft"))
    items.append(line((LEFT_PX, y(0.0)), (RIGHT_PX, y(0.0)), "ink", 1.2))
    wanted = tuple((x(row.thickness_mm), y(row.owed_mm)) for row in rows)
    items.append(Stroke(wanted, "doubt", 1.4, DASHED, name="wanted"))
    items.append(Label((RIGHT_PX, wanted[-1][1] + 5), say("wanted"), 11.0, "end", "doubt"))
    items.append(Stroke(tuple((x(row.thickness_mm), y(row.gap_mm)) for row in rows), "body", 1.8, name="least gap"))
    items.append(line((x(disc_mm), bottom), (x(disc_mm), bottom + PLOT_PX), "disc", 1.2, DASHED))
    items.append(Label((x(disc_mm), top + 5), thickness(disc_mm), 11.0, "middle", "disc", True))
    for row in rows:
        items += shape_of("pass" if row.left_mm >= -1e-9 else "fail", (x(row.thickness_mm), y(row.gap_mm)), 1.0, 4.5)
    items.append(Label((RIGHT_PX, bottom - 32), say("thickness per side, {unit}", unit=unit()), 11.0, "end", "soft"))
    words = [_row_words(next(row for row in rows if row.thickness_mm == disc_mm))]
    lines = [part for text in words for part in wrapped(text, RIGHT_PX - 24, 11.5)]
    items += paragraph((24, bottom - 52), lines, 1.0, 11.5)
    floor = bottom - 54 - 15.2 * len(lines)
    return svg_of(Scene("thickness", title, " ".join(words), tuple(items), 0, floor, WIDTH_PX, 0))


def thickness_table(room: RoomTable) -> Table:
    """The same as rows of text."""
    rows = tuple(
        (
            thickness(row.thickness_mm),
            place_word(row.obstacle),
            length(row.gap_mm),
            length(row.owed_mm),
            left_over(row.left_mm),
        )
        for row in room.by_thickness
    )
    columns = (say("per side"), say("nearest"), say("least gap"), say("wanted"), say("left over"))
    return Table(say("Least gap of all states by thickness"), columns, rows)


def _row_words(row: GapRow) -> str:
    disc = say("With {thickness}", thickness=thickness(row.thickness_mm)) if row.thickness_mm else say("Without a disc")
    return say(
        "{disc}: {gap} to {obstacle}, {wanted} wanted.", disc=disc, gap=length(row.gap_mm), obstacle=place_word(row.obstacle),
        wanted=length(row.owed_mm),
    )  # fmt: skip
