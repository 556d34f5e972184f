"""In which order the fasteners of one wheel are tightened, drawn for its number of holes."""

from __future__ import annotations

import math
import re
from itertools import pairwise

from hubwright.drawings.marks import along, arrow, wrapped
from hubwright.drawings.scene import Dot, Item, Label, Scene, Stroke, line
from hubwright.drawings.svg import svg_of
from hubwright.language import say

SIZE_PX, RADIUS_PX, HOLE_PX = 300.0, 92.0, 19.0
_CHAIN = re.compile(r"\d{1,2}(?:\s*[-–,]\s*\d{1,2})+")


def order_svg(holes: int, order: str) -> str | None:
    """The wheel face with numbered holes and the way from one to the next; None for an order it cannot draw.

    Args:
        holes: Fasteners of the wheel, 3 to 10.
        order: ``1-3-5-2-4``, numbered round the circle; or words such as ``opposite pairs``.
    """
    found = _CHAIN.match(order.strip())
    way = [int(part) for part in re.findall(r"\d+", found[0])] if found else []
    opposite = not way and "opposite" in order and holes % 2 == 0
    if not 3 <= holes <= 10 or (way and sorted(way) != list(range(1, holes + 1))) or not (way or opposite):
        return None
    middle = (SIZE_PX / 2, -SIZE_PX / 2 - 8)

    def hole(number: int) -> tuple[float, float]:
        turn = math.radians(90.0 - 360.0 * (number - 1) / holes)
        return (middle[0] + RADIUS_PX * math.cos(turn), middle[1] + RADIUS_PX * math.sin(turn))

    items: list[Item] = [
        Dot(middle, RADIUS_PX + 34, "faint", "", 1.2, "wheel"),
        Dot(middle, 24.0, "faint", "ground", 1.0, "bore"),
    ]
    if way:
        for first, second in pairwise(way):
            a, b = hole(first), hole(second)
            start, end = along(a, b, HOLE_PX + 2), along(b, a, HOLE_PX + 3)
            items += [Stroke((start, end), "disc", 1.6, name=f"{first} to {second}"), arrow(end, start, 1.4, "disc")]
    else:
        items += [line(hole(n), hole(n + holes // 2), "disc", 1.6, (6.0, 4.0)) for n in range(1, holes // 2 + 1)]
    for number in range(1, holes + 1):
        x, y = hole(number)
        items.append(Dot((x, y), HOLE_PX, "ink", "paper", 1.6, f"hole {number}"))
        items.append(Label((x, y - 6), str(number), 17.0, "middle", bold=True, halo=False))
    text = (
        say("Tighten in this order: {order}.", order=order)
        if way
        else say("Tighten {order}, the opposite one next.", order=order)
    )
    lines = wrapped(text, SIZE_PX - 16, 11.5)
    items += [
        Label((SIZE_PX / 2, -SIZE_PX - 10 - 15.2 * row), words, 11.5, "middle") for row, words in enumerate(lines)
    ]
    bottom = -SIZE_PX - 20 - 15.2 * len(lines)
    title = say("Order of tightening for {holes} fasteners", holes=holes)
    return svg_of(Scene("order", title, text, tuple(items), 0, bottom, SIZE_PX, 0))
