"""What one field of a job file holds: its kind, unit, limits and choices, read from the type hints of the parts."""

from __future__ import annotations

import dataclasses
import datetime
import re
import types
import typing
from dataclasses import dataclass
from functools import cache
from typing import Any, Literal

import annotated_types
from pydantic.fields import FieldInfo

from hubwright.language import say
from hubwright.parts.base import Between
from hubwright.parts.job import Job
from hubwright.quantities.reading import Reading
from hubwright.quantities.units import QUOTIENTS
from hubwright.web.fields.labels import LABELS

Kind = Literal["reading", "number", "whole", "text", "day", "yesno", "choice", "numbers", "texts", "choices"]
"""numbers, texts, choices: lists, typed with blanks or semicolons between the items, or ticked."""
UNITS = ("mm", "deg", "nm", "kg", "kpa", "kmh", "percent", "days", "mpa", "kn", "d", "g", "k", "um")
SIDE_STEPS = ("left", "right", "front", "rear")


@dataclass(frozen=True)
class Spec:
    """What one field holds.

    Attributes:
        noun: The table it stands in, such as ``Hub``.
        name: Its key, such as ``spigot_length_mm``.
        kind: How it is typed and shown.
        unit: The last word of its name where that is one, such as ``mm``; empty = none.
        needed: Whether its table cannot do without it.
        low, high: Least and greatest value allowed, in the unit used inside; None = no limit.
        open_low, open_high: Whether the limit itself is not allowed.
        choices: Codes it may have.
        most: Longest list.
        description: As the job file's own pages describe it, in English.
    """

    noun: str
    name: str
    kind: Kind
    unit: str
    needed: bool
    low: float | None = None
    high: float | None = None
    open_low: bool = False
    open_high: bool = False
    choices: tuple[str, ...] = ()
    most: int | None = None
    description: str = ""

    @property
    def key(self) -> str:
        """Its name among all fields, such as ``Hub.spigot_length_mm``."""
        return f"{self.noun}.{self.name}"

    @property
    def label(self) -> str:
        """What a person calls it, in the language spoken."""
        return say(LABELS[self.key]) if self.key in LABELS else self.name

    @property
    def hint(self) -> str:
        """What exactly is meant."""
        return say(self.description) if self.description else ""

    @property
    def is_length(self) -> bool:
        """Whether it is a length, which inch people type in inches."""
        return self.unit == "mm" and not self.name.endswith(QUOTIENTS) and not self.name.endswith("_per_mm")


def plain(path: str) -> tuple[str, ...]:
    """The keys of a field without its list numbers: ``rear.left.point[2].name`` -> rear, left, point, name."""
    return tuple(re.sub(r"\[[^\]]*\]", "", part) for part in path.split("."))


@cache
def spec_at(path: str, root: Any = Job) -> Spec:
    """What the field at a path holds.

    Args:
        path: Such as ``rear.hub.spigot_length_mm`` or ``rear.left.point[1].reading[+].gap_mm``.
        root: The noun the path begins at: a job, or the shop's settings.

    Raises:
        KeyError: when there is no such field, or it is a table.
    """
    noun: Any = root
    keys = plain(path)
    for key in keys[:-1]:
        inner = nouns_in(_hints(noun)[_field(noun, key).name])
        if not inner:
            raise KeyError(path)
        noun = inner[0]
    return specs_of(noun)[keys[-1]]


@cache
def specs_of(noun: Any) -> dict[str, Spec]:
    """The single fields of one table by key; tables inside it are left out."""
    found = {}
    hints = _hints(noun)
    for field in dataclasses.fields(noun):
        key, hint = _key(field), hints[field.name]
        if not nouns_in(hint):
            found[key] = _spec(noun.__name__, key, hint, field)
    return found


@cache
def _hints(noun: Any) -> dict[str, Any]:
    return typing.get_type_hints(noun, include_extras=True)


def _key(field: Any) -> str:
    return (field.default.alias or field.name) if isinstance(field.default, FieldInfo) else str(field.name)


def _field(noun: Any, key: str) -> Any:
    for field in dataclasses.fields(noun):
        if _key(field) == key:
            return field
    raise KeyError(key)


def nouns_in(hint: Any) -> list[Any]:
    """The tables a type hint names."""
    if dataclasses.is_dataclass(hint):
        return [hint] if hasattr(hint, "__pydantic_fields__") else []
    origin = typing.get_origin(hint)
    if origin in (typing.Union, types.UnionType, tuple, typing.Annotated):
        return [noun for inner in typing.get_args(hint) for noun in nouns_in(inner)]
    return []


def _spec(noun: str, key: str, hint: Any, field: Any) -> Spec:
    info = field.default if isinstance(field.default, FieldInfo) else None
    marks = list(_marks(hint))
    kind, choices = _kind(hint)
    described = next((m.description for m in marks if isinstance(m, FieldInfo) and m.description), "")
    last = key.rpartition("_")[2]
    limits: dict[str, Any] = {}
    for mark in marks:
        _limit(mark, limits)
    missing = field.default is dataclasses.MISSING and field.default_factory is dataclasses.MISSING
    needed = info.is_required() if info is not None else missing
    return Spec(
        noun, key, kind, last if "_" in key and last in UNITS else "", needed, choices=choices,
        description=(info.description if info is not None and info.description else described) or "", **limits,
    )  # fmt: skip


def _marks(hint: Any) -> typing.Iterator[Any]:
    """Everything annotated anywhere in a hint."""
    if typing.get_origin(hint) is typing.Annotated:
        inner, *marks = typing.get_args(hint)
        yield from _marks(inner)
        yield from marks
    elif typing.get_origin(hint) in (typing.Union, types.UnionType, tuple):
        for inner in typing.get_args(hint):
            yield from _marks(inner)


def _limit(mark: Any, limits: dict[str, Any]) -> None:
    if isinstance(mark, Between):
        limits.update(low=mark.low, high=mark.high)
    if isinstance(mark, FieldInfo):
        for inner in mark.metadata:
            _limit(inner, limits)
    if isinstance(mark, annotated_types.Ge):
        limits["low"] = mark.ge
    if isinstance(mark, annotated_types.Gt):
        limits.update(low=mark.gt, open_low=True)
    if isinstance(mark, annotated_types.Le):
        limits["high"] = mark.le
    if isinstance(mark, annotated_types.Lt):
        limits.update(high=mark.lt, open_high=True)
    if isinstance(mark, annotated_types.MaxLen):
        limits["most"] = mark.max_length


def _kind(hint: Any) -> tuple[Kind, tuple[str, ...]]:
    listed = _holds(hint, tuple)
    inner = hint
    codes = tuple(str(code) for code in _codes(inner))
    if codes:
        return ("choices" if listed else "choice"), codes
    if _holds(hint, Reading):
        return "reading", ()
    if _holds(hint, bool):
        return "yesno", ()
    if _holds(hint, datetime.date):
        return "day", ()
    if _holds(hint, str):
        return ("texts" if listed else "text"), ()
    if _holds(hint, int):
        return "whole", ()
    return ("numbers" if listed else "number"), ()


def _codes(hint: Any) -> typing.Iterator[Any]:
    if typing.get_origin(hint) is typing.Literal:
        yield from typing.get_args(hint)
    for inner in typing.get_args(hint):
        if typing.get_origin(inner) is not None:
            yield from _codes(inner)


def _holds(hint: Any, kind: type) -> bool:
    """Whether a hint is, or has somewhere in it, this plain type."""
    if hint is kind or typing.get_origin(hint) is kind:
        return True
    return any(_holds(inner, kind) for inner in typing.get_args(hint) if not isinstance(inner, FieldInfo))
