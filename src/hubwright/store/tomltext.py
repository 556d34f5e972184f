"""Changing one place in the bytes of a job file, and proof that nothing else moved."""

from __future__ import annotations

import copy
import datetime
import json
import math
import tomllib
from functools import lru_cache
from typing import Any

from hubwright.errors import BadInput, Fault
from hubwright.jobs import lines
from hubwright.jobs.jobfile import LARGEST_FILE_BYTES, parse
from hubwright.jobs.lines import Path
from hubwright.jobs.writer import edited
from hubwright.language import say
from hubwright.parts.job import Job
from hubwright.store.fields import Place, written

MARK = "\ufeff"
LATELY_READ = 64
"""Jobs of which the last reading is kept."""


def text_of(data: bytes, name: str = "job") -> str:
    """The text of a job file, without its byte order mark.

    Raises:
        BadInput: when it is no text or too large.
    """
    if len(data) > LARGEST_FILE_BYTES:
        given = f"{len(data) / 1024**2:.1f} MiB"
        raise _refused(
            name,
            say("at most {largest_file_bytes} MiB", largest_file_bytes=LARGEST_FILE_BYTES // 1024**2),
            given,
            say("Attach scans and photographs."),
        )
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise _refused(
            name, say("UTF-8 text"), say("other bytes at position {start}", start=error.start), say("Save it as UTF-8.")
        ) from None
    if "\0" in text:
        raise _refused(name, say("text"), say("binary data"), say("A job file is TOML text."))
    return text


def tree_of(data: bytes, name: str = "job") -> dict[str, Any]:
    """The plain tables and lists of a job file.

    Raises:
        BadInput: when it is not TOML.
    """
    text = text_of(data, name)
    try:
        return tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError) as error:
        found = lines.syntax_faults(text) or [(1, str(error) or say("too many brackets inside each other"))]
        raise BadInput(
            name, tuple(Fault(say("the text"), say("TOML"), shown, "", line) for line, shown in found)
        ) from None


@lru_cache(maxsize=LATELY_READ)
def job_of(data: bytes, name: str = "job") -> Job:
    """The job in a file. The same bytes are read once: a job never changes, and one with faults is not kept.

    Raises:
        BadInput: with every fault found.
    """
    return parse(text_of(data, name), name)


def faults_in(data: bytes, name: str = "job") -> tuple[Fault, ...]:
    """Every fault of a job file; empty for a sound one."""
    try:
        job_of(data, name)
    except BadInput as error:
        return error.faults
    return ()


def value_of(toml: str) -> Any:
    """The plain value a TOML value stands for; a text that is none stands for itself, as in `jobs.writer.edited`."""
    import tomlkit  # noqa: PLC0415 - slow to import, only needed for writing

    try:
        return tomlkit.value(toml).unwrap()
    except (tomlkit.exceptions.TOMLKitError, ValueError):
        return toml


def toml_of(value: Any) -> str:
    """A plain value as TOML on one line."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, float) and not math.isfinite(value):
        return "nan" if math.isnan(value) else "inf" if value > 0 else "-inf"
    if isinstance(value, int | float):
        return repr(value)
    if isinstance(value, datetime.date | datetime.time):
        return value.isoformat()
    if isinstance(value, list):
        return f"[{', '.join(toml_of(item) for item in value)}]"
    if isinstance(value, dict):
        inside = ", ".join(f"{_key(key)} = {toml_of(item)}" for key, item in value.items())
        return f"{{ {inside} }}" if inside else "{}"
    return json.dumps(str(value), ensure_ascii=False).replace("\x7f", "\\u007f")


def _key(key: str) -> str:
    plain = bool(key) and all(letter.isascii() and (letter.isalnum() or letter in "_-") for letter in key)
    return key if plain else toml_of(key)


def same(one: Any, other: Any) -> bool:
    """Whether two plain values are the same thing written down: 1 and 1.0 are, 1 and true are not."""
    if isinstance(one, dict) and isinstance(other, dict):
        return one.keys() == other.keys() and all(same(one[key], other[key]) for key in one)
    if isinstance(one, list) and isinstance(other, list):
        return len(one) == len(other) and all(map(same, one, other))
    if isinstance(one, bool) or isinstance(other, bool):
        return one is other
    if isinstance(one, float) and isinstance(other, float) and math.isnan(one):
        return math.isnan(other)
    return (type(one) is type(other) and one == other) or (_number(one) and _number(other) and one == other)


def _number(value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


def put(data: bytes, place: Place, toml: str | None, *, between: bool = False) -> bytes:
    """The file with one value set, added or (None) taken out; comments, order, line ends and mark stay.

    Args:
        data: The file.
        place: Where.
        toml: The value.
        between: Put it into a list before the item that stands at the place, instead of over it.

    Raises:
        BadInput: when the place cannot be found, or the text cannot be changed there without touching anything else.
    """
    text = data.decode("utf-8")
    mark, text = (MARK, text.removeprefix(MARK)) if text.startswith(MARK) else ("", text)
    ends = "\r\n" if "\r\n" in text and text.count("\n") == text.count("\r\n") else "\n"
    plain = text.replace("\r\n", "\n") if ends == "\r\n" else text
    field = written(place.path)
    wanted = _put_in(tomllib.loads(plain), place, None if toml is None else value_of(toml), between=between)
    try:
        new = _changed(plain, place, toml, between=between)
        arrived = tomllib.loads(new)
    except BadInput:
        raise
    except Exception as error:  # noqa: BLE001 - tomlkit fails in many ways of its own; none of them may cost a reading
        raise _unreachable(field, str(error)) from None
    if not same(arrived, wanted):
        raise _unreachable(field, say("something else in the file would change as well"))
    return (mark + (new.replace("\n", ends) if ends != "\n" else new)).encode()


def _changed(text: str, place: Place, toml: str | None, *, between: bool) -> str:
    if toml is None:
        return _without(text, place.path)
    if isinstance(place.path[-1], int) and not place.adds and isinstance(value_of(toml), dict):
        return _with_table(text, place.path, toml, between=between)
    if between:
        return _with_value(text, place.path, toml)
    field = written(place.path)
    return edited(text, f"{field}[+]" if place.adds else field, toml)


def _with_table(text: str, path: Path, toml: str, *, between: bool) -> str:
    """A table as an item of a list, written the way the list is."""
    import tomlkit  # noqa: PLC0415

    document = tomlkit.parse(text)
    items = _walked(document, path)
    if not isinstance(items, tomlkit.items.AoT):
        return _with_value(text, path, toml) if between else edited(text, written(path), toml)
    number = int(path[-1])
    if not between:
        del items[number]
    table = tomlkit.table()
    table.update(value_of(toml))
    items.insert(number, table)
    return str(tomlkit.dumps(document))


def _with_value(text: str, path: Path, toml: str) -> str:
    import tomlkit  # noqa: PLC0415

    document = tomlkit.parse(text)
    _walked(document, path).insert(int(path[-1]), tomlkit.value(toml))
    return str(tomlkit.dumps(document))


def _walked(document: Any, path: Path) -> Any:
    """What holds the last step of a path."""
    for step in path[:-1]:
        document = document[step]
    return document


def _put_in(tree: dict[str, Any], place: Place, value: Any, *, between: bool) -> dict[str, Any]:
    """The same change on the plain tree, as far as it can be made; `edited` says why it cannot."""
    tree = copy.deepcopy(tree)
    here: Any = tree
    path = place.path
    for step, following in zip(path, [*path[1:], None], strict=True):
        if following is None and not place.adds:
            break
        if isinstance(here, dict) and step not in here:
            here[step] = [] if following is None else {}
        try:
            here = here[step]
        except (IndexError, KeyError, TypeError):
            return tree
    try:
        if place.adds:
            here.append(value)
        elif between:
            here.insert(path[-1], value)
        elif value is None:
            del here[path[-1]]
        else:
            here[path[-1]] = value
    except (IndexError, KeyError, TypeError, AttributeError):
        return tree
    return tree


def _without(text: str, path: Path) -> str:
    import tomlkit  # noqa: PLC0415

    document = tomlkit.parse(text)
    del _walked(document, path)[path[-1]]
    return str(tomlkit.dumps(document))


def _refused(name: str, wanted: str, given: str, todo: str) -> BadInput:
    return BadInput(name, (Fault(say("the file"), wanted, given, todo),))


def _unreachable(field: str, why: str) -> BadInput:
    fault = Fault(
        field, say("a place that can be changed by itself"), why, say("Take the file out, change it, hand it in again.")
    )
    return BadInput(say("entry"), (fault,))
