"""Stock lengths on a scale of thread in use: a window with two ends, and which length falls where."""

from __future__ import annotations

from hubwright.drawings.marks import apart, paragraph, shape_of, ticks, wrapped
from hubwright.drawings.scene import DASHED, Item, Label, Scene, Stroke, box, line
from hubwright.drawings.svg import svg_of
from hubwright.jobs.fastener_table import JointAnswer, LengthRow
from hubwright.language import say
from hubwright.quantities.text import figure, length, plain, unit

WIDTH_PX, LEFT_PX, RIGHT_PX = 440.0, 24.0, 416.0
BAND_PX = 34.0


def lengths_svg(answer: JointAnswer) -> str:
    """Every length by its thread in use; good between wanted and most, mind it from the floor on, refused outside."""
    rows = [row for row in answer.rows if row.engaged_mm > -0.5]
    most, floor, wanted = answer.most_mm, answer.floor_mm or 0.0, answer.wanted_mm or 0.0
    high = max([wanted * 1.25, (most or 0.0) * 1.15, *(row.engaged_mm for row in rows[:1])])
    reach = [row for row in rows if row.engaged_mm <= high]
    right_mm = high * 1.02 + 1.0

    def x(value_mm: float) -> float:
        return LEFT_PX + (RIGHT_PX - LEFT_PX) * value_mm / right_mm

    title = say("Which length of {fastener}", fastener=answer.fastener)
    head = wrapped(title, 0.85 * WIDTH_PX, 14.0)
    items: list[Item] = [Label((14, -18 - 16 * row), text, 14.0, bold=True) for row, text in enumerate(head)]
    top = -58.0 - 16 * (len(head) - 1)
    bottom = top - BAND_PX
    end = most if most is not None else right_mm
    items.append(Stroke(box(x(0), bottom, x(right_mm), top), "faint", 1.0, (), True, "paper"))
    if end > floor:
        items.append(
            Stroke(
                box(x(floor), bottom, x(min(wanted, end)), top),
                "doubt",
                1.2,
                DASHED,
                True,
                name="from the floor on",
            )
        )
    if end > wanted:
        items.append(Stroke(box(x(wanted), bottom, x(end), top), "good", 1.4, (), True, "good-fill", name="as wanted"))
    marks = [(floor, say("floor {value}", value=figure(floor))), (wanted, say("wanted {value}", value=figure(wanted)))]
    if most is not None:
        marks.append((most, say("most {value}", value=figure(most))))
    places = apart([x(value) for value, _ in marks], 78.0)
    for (value, text), place in zip(marks, places, strict=True):
        items += [
            line((x(value), bottom), (x(value), top + 8), "ink", 1.2),
            Label((place, top + 12), text, 11.0, "middle"),
        ]
    for row, place in zip(reach, apart([x(row.engaged_mm) for row in reach], 30.0), strict=True):
        items += _row(row, x(row.engaged_mm), place, (top + bottom) / 2, bottom)
    scale_y = bottom - 64.0
    items.append(line((x(0), scale_y), (x(right_mm), scale_y), "soft", 0.8))
    for value in ticks(0.0, right_mm, 8):
        items.append(line((x(value), scale_y), (x(value), scale_y - 4), "soft", 0.8))
        items.append(Label((x(value), scale_y - 17), figure(value, 0), 11.5, "middle", "soft"))
    items.append(Label((RIGHT_PX, scale_y - 32), say("thread in use, {unit}", unit=unit()), 11.0, "end", "soft"))
    words = _words(answer, reach)
    lines = [part for text in words for part in wrapped(text, RIGHT_PX - LEFT_PX, 11.5)]
    items += paragraph((LEFT_PX, scale_y - 54), lines, 1.0, 11.5)
    floor_y = scale_y - 54 - 15.2 * len(lines)
    return svg_of(Scene("lengths", title, " ".join(words), tuple(items), 0, floor_y, WIDTH_PX, 0))


def _row(row: LengthRow, at: float, place: float, middle: float, bottom: float) -> list[Item]:
    name = plain(row.length_mm)
    items: list[Item] = [*shape_of(str(row.verdict), (at, middle), 1.0, 6.0)]
    items.append(line((at, bottom - 2), (place, bottom - 20), "soft", 0.7))
    items.append(Label((place, bottom - 33), name, 12.5 if row.taken else 11.0, "middle", "ink", row.taken))
    if row.taken or row.now:
        items.append(
            Label((place, bottom - 47), say("take") if row.taken else say("now"), 11.0, "middle", "soft", row.taken)
        )
    return items


def _words(answer: JointAnswer, reach: list[LengthRow]) -> list[str]:
    words = [say("Lengths in mm under the scale; circle as wanted, triangle above the floor only, cross refused.")]
    left_out = [plain(row.length_mm) for row in answer.rows if row not in reach]
    if left_out:
        words.append(say("Off the scale: {lengths} mm.", lengths=", ".join(left_out)))
    if answer.most_mm is None:
        words.append(say("No upper end: nothing stands behind an open nut, or it was not read."))
    elif answer.stack is None or answer.stack.kind == "bolt":
        most = length(answer.most_mm)
        words.append(say("No more than {most}: the tip would come too near to what stands behind.", most=most))
    else:
        words.append(say("No more than {most}: the stud would bottom in its nut.", most=length(answer.most_mm)))
    return words
