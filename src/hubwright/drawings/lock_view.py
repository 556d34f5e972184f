"""One wheel at lock from above, to scale, from readings alone: each point stands as far from the tyre as it was read."""

from __future__ import annotations

import math

from hubwright.checks.states import height_words, state_words
from hubwright.drawings.frame import headed, scale_bar
from hubwright.drawings.marks import dimension, paragraph, wrapped
from hubwright.drawings.scene import CHAIN, DASHED, Anchor, Item, Label, Spot, Stroke, line
from hubwright.drawings.svg import svg_of
from hubwright.drawings.table import Table
from hubwright.jobs.lock_table import LockGap, LockView, direction
from hubwright.language import say
from hubwright.language.words import corner_title
from hubwright.parts.job import AxleName
from hubwright.quantities.text import left_over, length, number, thickness

WIDTH_PX = 440.0
BAR_MM, AROUND_MM = 70.0, 75.0
Corners = tuple[Spot, ...]


def lock_svg(axle: AxleName, view: LockView, section: Corners, thickness_mm: float) -> str:
    """The wheel at one lock; forward is up, outboard to the side on which the wheel is.

    Args:
        axle: Axle.
        view: The lock and what was read there.
        section: Wheel and tyre from above, straight ahead, without a disc: (forward, outboard of the hub face), mm.
        thickness_mm: The disc.
    """
    sign = -1.0 if view.side == "left" else 1.0
    bare = _steered(section, view.axis, 0.0)
    moved = _steered(section, view.axis, thickness_mm)

    def paper(spots: Corners) -> Corners:
        return tuple((sign * outboard, forward) for forward, outboard in spots)

    places = [_place(gap, bare, moved) for gap in view.gaps]
    every = [*paper(bare), *paper(moved), *paper(section), *(spot for pair in places for spot in paper(pair))]
    left, right = min(x for x, _ in every) - AROUND_MM, max(x for x, _ in every) + AROUND_MM
    low, high = min(y for _, y in every) - AROUND_MM, max(y for _, y in every) + AROUND_MM
    px = (right - left) / WIDTH_PX
    items: list[Item] = [
        Stroke(paper(section), "soft", 0.9, DASHED, True, name="straight ahead"),
        Stroke(paper(bare), "soft", 1.1, (), True, name="without a disc"),
        Stroke(paper(moved), "ink", 1.8, (), True, "rubber", name="with the disc"),
    ]
    ends = paper(((-150.0 * view.axis[0], -150.0 * view.axis[1]), (110.0 * view.axis[0], 110.0 * view.axis[1])))
    items.append(line(ends[0], ends[1], "soft", 0.8, CHAIN))
    for gap, pair in zip(view.gaps, places, strict=True):
        items += _point(gap, paper(pair), direction(gap.toward), sign, px)
    title, words = lock_words(axle, view, thickness_mm)
    lines = [part for text in words for part in wrapped(text, WIDTH_PX - 28, 11.5)]
    head = wrapped(title, 0.85 * WIDTH_PX, 14.0)
    top = high + (14 + 18 * len(head)) * px
    items += [Label((left + 14 * px, top - (18 + 18 * n) * px), text, 14.0, bold=True) for n, text in enumerate(head)]
    items.append(Label((left + 14 * px, low + 8 * px), say("↑ forward"), 11.0, "start", "soft"))
    outboard = say("outboard →") if sign > 0 else say("← outboard")
    items.append(Label((right - 14 * px, low + 8 * px), outboard, 11.0, "end", "soft"))
    items += scale_bar(left + 14 * px, low - 16 * px, px)
    items += paragraph((left + 14 * px, low - 44 * px), lines, px, 11.5)
    bottom = low - (50 + 15.2 * len(lines)) * px
    return svg_of(headed("lock", title, " ".join(words), tuple(items), (left, bottom, right, top), px))


def lock_words(axle: AxleName, view: LockView, thickness_mm: float) -> tuple[str, list[str]]:
    """Title and sentences: the tightest point and its state first."""
    corner = corner_title(axle, view.side)
    angle = number(abs(view.steer_deg), 0)
    left = view.steer_deg > 0
    turned = say("steered {angle}° left", angle=angle) if left else say("steered {angle}° right", angle=angle)
    disc = say("with {thickness}", thickness=thickness(thickness_mm)) if thickness_mm else say("without a disc")
    title = say("{corner} from above, {turned}, {disc}", corner=corner, turned=turned, disc=disc)
    words = []
    for gap in view.gaps:
        words.append(
            say(
                "{point}, {state}: {gap} left, {bare} without a disc, {wanted} wanted.",
                point=gap.point, state=height_words(gap.travel_mm), gap=length(gap.gap_mm), bare=length(gap.bare_mm),
                wanted=length(gap.wanted_mm),
            )
        )  # fmt: skip
    words.append(
        say(
            "Points stand as far from the tyre as they were read, each in its own direction; their shape and the pivot of "
            "the steering are not known. Dashed: straight ahead."
        )
    )
    return title, words


def lock_table(axle: AxleName, views: tuple[LockView, ...]) -> Table:
    """Every gap at lock as rows of text."""
    rows = tuple(
        (
            f"{corner_title(axle, gap.side)}: {gap.point}", state_words(gap.travel_mm, gap.steer_deg, 0.5),
            length(gap.bare_mm), length(gap.gap_mm), length(gap.wanted_mm), left_over(gap.left_mm),
        )
        for view in views
        for gap in view.gaps
    )  # fmt: skip
    columns = (say("point"), say("state"), say("without a disc"), say("with the disc"), say("wanted"), say("left over"))
    return Table(say("Gaps read at lock"), columns, rows)


def _steered(section: Corners, axis: Spot, thickness_mm: float) -> Corners:
    """The section turned with the wheel and moved out along its axis."""
    ahead = (axis[1], -axis[0])
    return tuple(
        (
            forward * ahead[0] + (outboard + thickness_mm) * axis[0],
            forward * ahead[1] + (outboard + thickness_mm) * axis[1],
        )
        for forward, outboard in section
    )


def _place(gap: LockGap, bare: Corners, moved: Corners) -> tuple[Spot, Spot]:
    """The tyre's nearest spot with the disc, and the obstacle: as far from the bare tyre as was read."""
    toward = direction(gap.toward)
    nearest = max(bare, key=lambda spot: spot[0] * toward[0] + spot[1] * toward[1])
    there = (nearest[0] + gap.bare_mm * toward[0], nearest[1] + gap.bare_mm * toward[1])
    touching = max(moved, key=lambda spot: spot[0] * toward[0] + spot[1] * toward[1])
    reach = touching[0] * toward[0] + touching[1] * toward[1]
    wall = there[0] * toward[0] + there[1] * toward[1]
    end = (touching[0] + (wall - reach) * toward[0], touching[1] + (wall - reach) * toward[1])
    return touching, end


def _point(gap: LockGap, pair: Corners, toward: Spot, sign: float, px: float) -> list[Item]:
    """A bar square to the direction it was read in, a dimension to the tyre, and the figure."""
    tyre, wall = pair
    way = (sign * toward[1], toward[0])
    across = (-way[1], way[0])
    half = BAR_MM / 2
    a = (wall[0] + half * across[0], wall[1] + half * across[1])
    b = (wall[0] - half * across[0], wall[1] - half * across[1])
    bad = gap.left_mm < -1e-9
    role = "bad" if bad else "body"
    behind = (4 * px * way[0], 4 * px * way[1])
    shape = (a, b, (b[0] + behind[0], b[1] + behind[1]), (a[0] + behind[0], a[1] + behind[1]))
    items: list[Item] = [Stroke(shape, role, 1.6, (), True, "ground", "rising", gap.point)]
    if math.dist(tyre, wall) > 0.5:
        items += dimension(tyre, wall, px, role, f"gap {gap.point}")
    anchor: Anchor = "middle" if abs(way[0]) < 0.5 else "start" if way[0] > 0 else "end"
    at = (wall[0] + 12 * px * way[0], wall[1] + (14 * px if way[1] > 0.5 else -18 * px if way[1] < -0.5 else -4 * px))
    if anchor != "middle":  # beside the bar there is little paper: write above it
        at, anchor = (a[0], max(a[1], b[1]) + 6 * px), "middle"
    items.append(Label(at, length(gap.gap_mm), 13.0, anchor, role, True))
    return items
