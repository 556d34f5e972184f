"""What the commands of ``hubwright store`` do."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import asdict
from datetime import date
from pathlib import Path

import typer

from hubwright.cli.commands import BAD, OK, QUESTIONS, leave
from hubwright.errors import BadInput, HubwrightError
from hubwright.language import say
from hubwright.settings import Settings, read_settings
from hubwright.store.cupboard import Cupboard
from hubwright.store.things import Aside, Audit, Change, JobLine, Query, Receipt, Revision, Stage


@contextmanager
def opened() -> Iterator[tuple[Cupboard, Settings]]:
    """The store the settings name; what it refuses is said on the error stream."""
    try:
        settings = read_settings()
        with Cupboard.open(settings.data, settings.database) as cupboard:
            yield cupboard, settings
    except BadInput as error:
        leave(error)
    except HubwrightError as error:
        leave(error, BAD)


def say_line(text: str) -> None:
    """One line on the screen."""
    sys.stdout.write(f"{text}\n")


def bytes_of(file: Path) -> bytes:
    """The bytes of a file, or out with the reason."""
    try:
        return file.read_bytes()
    except OSError as error:
        leave(f"{file.name}: wanted a file that can be read; {error.strerror or error}.")


def add(file: Path, customer: str, note: str, by: str | None) -> None:
    """A new job."""
    data = bytes_of(file)
    with opened() as (cupboard, settings):
        receipt = cupboard.add(data, by or settings.author, card={"@customer": customer}, note=note, name=file.name)
    say_line(receipt.job_id)


def find(
    *,
    words: str,
    title: str,
    plate: str,
    customer: str,
    axle: str | None,
    stage: str | None,
    days: dict[str, str | None],
    only_open_asides: bool,
    limit: int,
    as_json: bool,
) -> None:
    """A list of jobs."""
    if stage is not None and stage not in tuple(Stage):
        leave(f"--stage: wanted one of {', '.join(Stage)}; given {stage}.")
    since, until, due_by = (_day(option, text) for option, text in days.items())
    query = Query(
        words=words,
        title=title,
        plate=plate,
        customer=customer,
        axle=axle,
        stage=Stage(stage) if stage else None,
        since=since,
        until=until,
        due_by=due_by,
        only_open_asides=only_open_asides,
        limit=limit,
    )
    with opened() as (cupboard, _):
        lines = cupboard.find(query)
    if as_json:
        say_line(json.dumps([asdict(line) for line in lines], default=str, indent=2, ensure_ascii=False))
        return
    for line in lines:
        say_line(_line(line))


def _day(option: str, text: str | None) -> date | None:
    try:
        return date.fromisoformat(text) if text else None
    except ValueError:
        leave(f"{option}: wanted a day such as 2026-05-04; given {text}.")


def _line(line: JobLine) -> str:
    stage = f"{line.stage}, changed since" if line.outdated else line.stage.value
    parts = [line.id, str(line.day or "no day"), line.title, line.plate, line.customer, stage]
    parts += [f"re-torque due {line.due}"] if line.due else []
    parts += [f"{line.asides} put aside"] if line.asides else []
    return "  ".join(part for part in parts if part)


def show(job: str) -> None:
    """One job."""
    with opened() as (cupboard, _):
        name = cupboard.name(job)
        found = cupboard.job(name)
        asides, attachments = cupboard.asides(name), cupboard.attachments(name)
    say_line(f"{name}, revision {found.revision}")
    for field, value in found.card.items():
        say_line(f"  {field.removeprefix('@')}: {value}")
    for fault in found.faults:
        say_line(f"  fault: {fault}")
    for aside in asides:
        _say_aside(aside)
    for item in attachments:
        say_line(
            f"  attached {item.id}: {item.name} ({item.kind}, {item.size_bytes} bytes) by {item.author} {item.note}".rstrip()
        )


def _say_aside(aside: Aside) -> None:
    say_line(f"  put aside {aside.id}, by {aside.author}, {aside.at:%Y-%m-%d %H:%M} UTC:")
    for change in aside.changes:
        say_line(f"    {change_line(change)}")
    for clash in aside.clashes:
        stands = "nothing" if clash.stands is None else clash.stands
        say_line(f"    {clash.field}: {clash.author} has changed it, {clash.at:%Y-%m-%d %H:%M} UTC; now {stands}")
    for fault in aside.faults:
        say_line(f"    {fault}")


def change_line(change: Change) -> str:
    """A change on one line."""
    value = "taken out" if change.value is None else change.value
    return f"{change.field}: {value}" + ("" if change.before is None else f" (was {change.before})")


def take(job: str, file: Path | None, revision: int | None) -> None:
    """The job file out."""
    if file is not None and file.exists():
        leave(f"{file.name}: wanted a new name; given a file that exists.")
    with opened() as (cupboard, _):
        found = cupboard.job(cupboard.name(job), revision)
    if file is None:
        sys.stdout.buffer.write(found.data)
        return
    try:
        file.write_bytes(found.data)
    except OSError as error:
        leave(f"{file.name}: could not be written: {error.strerror or error}.")
    say_line(f"{file.name} written. After editing: hubwright store put {found.id} {file.name} --base {found.revision}")


def put(job: str, file: Path, base: int, note: str, by: str | None) -> None:
    """An edited job file back."""
    data = bytes_of(file)
    with opened() as (cupboard, settings):
        receipt = cupboard.take(cupboard.name(job), data, by or settings.author, base=base, note=note)
    _say_receipt(receipt)


def enter(job: str, field: str, value: str, base: int | None, note: str, by: str | None) -> None:
    """One reading."""
    with opened() as (cupboard, settings):
        name = cupboard.name(job)
        base = cupboard.job(name).revision if base is None else base
        receipt = cupboard.enter(name, [(field, value)], by or settings.author, base=base, note=note)
    _say_receipt(receipt)


def _say_receipt(receipt: Receipt) -> None:
    if not receipt.changes and receipt.aside is None:
        say_line(f"{receipt.job_id}: it stands there already (revision {receipt.revision}).")
    for change in receipt.changes:
        say_line(f"{receipt.job_id}, revision {receipt.revision}: {change_line(change)}")
    if receipt.aside is not None:
        _say_aside(receipt.aside)
        say_line(f"Nothing is lost. Decide: hubwright store settle {receipt.aside.id} --take (or --drop)")
        raise typer.Exit(QUESTIONS)


def history(job: str) -> None:
    """Who, when, what."""
    with opened() as (cupboard, _):
        found = cupboard.history(cupboard.name(job))
    for revision in found:
        say_revision(revision)


def say_revision(revision: Revision) -> None:
    """One step of a history."""
    kind = f"undo of {revision.undoes}" if revision.undoes else revision.kind
    note = f": {revision.note}" if revision.note else ""
    say_line(f"{revision.number}  {revision.at:%Y-%m-%d %H:%M:%S} UTC  {revision.author}  {kind}{note}")
    for change in revision.changes:
        say_line(f"     {change_line(change)}")


def undo(job: str, revision: int | None, note: str, by: str | None) -> None:
    """One revision back."""
    with opened() as (cupboard, settings):
        receipt = cupboard.undo(cupboard.name(job), by or settings.author, revision=revision, note=note)
    _say_receipt(receipt)


def settle(entry: str, take_it: bool, base: int | None, note: str, by: str | None) -> None:
    """An entry put aside."""
    with opened() as (cupboard, settings):
        found = next((aside for aside in cupboard.asides() if aside.id == entry), None)
        if found is None:
            leave(f"{entry}: wanted an entry put aside that is open; see hubwright store find --open.")
        base = cupboard.job(found.job_id).revision if base is None else base
        receipt = cupboard.settle(entry, by or settings.author, take=take_it, base=base, note=note)
    _say_receipt(receipt) if take_it else say_line(f"{entry} dropped; it stays in the records.")


def attach(job: str, file: Path, note: str, by: str | None) -> None:
    """A file to a job."""
    try:
        with opened() as (cupboard, settings), file.open("rb") as source:
            item = cupboard.attach(cupboard.name(job), source, file.name, by or settings.author, note=note)
    except OSError as error:
        leave(f"{file.name}: wanted a file that can be read; {error.strerror or error}.")
    say_line(f"{item.id}  {item.name} ({item.kind}, {item.size_bytes} bytes, SHA-256 {item.sha256})")


def fetch(attachment: str, file: Path) -> None:
    """An attachment into a file."""
    if file.exists():
        leave(f"{file.name}: wanted a new name; given a file that exists.")
    with opened() as (cupboard, _):
        item, data = cupboard.fetch(attachment)
    try:
        file.write_bytes(data)
    except OSError as error:
        leave(f"{file.name}: could not be written: {error.strerror or error}.")
    say_line(f"{file.name} written ({item.kind}).")


def export(file: Path, jobs: list[str], by: str | None) -> None:
    """Jobs out."""
    with opened() as (cupboard, settings):
        names = [cupboard.name(job) for job in jobs] or None
        count = cupboard.export(file, by or settings.author, names)
    say_line(f"{file.name}: {count} jobs with history and attachments.")


def bring(file: Path, by: str | None) -> None:
    """Jobs in."""
    with opened() as (cupboard, settings):
        done = cupboard.bring(file, by or settings.author)
    say_line(f"{len(done.new)} new, {len(done.longer)} continued, {len(done.same)} here already.")
    if done.settled:
        say_line(say("The settings of the shop were taken in."))
    for there, here in done.copies.items():
        say_line(f"{there} had gone another way there: kept beside it as {here}.")


def backup(file: Path) -> None:
    """Everything into one file."""
    with opened() as (cupboard, _):
        note = cupboard.backup(file)
    say_line(
        f"{file.name}: {note.rows.get('job', 0)} jobs, {note.rows.get('revision', 0)} revisions, {note.files} files, read back."
    )
    for missing in note.missing:
        say_line(f"  not whole: {missing}")
    raise typer.Exit(QUESTIONS if note.missing else OK)


def restore(file: Path, *, force: bool) -> None:
    """Everything back."""
    with opened() as (cupboard, _):
        found = cupboard.restore(file, force=force)
    _say_audit(found)


def check(*, mend: bool) -> None:
    """A look through everything."""
    with opened() as (cupboard, _):
        if mend:
            say_line(f"{cupboard.mend_list()} lines of the list put right.")
        found = cupboard.check()
    _say_audit(found)


def _say_audit(found: Audit) -> None:
    say_line(f"{found.jobs} jobs, {found.revisions} revisions, {found.attachments} attachments looked at.")
    for problem in found.problems:
        say_line(f"  wrong: {problem}")
    if found.orphans:
        say_line(f"  {found.orphans} files no job speaks of (hubwright store sweep)")
    raise typer.Exit(QUESTIONS if found.problems else OK)


def sweep() -> None:
    """Orphans away."""
    with opened() as (cupboard, _):
        gone = cupboard.sweep()
    say_line(f"{len(gone)} files removed.")
