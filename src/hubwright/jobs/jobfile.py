"""The job file's door: TOML text in, a `Job` out, or every fault at once."""

from __future__ import annotations

import dataclasses
import re
import tomllib
import types
import typing
from functools import cache
from pathlib import Path
from typing import Any

from pydantic import TypeAdapter, ValidationError

from hubwright.errors import BadInput, Fault
from hubwright.jobs import lines
from hubwright.jobs.contradictions import contradictions
from hubwright.jobs.faults import fault_at, faults_of, show
from hubwright.jobs.profiles import fill_profiles
from hubwright.jobs.syntax import SEE_TOML, syntax_faults
from hubwright.language import say
from hubwright.parts.job import JOB_VERSION, Job
from hubwright.quantities.axes import SIDES
from hubwright.quantities.units import outside_name, to_inside

LARGEST_FILE_BYTES = 4 * 1024 * 1024
MOST_DOTS = 2000
"""In one key or value: the time the reader of TOML takes for a dotted key grows with the square of its dots."""


def load(path: str | Path) -> Job:
    """Read a job file.

    Raises:
        BadInput: with every fault found, each with its line, field, what was wanted and what was given.
    """
    path = Path(path)
    return parse(_text(path), path.name or str(path), path.parent)


def parse(text: str, name: str = "job", folder: Path | None = None) -> Job:
    """A `Job` from the text of a job file.

    Args:
        text: TOML.
        name: How the text is called in messages.
        folder: Where profile and scan files named in it are looked for; without one profiles are refused and scans are
            not at hand (their corner then has no map). With one the job holds the full paths of its scans.

    Raises:
        BadInput: with every fault found.
    """
    try:
        return _job(text.removeprefix("\ufeff"), name, folder)
    except RecursionError:
        fault = Fault(say("the text"), say("TOML"), say("too many tables or brackets inside each other"), say(SEE_TOML))
        raise BadInput(name, (fault,)) from None


def _job(text: str, name: str, folder: Path | None) -> Job:
    tree = tree_in(text, name)
    version = tree.get("hubwright_job")
    if type(version) is not int or version != JOB_VERSION:
        todo = (
            say("Write hubwright_job = {version} at the top.", version=JOB_VERSION)
            if version is None
            else say("This version cannot be read here.")
        )
        index = lines.line_index(text)
        fault = Fault(
            "hubwright_job",
            say("version {version}", version=JOB_VERSION),
            show(version),
            todo,
            index.get(("hubwright_job",)),
        )
        raise BadInput(name, (fault,))
    inside, typed = to_inside(tree)
    unread = fill_profiles(inside, folder)
    if unread:
        index = lines.line_index(text)
        found = (fault_at(path, typed, index, f.wanted, f.given, f.todo) for path, f in unread.items())
        raise BadInput(name, tuple(found))
    try:
        job = adapter().validate_python(inside)
    except ValidationError as error:
        raise BadInput(name, faults_of(error, tree, typed, lines.line_index(text), known_keys())) from None
    clashes = [(c.path, c.wanted, c.given, c.todo) for c in contradictions(job)]
    if folder is not None and has_scans(job):
        from hubwright.jobs.scans import scan_faults  # noqa: PLC0415 - most jobs have none

        clashes += scan_faults(job, folder)
    if clashes:
        index = lines.line_index(text)
        raise BadInput(name, tuple(fault_at(path, typed, index, *words) for path, *words in clashes))
    return job if folder is None else with_full_paths(job, folder)


def has_scans(job: Job) -> bool:
    """Whether a job names any scan."""
    return any(axle.corner(side).scan for _, axle in job.axles for side in SIDES)


def has_shapes(job: Job) -> bool:
    """Whether a job tells of any shape around a wheel, scan or edge, from which a clearance map is drawn."""
    corners = [axle.corner(side) for _, axle in job.axles for side in SIDES]
    return any(corner.scan or corner.line for corner in corners)


def with_full_paths(job: Job, folder: Path) -> Job:
    """The job with the full path of every file it names."""
    for name, given in job.axles:
        axle = given
        for side in SIDES:
            corner = axle.corner(side)
            scans = tuple(dataclasses.replace(one, file=str((folder / one.file).resolve())) for one in corner.scan)
            whole = dataclasses.replace(corner, scan=scans)
            axle = dataclasses.replace(axle, left=whole) if side == "left" else dataclasses.replace(axle, right=whole)
        job = dataclasses.replace(job, front=axle) if name == "front" else dataclasses.replace(job, rear=axle)
    return job


@cache
def adapter() -> TypeAdapter[Job]:
    """The one validator of job files."""
    return TypeAdapter(Job)


def _text(path: Path) -> str:
    def refuse(wanted: str, given: str, todo: str) -> BadInput:
        return BadInput(path.name or str(path), (Fault(say("the file"), wanted, given, todo),))

    try:
        if path.is_dir():
            raise refuse(say("a job file"), say("a folder"), say("Name the file inside it."))
        with path.open("rb") as file:
            data = file.read(LARGEST_FILE_BYTES + 1)
    except FileNotFoundError:
        raise refuse(
            say("a job file"), say("no such file"), say("Check the name, or make one with hubwright new.")
        ) from None
    except ValueError:
        raise refuse(say("a name of a file"), say("a name with a zero byte in it"), say("Check the name.")) from None
    except OSError as error:
        raise refuse(
            say("a file that can be read"), error.strerror or str(error), say("Check the permissions.")
        ) from None
    if len(data) > LARGEST_FILE_BYTES:
        wanted = say("at most {size} MiB", size=LARGEST_FILE_BYTES // 1024**2)
        raise refuse(wanted, say("more than that"), say("Keep scans and photographs in files of their own."))
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise refuse(
            say("UTF-8 text"), say("other bytes at position {start}", start=error.start), say("Save it as UTF-8 text.")
        ) from None
    if "\0" in text:
        raise refuse(say("text"), say("binary data"), say("A job file is TOML text."))
    if not text.strip():
        raise refuse(say("a job"), say("an empty file"), say("Make one with hubwright new."))
    return text


def tree_in(text: str, name: str) -> dict[str, Any]:
    """The tables and lists of a TOML text, as typed.

    Raises:
        BadInput: when it is not TOML, with every place that is not.
    """
    if any(piece.count(".") > MOST_DOTS for piece in re.split("[=\n]", text)):
        raise BadInput(
            name, (Fault(say("the text"), say("TOML"), say("too many tables inside each other"), say(SEE_TOML)),)
        )
    try:
        text.encode()
        return tomllib.loads(text)
    except UnicodeEncodeError as error:
        given = say("half a character at position {start}", start=error.start)
        raise BadInput(name, (Fault(say("the text"), say("text that can be written as UTF-8"), given),)) from None
    except tomllib.TOMLDecodeError:
        raise BadInput(name, syntax_faults(text)) from None
    except ValueError:  # what Python itself refuses: thousands of digits
        given = say("a number with more digits than anybody reads")
        place = re.search(r"\d{1000}", text.replace("_", ""))
        line = text.replace("_", "").count("\n", 0, place.start()) + 1 if place else None
        raise BadInput(name, (Fault(say("the text"), say("numbers of usual size"), given, "", line),)) from None


@cache
def known_keys(noun: Any = Job) -> dict[str, tuple[str, ...]]:
    """Keys by the kind of table (its path without list numbers), in every spelling that may come in."""
    found: dict[str, tuple[str, ...]] = {}
    _collect(noun, "", found)
    return found


def _collect(noun: Any, path: str, found: dict[str, tuple[str, ...]]) -> None:
    names: list[str] = []
    hints = typing.get_type_hints(noun)
    for field in dataclasses.fields(noun):
        name = getattr(field.default, "alias", None) or field.name
        names += [name] + ([other] if (other := outside_name(name)) else [])
        for inner in _nouns_in(hints[field.name]):
            _collect(inner, f"{path}.{name}".lstrip("."), found)
    found[path] = tuple(names)


def _nouns_in(hint: Any) -> list[Any]:
    if dataclasses.is_dataclass(hint):
        return [hint] if hasattr(hint, "__pydantic_fields__") else []
    if typing.get_origin(hint) in (typing.Union, types.UnionType, tuple):
        return [noun for inner in typing.get_args(hint) for noun in _nouns_in(inner)]
    return []
