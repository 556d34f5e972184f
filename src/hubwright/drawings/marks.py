"""Marks every drawing uses: dimension lines, shapes of verdicts, wrapped text, ticks of a scale."""

from __future__ import annotations

import math
import textwrap
from itertools import pairwise

from hubwright.drawings.scene import Anchor, Dot, Item, Label, Spot, Stroke, line
from hubwright.quantities.text import MINUS, pointed, unit_mm

ARROW_PX = 6.0
OUTSIDE_BELOW_PX = 22.0
"""Shorter dimensions have their arrows outside, pointing in."""
LETTER, BOLD_LETTER = 0.55, 0.64
"""Mean width of a letter over its height; to lay out text without a font."""


def along(a: Spot, b: Spot, distance: float) -> Spot:
    """The point at a distance from ``a`` towards ``b`` (beyond ``b`` too); ``a`` where the two are one."""
    length = math.dist(a, b)
    share = distance / length if length else 0.0
    return (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share)


def arrow(tip: Spot, back: Spot, px: float, role: str) -> Stroke:
    """A slim filled arrowhead at ``tip``, coming from ``back``."""
    length = math.dist(tip, back) or 1.0
    across = ((back[1] - tip[1]) / length * 2.0 * px, -(back[0] - tip[0]) / length * 2.0 * px)
    foot = along(tip, back, ARROW_PX * px)
    wings = ((foot[0] + across[0], foot[1] + across[1]), (foot[0] - across[0], foot[1] - across[1]))
    return Stroke((tip, *wings), role, 0.0, (), True, role)


def dimension(a: Spot, b: Spot, px: float, role: str = "soft", name: str = "") -> tuple[Item, ...]:
    """A dimension line from ``a`` to ``b`` with arrowheads, outside where there is no room between."""
    measured = Stroke((a, b), role, 0.8, name=name)
    length = math.dist(a, b)
    if length < 1e-6:
        return (measured,)
    if length >= OUTSIDE_BELOW_PX * px:
        return (measured, arrow(a, b, px, role), arrow(b, a, px, role))
    tail_a, tail_b = along(a, b, -13 * px), along(b, a, -13 * px)
    return (
        measured,
        line(tail_a, a, role, 0.8),
        line(tail_b, b, role, 0.8),
        arrow(a, tail_a, px, role),
        arrow(b, tail_b, px, role),
    )


def shape_of(status: str, at: Spot, px: float, size_px: float = 5.5) -> tuple[Item, ...]:
    """The shape of a verdict: valid a full circle, caution a triangle, not known an open diamond, refused a cross."""
    x, y, r = at[0], at[1], size_px * px
    if status in ("valid", "pass"):
        return (Dot(at, size_px, "good", "good", name="valid"),)
    if status == "caution":
        corners = ((x, y + r * 1.1), (x - r * 1.1, y - r * 0.8), (x + r * 1.1, y - r * 0.8))
        bar = line((x, y + r * 0.5), (x, y - r * 0.05), "paper", 1.4)
        return (
            Stroke(corners, "doubt", 1.0, (), True, "doubt", name="caution"),
            bar,
            Dot((x, y - r * 0.45), 0.5, "paper"),
        )
    if status in ("refused", "fail"):
        return (
            Stroke(((x - r * 0.8, y - r * 0.8), (x + r * 0.8, y + r * 0.8)), "bad", 2.0, name="refused"),
            line((x - r * 0.8, y + r * 0.8), (x + r * 0.8, y - r * 0.8), "bad", 2.0),
        )
    diamond = ((x, y + r), (x + r, y), (x, y - r), (x - r, y))
    return (Stroke(diamond, "ink", 1.4, (), True, "paper", name="not known"),)


def shortened(text: str, letters: int) -> str:
    """At most so many letters, with dots where it was cut."""
    flat = " ".join(text.split())
    return flat if len(flat) <= letters else flat[: max(letters - 1, 1)].rstrip() + "…"


def wrapped(text: str, width_px: float, size_px: float) -> list[str]:
    """Lines of a text that fit a width."""
    letters = max(int(width_px / (size_px * LETTER)), 8)
    return textwrap.wrap(" ".join(text.split()), letters) or []


def paragraph(
    at: Spot, lines: list[str], px: float, size_px: float = 11.0, role: str = "ink", anchor: Anchor = "start"
) -> tuple[Item, ...]:
    """Lines of text, one below the other, the first with its base line at ``at``."""
    step = size_px * 1.32 * px
    return tuple(Label((at[0], at[1] - step * row), text, size_px, anchor, role) for row, text in enumerate(lines))


def ticks(low: float, high: float, most: int = 8) -> tuple[float, ...]:
    """Round figures from ``low`` to ``high``, at most so many: steps of 1, 2 or 5 times a power of ten."""
    span = max(high - low, 1e-9)
    power = 10.0 ** math.floor(math.log10(span / most))
    step = next(power * factor for factor in (1, 2, 5, 10, 20) if span / (power * factor) <= most)
    first, last = math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9)
    return tuple(number * step for number in range(first, last + 1))


def length_ticks(low_mm: float, high_mm: float, most: int = 8) -> tuple[tuple[float, str], ...]:
    """Lengths that are round in the unit spoken: each in mm, and in words without its unit."""
    per = unit_mm()
    return tuple((value * per, tick_words(value)) for value in ticks(low_mm / per, high_mm / per, most))


def tick_words(value: float) -> str:
    """A figure beside a scale."""
    return pointed(f"{value:.6g}".replace("-", MINUS))


def apart(wanted: list[float], least: float) -> list[float]:
    """Places as near to the wanted ones as keeps them apart; order is kept by value."""
    order = sorted(range(len(wanted)), key=lambda index: wanted[index])
    placed = list(wanted)
    for before, after in pairwise(order):
        placed[after] = max(placed[after], placed[before] + least)
    return placed
