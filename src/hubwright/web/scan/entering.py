"""From a scan as it shall be to entries for the store: a new one whole, of one that stands only what changed."""

from __future__ import annotations

from typing import Any

from hubwright.parts.scan import Scan
from hubwright.store.asking import Asked
from hubwright.store.tomltext import toml_of

KEYS = (
    "name", "file", "unit", "kind", "region", "hub_centre", "hub_circle", "hub_plane", "normal", "forward", "shift_mm",
    "axis_free_mm", "left_out", "u_mm", "outliers",
)  # fmt: skip
USUAL = {"kind": "body", "region": "outside", "shift_mm": [0.0, 0.0, 0.0]}
"""What a job file need not say."""


def table_of(scan: Scan) -> dict[str, Any]:
    """A scan as the job file has it, without what need not be said."""
    whole = {
        **{key: getattr(scan, key) for key in KEYS},
        "left_out": [{"centre": list(ball.centre), "radius_mm": ball.radius_mm} for ball in scan.left_out],
        **{key: [list(place) for place in getattr(scan, key)] for key in ("hub_circle", "hub_plane")},
        **{key: None if (place := getattr(scan, key)) is None else list(place)
           for key in ("hub_centre", "normal", "forward", "shift_mm")},
    }  # fmt: skip
    return {key: value for key, value in whole.items() if value is not None and value != [] and value != USUAL.get(key)}


def entries_of(place: str, number: int, scan: Scan, before: Scan | None) -> list[Asked]:
    """The entries that bring a corner's scan to be as wanted.

    Args:
        place: Of the list, such as ``front.left.scan``.
        number: Of the scan in it, from 1; 0 = a new one.
        scan: As it shall be.
        before: As it stood on the page.
    """
    wanted = table_of(scan)
    if before is None:
        return [(f"{place}[+]", toml_of(wanted))]
    stood = table_of(before)
    changed = [key for key in KEYS if wanted.get(key) != stood.get(key)]
    return [(f"{place}[{number}].{key}", toml_of(wanted[key]) if key in wanted else None) for key in changed]
