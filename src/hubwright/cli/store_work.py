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
from hubwright.cli.files import refuse_existing, write_out
from hubwright.errors import BadInput, HubwrightError
from hubwright.language import say
from hubwright.language.part_words import revision_word
from hubwright.language.words import stage_word
from hubwright.quantities.text import day, moment
from hubwright.settings import Settings, read_settings
from hubwright.store.cupboard import Cupboard
from hubwright.store.things import Aside, Attachment, Audit, Change, JobLine, Query, Receipt, Revision, Stage


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
        leave(say("{file}: wanted a file that can be read; {error}.", file=file.name, error=error.strerror or error))


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
        leave(
            say(
                "{option}: wanted one of {known}; given {given}.", option="--stage", known=", ".join(Stage), given=stage
            )
        )
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
        leave(say("{option}: wanted a day such as 2026-05-04; given {given}.", option=option, given=text))


def _line(line: JobLine) -> str:
    stage = stage_word(line.stage)
    if line.outdated:
        stage = say("{stage}, changed since", stage=stage)
    parts = [line.id, day(line.day) if line.day else say("no day"), line.title, line.plate, line.customer, stage]
    parts += [say("re-torque due {day}", day=day(line.due))] if line.due else []
    parts += [say("{count} put aside", count=line.asides)] if line.asides else []
    return "  ".join(part for part in parts if part)


def show(job: str) -> None:
    """One job."""
    with opened() as (cupboard, _):
        name = cupboard.name(job)
        found = cupboard.job(name)
        asides, attachments = cupboard.asides(name), cupboard.attachments(name)
    say_line(say("{job}, revision {revision}", job=name, revision=found.revision))
    for field, value in found.card.items():
        say_line(f"  {field.removeprefix('@')}: {value}")
    for fault in found.faults:
        say_line(f"  {say('fault: {fault}', fault=fault)}")
    for aside in asides:
        _say_aside(aside)
    for item in attachments:
        say_line(f"  {say('attached {id}: {name} ({kind}, {size} bytes) by {author} {note}', **_facts(item))}".rstrip())


def _facts(item: Attachment) -> dict[str, object]:
    return {
        "id": item.id, "name": item.name, "kind": item.kind, "size": item.size_bytes, "author": item.author,
        "note": item.note,
    }  # fmt: skip


def _say_aside(aside: Aside) -> None:
    say_line(
        f"  {say('put aside {id}, by {author}, {at} UTC:', id=aside.id, author=aside.author, at=moment(aside.at))}"
    )
    for change in aside.changes:
        say_line(f"    {change_line(change)}")
    for clash in aside.clashes:
        stands = say("nothing") if clash.stands is None else clash.stands
        text = say(
            "{field}: {author} has changed it, {at} UTC; now {stands}",
            field=clash.field,
            author=clash.author,
            at=moment(clash.at),
            stands=stands,
        )
        say_line(f"    {text}")
    for fault in aside.faults:
        say_line(f"    {fault}")


def change_line(change: Change) -> str:
    """A change on one line."""
    value = say("taken out") if change.value is None else change.value
    if change.before is None:
        return f"{change.field}: {value}"
    return say("{field}: {value} (was {before})", field=change.field, value=value, before=change.before)


def take(job: str, file: Path | None, revision: int | None) -> None:
    """The job file out."""
    if file is not None:
        refuse_existing(file)
    with opened() as (cupboard, _):
        found = cupboard.job(cupboard.name(job), revision)
    if file is None:
        sys.stdout.buffer.write(found.data)
        return
    write_out(file, found.data)
    say_line(
        say(
            "{file} written. After editing: hubwright store put {id} {file} --base {revision}",
            file=file.name,
            id=found.id,
            revision=found.revision,
        )
    )


def put(job: str, file: Path, base: int, note: str, by: str | None) -> None:
    """An edited job file back."""
    data = bytes_of(file)
    with opened() as (cupboard, settings):
        receipt = cupboard.take(cupboard.name(job), data, by or settings.author, base=base, note=note)
    say_receipt(receipt)


def enter(job: str, field: str, value: str, base: int | None, note: str, by: str | None) -> None:
    """One reading."""
    with opened() as (cupboard, settings):
        name = cupboard.name(job)
        base = cupboard.job(name).revision if base is None else base
        receipt = cupboard.enter(name, [(field, value)], by or settings.author, base=base, note=note)
    say_receipt(receipt)


def say_receipt(receipt: Receipt) -> None:
    """What went in, and what is put aside and waits for a decision."""
    if not receipt.changes and receipt.aside is None:
        say_line(
            say(
                "{job_id}: it stands there already (revision {revision}).",
                job_id=receipt.job_id,
                revision=receipt.revision,
            )
        )
    for change in receipt.changes:
        head = say("{job}, revision {revision}", job=receipt.job_id, revision=receipt.revision)
        say_line(f"{head}: {change_line(change)}")
    if receipt.aside is not None:
        _say_aside(receipt.aside)
        say_line(say("Nothing is lost. Decide: hubwright store settle {id} --take (or --drop)", id=receipt.aside.id))
        raise typer.Exit(QUESTIONS)


def history(job: str) -> None:
    """Who, when, what."""
    with opened() as (cupboard, _):
        found = cupboard.history(cupboard.name(job))
    for revision in found:
        say_revision(revision)


def say_revision(revision: Revision) -> None:
    """One step of a history."""
    kind = say("undo of {number}", number=revision.undoes) if revision.undoes else revision_word(revision.kind)
    note = f": {revision.note}" if revision.note else ""
    say_line(f"{revision.number}  {day(revision.at)} {revision.at:%H:%M:%S} UTC  {revision.author}  {kind}{note}")
    for change in revision.changes:
        say_line(f"     {change_line(change)}")


def undo(job: str, revision: int | None, note: str, by: str | None) -> None:
    """One revision back."""
    with opened() as (cupboard, settings):
        receipt = cupboard.undo(cupboard.name(job), by or settings.author, revision=revision, note=note)
    say_receipt(receipt)


def settle(entry: str, take_it: bool, base: int | None, note: str, by: str | None) -> None:
    """An entry put aside."""
    with opened() as (cupboard, settings):
        found = next((aside for aside in cupboard.asides() if aside.id == entry), None)
        if found is None:
            leave(say("{entry}: wanted an entry put aside that is open; see hubwright store find --open.", entry=entry))
        base = cupboard.job(found.job_id).revision if base is None else base
        receipt = cupboard.settle(entry, by or settings.author, take=take_it, base=base, note=note)
    say_receipt(receipt) if take_it else say_line(say("{entry} dropped; it stays in the records.", entry=entry))


def attach(job: str, file: Path, note: str, by: str | None) -> None:
    """A file to a job."""
    try:
        with opened() as (cupboard, settings), file.open("rb") as source:
            item = cupboard.attach(cupboard.name(job), source, file.name, by or settings.author, note=note)
    except OSError as error:
        leave(say("{file}: wanted a file that can be read; {error}.", file=file.name, error=error.strerror or error))
    say_line(say("{id}  {name} ({kind}, {size} bytes, SHA-256 {sha256})", sha256=item.sha256, **_facts(item)))


def fetch(attachment: str, file: Path) -> None:
    """An attachment into a file."""
    refuse_existing(file)
    with opened() as (cupboard, _):
        item, data = cupboard.fetch(attachment)
    write_out(file, data)
    say_line(say("{file} written ({kind}).", file=file.name, kind=item.kind))


def detach(job: str, attachment: str, by: str | None) -> None:
    """An attachment out of the job; its bytes stay for the history."""
    with opened() as (cupboard, settings):
        name = cupboard.name(job)
        if attachment not in {item.id for item in cupboard.attachments(name)}:
            leave(
                say("{id}: wanted an attachment of this job; see hubwright store show {job}.", id=attachment, job=name)
            )
        cupboard.detach(attachment, by or settings.author)
    say_line(say("{id} taken out of the job; it stays in the records.", id=attachment))


def export(file: Path, jobs: list[str], by: str | None) -> None:
    """Jobs out."""
    with opened() as (cupboard, settings):
        names = [cupboard.name(job) for job in jobs] or None
        count = cupboard.export(file, by or settings.author, names)
    say_line(say("{file}: {count} jobs with history and attachments.", file=file.name, count=count))


def bring(file: Path, by: str | None) -> None:
    """Jobs in."""
    with opened() as (cupboard, settings):
        done = cupboard.bring(file, by or settings.author)
    say_line(
        say(
            "{new} new, {longer} continued, {same} here already.",
            new=len(done.new),
            longer=len(done.longer),
            same=len(done.same),
        )
    )
    if done.settled:
        say_line(say("The settings of the shop were taken in."))
    for there, here in done.copies.items():
        say_line(say("{there} had gone another way there: kept beside it as {here}.", there=there, here=here))


def backup(file: Path) -> None:
    """Everything into one file."""
    with opened() as (cupboard, _):
        note = cupboard.backup(file)
    say_line(
        say(
            "{file}: {jobs} jobs, {revisions} revisions, {files} files, read back.",
            file=file.name,
            jobs=note.rows.get("job", 0),
            revisions=note.rows.get("revision", 0),
            files=note.files,
        )
    )
    for missing in note.missing:
        say_line(f"  {say('not whole: {file}', file=missing)}")
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
            say_line(say("{count} lines of the list put right.", count=cupboard.mend_list()))
        found = cupboard.check()
    _say_audit(found)


def _say_audit(found: Audit) -> None:
    say_line(
        say(
            "{jobs} jobs, {revisions} revisions, {attachments} attachments looked at.",
            jobs=found.jobs,
            revisions=found.revisions,
            attachments=found.attachments,
        )
    )
    for problem in found.problems:
        say_line(f"  {say('wrong: {problem}', problem=problem)}")
    if found.orphans:
        say_line(f"  {say('{count} files no job speaks of (hubwright store sweep)', count=found.orphans)}")
    raise typer.Exit(QUESTIONS if found.problems else OK)


def sweep() -> None:
    """Orphans away."""
    with opened() as (cupboard, _):
        gone = cupboard.sweep()
    say_line(say("{count} files removed.", count=len(gone)))
