"""A job file as plain values by field, whatever unit a key was spelled with, and the way back to that very key."""

from __future__ import annotations

from typing import Any

from hubwright.jobs.lines import Path
from hubwright.quantities.reading import METHOD_DOUBT_MM
from hubwright.quantities.units import inside_name, to_inside
from hubwright.store.fields import place_of, value_at, written
from hubwright.store.tomltext import toml_of, tree_of
from hubwright.web.fields.typed import KEPT_DIGITS

KNOWN_METHODS = tuple(METHOD_DOUBT_MM)


class Tree:
    """The values of one job file. Fields are named as in an entry, such as ``rear.left.point[1].name``."""

    def __init__(self, data: bytes) -> None:
        self.inside, self._typed = to_inside(tree_of(data))

    def at(self, field: str) -> Any:
        """What stands at a field, in the unit of its name; None when nothing does."""
        return None if "[+]" in field else value_at(self.inside, place_of(field).path)

    def count(self, field: str) -> int:
        """How many items a list has."""
        found = self.at(field)
        return len(found) if isinstance(found, list) else 0

    def entry(self, field: str, value: Any) -> tuple[str, str | None]:
        """Field and TOML value for an entry, spelled with the unit the file has there already.

        Args:
            field: In the units used inside.
            value: Plain value in that unit; None takes the field out.
        """
        place = place_of(field)
        path = tuple(self._typed.get(place.path[: end + 1], key) for end, key in enumerate(place.path))
        if value is not None and path != place.path:
            value = _unscaled(value, _factor(path))
        return f"{written(path)}[+]" if place.adds else written(path), None if value is None else toml_of(value)


def _factor(path: Path) -> float:
    keys = [key for key in path if isinstance(key, str)]
    return next((factor for key in reversed(keys) if (factor := inside_name(key)[1]) != 1.0), 1.0)


def _unscaled(value: Any, factor: float) -> Any:
    if isinstance(value, bool):
        return value
    if isinstance(value, int | float):
        return round(value / factor, KEPT_DIGITS)
    if isinstance(value, list):
        return [_unscaled(item, factor) for item in value]
    if isinstance(value, dict):
        return {key: _unscaled(item, factor) for key, item in value.items()}
    return value


def reading_value(values: list[float], method: str | None = None, u: float | None = None, by: str | None = None) -> Any:
    """A reading as the job file holds it: one number, a list of repeats, or a table where more is known."""
    short: Any = values[0] if len(values) == 1 else list(values)
    more = {"u": u, "method": method or None, "by": by}
    stated = {key: item for key, item in more.items() if item is not None}
    return {"value": short, **stated} if stated else short


def parts_of_reading(value: Any) -> tuple[list[float], str | None, float | None, str | None]:
    """Repeats, method, doubt and reader of a stored reading."""
    table = value if isinstance(value, dict) else {"value": value}
    found = table.get("value")
    repeats = list(found) if isinstance(found, list) else [] if found is None else [found]
    return repeats, table.get("method"), table.get("u"), table.get("by")
