"""Hard points to scale, from the left and from behind: a mistyped sign or a pair of points exchanged shows at once."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from hubwright.drawings.reading_parts import word
from hubwright.drawings.row_sketch import moved
from hubwright.drawings.scene import Dot, Item, Ring, Scene, Spot, Stroke, line, spots_of
from hubwright.drawings.svg import svg_of
from hubwright.language import say
from hubwright.quantities.axes import SIDES

WIDE_PX = 760.0
APART_MM = 120.0
PAIRS = (
    ("upper_front_mm", "upper_outer_mm"), ("upper_rear_mm", "upper_outer_mm"), ("lower_front_mm", "lower_outer_mm"),
    ("lower_rear_mm", "lower_outer_mm"), ("tie_inner_mm", "tie_outer_mm"), ("strut_top_mm", "strut_lower_mm"),
    ("pivot_inner_mm", "pivot_outer_mm"), ("inner_mm", "outer_mm"), ("body_end_mm", "moving_end_mm"),
    ("mount_left_mm", "shear_centre_mm"), ("mount_right_mm", "shear_centre_mm"), ("crank_end_a_mm", "pivot_mm"),
    ("crank_end_b_mm", "pivot_mm"), ("crank_end_a_mm", "far_end_a_mm"), ("crank_end_b_mm", "far_end_b_mm"),
)  # fmt: skip
"""Points that one part joins."""
Place = tuple[float, float, float]


def links_sketch(points: Mapping[str, Any], title: str) -> str:
    """The SVG of the hard points of one axle, plain as in a job file; empty where there are none to draw.

    Args:
        points: The table ``hardpoints``, mm in vehicle axes: X forward, Y left, Z up.
        title: For the screen reader.
    """
    bars, wheels = list(_bars(points)), list(_wheels(points))
    if not bars and not wheels:
        return ""
    side = _view(bars, wheels, 0, 1.0, say("from the right: forward ›"))
    behind = _view(bars, wheels, 1, -1.0, say("from behind: right ›"))
    left, right = max(x for x, _ in spots_of(side)), min(x for x, _ in spots_of(behind))
    shift = left - right + APART_MM
    items = [*side, *(moved(item, shift) for item in behind)]
    xs, ys = zip(*spots_of(items), strict=True)
    edge = 0.05 * (max(xs) - min(xs))
    px = (max(xs) - min(xs) + 2 * edge) / WIDE_PX
    told = say("{count} links, arms and springs between their hard points, to scale.", count=len(bars))
    box = (min(xs) - edge, min(ys) - edge - 8 * px, max(xs) + edge, max(ys) + edge)
    return svg_of(Scene("links", title, told, tuple(items), *box, px))


def _tables(found: Any) -> Iterator[Mapping[str, Any]]:
    """Every table anywhere in it."""
    if isinstance(found, Mapping):
        yield found
        for value in found.values():
            yield from _tables(value)
    elif isinstance(found, list):
        for value in found:
            yield from _tables(value)


def _bars(points: Mapping[str, Any]) -> Iterator[tuple[Place, Place]]:
    for table in _tables(points):
        for one, other in PAIRS:
            if one in table and other in table:
                yield _place(table[one]), _place(table[other])


def _wheels(points: Mapping[str, Any]) -> Iterator[tuple[Place, float]]:
    for side in SIDES:
        corner = points.get(side)
        if isinstance(corner, Mapping) and "wheel_centre_mm" in corner:
            yield _place(corner["wheel_centre_mm"]), float(corner.get("loaded_radius_mm", 300.0))


def _place(found: Any) -> Place:
    x, y, z = (float(it) for it in found)
    return x, y, z


def _view(
    bars: list[tuple[Place, Place]], wheels: list[tuple[Place, float]], across: int, sign: float, words: str
) -> list[Item]:
    def spot(place: Place) -> Spot:
        return (sign * place[across], place[2])

    items: list[Item] = []
    for centre, radius in wheels:
        x, z = spot(centre)
        if across == 0:
            items.append(Ring((x, z), radius, "soft", 1.4, (5.0, 3.0), "wheel"))
        else:
            items.append(line((x, z - radius), (x, z + radius), "soft", 1.4, (5.0, 3.0)))
        items.append(Dot((x, z), 4.0, "disc", "disc", name="wheel centre"))
    for one, other in bars:
        items.append(Stroke((spot(one), spot(other)), "body", 2.2, name="link"))
        items += [Dot(spot(end), 3.0, "ink", "paper", name="hard point") for end in (one, other)]
    xs, ys = zip(*spots_of(items), strict=True)
    return [*items, word(((min(xs) + max(xs)) / 2, min(ys) - 0.06 * (max(ys) - min(ys) + 200)), words)]
