"""The order of tightening, drawn for the number of holes: each hole holds the number of its turn."""

from __future__ import annotations

import math
import re
from itertools import pairwise

from hubwright.drawings.scene import Dot, Item, Label, Scene, Spot, line
from hubwright.language import say
from hubwright.tables.tightening import tightening_order

RING_PX, HOLE_PX, SIZE_PX = 82.0, 19.0, 110.0
_WORDS = re.compile(r"\d+(?:-\d+)+")


def turns_of(holes: int, recorded: str | None = None) -> tuple[int, ...] | None:
    """The holes in the order in which they are tightened, numbered from 1 clockwise from the top.

    From the record's own words where they are a list of every hole; else the usual order of the table
    ``tightening_order`` (common practice, no source). Its rows of words are drawn so: "opposite pairs" goes from hole to
    the one opposite and on by two, or by one where two would come back too soon; "opposite then advance" goes on by one;
    "stages" goes round.

    Returns:
        None where the record has words of its own that name no order of these holes, or the table has no row.
    """
    if recorded is not None:
        return _listed(recorded, holes)
    words = tightening_order(holes)
    if words is None:
        return None
    listed = _listed(words, holes)
    if listed is not None:
        return listed
    if holes % 2 or words == "stages":
        return tuple(range(1, holes + 1))
    half = holes // 2
    step = 2 if words == "opposite pairs" and half % 2 else 1
    firsts = [1 + (number * step) % half for number in range(half)]
    return tuple(hole for first in firsts for hole in (first, first + half))


def _listed(words: str, holes: int) -> tuple[int, ...] | None:
    found = _WORDS.search(words)
    numbers = tuple(int(part) for part in found[0].split("-")) if found else ()
    return numbers if sorted(numbers) == list(range(1, holes + 1)) else None


def tightening_scene(holes: int, turns: tuple[int, ...] | None) -> Scene:
    """The hole circle seen from outside; empty holes where the order is not known.

    Args:
        holes: How many.
        turns: From `turns_of`.
    """
    spots = [_spot(number, holes) for number in range(1, holes + 1)]
    items: list[Item] = [
        Dot((0.0, 0.0), SIZE_PX - 3, "ink", "", 1.4, "wheel"),
        Dot((0.0, 0.0), 24.0, "soft", "", 1.0, "bore"),
    ]
    order = turns or ()
    items += [line(spots[a - 1], spots[b - 1], "faint", 1.4, (4.0, 3.0)) for a, b in pairwise(order)]
    radius = HOLE_PX if holes <= 8 else 16.0
    for number, spot in enumerate(spots, start=1):
        items.append(
            Dot(
                spot,
                radius,
                "ink",
                "paper",
                2.4 if order and order[0] == number else 1.4,
                f"hole {number}",
            )
        )
        if order:
            turn = str(order.index(number) + 1)
            items.append(Label((spot[0], spot[1] - 7.5), turn, 21.0, "middle", "ink", True, halo=False))
    title = say("Order of tightening for {holes} holes", holes=holes)
    text = say("Hole by hole, counted clockwise from the top: {order}.", order=", ".join(map(str, order)) or "–")
    return Scene("tightening", title, text, tuple(items), -SIZE_PX, -SIZE_PX, SIZE_PX, SIZE_PX)


def _spot(number: int, holes: int) -> Spot:
    angle = math.radians(90.0 - 360.0 * (number - 1) / holes)
    return (RING_PX * math.cos(angle), RING_PX * math.sin(angle))
