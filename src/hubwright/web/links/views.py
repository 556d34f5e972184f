"""What the page of links and springs shows."""

from __future__ import annotations

import secrets
from dataclasses import dataclass

from hubwright.drawings.links_sketch import links_sketch
from hubwright.errors import Fault
from hubwright.language import say
from hubwright.language.words import corner_title
from hubwright.parts.hardpoints import NEEDED, WHOLE_AXLE
from hubwright.parts.job import AxleName
from hubwright.quantities.axes import SIDES
from hubwright.web.car.views import field_name
from hubwright.web.desk import Seen
from hubwright.web.drawn import Drawn, drawn
from hubwright.web.fields.form import Box, Filled, choice_word
from hubwright.web.fields.spec import spec_at
from hubwright.web.forms import Posted
from hubwright.web.frame import Frame
from hubwright.web.links.entry import is_place

WHEEL = ("wheel_centre_mm", "loaded_radius_mm", "camber_deg", "toe_deg")
SPRING = ("rate_n_per_mm", "body_end_mm", "moving_end_mm", "on")
LINK = ("name", "inner_mm", "outer_mm")
WATT = ("pivot_mm", "crank_end_a_mm", "crank_end_b_mm", "far_end_a_mm", "far_end_b_mm", "crank_on")
SPRINGS = (
    "wheel_rate_n_per_mm", "bar_n_per_mm", "parked_left_kg", "parked_right_kg", "unsprung_wheel_kg", "kerb_mm",
    "kerb_speed_kmh",
)  # fmt: skip
STOP = ("free_mm", "squeeze_mm", "force_n")
FIVE, LIVE = 5, 4
"""Links a five link has, and a live axle usually has without its Panhard rod."""


@dataclass(frozen=True)
class Set:
    """Boxes that stand together.

    Attributes:
        title: Heading.
        fields: Single boxes, and places as three.
        links: Links, each with its boxes.
        out: The field that takes all of it out; empty = none, or nothing is there yet.
        more: Whether it is folded away until it is used.
    """

    title: str
    fields: tuple[Filled, ...]
    links: tuple[tuple[Filled, ...], ...] = ()
    out: str = ""
    more: bool = False

    @property
    def open(self) -> bool:
        """Whether something of it is filled or wrong."""
        boxes = (*self.fields, *(box for link in self.links for box in link))
        return any(box.text or box.fault for box in boxes)


@dataclass(frozen=True)
class LinksView:
    """The page.

    Attributes:
        kind: Kind of suspension; empty = still to choose.
        kinds: Codes and words.
        sets: Boxes.
        sketch: To scale, from the hard points there are.
        there: Whether the job has hard points of this axle.
    """

    frame: Frame
    axle: AxleName
    kind: str
    kinds: tuple[tuple[str, str], ...]
    kind_field: str
    sets: tuple[Set, ...]
    sketch: Drawn | None
    there: bool
    springs: bool
    faults: tuple[Fault, ...]
    kept: int
    aside: bool
    key: str
    base: int
    system: str

    def named(self, field: str) -> str:
        """What people call the place of a fault, with the side it is on."""
        try:
            label = spec_at(field).label
        except (KeyError, IndexError):
            label = field_name(field)
        side = next((side for side in SIDES if f".hardpoints.{side}" in field), None)
        return label if side is None else say("{corner}: {field}", corner=corner_title(self.axle, side), field=label)

    def place(self, box: Filled) -> tuple[str, str, str] | None:
        """The three figures of a place; None where the box is one of another kind."""
        if not is_place(box.path):
            return None
        figures = [part.strip() for part in box.text.split(";")]
        return (figures[0], figures[1] if len(figures) > 1 else "", figures[2] if len(figures) > 2 else "")


def sets_of(box: Box, axle: AxleName, kind: str) -> tuple[Set, ...]:
    """All boxes of one kind of suspension."""
    if not kind:
        return ()
    base = f"{axle}.hardpoints"

    def boxes(path: str, keys: tuple[str, ...]) -> tuple[Filled, ...]:
        return tuple(box(f"{path}.{key}") for key in keys)

    def links(path: str, count: int) -> tuple[tuple[Filled, ...], ...]:
        return tuple(boxes(f"{path}.link[{n}]", LINK) for n in range(1, max(count, box.tree.count(f"{path}.link")) + 1))

    whole = kind in WHOLE_AXLE
    own = () if whole else ("same_both_sides", "rack_travel_mm", "rack_direction")
    found = [Set(say("How far it is looked at"), boxes(base, (*own, "bump_mm", "droop_mm")))]
    if kind == "twist beam":
        found.append(Set(say("The beam"), boxes(base, NEEDED[kind])))
    if kind == "live axle":
        more = max(LIVE, box.tree.count(f"{base}.link")) + 1
        found.append(Set(say("Links of the axle, a Panhard rod among them"), (), links(base, more)))
        out = f"{base}.watt" if box.tree.at(f"{base}.watt") is not None else ""
        found.append(Set(say("Watt linkage"), boxes(f"{base}.watt", WATT), (), out, True))
    for side in SIDES:
        path, title = f"{base}.{side}", corner_title(axle, side)
        points = () if whole or kind == "five link" else NEEDED[kind]
        five = links(path, FIVE) if kind == "five link" else ()
        steered = ("steered_link",) if kind == "five link" else ()
        out = path if box.tree.at(path) is not None else ""
        found.append(Set(title, boxes(path, (*WHEEL, *points, *steered)), five, out))
        out = f"{path}.spring" if box.tree.at(f"{path}.spring") is not None else ""
        words = say("{corner}: spring by its ends", corner=title)
        found.append(Set(words, boxes(f"{path}.spring", SPRING), (), out, True))
    out = f"{base}.springs" if box.tree.at(f"{base}.springs") is not None else ""
    found.append(
        Set(say("Springs, bar, and what stands on the wheels"), boxes(f"{base}.springs", SPRINGS), (), out, True)
    )
    stop = f"{base}.springs.bump_stop"
    out = stop if box.tree.at(stop) is not None else ""
    found.append(Set(say("Bump stop at the wheel"), boxes(stop, STOP), (), out, True))
    return tuple(found)


def view_of(
    seen: Seen,
    frame: Frame,
    axle: AxleName,
    box: Box,
    kind: str,
    *,
    form: Posted | None = None,
    faults: tuple[Fault, ...] = (),
    kept: int = 0,
    aside: bool = False,
) -> LinksView:
    """The page, with the boxes of one kind of suspension.

    Args:
        seen: The job.
        frame: Around the page.
        axle: Which axle.
        box: Fills fields.
        kind: The kind asked for; that of the job where none was.
        form: What came back with faults.
        faults: Those.
        kept: The revision just stored.
        aside: Whether part of it was put aside.
    """
    base = f"{axle}.hardpoints"
    spec = spec_at(f"{base}.kind")
    chosen = kind if kind in spec.choices else str(box.tree.at(f"{base}.kind") or "")
    points = box.tree.at(base)
    sketch = links_sketch(points, say("Hard points to scale")) if isinstance(points, dict) else ""
    return LinksView(
        frame, axle, chosen, tuple((code, choice_word(spec.key, code)) for code in spec.choices), f"{base}.kind",
        sets_of(box, axle, chosen), drawn(sketch) if sketch else None, points is not None,
        box.tree.at(f"{base}.springs") is not None, faults, kept, aside,
        (form.text("key") if form is not None else "") or secrets.token_hex(16),
        form.whole("base", seen.stored.revision) if form is not None else seen.stored.revision, box.system,
    )  # fmt: skip
