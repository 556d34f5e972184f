"""The to-scale sketch beside a set of rows; it grows while one reads: an edge round the wheel, an outline in half section.

Wheel and tyre are drawn from what the job knows, else as on a usual car and dashed: they help to find one's way, no more.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace

from hubwright.drawings.reading_parts import area, axis, ghost, word
from hubwright.drawings.scene import Dot, Item, Label, Ring, Scene, Spot, Stroke, box, line, spots_of
from hubwright.drawings.svg import svg_of
from hubwright.language import say
from hubwright.quantities.axes import Side

WIDE_PX, HIGH_PX = 560.0, 400.0
"""Nominal size of a sketch; sizes of letters follow from it, whichever way it is longer."""
TYPICAL = {"radius_mm": 320.0, "width_mm": 235.0, "rim_mm": 229.0, "inset_mm": 45.0}
"""Where nothing was read: a usual wheel, for the picture only."""
APART_MM, AROUND = 70.0, 0.07
MOST_NUMBERS = 14
"""With more rows than this only every other one, or fewer, bears its number."""
Rows = Sequence[Sequence[float | None]]


def row_sketch(view: str, rows: Rows, known: Mapping[str, float], title: str, side: Side | None = None) -> str:
    """The SVG of a set of rows.

    Args:
        view: clock, places, section, half or body.
        rows: Figures in the order of the rows, mm and degrees; None where one is missing.
        known: Figures of wheel and hub by name, mm.
        title: For the screen reader.
        side: Which corner; seen from behind, a left one stands on the left.
    """
    return svg_of(row_scene(view, rows, known, title, side))


def row_scene(view: str, rows: Rows, known: Mapping[str, float], title: str, side: Side | None = None) -> Scene:
    """The same as a scene."""
    size = {**TYPICAL, **{key: value for key, value in known.items() if value > 0}}
    out = -1.0 if side == "left" else 1.0
    numbers = [tuple(0.0 if it is None else it for it in row if not isinstance(it, str)) for row in rows]
    if view == "clock":
        panels = [_round(numbers, size, out), _behind([(r[2], r[1] * _cos(r[0])) for r in numbers], size, out)]
    elif view == "body":
        panels = [_behind([(r[-3], r[-2]) for r in numbers], size, out)]
    elif view == "places":
        panels = [
            _plain([(r[0], r[2]) for r in numbers], say("from the right: forward ›"), joined=True),
            _plain([(-r[1], r[2]) for r in numbers], say("from behind: right ›"), joined=True),
        ]
    elif view == "half":
        panels = [_half(numbers, size)]
    else:
        panels = [_section(numbers, size)]
    items: list[Item] = []
    right = 0.0
    for panel in panels:
        xs = [x for x, _ in spots_of(panel)]
        shift = right - min(xs) + (APART_MM if items else 0.0)
        items += [moved(item, shift) for item in panel]
        right = max(xs) + shift
    across, up = zip(*spots_of(items), strict=True)
    wide, high = max(max(across) - min(across), 60.0), max(max(up) - min(up), 60.0)
    edge = AROUND * max(wide, high)
    px = max((wide + 2 * edge) / WIDE_PX, (high + 2 * edge) / HIGH_PX)
    told = say("{count} rows read; each stands at its place, to scale.", count=len(rows))
    foot = min(up) - edge - 14 * px
    return Scene("rows", title, told, tuple(items), min(across) - edge, foot, max(across) + edge, max(up) + edge, px)


def _cos(degrees: float) -> float:
    return math.cos(math.radians(degrees))


def _round(rows: list[tuple[float, ...]], size: Mapping[str, float], out: float) -> list[Item]:
    """From outside: 0 straight up, 90 level to the rear. Of a right wheel the rear is on the left."""
    r = size["radius_mm"]
    rear = -out
    items: list[Item] = [
        Ring((0, 0), r, "soft", 1.2, (5.0, 3.0), "tyre"), Ring((0, 0), size["rim_mm"], "faint", 1.0, (), "rim"),
        Dot((0, 0), 3.0, "ink", "ink", name="wheel centre"),
        line((0, 0), (0, r * 1.12), "faint", 1.0), line((0, 0), (rear * r * 1.12, 0), "faint", 1.0),
        Label((0, r * 1.16), "0°", 13.0, "middle", "soft"), Label((rear * r * 1.2, -6), "90°", 13.0, "middle", "soft"),
        word((0, -r * 1.18), say("from outside; the rear is at 90°")),
    ]  # fmt: skip
    spots = [(rear * radius * math.sin(math.radians(clock)), radius * _cos(clock)) for clock, radius, *_ in rows]
    return items + _reading(spots, joined=True)


def _behind(spots: list[Spot], size: Mapping[str, float], out: float) -> list[Item]:
    """From behind: outboard of the hub face against the height over the wheel centre."""
    r, half, middle = size["radius_mm"], size["width_mm"] / 2, -size["inset_mm"]
    left, right = sorted((out * (middle - half), out * (middle + half)))
    items: list[Item] = [
        ghost(box(left, -r, right, r), "tyre"), Stroke(((0, -40), (0, 40)), "disc", 2.4, name="hub face"),
        axis((left - 20, 0), (right + 20, 0)), word((0, -56), say("hub face")),
        word((0, -r * 1.18), say("from behind: outboard ›") if out > 0 else say("from behind: ‹ outboard")),
    ]  # fmt: skip
    return items + _reading([(out * x, z) for x, z in spots], joined=True)


def _section(rows: list[tuple[float, ...]], size: Mapping[str, float]) -> list[Item]:
    """Half section: outboard of the face to the right, distance from the spin axis upward."""
    spots = [(y, rho) for rho, y in (row[:2] for row in rows)]
    high = max([size["rim_mm"], *(rho for _, rho in spots)])
    items: list[Item] = [
        axis((-170, 0), (80, 0)), Stroke(((0, 0), (0, high * 0.4)), "disc", 2.4, name="face"),
        Stroke(((-size["inset_mm"] - 100, size["rim_mm"]), (-size["inset_mm"] + 100, size["rim_mm"])), "soft", 1.2, (5.0, 3.0), name="rim"),
        word((0, -26), say("face, spin axis; outboard ›")), word((-size["inset_mm"], size["rim_mm"] + 8), say("rim")),
    ]  # fmt: skip
    return items + _reading(spots, joined=True)


def _half(rows: list[tuple[float, ...]], size: Mapping[str, float]) -> list[Item]:
    """Half the tyre: from the rim centre plane outward, by the radius."""
    r, rim, half = size["radius_mm"], size["rim_mm"], size["width_mm"] / 2
    items: list[Item] = [
        ghost(((0, rim), (half * 0.93, rim), (half, (rim + r) / 2), (half * 0.86, r - 8), (half * 0.6, r), (0, r)), "tyre"),
        axis((0, rim - 20), (0, r + 20)), word((0, rim - 34), say("rim centre plane; outboard ›"), "start"),
    ]  # fmt: skip
    return items + _reading([(width, radius) for radius, width in sorted(row[:2] for row in rows)], joined=True)


def _plain(spots: list[Spot], words: str, *, joined: bool) -> list[Item]:
    found = _reading(spots, joined=joined) or [Dot((0, 0), 2.0, "soft", "soft")]
    xs, ys = zip(*spots_of(found), strict=True)
    deep = max(max(xs) - min(xs), max(ys) - min(ys), 100.0)
    frame = box(min(xs) - deep * 0.06, min(ys) - deep * 0.06, max(xs) + deep * 0.06, max(ys) + deep * 0.06)
    return [area(frame, "ground", "frame"), *found, word(((min(xs) + max(xs)) / 2, min(ys) - deep * 0.16), words)]


def _reading(spots: list[Spot], *, joined: bool) -> list[Item]:
    """The readings: a line through them, a dot at each, the last one copper and large."""
    items: list[Item] = []
    if joined and len(spots) > 1:
        items.append(Stroke(tuple(spots), "body", 2.2, name="line"))
    every = math.ceil(len(spots) / MOST_NUMBERS) if spots else 1
    for number, spot in enumerate(spots, 1):
        last = number == len(spots)
        items.append(
            Dot(spot, 5.5 if last else 3.5, "disc" if last else "body", "disc" if last else "body", name="row")
        )
        if last or number % every == 0 or number == 1:
            items.append(Label((spot[0] + 6, spot[1] + 6), str(number), 13.0, "start", "disc" if last else "ink", last))
    return items


def moved(item: Item, shift: float) -> Item:
    """An item further right."""
    if isinstance(item, Stroke):
        return replace(item, points=tuple((x + shift, y) for x, y in item.points))
    if isinstance(item, Dot | Ring | Label):
        return replace(item, at=(item.at[0] + shift, item.at[1]))
    return replace(item, items=tuple(moved(one, shift) for one in item.items))
