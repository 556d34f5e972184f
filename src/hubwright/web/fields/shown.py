"""From a stored value to the text a person would have typed for it, in their units, without drift.

Inches are shown as decimals of four places where they meet the value, else as a fraction of 64ths where that meets it,
else rounded. A text that is sent back as it was shown changes nothing (`hubwright.web.fields.form`), so even a rounded one
never moves a stored value.
"""

from __future__ import annotations

import datetime
from typing import Any

from hubwright.quantities.text import MINUS, System, pointed
from hubwright.web.fields.spec import Spec
from hubwright.web.fields.typed import factor_of, inside

PLACES = 4
FINEST = 64


def words_of(spec: Spec, value: Any, system: System) -> str:
    """The text of a stored value, fit to be typed again; empty for None.

    Args:
        spec: Its field.
        value: Plain: a number, text, list, day or truth value; of a reading its repeats or its table.
        system: The person's units.
    """
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, dict):
        return words_of(spec, value.get("value"), system)
    if isinstance(value, list):
        texts = [words_of(spec, item, system) for item in value]
        return (" " if spec.kind in ("texts", "choices") else "; ").join(texts)
    if isinstance(value, int | float):
        return number_words(spec, value, system)
    return value.isoformat() if isinstance(value, datetime.date) else str(value)


def number_words(spec: Spec, value: float, system: System) -> str:
    """One figure in the person's unit."""
    factor = factor_of(spec, system)
    if factor == 1.0:
        return _decimal(value, 6)
    own = value / factor
    rounded = round(own, PLACES)
    if inside(rounded, spec, system) == round(value, 9):
        return _decimal(rounded, PLACES)
    if spec.is_length:
        parts = round(own * FINEST)
        if parts and inside(parts / FINEST, spec, system) == round(value, 9):
            return _fraction(parts)
    return _decimal(rounded, PLACES)


def _decimal(value: float, places: int) -> str:
    text = f"{value:.{places}f}".rstrip("0").rstrip(".")
    return pointed("0" if text in ("-0", "") else text.replace("-", MINUS))


def _fraction(parts: int) -> str:
    sign, parts = (MINUS, -parts) if parts < 0 else ("", parts)
    whole, top, under = parts // FINEST, parts % FINEST, FINEST
    while top % 2 == 0:
        top, under = top // 2, under // 2
    return f"{sign}{f'{whole} ' if whole else ''}{top}/{under}"
