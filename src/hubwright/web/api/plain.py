"""Between TOML and JSON: days become text, numbers JSON has no word for become text as TOML writes them."""

from __future__ import annotations

import math
from datetime import date, time
from typing import Any

from hubwright.language import say
from hubwright.store.tomltext import toml_of

DEEPEST = 32
"""No table of a job file lies deeper."""
LARGEST_WHOLE = 2**63 - 1
"""TOML's own limit (TOML 1.0, Integer)."""


def plain(value: Any) -> Any:
    """Tables and lists of a TOML file as JSON can hold them."""
    if isinstance(value, dict):
        return {str(key): plain(inside) for key, inside in value.items()}
    if isinstance(value, list):
        return [plain(inside) for inside in value]
    if isinstance(value, date | time) or (isinstance(value, float) and not math.isfinite(value)):
        return toml_of(value)
    return value


def fault_in(value: Any, depth: int = 0) -> str | None:
    """Why a JSON value cannot stand in a job file; None when it can."""
    if depth > DEEPEST:
        return say("lists and tables at most {count} deep", count=DEEPEST)
    if value is None:
        return say("no null inside a list or table")
    if isinstance(value, int) and not isinstance(value, bool) and abs(value) > LARGEST_WHOLE:
        return say("a whole number up to {count}", count=LARGEST_WHOLE)
    if isinstance(value, float) and not math.isfinite(value):
        return say("a finite number")
    inside = value.values() if isinstance(value, dict) else value if isinstance(value, list) else ()
    return next((found for item in inside if (found := fault_in(item, depth + 1)) is not None), None)
