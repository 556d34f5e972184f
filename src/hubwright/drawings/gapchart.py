"""Gap against travel for the points of one corner: bare, with the disc, and what must be left."""

from __future__ import annotations

import numpy as np

from hubwright.checks.clearance import Room, Swept, pinch_at, room_of, state_words
from hubwright.checks.house import house_of
from hubwright.drawings.corner import axle_of, checked_thickness, empty_scene
from hubwright.drawings.marks import apart, paragraph, shortened, wrapped
from hubwright.drawings.scene import CHAIN, Dot, Group, Item, Label, Scene, Stroke, box, line
from hubwright.drawings.svg import svg_of
from hubwright.drawings.table import Table
from hubwright.drawings.travelplot import DASHES, EDGE_PX, LEAST_SPAN_MM, LEFT_PX, PLOT_PX, SCREEN, Look, Plot, grid
from hubwright.engineering.placement import Array
from hubwright.errors import OutsideValidity
from hubwright.language import say
from hubwright.language.place_words import place_word
from hubwright.language.words import axle_word, corner_title, side_word
from hubwright.parts.job import AxleName, Job
from hubwright.quantities.axes import Side
from hubwright.quantities.text import figure, length, number, short, spare, thickness, unit

CONTACT_PX = 24.0
"""So near to the line of contact its own name stands there."""
DEEPEST_MM = -12.0
"""Overlaps deeper than this are drawn at the edge of a chart that must hold for many discs."""


def gap_chart_svg(
    job: Job, axle_name: AxleName, side: Side, thickness_mm: float, *, with_work: bool = False, title: str = ""
) -> str:
    """Gap against travel at every point of one corner.

    Thin line: bare; thick line: with the disc; chain line: what must be left (margin, doubt and give of the loaded
    wheel); squares with bars: readings, as bare gaps, with their standard doubt; ring: the pinch. Each point has its
    own number and dash.

    Args:
        job: The job.
        axle_name: Which axle.
        side: Which side.
        thickness_mm: Per side; 0 = no disc.
        with_work: Whether the work offered at the points is reckoned as done.
        title: Heading; made from axle and side where empty.

    Raises:
        OutsideValidity: for a thickness that is not from 0 to 150 mm.
    """
    checked_thickness(thickness_mm)
    heading = title or say("{corner}: gap against travel", corner=corner_title(axle_name, side))
    try:
        room = _room(job, axle_name, side, with_work)
    except OutsideValidity as error:
        return svg_of(empty_scene("gaps", heading, str(error)))
    if room is None or not room.swept:
        why = say("No gap was read on the {axle} {side}.", axle=axle_word(axle_name), side=side_word(side))
        return svg_of(empty_scene("gaps", heading, why))
    return svg_of(gap_scene(room, thickness_mm, heading))


def gap_scene(room: Room, thickness_mm: float, heading: str, look: Look = SCREEN) -> Scene:
    """The chart of a room with at least one curve, as a scene. Arguments as `gap_chart_svg`."""
    fitted = say("{thickness} disc", thickness=thickness(thickness_mm)) if thickness_mm else say("no disc")
    if look.up_to_mm is not None:
        fitted = say("thick: with the disc")
    if any(swept.gain_mm for swept in room.swept):
        fitted = say("{disc}, work done", disc=fitted)
    plot = _plot_of(room, thickness_mm, -46.0, look)
    still: list[Item] = [
        Label((EDGE_PX, -20), shortened(heading, int(look.width_px / 8.9)), 14.0, bold=True),
        Label(
            (EDGE_PX, -37), say("{fitted}; gap and travel: {unit}", fitted=fitted, unit=unit()), 11.5, "start", "soft"
        ),
        *grid(plot),
    ]
    trial: list[Item] = []
    for index, swept in enumerate(room.swept):
        still.append(_series(plot, swept, index))
        trial += _series_with_disc(plot, swept, thickness_mm, index)
    trial += _numbers(plot, room, thickness_mm)
    trial += _pinch_mark(plot, room, thickness_mm)
    y = plot.top - PLOT_PX - 38.0
    sentences = gap_sentences(room, thickness_mm)
    if look.notes:
        for role, width, dash, text in _key(thickness_mm):
            still += [line((14, y + 4), (38, y + 4), role, width, dash), Label((44, y), text, 11.0)]
            y -= 14.5
        lines = [part for text in sentences for part in wrapped(text, plot.right_px - 14, 11.5)]
        still += paragraph((14, y - 4), lines, 1.0, 11.5)
        y -= 4 + 15.2 * len(lines)
    items = (Group("still", tuple(still)), Group("trial", tuple(trial)))
    return Scene("gaps", heading, " ".join(sentences), items, 0, y, look.width_px, 0)


def gap_table(job: Job, axle_name: AxleName, side: Side, thickness_mm: float, *, with_work: bool = False) -> Table:
    """The readings and the pinch of every point as text: gap bare, with the disc, needed, left over."""
    checked_thickness(thickness_mm)
    room = _room(job, axle_name, side, with_work)
    caption = say("Gaps, {axle} {side}", axle=axle_word(axle_name), side=side_word(side))
    return gap_rows(room, thickness_mm, caption)


def gap_rows(room: Room | None, thickness_mm: float, caption: str) -> Table:
    """The same of a room; no rows where there is none."""
    rows = []
    for swept in room.swept if room else ():
        states = {int(np.abs(swept.curve.travel_mm - travel).argmin()): say("read") for travel in swept.curve.read_mm}
        pinch = int(swept.slack_at(thickness_mm).argmin())
        states[pinch] = say("{reading}, pinch", reading=states[pinch]) if pinch in states else say("pinch")
        for state, how in sorted(states.items()):
            gap, need = _with_disc(swept, thickness_mm), _needed(swept)
            rows.append((
                place_word(swept.curve.point.name), f"{state_words(swept.curve, state)} ({how})",
                figure(float(swept.curve.gap_mm[state]) + swept.gain_mm), figure(float(gap[state])),
                figure(float(need[state])), figure(float(gap[state] - need[state])),
            ))  # fmt: skip
    columns = (
        say("point"),
        say("state"),
        say("bare, {unit}", unit=unit()),
        say("with {thickness}, {unit}", thickness=thickness(thickness_mm), unit=unit()),
        say("needed, {unit}", unit=unit()),
        say("left over, {unit}", unit=unit()),
    )
    return Table(caption, columns, tuple(rows))


def _room(job: Job, axle_name: AxleName, side: Side, with_work: bool) -> Room | None:
    axle = axle_of(job, axle_name)
    if axle is None:
        return None
    return room_of(axle, side, house_of(job), steered=job.is_steered(axle_name), with_work=with_work)


def _with_disc(swept: Swept, thickness_mm: float) -> Array:
    return np.asarray(swept.curve.gap_mm + swept.gain_mm - swept.curve.push * thickness_mm)


def _needed(swept: Swept) -> Array:
    return np.asarray(swept.margin_mm + swept.compliance_mm + swept.guard_mm)


def _plot_of(room: Room, thickness_mm: float, top: float, look: Look) -> Plot:
    travel = np.concatenate([swept.curve.travel_mm for swept in room.swept])
    gaps = [(swept.curve.gap_mm + swept.gain_mm + s * swept.curve.doubt_mm) for swept in room.swept for s in (-1, 1)]
    shown = thickness_mm if look.up_to_mm is None else 0.0
    every = np.concatenate([*gaps, *(_with_disc(s, shown) for s in room.swept), *map(_needed, room.swept)])
    low, high = float(travel.min()), float(travel.max())
    if high - low < LEAST_SPAN_MM:
        low, high = (low + high - LEAST_SPAN_MM) / 2, (low + high + LEAST_SPAN_MM) / 2
    spare = (high - low) * 0.06
    least, most = float(every.min()), float(every.max())
    if look.up_to_mm is not None:
        every = np.concatenate([_with_disc(s, look.up_to_mm) for s in room.swept])
        least, most = max(min(least, float(every.min())), DEEPEST_MM), max(most, float(every.max()))
    bottom, roof = min(least - 1.0, -2.0), max(most + 2.0, LEAST_SPAN_MM)
    return Plot(low - spare, high + spare * 1.2, bottom, roof, top, look.width_px - EDGE_PX)


def _series(plot: Plot, swept: Swept, index: int) -> Group:
    curve, dash = swept.curve, DASHES[index % len(DASHES)]
    bare = curve.gap_mm + swept.gain_mm
    items: list[Item] = [
        Stroke(plot.curve(curve.travel_mm, _needed(swept)), "bad", 1.0, CHAIN, name="needed"),
        Stroke(plot.curve(curve.travel_mm, bare), "soft", 1.0, dash, name="bare"),
    ]
    for travel in curve.read_mm:
        state = int(np.abs(curve.travel_mm - travel).argmin())
        items.append(_reading(plot, travel, float(bare[state]), float(curve.doubt_mm[state])))
    title = f"{_steered(swept)}: {curve.model}"
    return Group(f"point-{index + 1}", tuple(items), title)


def _series_with_disc(plot: Plot, swept: Swept, thickness_mm: float, index: int) -> list[Item]:
    if not thickness_mm:
        return []
    gap, dash = _with_disc(swept, thickness_mm), DASHES[index % len(DASHES)]
    return [Stroke(plot.curve(swept.curve.travel_mm, gap), "disc", 2.4, dash, name="with disc")]


def _reading(plot: Plot, travel: float, gap: float, doubt: float) -> Group:
    x, y = plot.at(travel, gap)
    low, high = plot.at(travel, gap - doubt)[1], plot.at(travel, gap + doubt)[1]
    caps = [line((x - 3, end), (x + 3, end), "ink", 1.0) for end in (low, high)]
    square = Stroke(box(x - 2.6, y - 2.6, x + 2.6, y + 2.6), "ink", 1.0, (), True, "paper")
    return Group(
        "reading",
        (line((x, low), (x, high), "ink"), *caps, square),
        say("read {gap} ± {doubt}", gap=length(gap), doubt=length(doubt)),
    )


def _numbers(plot: Plot, room: Room, thickness_mm: float) -> list[Item]:
    """The number of each point at the end of its curve, kept apart; one point alone needs none."""
    if len(room.swept) == 1:
        return []
    ends = [
        plot.at(float(swept.curve.travel_mm[-1]), float(_with_disc(swept, thickness_mm)[-1])) for swept in room.swept
    ]
    heights = apart([end[1] for end in ends], 13.0)
    pinch = pinch_at(room, thickness_mm)
    ringed = pinch is not None and pinch.state == len(pinch.swept.curve.travel_mm) - 1
    beside = 10 if ringed else 5  # clear of the ring around the pinch
    return [
        Label((end[0] + beside, height - 4), str(index + 1), 12.0, "start", "ink", True)
        for index, (end, height) in enumerate(zip(ends, heights, strict=True))
    ]


def _pinch_mark(plot: Plot, room: Room, thickness_mm: float) -> list[Item]:
    pinch = pinch_at(room, thickness_mm)
    if pinch is None:
        return []
    gap = float(_with_disc(pinch.swept, thickness_mm)[pinch.state])
    x, y = plot.at(float(pinch.swept.curve.travel_mm[pinch.state]), gap)
    text = say("pinch {gap}", gap=length(gap))
    outer = x > (LEFT_PX + plot.right_px) / 2
    zero = plot.at(plot.low_travel, 0.0)[1]
    below = y - 20 > plot.top - PLOT_PX and not zero - CONTACT_PX < y - 15 < zero + CONTACT_PX
    return [
        Dot((x, y), 7.0, "ink", "", 1.8, "pinch"),
        Label(
            (x - 10 if outer else x + 10, y - 15 if below else y + 12),
            text,
            12.0,
            "end" if outer else "start",
            "ink",
            True,
        ),
    ]


def _key(thickness_mm: float) -> list[tuple[str, float, tuple[float, ...], str]]:
    rows: list[tuple[str, float, tuple[float, ...], str]] = [
        ("soft", 1.0, (), say("bare; squares: readings ± standard doubt"))
    ]
    if thickness_mm:
        rows.append(("disc", 2.4, (), say("with {thickness}", thickness=thickness(thickness_mm))))
    return [*rows, ("bad", 1.0, CHAIN, say("needed: margin, doubt, give of the loaded wheel"))]


def gap_sentences(room: Room, thickness_mm: float) -> list[str]:
    """The least gap of every point, the pinch, and what is missing."""
    found = []
    pinch = pinch_at(room, thickness_mm)
    for index, swept in enumerate(room.swept):
        state = int(swept.slack_at(thickness_mm).argmin())
        gap, need = float(_with_disc(swept, thickness_mm)[state]), float(_needed(swept)[state])
        mark = f"{index + 1} " if len(room.swept) > 1 else ""
        place = say(
            "{mark}{point}: least {gap} at {state}",
            mark=mark,
            point=shortened(place_word(swept.curve.point.name), 60),
            gap=length(gap),
            state=state_words(swept.curve, state),
        )
        left = gap - need
        ends = spare(left) if left >= -1e-9 else short(-left)
        text = say("{place}, {need} needed: {ends}.", place=place, need=length(need), ends=ends)
        found.append(f"{text} {say('Pinch.')}" if pinch is not None and pinch.swept is swept else text)
    found += [say("Missing: {what}.", what=wanted.what) for wanted in room.missing]
    return found


def _steered(swept: Swept) -> str:
    steer, point = swept.curve.steer_deg, place_word(swept.curve.point.name)
    if abs(steer) < 0.5:
        return point
    places = {"point": point, "steer": number(abs(steer), 0)}
    return (
        say("{point}, steered {steer}° left", **places)
        if steer > 0
        else say("{point}, steered {steer}° right", **places)
    )
