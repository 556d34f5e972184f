"""From a reading as the sheet names it to the fields of the job file as it stands now.

The sheet may have been shown long ago and the reading may have waited in a browser: places and wheel sets are looked up by
what they are, not by the number they had.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from hubwright.language.place_words import place_word
from hubwright.parts.base import READERS
from hubwright.parts.job import AxleName
from hubwright.web.fields.spec import spec_at
from hubwright.web.fields.tree import Tree, parts_of_reading, reading_value
from hubwright.web.sheet.names import Name
from hubwright.web.sheet.places import Place
from hubwright.web.sheet.slots import fitted_index

SAME_MM, SAME_DEG = 0.05, 0.05
BOLT_KEYS, NUT_KEYS = ("length_mm",), ("closed_depth_mm", "open_end")
ROLL = "roll the arch lip"


@dataclass(frozen=True)
class Taken:
    """One reading, read from its form.

    Attributes:
        name: What was read.
        value: Plain, in the unit of its field; of a reading the list of its repeats; None takes it out.
        method, u: Of a reading.
        travel_mm, steer_deg, disc_mm: Of a gap or motion.
        radius_mm: Of a half width.
        half_track_mm: Of a motion reading, besides its camber.
        place: Of a gap: what a new place says.
        by: Who read, where it is not the workshop.
        turned: Of a gap: whether the car was turned round on the same floor.
    """

    name: Name
    value: Any
    method: str = ""
    u: float | None = None
    travel_mm: float = 0.0
    steer_deg: float = 0.0
    disc_mm: float = 0.0
    radius_mm: float | None = None
    half_track_mm: float | None = None
    place: Place | None = None
    by: str | None = None
    turned: bool = False


Values = list[tuple[str, Any]]


def values_of(taken: Taken, tree: Tree, axle: AxleName) -> Values:
    """Fields and plain values; empty where there is nothing to do.

    Args:
        taken: The reading.
        tree: The job as it stands.
        axle: Whose sheet.
    """
    kind = taken.name.kind
    if kind == "field":
        return _field(taken, tree, axle)
    if kind == "half":
        return _half_width(taken, tree, axle)
    if kind == "motion":
        return _motion(taken, tree, axle)
    return _at_place(taken, tree, axle)


def _plain(taken: Taken, path: str, stands: Any = None) -> Any:
    """The value as the file holds it: a reading with its method, doubt and reader, else as it is."""
    if spec_at(path).kind != "reading" or taken.value is None:
        return taken.value[0] if isinstance(taken.value, list) and len(taken.value) == 1 else taken.value
    by = taken.by or parts_of_reading(stands)[3]
    return reading_value(list(taken.value), taken.method, taken.u, by)


def _field(taken: Taken, tree: Tree, axle: AxleName) -> Values:
    name, what = taken.name, taken.name.what
    if name.where == "fitted":
        return _of_fitted(taken, tree, axle)
    path = f"{axle}.{name.side}.{what}" if name.side else f"{axle}.{what}"
    found: Values = [(path, _plain(taken, path, tree.at(path)))]
    key = what.removeprefix("fastener.")
    if what.startswith("fastener.") and key != "kind" and tree.at(f"{axle}.fastener.kind") is None:
        kind = "nut" if key in NUT_KEYS else "bolt" if key in BOLT_KEYS else ""
        if kind and taken.value is not None:
            found.insert(0, (f"{axle}.fastener.kind", kind))
    return _dropped(found, tree)


def _dropped(found: Values, tree: Tree) -> Values:
    """Without taking out what is not there."""
    return [(path, value) for path, value in found if value is not None or tree.at(path) is not None]


def _of_fitted(taken: Taken, tree: Tree, axle: AxleName) -> Values:
    number = fitted_index(tree, axle)
    path = f"{axle}.wheel_set[{number or '+'}].{taken.name.what}"
    if number:
        return _dropped([(path, _plain(taken, path, tree.at(path)))], tree)
    if taken.value is None:
        return []
    table, key = taken.name.what.split(".")
    return [(f"{axle}.wheel_set[+]", {"role": "fitted", table: {key: _plain(taken, path)}})]


def _half_width(taken: Taken, tree: Tree, axle: AxleName) -> Values:
    number = fitted_index(tree, axle)
    value = taken.value[0] if isinstance(taken.value, list) else taken.value
    item = {"radius_mm": taken.radius_mm, "half_width_mm": value}
    if number is None:
        return [] if value is None else [(f"{axle}.wheel_set[+]", {"role": "fitted", "tyre": {"half_width": [item]}})]
    base = f"{axle}.wheel_set[{number}].tyre.half_width"
    for index, one in enumerate(tree.at(base) or [], 1):
        if taken.radius_mm is not None and abs(one.get("radius_mm", -1) - taken.radius_mm) <= SAME_MM:
            return [(f"{base}[{index}]", None)] if value is None else [(f"{base}[{index}].half_width_mm", value)]
    return [] if value is None else [(f"{base}[+]", item)]


def _motion(taken: Taken, tree: Tree, axle: AxleName) -> Values:
    base = f"{axle}.{taken.name.side}.motion"
    path = f"{base}[+].camber_deg"
    for index, one in enumerate(tree.at(base) or [], 1):
        if abs(one.get("travel_mm", 1e9) - taken.travel_mm) <= SAME_MM:
            if taken.value is None:
                return [(f"{base}[{index}]", None)]
            found: Values = [(f"{base}[{index}].camber_deg", _plain(taken, path, one.get("camber_deg")))]
            if taken.half_track_mm is not None and taken.half_track_mm != one.get("half_track_mm"):
                found.append((f"{base}[{index}].half_track_mm", taken.half_track_mm))
            return found
    if taken.value is None:
        return []
    item: dict[str, Any] = {"travel_mm": taken.travel_mm, "camber_deg": _plain(taken, path)}
    if taken.half_track_mm is not None:
        item["half_track_mm"] = taken.half_track_mm
    return [(f"{base}[+]", item)]


def _at_place(taken: Taken, tree: Tree, axle: AxleName) -> Values:
    base = f"{axle}.{taken.name.side}.point"
    points = tree.at(base) or []
    index = next((n for n, one in enumerate(points, 1) if one.get("name") == taken.name.where), None)
    kind, value = taken.name.kind, taken.value
    if index is None:
        return [] if value is None else [(f"{base}[+]", {**_new_place(taken), **_inside_place(taken)})]
    point, path = points[index - 1], f"{base}[{index}]"
    if kind == "place":
        field = f"{path}.{taken.name.what}"
        return _dropped([(field, _plain(taken, field, point.get(taken.name.what)))], tree)
    if kind == "work":
        return _work(taken, point, path)
    for number, one in enumerate(point.get("reading") or [], 1):
        if _same_state(taken, one):
            field = f"{path}.reading[{number}]"
            if value is None:
                return [(field, None)]
            return [(f"{field}.gap_mm", _plain(taken, f"{field}.gap_mm", one.get("gap_mm")))]
    return [] if value is None else [(f"{path}.reading[+]", _gap_item(taken))]


def _work(taken: Taken, point: dict[str, Any], path: str) -> Values:
    value = taken.value[0] if isinstance(taken.value, list) else taken.value
    if point.get("work"):
        return [(f"{path}.work[1]", None)] if value is None else [(f"{path}.work[1].gain_mm", value)]
    return [] if value is None else [(f"{path}.work[+]", {"name": ROLL, "gain_mm": value})]


def _same_state(taken: Taken, reading: dict[str, Any]) -> bool:
    return (
        abs(reading.get("travel_mm", 0.0) - taken.travel_mm) <= SAME_MM
        and abs(reading.get("steer_deg", 0.0) - taken.steer_deg) <= SAME_DEG
        and reading.get("disc_mm", 0.0) == taken.disc_mm
        and bool(reading.get("car_turned")) == taken.turned
    )


def _new_place(taken: Taken) -> dict[str, Any]:
    place = taken.place or Place(taken.name.where)
    found: dict[str, Any] = {"name": taken.name.where, "room": place.room}
    if place.kind != "body":
        found["kind"] = place.kind
    if place.toward:
        found["toward"] = place.toward
    if taken.by == READERS[1]:
        found["by"] = taken.by
    return found


def _inside_place(taken: Taken) -> dict[str, Any]:
    if taken.name.kind == "place":
        return {taken.name.what: _plain(taken, f"rear.left.point[+].{taken.name.what}")}
    if taken.name.kind == "work":
        value = taken.value[0] if isinstance(taken.value, list) else taken.value
        return {"work": [{"name": ROLL, "gain_mm": value}]}
    return {"reading": [_gap_item(taken)]}


def _gap_item(taken: Taken) -> dict[str, Any]:
    item: dict[str, Any] = {"travel_mm": taken.travel_mm}
    if taken.steer_deg:
        item["steer_deg"] = taken.steer_deg
    item["gap_mm"] = _plain(taken, "rear.left.point[+].reading[+].gap_mm")
    if taken.disc_mm:
        item["disc_mm"] = taken.disc_mm
    if taken.turned:
        item["car_turned"] = True
    return item


def title_of(name: Name) -> str:
    """What was read, for a message, when its slot is not at hand."""
    if name.kind == "gap":
        return f"{spec_at('rear.left.point[+].reading[+].gap_mm').label}, {place_word(name.where)}"
    if name.kind in ("place", "work"):
        return place_word(name.where)
    if name.kind == "field":
        base = "rear.wheel_set[+]" if name.where else f"rear.{name.side}" if name.side else "rear"
        return spec_at(f"{base}.{name.what}").label
    key = (
        "rear.left.motion[+].camber_deg"
        if name.kind == "motion"
        else "rear.wheel_set[+].tyre.half_width[+].half_width_mm"
    )
    return spec_at(key).label
