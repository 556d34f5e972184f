"""A placed scan beside the parked wheel, to scale: from outside, and from behind with a slice through the axle."""

from __future__ import annotations

from typing import Any, Literal

import numpy as np

from hubwright.drawings.frame import headed, scale_bar
from hubwright.drawings.marks import paragraph, wrapped
from hubwright.drawings.scene import CHAIN, Item, Label, Ring, Spot, Stroke, line
from hubwright.drawings.svg import svg_of
from hubwright.jobs.placing import Placing
from hubwright.jobs.scans import hub_axes
from hubwright.language import say

Floats = np.ndarray[Any, np.dtype[np.float64]]
Seen = Literal["outside", "behind"]

CELL_MM = 8.0
REACH_MM = 760.0
SLICE_MM = 25.0
MOST_PIECES = 150_000
WIDE = 1 << 20
USUAL_RADIUS_MM = 320.0
"""Of the wheel in the picture where the fitted tyre is not known; schematic then."""


def placed_svg(placing: Placing, seen: Seen) -> str:
    """The scan as it lies about the parked wheel; forward, outboard and up are marked, so that a mix-up is seen."""
    places = _in_level_axes(placing)
    left_side = placing.side == "left"
    # From outside a left wheel drives to the left of the paper; from behind its outboard side is to the left.
    sign = -1.0 if left_side else 1.0
    across = sign * places[:, 0] if seen == "outside" else sign * places[:, 1]
    spots = np.column_stack([across, places[:, 2]])
    near = np.abs(spots).max(axis=1) <= REACH_MM
    if seen == "behind":
        cut = near & (np.abs(places[:, 0]) <= SLICE_MM)
        items: list[Item] = [*_runs(spots[near & ~cut], "faint", 1.6), *_runs(spots[cut], "body", 2.6)]
    else:
        items = list(_runs(spots[near], "body", 1.8))
    items += _wheel(placing, seen, sign)
    left, right = -REACH_MM - 20.0, REACH_MM + 20.0
    px = (right - left) / 430.0
    low = float(min(spots[near][:, 1].min(), -360.0)) - 20.0 if near.any() else -REACH_MM
    high = float(max(spots[near][:, 1].max(), 360.0)) + 30.0 * px if near.any() else REACH_MM
    ahead, words = _words(seen, sign)
    items += [
        Label((left + 6 * px, low - 4 * px), ahead[0], 11.0, "start", "soft"),
        Label((right - 6 * px, low - 4 * px), ahead[1], 11.0, "end", "soft"),
        Label((0.0, high - 12 * px), say("↑ up"), 11.0, "middle", "soft"),
    ]
    lines = wrapped(words, 410, 11.5)
    floor = low - 20 * px - 15.5 * px * len(lines) - 26 * px
    items += paragraph((left + 6 * px, low - 24 * px), lines, px, 11.5)
    items += scale_bar(left + 8 * px, floor + 6 * px, px)
    title = say("The scan from outside the car") if seen == "outside" else say("The scan from behind the car")
    return svg_of(headed(f"placed-{seen}", title, words, tuple(items), (left, floor, right, high), px), decimals=1)


def _words(seen: Seen, sign: float) -> tuple[tuple[str, str], str]:
    if seen == "outside":
        ends = (say("← forward"), say("rearward →")) if sign < 0 else (say("← rearward"), say("forward →"))
        return ends, say("Seen from outside, level. The arch must stand over the wheel, its front end towards forward.")
    ends = (say("← outboard"), say("inboard →")) if sign < 0 else (say("← inboard"), say("outboard →"))
    return ends, say("Seen from behind. Strong: a slice of 50 mm through the axle; the wheel is cut there too.")


def _in_level_axes(placing: Placing) -> Floats:
    """Places (n, 3) of the scan from the parked hub-face centre, forward, outboard, up as the car stands."""
    triangles = placing.sample_mm @ hub_axes(placing.axis)
    if placing.shape.is_points:
        return triangles[:, 0]
    return _filled(triangles)


def _filled(triangles: Floats) -> Floats:
    """Corners and middles of triangles, large ones quartered until they leave no gaps in the grid."""
    while len(triangles) < MOST_PIECES:
        wide = np.linalg.norm(triangles - np.roll(triangles, 1, axis=1), axis=2).max(axis=1) > CELL_MM
        if not wide.any():
            break
        a, b, c = (triangles[wide, corner] for corner in range(3))
        ab, bc, ca = 0.5 * (a + b), 0.5 * (b + c), 0.5 * (c + a)
        quarters = [np.stack(corners, axis=1) for corners in ((a, ab, ca), (ab, b, bc), (ca, bc, c), (ab, bc, ca))]
        triangles = np.concatenate([triangles[~wide], *quarters])
    return np.concatenate([triangles.reshape(-1, 3), triangles.mean(axis=1)])


def _runs(spots: Floats, role: str, width_px: float) -> list[Item]:
    """Spots in cells of a grid, cells side by side joined to one stroke: a picture of any scan stays small."""
    if not len(spots):
        return []
    columns, rows = np.floor(spots / CELL_MM).astype(np.int64).T
    key = np.unique(rows * WIDE + columns + WIDE // 2)
    cells = np.column_stack([key // WIDE, key % WIDE - WIDE // 2])
    new = np.flatnonzero((np.diff(cells[:, 0]) != 0) | (np.diff(cells[:, 1]) != 1)) + 1
    items: list[Item] = []
    for run in np.split(cells, new):
        y = (float(run[0, 0]) + 0.5) * CELL_MM
        ends = ((float(run[0, 1]) + 0.25) * CELL_MM, y), ((float(run[-1, 1]) + 0.75) * CELL_MM, y)
        items.append(Stroke(ends, role, width_px))
    return items


def _wheel(placing: Placing, seen: Seen, sign: float) -> list[Item]:
    outline, axes = placing.outline, hub_axes(placing.axis)
    known = outline is not None
    rho = np.array([USUAL_RADIUS_MM]) if outline is None else outline.rho_mm
    y = np.zeros(1) if outline is None else outline.y_mm
    if seen == "outside":
        radius = float(rho.max())
        items: list[Item] = [Ring((0.0, 0.0), radius, "ink", 1.6, () if known else CHAIN, name="wheel")]
        if known:
            items.append(Ring((0.0, 0.0), float(rho.min()), "soft", 1.0))
        return [*items, *_cross(sign, ((1.0, 0.0), (0.0, 1.0)))]

    def paper(height: Floats) -> tuple[Spot, ...]:
        level = np.column_stack([np.zeros(len(height)), y, height]) @ axes
        return tuple((sign * float(place[1]), float(place[2])) for place in level)

    items = []
    if known:
        items += [Stroke(paper(half * rho), "ink", 1.6, (), True, "rubber", name="wheel") for half in (1.0, -1.0)]
    else:
        items.append(Stroke((*paper(rho), *paper(-rho)), "ink", 1.6, CHAIN))
    axis = (sign * float(axes[1, 1]), float(axes[1, 2]))
    return [*items, line((-220 * axis[0], -220 * axis[1]), (160 * axis[0], 160 * axis[1]), "soft", 0.9, CHAIN)]


def _cross(sign: float, directions: tuple[Spot, Spot]) -> list[Item]:
    return [line((-40 * x, -40 * y), (40 * x, 40 * y), "soft", 0.9) for x, y in directions]
