"""The published JSON Schemas: of the job file that comes in and of the answer that goes out."""

from __future__ import annotations

import json
from functools import cache
from typing import Any

from pydantic import TypeAdapter

from hubwright.jobs import shopfile
from hubwright.jobs.answer import Answer
from hubwright.jobs.jobfile import adapter
from hubwright.jobs.trial import trials_adapter
from hubwright.quantities.units import INSIDE, OUTSIDE, outside_name

LIMIT_WORDS = {"gt": "exclusiveMinimum", "ge": "minimum", "lt": "exclusiveMaximum", "le": "maximum"}
"""Limits of a number that passes a check of its own first come out of pydantic under its names for them."""
DIALECT = "https://json-schema.org/draft/2020-12/schema"


@cache
def answer_adapter() -> TypeAdapter[Answer]:
    """The one writer of answers."""
    return TypeAdapter(Answer)


def answer_json(answer: Answer) -> str:
    """The answer as JSON, by the schema of `schema_text`."""
    return answer_adapter().dump_json(answer, indent=2).decode()


def schema_text(of: str) -> str:
    """The JSON Schema of ``job``, ``shop``, ``answer`` or ``trial``."""
    schema = {"job": job_schema, "shop": shop_schema, "answer": answer_schema, "trial": trial_schema}[of]()
    return json.dumps(schema, indent=2, ensure_ascii=False)


def answer_schema() -> dict[str, Any]:
    """JSON Schema of an answer."""
    return {"$schema": DIALECT, **answer_adapter().json_schema(mode="serialization")}


def trial_schema() -> dict[str, Any]:
    """JSON Schema of discs tried."""
    return {"$schema": DIALECT, **trials_adapter().json_schema(mode="serialization")}


def job_schema() -> dict[str, Any]:
    """JSON Schema of a job file, read as the tree its TOML stands for; keys in inch, lb-ft and the like included."""
    return {"$schema": DIALECT, **_with_other_units(adapter().json_schema(by_alias=True))}


def shop_schema() -> dict[str, Any]:
    """JSON Schema of the shop's settings, in the same way."""
    return {"$schema": DIALECT, **_with_other_units(shopfile.adapter().json_schema(by_alias=True))}


def _with_other_units(schema: Any) -> Any:
    """Add the other spelling of every key whose unit has one; never both beside each other."""
    if isinstance(schema, list):
        return [_with_other_units(item) for item in schema]
    if not isinstance(schema, dict):
        return schema
    schema = {LIMIT_WORDS.get(key, key): _with_other_units(value) for key, value in schema.items()}
    properties = schema.get("properties")
    if isinstance(properties, dict) and schema.get("type") == "object":
        pairs = [(name, other) for name in properties if (other := outside_name(name)) is not None]
        for name, other in pairs:
            unit = name.rpartition("_")[2]
            properties[other] = _scaled(properties[name], 1 / INSIDE[OUTSIDE[unit]][1])
        required = set(schema.get("required", ()))
        both = [{"not": {"required": [name, other]}} for name, other in pairs]
        one = [{"anyOf": [{"required": [name]}, {"required": [other]}]} for name, other in pairs if name in required]
        if pairs:
            schema["allOf"] = both + one
            schema["required"] = sorted(required - {name for name, _ in pairs})
    return schema


def _scaled(schema: Any, factor: float) -> Any:
    """A key's schema with its limits in the other unit."""
    if isinstance(schema, list):
        return [_scaled(item, factor) for item in schema]
    if not isinstance(schema, dict):
        return schema
    limits = LIMIT_WORDS.values()
    return {
        key: value * factor if key in limits else _scaled(value, factor)
        for key, value in schema.items()
        if key not in ("title",)
    }
