"""The job file's door: TOML text in, a `Job` out, or every fault at once."""

from __future__ import annotations

import dataclasses
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
from hubwright.parts.job import JOB_VERSION, Job
from hubwright.quantities.axes import SIDES
from hubwright.quantities.units import outside_name, to_inside

LARGEST_FILE_BYTES = 4 * 1024 * 1024


def load(path: str | Path) -> Job:
    """Read a job file.

    Raises:
        BadInput: with every fault found, each with its line, field, what was wanted and what was given.
    """
    path = Path(path)
    return parse(_text(path), path.name, path.parent)


def parse(text: str, name: str = "job", folder: Path | None = None) -> Job:
    """A `Job` from the text of a job file; ``name`` is how the text is called in messages.

    Files it names (scans) are looked for in ``folder``, the present one when missing; they are tried here, so that a
    bad one is a fault like any other, and the job then holds their full paths.

    Raises:
        BadInput: with every fault found.
    """
    tree = _tree(text, name)
    version = tree.get("hubwright_job")
    if type(version) is not int or version != JOB_VERSION:
        todo = (
            f"Write hubwright_job = {JOB_VERSION} at the top."
            if version is None
            else "This version cannot be read here."
        )
        index = lines.line_index(text)
        fault = Fault("hubwright_job", f"version {JOB_VERSION}", show(version), todo, index.get(("hubwright_job",)))
        raise BadInput(name, (fault,))
    inside, typed = to_inside(tree)
    try:
        job = adapter().validate_python(inside)
    except ValidationError as error:
        raise BadInput(name, faults_of(error, tree, typed, lines.line_index(text), known_keys())) from None
    folder = folder or Path()
    clashes = [(c.path, c.wanted, c.given, c.todo) for c in contradictions(job)]
    if has_scans(job):
        from hubwright.jobs.scans import scan_faults  # noqa: PLC0415 - most jobs have none

        clashes += scan_faults(job, folder)
    if clashes:
        index = lines.line_index(text)
        raise BadInput(name, tuple(fault_at(path, typed, index, *words) for path, *words in clashes))
    return with_full_paths(job, folder) if has_scans(job) else job


def has_scans(job: Job) -> bool:
    """Whether a job names any scan."""
    return any(axle.corner(side).scan for _, axle in job.axles for side in SIDES)


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
        return BadInput(path.name, (Fault("the file", wanted, given, todo),))

    try:
        size = path.stat().st_size
        if path.is_dir():
            raise refuse("a job file", "a folder", "Name the file inside it.")
        if size > LARGEST_FILE_BYTES:
            wanted = f"at most {LARGEST_FILE_BYTES // 1024**2} MiB"
            raise refuse(wanted, f"{size / 1024**2:.1f} MiB", "Keep scans and photographs in files of their own.")
        data = path.read_bytes()
    except FileNotFoundError:
        raise refuse("a job file", "no such file", "Check the name, or make one with hubwright new.") from None
    except OSError as error:
        raise refuse("a file that can be read", error.strerror or str(error), "Check the permissions.") from None
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise refuse("UTF-8 text", f"other bytes at position {error.start}", "Save it as UTF-8 text.") from None
    if "\0" in text:
        raise refuse("text", "binary data", "A job file is TOML text.")
    if not text.strip():
        raise refuse("a job", "an empty file", "Make one with hubwright new.")
    return text


def _tree(text: str, name: str) -> dict[str, Any]:
    todo = "See the TOML rules: key = value, texts in quotes."
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        places = lines.syntax_faults(text)
        faults = tuple(Fault("the text", "TOML", shown, todo, line) for line, shown in places)
        raise BadInput(name, faults or (Fault("the text", "TOML", str(error), todo),)) from None
    except RecursionError:
        raise BadInput(name, (Fault("the text", "TOML", "too many brackets inside each other", todo),)) from None


@cache
def known_keys() -> dict[str, tuple[str, ...]]:
    """Keys by the kind of table (its path without list numbers), in every spelling that may come in."""
    found: dict[str, tuple[str, ...]] = {}
    _collect(Job, "", found)
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
