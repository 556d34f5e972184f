"""What pydantic found wrong, in the words of the file: field as typed, line, wanted, given, what to do."""

from __future__ import annotations

import datetime
import difflib
import math
from collections.abc import Mapping
from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from hubwright.errors import Fault
from hubwright.jobs.lines import Path, line_of
from hubwright.language import marked, say
from hubwright.language.said import Said
from hubwright.quantities.text import joined, pointed
from hubwright.quantities.units import inside_name

TypedKeys = Mapping[Path, str]

PLAIN_WORDS = {
    "missing": marked("this field"),
    "missing_argument": marked("this field"),
    "missing_keyword_only_argument": marked("this field"),
    "dataclass_type": marked("a table"),
    "list_type": marked("a list"),
    "tuple_type": marked("a list"),
    "string_type": marked("a text"),
    "string_too_short": marked("a text that is not empty"),
    "string_too_long": marked("a text of at most 400 characters"),
    "float_type": marked("a number"),
    "int_parsing_size": marked("a whole number of usual size"),
    "finite_number": marked("a finite number"),
}
LIMIT_WORDS = {
    "greater_than": marked("more than {gt}"),
    "greater_than_equal": marked("at least {ge}"),
    "less_than": marked("less than {lt}"),
    "less_than_equal": marked("at most {le}"),
}


def as_typed(path: Path, typed: TypedKeys) -> Path:
    """A path with every key as it stands in the file."""
    return tuple(typed.get(path[: end + 1], key) for end, key in enumerate(path))


def field_name(path: Path) -> str:
    """``rear.left.point[2].gap_mm``: list items counted from 1, as a person counts them."""
    text = ""
    for key in path:
        text += f"[{key + 1}]" if isinstance(key, int) else f".{key}" if text else key
    return text or say("the file")


def fault_at(path: Path, typed: TypedKeys, index: dict[Path, int], wanted: str, given: str, todo: str = "") -> Fault:
    """A fault at a path of the converted tree."""
    own = as_typed(path, typed)
    return Fault(field_name(own), wanted, given, todo, line_of(own, index))


def faults_of(
    error: ValidationError, tree: dict[str, Any], typed: TypedKeys, index: dict[Path, int], fields: Mapping[str, Any]
) -> tuple[Fault, ...]:
    """Every fault pydantic found, in the order of the file.

    Args:
        error: What pydantic raised for the converted tree.
        tree: The tree as it was typed.
        typed: Renamed keys, from `hubwright.quantities.units.to_inside`.
        index: Lines, from `hubwright.jobs.lines.line_index`.
        fields: Known keys by the kind of table, to suggest the right one: ``{path without numbers: keys}``.
    """
    faults = [_fault(detail, tree, typed, index, fields) for detail in error.errors(include_url=False)]
    return tuple(sorted(set(faults), key=lambda fault: (fault.line is None, fault.line or 0, fault.field)))


def _fault(
    detail: ErrorDetails, tree: dict[str, Any], typed: TypedKeys, index: dict[Path, int], fields: Mapping[str, Any]
) -> Fault:
    path = tuple(detail["loc"])
    own = as_typed(path, typed)
    factor = next(
        (factor for key in reversed(own) if isinstance(key, str) and (factor := inside_name(key)[1]) != 1), 1.0
    )
    context = {
        key: pointed(f"{value / factor:.6g}")
        if isinstance(value, int | float) and not isinstance(value, bool)
        else value
        for key, value in detail.get("ctx", {}).items()
        if key in ("gt", "ge", "lt", "le", "low", "high")
    }
    kind = detail["type"]
    if kind in ("unexpected_keyword_argument", "extra_forbidden"):
        known = fields.get(_kind_of_table(path[:-1]), ())
        if (spelled := inside_name(str(own[-1]))[0]) != own[-1] and spelled in known:
            todo = say("{spelled} stands here as well: keep one of the two.", spelled=spelled)
            return fault_at(path, typed, index, say("one spelling of this key"), say("{own} too", own=own[-1]), todo)
        near = difflib.get_close_matches(str(own[-1]), known, 1)
        todo = (
            say("Did you mean {near}?", near=near[0])
            if near
            else say("Take it out, or see hubwright schema for the keys.")
        )
        return fault_at(path, typed, index, say("a key of this table"), say("the unknown key {own}", own=own[-1]), todo)
    if kind == "wanted":
        details = detail["ctx"]
        wanted = str(details["wanted"]).format(**context)
        return fault_at(path, typed, index, wanted, _given(details["given"], factor))
    given = say("nothing") if kind.startswith("missing") else show(_lookup(tree, own))
    return fault_at(path, typed, index, _wanted(detail, context), given)


def _wanted(detail: ErrorDetails, context: dict[str, Any]) -> str:
    kind = detail["type"]
    if kind == "literal_error":
        return say(
            "one of {known}", known=joined(str(detail["ctx"]["expected"]).replace(" or ", ", ").split(", "), "or")
        )
    if kind in LIMIT_WORDS:
        return say(LIMIT_WORDS[kind], **context)
    if kind == "too_long":
        return say("at most {count} of them", count=detail["ctx"]["max_length"])
    return say(PLAIN_WORDS[kind]) if kind in PLAIN_WORDS else detail["msg"]


def show(value: Any) -> str:
    """A given value, short enough for one line."""
    if value is None:
        return say("nothing")
    if isinstance(value, dict):
        return say("a table")
    if isinstance(value, list):
        return say("a list of {count}", count=len(value))
    if isinstance(value, bool):
        return str(value).lower()
    text = str(value) if isinstance(value, datetime.date | datetime.time) else repr(value)
    return text if len(text) <= 60 else f"{text[:57]}..."


def _given(value: Any, factor: float) -> str:
    if factor != 1.0 and isinstance(value, int | float) and not isinstance(value, bool):
        return pointed(f"{value / factor:.6g}") if math.isfinite(value) else say("a number beyond all measure")
    return value if isinstance(value, Said) else show(value)


def _lookup(tree: Any, path: Path) -> Any:
    for key in path:
        try:
            tree = tree[key]
        except (KeyError, IndexError, TypeError):
            return None
    return tree


def _kind_of_table(path: Path) -> str:
    return ".".join(key for key in path if isinstance(key, str))
