"""One tyre on several rims: its sidewall at every height, to scale, and its section width against the standard's rule."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from hubwright.drawings.frame import headed, scale_bar
from hubwright.drawings.marks import paragraph, ticks, wrapped
from hubwright.drawings.scene import CHAIN, Dot, Group, Item, Label, Scene, Spot, Stroke, line
from hubwright.drawings.svg import svg_of
from hubwright.engineering.tyrewheel.charts import RimCurve, tyre_on_rims
from hubwright.engineering.tyrewheel.dimensions import WIDTH_PER_RIM_WIDTH
from hubwright.engineering.tyrewheel.rim import estimate_overall_width_mm
from hubwright.engineering.tyrewheel.sidewall import Carcass
from hubwright.language import marked, say
from hubwright.quantities.text import number, plain
from hubwright.quantities.units import MM_PER_INCH

WIDTH_PX, LEFT_PX, RIGHT_PX = 430.0, 46.0, 20.0
TEXT_PX = 11.5
ROW_PX = 16.0
COLUMNS_PX = (60.0, 150.0, 235.0, 330.0, 416.0)
HEAD = (
    marked("rim, in"),
    marked("section"),
    marked("by 0.4 rule"),
    marked("widest at r"),
    marked("outermost"),
)
DASHES: tuple[tuple[float, ...], ...] = ((2.0, 3.0), (), (7.0, 3.0), (10.0, 3.0, 2.0, 3.0), (4.0, 2.0), (1.0, 2.0), ())
ROUND_DIGITS = 2
"""Digits kept of a coordinate in mm, so that the same chart comes out of every machine."""


def rim_chart_svg(carcass: Carcass, rim_widths_in: Sequence[float], title: str, read_on_in: float) -> str:
    """The chart as SVG.

    Args:
        carcass: The tyre, its width known on one rim.
        rim_widths_in: Rims, ascending.
        title: Heading.
        read_on_in: The rim on which the width is known; drawn heavy.

    Raises:
        OutsideValidity: where a rim is out of the tyre's reach.
    """
    return svg_of(rim_chart_scene(carcass, rim_widths_in, title, read_on_in))


def rim_chart_scene(carcass: Carcass, rim_widths_in: Sequence[float], title: str, read_on_in: float) -> Scene:
    """The chart as a scene: half width to the right, radius up, both to one scale. Arguments as `rim_chart_svg`."""
    curves = tyre_on_rims(carcass, tuple(rim_widths_in))
    low_r, high_r = carcass.bead_radius_mm, carcass.overall_diameter_mm / 2.0
    right_mm = max(curve.section_width_mm for curve in curves) / 2.0 + 3.0
    left_mm = curves[0].rim_width_mm / 2.0 - 14.0
    px = (right_mm - left_mm) / (WIDTH_PX - LEFT_PX - RIGHT_PX)
    left = left_mm - LEFT_PX * px
    items: list[Item] = _grid(left_mm, right_mm, low_r, high_r, px)
    for index, curve in enumerate(curves):
        heavy = abs(curve.rim_width_mm / MM_PER_INCH - read_on_in) < 1e-6
        items.append(_curve(curve, index, (left_mm, low_r), heavy, px))
    sub = wrapped(
        say(
            "Half width (to the right) over the radius (up), both in mm and to one scale. Rings: inner face of the rim; dots: widest place."
        ),
        WIDTH_PX - 28,
        TEXT_PX,
    )
    top = high_r + (44 + 15.2 * len(sub)) * px
    items.append(Label((left + 14 * px, top - 20 * px), title, 14.0, bold=True))
    items += paragraph((left + 14 * px, top - 37 * px), sub, px, TEXT_PX, "soft")
    floor = low_r - 58 * px
    items += scale_bar(left + 14 * px, floor, px)
    rows, bottom = _rows(curves, carcass, (left, floor - 30 * px), px)
    items += rows
    words = " ".join(
        f"{number(curve.rim_width_mm / MM_PER_INCH, 1)} in: {number(curve.section_width_mm, 1)} mm." for curve in curves
    )
    description = say("Section width by rim width. {words}", words=words)
    return headed("rims", title, description, tuple(items), (left, bottom - 14 * px, left + WIDTH_PX * px, top), px)


def _grid(left: float, right: float, low: float, high: float, px: float) -> list[Item]:
    items: list[Item] = []
    for radius in ticks(low, high, 6):
        items.append(line((left, radius), (right, radius), "faint", 0.6))
        items.append(Label((left - 5 * px, radius - 4 * px), plain(radius), 11.0, "end", "soft"))
    for half in ticks(left, right, 6):
        items.append(line((half, low), (half, high), "faint", 0.6))
        items.append(Label((half, high + 6 * px), plain(half), 11.0, "middle", "soft"))
    items.append(line((left, low), (right, low), "soft", 0.9, CHAIN))
    return items


def _curve(curve: RimCurve, index: int, corner: Spot, heavy: bool, px: float) -> Group:
    """The sidewall of one rim from the bead up to the left edge of the picture, its rim width below the bead."""
    left_mm, low_r = corner
    there = curve.half_width_mm >= left_mm  # false where the tyre does not reach
    half, radius = np.round(curve.half_width_mm[there], ROUND_DIGITS), np.round(curve.radius_mm[there], ROUND_DIGITS)
    spots: tuple[Spot, ...] = tuple(zip(half.tolist(), radius.tolist(), strict=True))
    role, width = ("ink", 2.4) if heavy else ("body", 1.3)
    name = number(curve.rim_width_mm / MM_PER_INCH, 1)
    bead = (round(curve.rim_width_mm / 2.0, ROUND_DIGITS), round(low_r, ROUND_DIGITS))
    step = 14 * px * (1 + index % 2)
    items: tuple[Item, ...] = (
        Stroke(spots, role, width, () if heavy else DASHES[index % len(DASHES)], name=f"on {name} in"),
        Dot(bead, 2.4, role, "paper"),
        line(bead, (bead[0], bead[1] - step), "faint", 0.8),
        Label((bead[0], bead[1] - step - 12 * px), name, 11.5, "middle", role, heavy),
        Dot(_widest(curve), 2.2, role, role),
    )
    return Group(
        f"rim {name}",
        items,
        say(
            "on a rim of {name} in: {section_width} mm wide", name=name, section_width=number(curve.section_width_mm, 1)
        ),
    )


def _widest(curve: RimCurve) -> Spot:
    return (round(curve.section_width_mm / 2.0, ROUND_DIGITS), round(curve.widest_radius_mm, ROUND_DIGITS))


def _rows(curves: tuple[RimCurve, ...], carcass: Carcass, at: Spot, px: float) -> tuple[list[Item], float]:
    """Section widths as a table below the picture; returns where it ends."""
    items: list[Item] = []
    left, y = at
    for column, text in zip(COLUMNS_PX, HEAD, strict=True):
        items.append(Label((left + column * px, y), say(text), 11.0, "end", "soft"))
    for curve in curves:
        y -= ROW_PX * px
        rule = carcass.section_width_mm + WIDTH_PER_RIM_WIDTH * (curve.rim_width_mm - carcass.known_rim_width_mm)
        outermost = (
            say("rim") if estimate_overall_width_mm(curve.rim_width_mm) > curve.section_width_mm else say("tyre")
        )
        cells = (
            number(curve.rim_width_mm / MM_PER_INCH, 1),
            number(curve.section_width_mm, 1),
            number(rule, 1),
            number(curve.widest_radius_mm, 0),
            outermost,
        )
        for column, text in zip(COLUMNS_PX, cells, strict=True):
            items.append(Label((left + column * px, y), text, 12.0, "end"))
    return items, y
