"""The wheel at both locks seen from above, to scale, with what stands around it at the height of the hub."""

from __future__ import annotations

from typing import Any

import numpy as np

from hubwright.drawings.frame import headed, scale_bar
from hubwright.drawings.mapchart import pose_of
from hubwright.drawings.marks import paragraph, shortened, wrapped
from hubwright.drawings.scene import DASHED, Dot, Item, Label, Spot, Stroke, line
from hubwright.drawings.svg import svg_of
from hubwright.jobs.room_table import RoomTable
from hubwright.language import say
from hubwright.language.words import corner_title
from hubwright.quantities.text import length, number, thickness

Floats = np.ndarray[Any, np.dtype[np.float64]]

AROUND_MM = 70.0
TURN = 48


def plan_svg(room: RoomTable) -> str:
    """The wheel from above; forward is up, outboard to the side on which the wheel is.

    Solid: the wheel in the state of its least gap; dashed: straight ahead at that height; lines: the obstacles cut level
    through the place, which a cross marks.
    """
    row = room.with_disc[0]
    travel, steer = row.travel_mm or 0.0, row.steer_deg or 0.0
    sign = -1.0 if room.side == "left" else 1.0
    origin, axis = pose_of(room, travel, steer)
    straight, straight_axis = pose_of(room, travel, 0.0)
    level = float(origin[2]) if row.place_mm is None or row.travel_mm is None else row.place_mm[2]

    def paper(points: Floats) -> tuple[Spot, ...]:
        return tuple((sign * float(p[1]), float(p[0])) for p in points)

    turned = paper(_seen_from_above(room, origin, axis, row.thickness_mm))
    ahead = paper(_seen_from_above(room, straight, straight_axis, row.thickness_mm))
    cut = np.concatenate(
        [_cut(one.triangles_mm, level) for one in room.mapped.obstacles if not one.carried] or [np.empty((0, 2, 3))]
    )
    spots = np.array([*turned, *ahead])
    low, high = spots.min(axis=0) - AROUND_MM, spots.max(axis=0) + AROUND_MM
    left, right, bottom, top = float(low[0]), float(high[0]), float(low[1]), float(high[1]) + 20
    px = (right - left) / 400.0
    items: list[Item] = [
        Stroke(ahead, "soft", 1.0, DASHED, True, name="straight ahead"),
        Stroke(turned, "ink", 1.8, (), True, "rubber", name="in the state of the least gap"),
    ]
    for piece in cut:
        ends = paper(piece)
        if all(left <= x <= right and bottom <= y <= top for x, y in ends):
            items.append(Stroke(ends, "body", 1.8, name="obstacle"))
    axis_line = paper(np.array([origin - 150.0 * axis, origin + (60.0 + row.thickness_mm) * axis]))
    items += [line(axis_line[0], axis_line[1], "soft", 0.8, (10.0, 3.0, 2.0, 3.0))]
    if row.place_mm is not None and row.travel_mm is not None:
        ((x, y),) = paper(np.array([row.place_mm]))
        r = 6 * px
        items += [
            line((x - r, y - r), (x + r, y + r), "bad", 2.0), line((x - r, y + r), (x + r, y - r), "bad", 2.0),
            Dot((x, y), 9.0, "bad", "", 1.2, "least gap"),
            Label((x + 12 * px, y + 8 * px), length(row.gap_mm), 12.0, "start", "bad", True),
        ]  # fmt: skip
    items += [
        Label((left + 6 * px, bottom + 6 * px), say("↑ forward"), 11.5, "start", "soft"),
        Label(
            (right - 6 * px, bottom + 6 * px), say("outboard →") if sign > 0 else say("← outboard"), 11.5, "end", "soft"
        ),
    ]
    title = say(
        "{corner} from above, with {thickness}",
        corner=corner_title(room.axle, room.side),
        thickness=thickness(row.thickness_mm),
    )
    state = {"steer": number(abs(steer), 0), "travel": length(travel, 0), "gap": length(row.gap_mm)}
    words = [
        say("Steered {steer}° left, travel {travel}; the least gap over all states is {gap}.", **state)
        if steer > 0
        else say("Steered {steer}° right, travel {travel}; the least gap over all states is {gap}.", **state),
        say("Obstacles cut at {level} up; dashed: straight ahead at the same height.", level=length(level, 0)),
    ]
    lines = [part for text in words for part in wrapped(text, 385, 11.5)]
    floor = bottom - 20 * px - 15.5 * px * len(lines) - 24 * px
    items += [Label((left + 6 * px, top - 16 * px), shortened(title, 50), 14.0, bold=True)]
    items += paragraph((left + 6 * px, bottom - 16 * px), lines, px, 11.5)
    items += scale_bar(left + 8 * px, floor + 10 * px, px)
    return svg_of(headed("above", title, " ".join(words), tuple(items), (left, floor, right, top), px))


def _seen_from_above(room: RoomTable, origin: Floats, axis: Floats, disc_mm: float) -> Floats:
    """Silhouette of the section turned about the axis, seen along Z: hull of its rings."""
    outline = room.mapped.outline
    one = np.cross(axis, [0.0, 0.0, 1.0])
    one /= np.linalg.norm(one)
    other = np.cross(axis, one)
    angle = np.linspace(0.0, 2.0 * np.pi, TURN, endpoint=False)
    ring = np.cos(angle)[:, None] * one + np.sin(angle)[:, None] * other
    points = np.concatenate(
        [origin + (y + disc_mm) * axis + rho * ring for rho, y in zip(outline.rho_mm, outline.y_mm, strict=True)]
    )
    return points[_hull(points[:, :2])]


def _hull(points: Floats) -> list[int]:
    """Andrew's monotone chain (1979)."""
    order = np.lexsort((points[:, 1], points[:, 0]))
    rim: list[int] = []
    for run in (order, order[::-1]):
        chain: list[int] = []
        for i in run:
            while len(chain) > 1:
                a, b = points[chain[-2]], points[chain[-1]]
                if (b[0] - a[0]) * (points[i][1] - a[1]) - (b[1] - a[1]) * (points[i][0] - a[0]) > 0:
                    break
                chain.pop()
            chain.append(int(i))
        rim += chain[:-1]
    return rim


def _cut(triangles: Floats, level: float) -> Floats:
    """Where triangles cross a level plane: straight pieces (k, 2, 3); points within 4 mm of it as short strokes."""
    pieces = []
    z = triangles[:, :, 2] - level
    crossing = (z.min(axis=1) < 0) & (z.max(axis=1) > 0)
    for corners, heights in zip(triangles[crossing], z[crossing], strict=True):
        ends = []
        for i in range(3):
            j = (i + 1) % 3
            if (heights[i] < 0) != (heights[j] < 0):
                t = heights[i] / (heights[i] - heights[j])
                ends.append(corners[i] + t * (corners[j] - corners[i]))
        if len(ends) == 2:
            pieces.append(ends)
    flat = np.all(triangles[:, 0] == triangles[:, 1], axis=1) & (np.abs(z[:, 0]) < 4.0)
    pieces += [[place, place + np.array([1.0, 0.0, 0.0])] for place in triangles[flat][:, 0]]
    return np.array(pieces).reshape(-1, 2, 3)
