"""Writing job files: whole or not at all, and with every comment of the person who wrote it."""

from __future__ import annotations

import os
import re
import tempfile
from pathlib import Path
from typing import Any

from hubwright.errors import BadInput, Fault
from hubwright.jobs.jobfile import load, parse
from hubwright.language import say

STEP = re.compile(r"([A-Za-z0-9_-]+)((?:\[(?:\d+|\+)\])*)")
APPEND = "+"


def write_whole(path: Path, text: str | bytes) -> None:
    """Put a file in place at once: a crash or a full disk leaves the old one as it was.

    The text goes to a new file in the same folder, is forced to the disk, and takes the old one's name.

    Raises:
        OSError: when it cannot be written; the old file is untouched.
    """
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", suffix=".new")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(text.encode() if isinstance(text, str) else text)
            file.flush()
            os.fsync(file.fileno())
        if path.exists():
            Path(name).chmod(path.stat().st_mode & 0o777)
        else:
            Path(name).chmod(0o644)
        Path(name).replace(path)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
    _settle(path.parent)


def _settle(folder: Path) -> None:
    """Force the new name to the disk as well, where the system can."""
    try:
        handle = os.open(folder, os.O_RDONLY)
    except OSError:
        return
    try:
        os.fsync(handle)
    except OSError:
        pass
    finally:
        os.close(handle)


def enter(path: Path, field: str, value: str) -> None:
    """Set one field of a job file, or append to a list with ``[+]``; comments and order stay.

    Args:
        path: The job file.
        field: ``rear.hub.spigot_length_mm``; list items counted from 1: ``rear.left.point[1].reading[+]``.
        value: A TOML value; a text that is none is taken as it stands.

    Raises:
        BadInput: when the field cannot be found, or the file with the new value would be faulty; nothing is written.
        OSError: when it cannot be written; nothing is written.
    """
    load(path)
    text = edited(path.read_text(encoding="utf-8-sig"), field, value)
    parse(text, path.name, path.parent)
    write_whole(path, text)


def edited(text: str, field: str, value: str) -> str:
    """The text of a job file with one field set (see `enter`).

    Raises:
        BadInput: when the field cannot be found.
    """
    import tomlkit  # noqa: PLC0415 - only needed for writing

    steps = _steps(field)
    document = tomlkit.parse(text)
    place: Any = document
    for number, step in enumerate(steps[:-1]):
        place = _down(place, step, steps[number + 1], field)
    last = steps[-1]
    item = _toml(value)
    if last == APPEND:
        _append(place, item)
    elif isinstance(last, int):
        if last >= len(place):
            raise _refused(field, say("an item from 1 to {place}, or [+]", place=len(place)), str(last + 1))
        place[last] = item
    else:
        place[last] = item
    return str(tomlkit.dumps(document))


def _steps(field: str) -> list[str | int]:
    steps: list[str | int] = []
    for part in field.split("."):
        match = STEP.fullmatch(part)
        if match is None:
            raise _refused(field, say("names joined by dots, items in brackets"), repr(part))
        steps.append(match[1])
        for index in re.findall(r"\[(\d+|\+)\]", match[2]):
            if index == "0":
                raise _refused(field, say("items counted from 1"), "0")
            steps.append(APPEND if index == APPEND else int(index) - 1)
    return steps


def _down(place: Any, step: str | int, following: str | int, field: str) -> Any:
    import tomlkit  # noqa: PLC0415

    if isinstance(step, int):
        if not isinstance(place, list) or step >= len(place):
            raise _refused(
                field,
                say("an item from 1 to {place}", place=len(place) if isinstance(place, list) else 0),
                str(step + 1),
            )
        return place[step]
    if step == APPEND:
        raise _refused(field, say("[+] at the end"), say("[+] in the middle"))
    if step not in place:
        if isinstance(following, int):
            raise _refused(field, say("a list {step} that has items", step=step), say("none"))
        inline = isinstance(place, tomlkit.items.InlineTable)  # nothing but an inline table may stand inside one
        table = tomlkit.inline_table() if inline else tomlkit.table()
        place[step] = tomlkit.array() if following == APPEND else table
    found = place[step]
    if not isinstance(found, dict | list):
        raise _refused(field, say("a table or list at {step}", step=step), say("a single value"))
    return found


def _append(place: Any, item: Any) -> None:
    """Append to a list the way it is written: a table of its own to ``[[..]]``, an inline item to ``[..]``."""
    import tomlkit  # noqa: PLC0415

    if isinstance(place, tomlkit.items.AoT):
        table = tomlkit.table()
        table.update(item)
        place.append(table)
    else:
        multiline = "\n" in place.as_string()
        place.append(item)
        if multiline:
            place.multiline(True)


def _toml(value: str) -> Any:
    import tomlkit  # noqa: PLC0415

    try:
        return tomlkit.value(value)
    except (tomlkit.exceptions.TOMLKitError, ValueError):
        return value


def _refused(field: str, wanted: str, given: str) -> BadInput:
    return BadInput(say("enter"), (Fault(field, wanted, given, say("See hubwright schema for the fields.")),))
