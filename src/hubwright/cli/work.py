"""What the commands do."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path
from typing import NoReturn

import typer

from hubwright.cli.commands import BAD, OK, QUESTIONS, leave
from hubwright.errors import BadInput, HubwrightError
from hubwright.jobs.answer import Answer
from hubwright.jobs.assess import assess
from hubwright.jobs.jobfile import load
from hubwright.language import say
from hubwright.parts.job import Job
from hubwright.quantities.text import System, joined, speaking


def loaded(path: Path) -> Job:
    """The job, or every fault on the error stream and exit code 2."""
    try:
        return load(path)
    except BadInput as error:
        leave(error)


def answer_for(
    path: Path, *, axle: str | None, explain: bool, as_json: bool, drawings: Path | None, units: System
) -> None:
    """Assess a job and print the answer."""
    from hubwright.cli.show import print_answer  # noqa: PLC0415 - JSON does without the table
    from hubwright.jobs.schema import answer_json  # noqa: PLC0415

    job = loaded(path)
    if axle is not None and axle not in dict(job.axles):
        leave(axle_refused([name for name, _ in job.axles], axle))
    with speaking(units):
        answer = answered(job)
        if drawings is not None:
            write_drawings(job, answer, drawings)
        if as_json:
            sys.stdout.write(answer_json(answer) + "\n")
        else:
            print_answer(answer, only=axle, explain=explain)


def axle_refused(known: Sequence[str], given: str) -> str:
    """An axle the job says nothing about."""
    if not known:
        return say("--axle: wanted none: the job says nothing about any axle; given {given}.", given=given)
    return say("--axle: wanted {known}; given {given}.", known=joined(list(known), "or"), given=given)


def folder_refused(option: str, folder: Path, error: OSError) -> str:
    """A folder that cannot be written."""
    return say(
        "{option} {folder}: wanted a folder that can be written; {error}.",
        option=option,
        folder=folder,
        error=error.strerror or error,
    )


def answered(job: Job) -> Answer:
    """The answer; a data file at fault is said in one line."""
    try:
        return assess(job)
    except HubwrightError as error:
        leave(error)


def write_drawings(job: Job, answer: Answer, folder: Path) -> list[Path]:
    """All drawings of a job into a folder; the files written."""
    from hubwright.drawings.sheet import drawings_of  # noqa: PLC0415

    try:
        folder.mkdir(parents=True, exist_ok=True)
        written = []
        for name, svg in drawings_of(job, answer):
            target = folder / f"{name}.svg"
            target.write_text(svg, encoding="utf-8")
            written.append(target)
    except OSError as error:
        leave(folder_refused("--drawings", folder, error))
    return written


def check_only(path: Path, units: System) -> NoReturn:
    """Faults and plausibility."""
    from hubwright.checks.plausibility import questions  # noqa: PLC0415

    job = loaded(path)
    with speaking(units):
        found = questions(job)
    for question in found:
        sys.stdout.write(f"? {question.about} ({question.place}): {question.text} {question.todo}\n")
    if not found:
        sys.stdout.write(f"{say('{file}: no faults, nothing stands out.', file=path.name)}\n")
    raise typer.Exit(QUESTIONS if found else OK)


def write_new(path: Path, title: str, *, studs: bool, force: bool) -> None:
    """A job file to fill in."""
    from hubwright.jobs.template import new_job  # noqa: PLC0415
    from hubwright.jobs.writer import write_whole  # noqa: PLC0415

    if path.exists() and not force:
        leave(
            say("{file}: wanted a new name; given a file that exists. Choose another, or use --force.", file=path.name)
        )
    try:
        write_whole(path, new_job(title, studs=studs))
    except OSError as error:
        leave(
            say(
                "{file}: wanted a folder that can be written; {error}. Nothing was written.",
                file=path.name,
                error=error.strerror or error,
            )
        )
    text = say("{file} written. Fill in what you read, then: hubwright assess {file}", file=path.name)
    sys.stdout.write(f"{text}\n")


def enter_value(path: Path, field: str, value: str) -> None:
    """One reading into a job file."""
    from hubwright.jobs.writer import enter  # noqa: PLC0415

    try:
        enter(path, field, value)
    except BadInput as error:
        leave(error)
    except OSError as error:
        leave(
            say(
                "{file}: could not be written: {error}. The file is as it was.",
                file=path.name,
                error=error.strerror or error,
            ),
            BAD,
        )
    sys.stdout.write(f"{say('{file}: {field} entered.', file=path.name, field=field)}\n")


def print_schema(of: str) -> None:
    """A published schema."""
    from hubwright.jobs.schema import schema_text  # noqa: PLC0415

    sys.stdout.write(schema_text(of) + "\n")
