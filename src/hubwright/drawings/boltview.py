"""One wheel fastener in section, to scale: what it clamps, how much thread is in use, and what its tip comes near."""

from __future__ import annotations

from hubwright.drawings.boltparts import (
    Places,
    bolt_areas,
    hub_areas,
    nut_areas,
    places_of,
    seat_size,
    wheel_areas,
)
from hubwright.drawings.frame import headed, scale_bar
from hubwright.drawings.marks import dimension, paragraph, wrapped
from hubwright.drawings.scene import CHAIN, Item, Label, line
from hubwright.drawings.svg import svg_of
from hubwright.drawings.table import Table
from hubwright.jobs.fastener_table import JointAnswer, LengthRow
from hubwright.language import say
from hubwright.quantities.text import figure, length, number, thickness, unit

WIDTH_PX = 440.0
SIDE_PX = 26.0


def fastener_svg(answer: JointAnswer, row: LengthRow, thickness_mm: float) -> str:
    """The section for one length with one disc; outboard to the right."""
    stack = answer.stack
    assert stack is not None
    at = places_of(stack, row, thickness_mm)
    rise, _ = seat_size(stack)
    bolt = stack.kind == "bolt"
    items: list[Item] = [*hub_areas(stack, at), *wheel_areas(stack, at, thickness_mm)]
    items += bolt_areas(stack, at, row) if bolt else nut_areas(stack, at, row)
    low = min(at.flange_back, at.tip, at.flange_back if at.wall is None else at.wall - 2.5)
    nut_end = at.seat + (stack.closed_mm + 2.0 if stack.closed_mm is not None else 1.7 * stack.d_mm)
    high = at.seat + rise + 0.8 * stack.d_mm + 3.0 if bolt else max(nut_end, at.tip)
    px = (high - low) / (WIDTH_PX - 2 * SIDE_PX)
    left, right = low - SIDE_PX * px, high + SIDE_PX * px
    items.append(line((left + 8 * px, 0.0), (right - 8 * px, 0.0), "ink", 0.8, CHAIN))
    items += _dimensions(answer, row, thickness_mm, at, px)
    title, words = fastener_words(answer, row, thickness_mm)
    lines = [part for text in words for part in wrapped(text, WIDTH_PX - 28, 11.5)]
    head = [*wrapped(title, 0.85 * WIDTH_PX, 14.0)]
    top = at.half + (66 + 18 * len(head)) * px
    items += [
        Label((left + 14 * px, top - (18 + 18 * number_) * px), text, 14.0, bold=True)
        for number_, text in enumerate(head)
    ]
    below = -at.half - 96 * px
    items += scale_bar(left + 14 * px, below, px)
    items.append(Label((right - 14 * px, below - 4 * px), say("outboard →"), 12.0, "end", bold=True))
    items += paragraph((left + 14 * px, below - 26 * px), lines, px, 11.5)
    bottom = below - (26 + 15.2 * len(lines)) * px
    return svg_of(headed("fastener", title, " ".join(words), tuple(items), (left, bottom, right, top), px))


def fastener_words(answer: JointAnswer, row: LengthRow, thickness_mm: float) -> tuple[str, list[str]]:
    """Title and sentences of the section."""
    disc = say("with a {thickness} disc", thickness=thickness(thickness_mm)) if thickness_mm else say("without a disc")
    title = say(
        "{fastener}, {length} long, {disc}", fastener=answer.fastener, length=length(row.length_mm, 0), disc=disc
    )
    used = figure(max(row.engaged_mm, 0.0))
    words = [
        say(
            "Thread in use {used} {unit}, {turns} turns.",
            used=used,
            unit=unit(),
            turns=number(max(row.engaged_turns, 0.0), 1),
        )
        if row.engaged_mm > 0
        else say("It does not reach the thread: {short} missing.", short=length(-row.engaged_mm)),
    ]
    stack = answer.stack
    assert stack is not None
    if row.free_mm is not None:
        free, wanted = length(abs(row.free_mm)), length(stack.tip_wanted_mm)
        if stack.kind != "bolt":
            words.append(
                say("{free} left to the bottom of the closed nut.", free=free)
                if row.free_mm >= 0
                else say("The stud is {free} too long for the closed nut: it bottoms before it clamps.", free=free)
            )
        elif row.free_mm >= 0:
            words.append(say("Tip to what stands behind: {free}, {wanted} wanted.", free=free, wanted=wanted))
        else:
            words.append(say("The tip runs {free} into what stands behind.", free=free))
    if stack.kind == "bolt" and stack.flange_mm is not None and row.engaged_mm > stack.flange_mm + 1e-9:
        words.append(
            say(
                "It reaches through the hub: of that only {flange} is thread of the hub.",
                flange=length(stack.flange_mm),
            )
        )
    missing = [
        text
        for value, text in (
            (stack.flange_mm if stack.blind_mm is None else 0.0, say("thickness of the hub flange")),
            (stack.hat_mm, say("brake disc hat, drawn as none")),
        )
        if value is None
    ]
    if missing:
        words.append(say("Not measured: {missing}.", missing=", ".join(missing)))
    words.append(say("Lengths, thread and seat are to scale; head, nut and height of the parts are schematic."))
    return title, words


def lengths_table(answer: JointAnswer) -> Table:
    """Every length as rows of text."""
    rows = tuple(
        (
            length(row.length_mm, 0), length(row.engaged_mm), number(row.engaged_turns, 1),
            "" if row.free_mm is None else length(row.free_mm), row.words,
        )
        for row in answer.rows
    )  # fmt: skip
    columns = (say("length"), say("thread in use"), say("turns"), say("air at the tip"), say("why"))
    return Table(say("Every length for {wheels}", wheels=answer.title), columns, rows)


def _dimensions(answer: JointAnswer, row: LengthRow, thickness_mm: float, at: Places, px: float) -> list[Item]:
    """Above: flange, hat, disc, wheel. Below: thread in use, air at the tip."""
    stack = answer.stack
    assert stack is not None
    items: list[Item] = []
    up = at.half + 16 * px
    spans: list[tuple[float, float, str, str, bool]] = [
        (at.flange_back, at.flange_front, say("hub"), "soft", stack.flange_mm is not None),
        (at.flange_front, 0.0, say("hat"), "soft", bool(stack.hat_mm)),
        (0.0, thickness_mm, say("disc"), "disc", thickness_mm > 0),
        (at.pad, at.seat, say("wheel"), "soft", stack.pad_mm > 0.5),
    ]
    shown = [(low, high, name, role) for low, high, name, role, known in spans if known]
    for number_, (low, high, name, role) in enumerate(shown):
        lift = 24 * px if number_ % 2 else 0.0
        items += [line((x, at.half + 2 * px), (x, up + lift + 4 * px), "soft", 0.5) for x in (low, high)]
        items += dimension((low, up + lift), (high, up + lift), px, role, name)
        items.append(Label(((low + high) / 2, up + lift + 6 * px), f"{name} {figure(high - low)}", 11.0, "middle"))
    down = -at.half - 16 * px
    if row.engaged_mm > 0:
        low = at.tip if stack.kind == "bolt" else at.seat
        high = low + row.engaged_mm
        turned = number(row.engaged_turns, 1)
        text = say("in use {used} = {turns} turns", used=figure(row.engaged_mm), turns=turned)
        items += _below(low, high, down, text, "good", at, px)
    if row.free_mm is not None:
        wall = at.wall if stack.kind == "bolt" else at.seat + (stack.closed_mm or 0.0)
        if wall is not None:
            low, high = sorted((wall, at.tip))
            role = "bad" if row.free_mm < 0 else "ink"
            over = say("{free} too far", free=length(-row.free_mm)) if row.free_mm < 0 else length(row.free_mm)
            items += _below(low, high, down - 30 * px, over, role, at, px)
    return items


def _below(low: float, high: float, height: float, text: str, role: str, at: Places, px: float) -> list[Item]:
    legs = [line((x, -at.half - 2 * px), (x, height - 4 * px), "soft", 0.5) for x in (low, high)]
    label = Label(((low + high) / 2, height - 14 * px), text, 11.5, "middle", role, bold=True)
    return [*legs, *dimension((low, height), (high, height), px, role), label]
