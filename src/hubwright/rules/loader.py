"""Read one rule file, ``JURISDICTION.toml``. Whatever the format does not know is refused by file and key."""

from __future__ import annotations

import math
import tomllib
from datetime import date, datetime
from typing import Any

from hubwright.errors import BadDataFile
from hubwright.language import say
from hubwright.rules.comparisons import COMPARISONS
from hubwright.rules.model import FACTS, HOW_SEEN, OBLIGATION_KINDS, ON_BREACH, Filter, Jurisdiction, Obligation, Rule
from hubwright.rules.quantity import QUANTITIES

FILE_KEYS = {"name", "includes", "includes_why", "note", "rule", "obligation"}
PAPER_KEYS = {"id", "from", "to", "source", "clause", "how_seen", "confidence", "what_to_do"}
RULE_KEYS = PAPER_KEYS | {
    *("title", "quantity", "unit", "comparison", "value", "per", "reference", "applies", "unless"),
    *("date_note", "replaces", "on_breach", "breach"),
}
OBLIGATION_KEYS = PAPER_KEYS | {"kind", "text"}
OPTIONAL = {"from", "to", "clause", "value", "reference", "applies", "unless", "date_note", "replaces"}


def parse_rules(code: str, text: str, file: str) -> Jurisdiction:
    """The jurisdiction a rule file describes.

    Args:
        code: Code of the jurisdiction, the name of the file without its ending.
        text: The file's text, TOML.
        file: What to call the file in a refusal.

    Raises:
        BadDataFile: naming file and key for anything unknown, missing or not as the format wants it.
    """
    try:
        content = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise BadDataFile(file, "file", say("TOML"), str(error)) from error
    _keys(file, "file", content, FILE_KEYS, required={"name"})
    rules = tuple(_rule(code, file, entry) for entry in _entries(file, "rule", content))
    obligations = tuple(_obligation(code, file, entry) for entry in _entries(file, "obligation", content))
    includes = _texts(file, "includes", content.get("includes", []))
    if includes and not content.get("includes_why"):
        raise BadDataFile(file, "includes_why", say("why these are included"), say("nothing"))
    ids = [rule.id for rule in rules] + [duty.id for duty in obligations]
    for name in ids:
        if ids.count(name) > 1:
            raise BadDataFile(file, name, say("an id used once"), say("{count} times", count=ids.count(name)))
    papers = [_text(file, "file", content, key, optional=key != "name") for key in ("name", "includes_why", "note")]
    return Jurisdiction(code, papers[0], includes, papers[1], papers[2], rules, obligations)


def _rule(code: str, file: str, entry: dict[str, Any]) -> Rule:
    at = _checked_id(code, file, entry, RULE_KEYS)
    quantity = _one_of(file, at, entry, "quantity", QUANTITIES)
    unit = _one_of(file, at, entry, "unit", (QUANTITIES[quantity].unit,))
    per = _one_of(file, at, entry, "per", (QUANTITIES[quantity].per,))
    comparison = _one_of(file, at, entry, "comparison", COMPARISONS)
    starts, ends = _dates(file, at, entry)
    return Rule(
        id=at,
        jurisdiction=code,
        title=_text(file, at, entry, "title"),
        quantity=quantity,
        unit=unit,
        comparison=comparison,
        values=_values(file, at, entry, comparison),
        per=per,
        reference=_text(file, at, entry, "reference", optional=True),
        applies=_filter(file, f"{at}.applies", entry.get("applies", {})),
        unless=_filter(file, f"{at}.unless", entry.get("unless", {})),
        starts=starts,
        ends=ends,
        date_note=_text(file, at, entry, "date_note", optional=True),
        replaces=_texts(file, f"{at}.replaces", entry.get("replaces", [])),
        on_breach=_one_of(file, at, entry, "on_breach", ON_BREACH),
        breach=_text(file, at, entry, "breach"),
        source=_text(file, at, entry, "source"),
        clause=_text(file, at, entry, "clause", optional=True),
        how_seen=_one_of(file, at, entry, "how_seen", HOW_SEEN),
        confidence=_confidence(file, at, entry),
        what_to_do=_text(file, at, entry, "what_to_do"),
    )


def _obligation(code: str, file: str, entry: dict[str, Any]) -> Obligation:
    at = _checked_id(code, file, entry, OBLIGATION_KEYS)
    starts, ends = _dates(file, at, entry)
    return Obligation(
        id=at,
        jurisdiction=code,
        kind=_one_of(file, at, entry, "kind", OBLIGATION_KINDS),
        text=_text(file, at, entry, "text"),
        starts=starts,
        ends=ends,
        source=_text(file, at, entry, "source"),
        clause=_text(file, at, entry, "clause", optional=True),
        how_seen=_one_of(file, at, entry, "how_seen", HOW_SEEN),
        confidence=_confidence(file, at, entry),
        what_to_do=_text(file, at, entry, "what_to_do"),
    )


def _entries(file: str, key: str, content: dict[str, Any]) -> list[dict[str, Any]]:
    entries = content.get(key, [])
    if not isinstance(entries, list) or not all(isinstance(entry, dict) for entry in entries):
        raise BadDataFile(file, key, say("entries under [[{key}]]", key=key), repr(entries))
    return entries


def _checked_id(code: str, file: str, entry: dict[str, Any], allowed: set[str]) -> str:
    name = entry.get("id")
    if not isinstance(name, str) or not name.startswith(f"{code}-"):
        raise BadDataFile(file, "id", say("an id that begins with {code}-", code=code), repr(name))
    _keys(file, name, entry, allowed, required=allowed - OPTIONAL)
    return name


def _keys(file: str, at: str, given: dict[str, Any], allowed: set[str], required: set[str]) -> None:
    for key in sorted(set(given) - allowed):
        raise BadDataFile(
            file, f"{at}.{key}", say("one of the keys {known}", known=", ".join(sorted(allowed))), say("an unknown key")
        )
    for key in sorted(required - set(given)):
        raise BadDataFile(file, f"{at}.{key}", say("this key"), say("nothing"))


def _text(file: str, at: str, entry: dict[str, Any], key: str, *, optional: bool = False) -> str:
    value = entry.get(key, "")
    if not isinstance(value, str) or not (value or optional):
        raise BadDataFile(file, f"{at}.{key}", say("a text"), repr(value))
    return value


def _texts(file: str, at: str, value: object) -> tuple[str, ...]:
    if not isinstance(value, list) or not all(isinstance(item, str) for item in value):
        raise BadDataFile(file, at, say("a list of texts"), repr(value))
    return tuple(value)


def _one_of(file: str, at: str, entry: dict[str, Any], key: str, allowed: Any) -> str:
    value = entry.get(key)
    if not isinstance(value, str) or value not in allowed:
        raise BadDataFile(file, f"{at}.{key}", say("one of {known}", known=", ".join(allowed)), repr(value))
    return value


def _number(file: str, at: str, value: object) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
        raise BadDataFile(file, at, say("a number"), repr(value))
    return float(value)


def _confidence(file: str, at: str, entry: dict[str, Any]) -> float:
    value = _number(file, f"{at}.confidence", entry["confidence"])
    if not 0 <= value <= 1:
        raise BadDataFile(file, f"{at}.confidence", say("a number from 0 to 1"), f"{value:g}")
    return value


def _values(file: str, at: str, entry: dict[str, Any], comparison: str) -> tuple[float, ...]:
    given = entry.get("value", [])
    values = tuple(_number(file, f"{at}.value", item) for item in (given if isinstance(given, list) else [given]))
    wanted = COMPARISONS[comparison].count
    if len(values) != wanted:
        raise BadDataFile(
            file,
            f"{at}.value",
            say("{count} figures for {comparison}", count=wanted, comparison=comparison),
            repr(given),
        )
    return values


def _dates(file: str, at: str, entry: dict[str, Any]) -> tuple[date | None, date | None]:
    found: list[date | None] = []
    for key in ("from", "to"):
        value = entry.get(key)
        # A TOML date-time is a date to Python, and comparing the two raises.
        if value is not None and (not isinstance(value, date) or isinstance(value, datetime)):
            raise BadDataFile(file, f"{at}.{key}", say("a date such as 2024-04-01, without quotes"), repr(value))
        found.append(value)
    starts, ends = found
    if starts is not None and ends is not None and ends < starts:
        raise BadDataFile(file, f"{at}.to", say("a day not before {day}", day=starts), str(ends))
    return starts, ends


def _filter(file: str, at: str, given: object) -> Filter:
    if not isinstance(given, dict):
        raise BadDataFile(file, at, say("a table of facts"), repr(given))
    _keys(file, at, given, set(FACTS), required=set())
    for fact, words in given.items():
        for word in _texts(file, f"{at}.{fact}", words):
            if word not in FACTS[fact]:
                raise BadDataFile(
                    file, f"{at}.{fact}", say("words out of {known}", known=", ".join(FACTS[fact])), repr(word)
                )
    return {fact: tuple(words) for fact, words in given.items()}
