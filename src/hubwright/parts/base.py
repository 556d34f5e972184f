"""How every noun of the job file is made: a frozen dataclass that refuses unknown keys and impossible numbers."""

from __future__ import annotations

import dataclasses
import datetime
import re
from typing import Annotated, Any, TypeVar, dataclass_transform

from pydantic import BeforeValidator, ConfigDict, Field, GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic.dataclasses import dataclass
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from hubwright.language import say
from hubwright.quantities.reading import Reading

T = TypeVar("T")

LARGEST_DOUBT = 1000.0
MOST_REPEATS = 100
DAY = re.compile(r"\d{4}-\d{2}-\d{2}", re.ASCII)

CONFIG = ConfigDict(extra="forbid", strict=False, allow_inf_nan=False, str_strip_whitespace=True)


@dataclass_transform(frozen_default=True, kw_only_default=True, field_specifiers=(Field,))
def noun(cls: type[T]) -> type[T]:
    """Make a frozen, keyword-only, validated dataclass."""
    return dataclass(frozen=True, kw_only=True, config=CONFIG)(cls)  # type: ignore[return-value]  # pydantic's own word for T


def refuse(wanted: str, given: object, **limits: float) -> PydanticCustomError:
    """The one way a part says what it wanted; ``{low}`` and ``{high}`` in it are filled in by the door."""
    return PydanticCustomError("wanted", "not what was wanted", {"wanted": wanted, "given": given, **limits})


def plain_number(value: Any) -> Any:
    """Only a real number is a number: not a truth value, not a text."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise refuse(say("a number"), value)
    return value


def true_or_false(value: Any) -> Any:
    """Only true and false are truth values: not 1, not "yes"."""
    if not isinstance(value, bool):
        raise refuse(say("true or false"), value)
    return value


def whole_number(value: Any) -> Any:
    """Only a whole number is one: not a truth value, not a text, not 5.5."""
    if isinstance(value, bool) or not isinstance(value, int):
        raise refuse(say("a whole number"), value)
    return value


def calendar_day(value: Any) -> Any:
    """A date, or one written as text the same way: not a moment, not a count of seconds."""
    if isinstance(value, str) and DAY.fullmatch(value.strip()):
        try:
            return datetime.date.fromisoformat(value.strip())
        except ValueError:
            raise refuse(say("a date such as 2026-05-04"), value) from None
    if isinstance(value, datetime.datetime) or not isinstance(value, datetime.date):
        raise refuse(say("a date such as 2026-05-04"), value)
    return value


def two_or_more(points: tuple[T, ...]) -> tuple[T, ...]:
    """One point is no line."""
    if len(points) < 2:
        raise refuse(say("two points or more"), list(points))
    return points


Number = Annotated[float, BeforeValidator(plain_number)]
Whole = Annotated[int, BeforeValidator(whole_number)]
Day = Annotated[datetime.date, BeforeValidator(calendar_day)]
YesNo = Annotated[bool, BeforeValidator(true_or_false)]
Text = Annotated[str, Field(min_length=1, max_length=400)]

READING_KEYS = ("value", "u", "method", "by")
READERS = ("workshop", "customer")


@dataclasses.dataclass(frozen=True)
class Between:
    """Marks a measured quantity and the sane limits of its figures.

    In the file it is a number, a list of repeats, or a table with ``value``, ``u``, ``method`` and ``by``.
    """

    low: float
    high: float

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(
            self._reading, serialization=core_schema.plain_serializer_function_ser_schema(_plain)
        )

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        number: dict[str, Any] = {"type": "number", "minimum": self.low, "maximum": self.high}
        repeats: dict[str, Any] = {"type": "array", "items": number, "minItems": 1, "maxItems": MOST_REPEATS}
        table: dict[str, Any] = {
            "type": "object",
            "additionalProperties": False,
            "required": ["value"],
            "properties": {
                "value": {"anyOf": [number, repeats]},
                "u": {"type": "number", "minimum": 0, "description": "standard uncertainty, in the unit of the value"},
                "method": {"type": "string", "description": "how it was read"},
                "by": {"enum": list(READERS)},
            },
        }
        return {"anyOf": [number, repeats, table]}

    def _reading(self, given: Any) -> Reading:
        if isinstance(given, Reading):
            return given
        table = given if isinstance(given, dict) else {"value": given}
        unknown = sorted(set(table) - set(READING_KEYS))
        if unknown:
            raise refuse(
                say("a reading with the keys {keys}", keys=", ".join(READING_KEYS)),
                say("the key {key}", key=unknown[0]),
            )
        if "value" not in table:
            raise refuse(say("a reading with a value"), None)
        repeats = table["value"] if isinstance(table["value"], list) else [table["value"]]
        if not repeats:
            raise refuse(say("at least one repeat"), repeats)
        if len(repeats) > MOST_REPEATS:
            raise refuse(say("at most {count} repeats", count=MOST_REPEATS), repeats)
        values = tuple(self._figure(item) for item in repeats)
        method, by = table.get("method"), table.get("by", READERS[0])
        if method is not None and not isinstance(method, str):
            raise refuse(say("a method in words"), method)
        if by not in READERS:
            raise refuse(" or ".join(READERS), by)
        return Reading(values, _doubt(table.get("u")), method, by)

    def _figure(self, given: Any) -> float:
        if isinstance(given, bool) or not isinstance(given, int | float) or not self.low <= given <= self.high:
            raise refuse(say("a number from {low} to {high}"), given, low=self.low, high=self.high)
        return float(given)


def _doubt(given: Any) -> float | None:
    if given is None:
        return None
    if isinstance(given, bool) or not isinstance(given, int | float) or not 0 <= given <= LARGEST_DOUBT:
        raise refuse(say("a doubt u from {low} to {high}"), given, low=0.0, high=LARGEST_DOUBT)
    return float(given)


def _plain(reading: Reading) -> dict[str, Any]:
    """A reading as a JSON table."""
    return {"value": list(reading.values), "u": reading.u, "method": reading.method, "by": reading.by}
