"""Units at the door. Inside everything is mm, N, N*m, kg, kPa, deg and km/h; the last word of a name says which.

A key may come in with another unit as its last word (``gap_in``, ``torque_lbft``); it leaves this module with the
unit used inside. Factors: inch 25.4 mm, pound 0.45359237 kg and mile 1609.344 m are exact by definition
(international yard and pound agreement of 1959); standard gravity 9.80665 m/s2 (ISO 80000-3).
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

MM_PER_INCH = 25.4
KG_PER_POUND = 0.45359237
GRAVITY = 9.80665
NM_PER_POUND_FOOT = KG_PER_POUND * GRAVITY * 12 * MM_PER_INCH / 1000
KPA_PER_PSI = KG_PER_POUND * GRAVITY / MM_PER_INCH**2 * 1000
KMH_PER_MPH = 1.609344

INSIDE: dict[str, tuple[str, float]] = {
    "in": ("mm", MM_PER_INCH),
    "lbft": ("nm", NM_PER_POUND_FOOT),
    "lb": ("kg", KG_PER_POUND),
    "psi": ("kpa", KPA_PER_PSI),
    "mph": ("kmh", KMH_PER_MPH),
}
OUTSIDE = {inside: outside for outside, (inside, _) in INSIDE.items()}
QUOTIENTS = ("_n_mm", "_n_in")
"""Ends of names whose figure is per length: they do not scale as a length and have no other spelling."""


def inside_name(name: str) -> tuple[str, float]:
    """The key with the unit used inside, and the factor its numbers are multiplied by."""
    stem, _, unit = name.rpartition("_")
    if stem and unit in INSIDE and not name.endswith(QUOTIENTS):
        inside, factor = INSIDE[unit]
        return f"{stem}_{inside}", factor
    return name, 1.0


def outside_name(name: str) -> str | None:
    """The other spelling under which a key may come in, if its unit has one (``gap_mm`` -> ``gap_in``)."""
    stem, _, unit = name.rpartition("_")
    return f"{stem}_{OUTSIDE[unit]}" if stem and unit in OUTSIDE and not name.endswith(QUOTIENTS) else None


def scaled(value: Any, factor: float) -> Any:
    """``value`` with every number in it multiplied; texts, dates and truth values pass untouched."""
    if factor == 1.0 or isinstance(value, bool):
        return value
    if isinstance(value, int | float):
        return _times(value, factor)
    if isinstance(value, list):
        return [scaled(item, factor) for item in value]
    if isinstance(value, dict):
        return {key: scaled(item, factor) for key, item in value.items()}
    return value


def _times(value: float, factor: float) -> float:
    try:
        return value * factor
    except OverflowError:  # a whole number beyond any float: refused by the limits of its field
        return math.inf if value > 0 else -math.inf


def to_inside(tree: Any, path: tuple[str | int, ...] = ()) -> tuple[Any, dict[tuple[str | int, ...], str]]:
    """A tree of tables and lists with all keys and numbers in the units used inside.

    Returns:
        The converted tree, and for each renamed place (its path in the converted tree) the key as it was typed.
        Where both spellings of one key stand beside each other the second is kept under its own name, so that the
        check for unknown keys refuses it.
    """
    typed: dict[tuple[str | int, ...], str] = {}
    return _walk(tree, path, typed), typed


def _walk(tree: Any, path: tuple[str | int, ...], typed: dict[tuple[str | int, ...], str]) -> Any:
    if isinstance(tree, list):
        return [_walk(item, (*path, number), typed) for number, item in enumerate(tree)]
    if not isinstance(tree, dict):
        return tree
    table: dict[str, Any] = {}
    for key, value in tree.items():
        name, factor = inside_name(key)
        if name != key and name in tree:
            name, factor = key, 1.0
        if name != key:
            typed[(*path, name)] = key
        table[name] = scaled(value, factor) if factor != 1.0 else _walk(value, (*path, name), typed)
    return table


def numbers_in(value: Any) -> Iterator[float]:
    """Every number in a tree of tables and lists."""
    if isinstance(value, bool):
        return
    if isinstance(value, int | float):
        yield float(value)
    elif isinstance(value, dict):
        for item in value.values():
            yield from numbers_in(item)
    elif isinstance(value, list | tuple):
        for item in value:
            yield from numbers_in(item)
