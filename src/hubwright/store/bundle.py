"""Jobs on their way from one cupboard to another: the file, the whole history, what was put aside, the attachments."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import chain
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, Table, insert, select, update

from hubwright.errors import BadInput, StoreRefusal
from hubwright.language import say
from hubwright.store import archive, blobs, dialects
from hubwright.store.archive import Archive, Member, spoilt
from hubwright.store.bundle_rows import AsideRow, AttachmentRow, JobPaper, RevisionRow, paper_of
from hubwright.store.chain import packed, sha256, unpacked
from hubwright.store.entries import Draft, Stamp, content_of, id_from, no_such_job
from hubwright.store.entries import enter as enter_job
from hubwright.store.lookup import columns_of
from hubwright.store.merge import settle
from hubwright.store.rows import changes_of, time_text
from hubwright.store.shop_book import ShopBook
from hubwright.store.shop_rows import settings_at
from hubwright.store.tables import aside, attachment, job, revision
from hubwright.store.things import Brought, Change

KINDS = ("job", "shop")
SETTINGS = "shop.toml"


def write_bundle(engine: Engine, files: Path, target: Path, job_ids: Sequence[str] | None, stamp: Stamp) -> int:
    """Write jobs (all when None) into an archive, as they stand at one moment; how many.

    Raises:
        StoreRefusal: when a job or one of its files is missing, or the archive cannot be written.
    """

    def work(connection: Connection) -> int:
        wanted = list(job_ids) if job_ids is not None else list(connection.execute(select(job.c.id)).scalars())
        facts = {"made_at": time_text(stamp.at), "made_by": stamp.author, "jobs": len(wanted)}
        kind = "shop" if job_ids is None else "job"
        members = _members(connection, files, wanted)
        archive.write(target, kind, facts, chain(_settings(connection), members) if kind == "shop" else members)
        return len(wanted)

    return dialects.read(engine, work)


def _settings(connection: Connection) -> Iterator[Member]:
    """The shop's settings, where there are any; without their history, which is the house's own."""
    stored = settings_at(connection, None)
    if stored.revision:
        yield SETTINGS, stored.data


def _members(connection: Connection, files: Path, job_ids: Sequence[str]) -> Iterator[Member]:
    for job_id in job_ids:
        paper = _paper(connection, job_id)
        yield f"jobs/{job_id}.toml", paper["revisions"][-1]["data"].encode()
        yield f"jobs/{job_id}.json", json.dumps(paper, ensure_ascii=False, indent=1).encode()
        for item in paper["attachments"]:
            if (problem := blobs.problem_with(files, item["sha256"])) is not None:
                raise StoreRefusal(
                    say("The file {name} of job {job_id}", name=item["name"], job_id=job_id),
                    problem,
                    say("Bring it back from a backup."),
                )
            yield f"files/{item['sha256']}", blobs.path_of(files, item["sha256"])


def _paper(connection: Connection, job_id: str) -> dict[str, Any]:
    def rows(table: Table, *order: Any) -> list[dict[str, Any]]:
        found = connection.execute(select(table).where(table.c.job_id == job_id).order_by(*order)).mappings()
        return [{name: value for name, value in row.items() if name != "job_id"} for row in found]

    revisions = rows(revision, revision.c.number)
    if not revisions:
        raise no_such_job(job_id)
    for row in revisions:
        row["data"] = unpacked(row["data"]).decode()
    asides = rows(aside, aside.c.at, aside.c.id)
    for row in (*revisions, *asides):
        row["given"] = None if row["given"] is None else unpacked(row["given"]).decode()
    return {
        "id": job_id,
        "revisions": revisions,
        "asides": asides,
        "attachments": rows(attachment, attachment.c.at, attachment.c.id),
    }


def read_bundle(engine: Engine, files: Path, source: Path, stamp: Stamp) -> Brought:
    """Take the jobs of an archive in. Nothing here is overwritten; taken in twice, everything is there once.

    A job that is not here yet comes with its history. Where one history continues the other, the longer one stands. Where they
    went different ways, the job from the archive becomes a copy of its own, with a note.

    Raises:
        StoreRefusal: when the archive is spoilt; jobs before the spoilt one may be in, which repeating does not harm.
    """
    outcome: dict[str, list[str]] = {"new": [], "longer": [], "same": []}
    copies: dict[str, str] = {}
    with archive.opened(source, KINDS) as box:
        box.prove()
        papers = [name for name in box.names("jobs") if name.endswith(".json")]
        for name in papers:
            paper_of(box.content(name), name, box.name)
        for name in papers:
            paper = paper_of(box.content(name), name, box.name)
            paper = replace(paper, attachments=tuple(_take_file(box, files, item) for item in paper.attachments))
            how, job_id = dialects.write(engine, lambda connection, p=paper: _take(connection, p))  # type: ignore[misc]  # mypy cannot infer a lambda with defaults
            if how == "copy":
                copies[paper.id] = job_id
                _note_copy(engine, paper, job_id, box.name, stamp)
            else:
                outcome[how].append(job_id)
        settled = _take_settings(engine, box, stamp)
    return Brought(tuple(outcome["new"]), tuple(outcome["longer"]), tuple(outcome["same"]), copies, settled)


def _take_settings(engine: Engine, box: Archive, stamp: Stamp) -> bool:
    """Take the shop's settings in where nobody has settled anything yet; whether that was so."""
    book = ShopBook(engine, lambda: stamp.at, lambda: stamp.key)
    if SETTINGS not in box.sizes or book.now().revision:
        return False
    try:
        book.put(box.content(SETTINGS), stamp.author, base=0, note=box.name)
    except BadInput as error:
        raise spoilt(box.name, say("the settings of the shop have faults ({fault})", fault=error.faults[0])) from None
    return True


def _take_file(box: Archive, files: Path, item: AttachmentRow) -> AttachmentRow:
    """Put the file of an attachment in place; its kind is what its bytes say here."""
    name = f"files/{item.sha256}"
    if box.hashes.get(name) != item.sha256 or box.sizes[name] != item.size_bytes:
        raise spoilt(box.name, say("the file {item} is missing or of another size", item=item.name[:60]))
    if blobs.problem_with(files, item.sha256) is not None:
        blobs.keep(files, box.stream(name))
    return replace(item, kind=blobs.kind_of(next(box.stream(name), b"")[: blobs.HEAD_BYTES]))


def _take(connection: Connection, paper: JobPaper) -> tuple[str, str]:
    here = dialects.head_for_update(connection, paper.id)
    if here is None:
        _insert(connection, paper.id, paper)
        return "new", paper.id
    known = connection.execute(select(revision.c.number, revision.c.chain).where(revision.c.job_id == paper.id))
    chains = {row.number: row.chain for row in known}
    shared = min(here, len(paper.revisions))
    if chains[shared] != paper.revisions[shared - 1].chain:
        return _copy(connection, paper)
    if len(paper.revisions) > here:
        _append(connection, paper.id, paper, after=here)
    _take_rest(connection, paper.id, paper)
    return ("longer" if len(paper.revisions) > here else "same"), paper.id


def _copy(connection: Connection, paper: JobPaper) -> tuple[str, str]:
    copy_id = id_from(f"copy {paper.revisions[-1].chain}")
    if dialects.head_for_update(connection, copy_id) is None:
        _insert(connection, copy_id, paper)
        return "copy", copy_id
    return "same", copy_id


def _note_copy(engine: Engine, paper: JobPaper, copy_id: str, name: str, stamp: Stamp) -> None:
    note = say("Copy: job {id} came in with {name} and had gone another way there.", id=paper.id, name=name)
    head = len(paper.revisions)
    card = json.loads(paper.revisions[-1].card)
    asked = (Change("@note", f"{card.get('@note', '')}\n{note}".strip()),)
    key = Stamp(stamp.author, stamp.at, sha256(f"note {copy_id}".encode()), note)
    enter_job(engine, copy_id, head, key, lambda seen: Draft(settle(seen.content, seen.since, asked), "entry"))


def _insert(connection: Connection, job_id: str, paper: JobPaper) -> None:
    connection.execute(insert(job).values(id=job_id, **_job_columns(paper)))
    _insert_revisions(connection, job_id, paper.revisions)
    _take_rest(connection, job_id, paper)


def _append(connection: Connection, job_id: str, paper: JobPaper, after: int) -> None:
    _insert_revisions(connection, job_id, paper.revisions[after:])
    connection.execute(update(job).where(job.c.id == job_id).values(**_job_columns(paper)))


def _insert_revisions(connection: Connection, job_id: str, rows: Sequence[RevisionRow]) -> None:
    for row in rows:
        given = None if row.given is None else packed(row.given.encode())
        values = {**vars(row), "job_id": job_id, "data": packed(row.data.encode()), "given": given}
        connection.execute(insert(revision).values(**values))


def _job_columns(paper: JobPaper) -> dict[str, Any]:
    newest = paper.revisions[-1]
    staged = [row for row in paper.revisions if any(change.field == "@stage" for change in changes_of(row.changes))]
    return {
        "head": newest.number,
        "stage_sha256": (staged or paper.revisions)[-1 if staged else 0].data_sha256,
        "changed_at": newest.at,
        "changed_by": newest.author,
        **columns_of(content_of({"data": packed(newest.data.encode()), "card": newest.card})),
    }


def _take_rest(connection: Connection, job_id: str, paper: JobPaper) -> None:
    """Entries put aside and attachments that are not here yet; what was settled or removed there is so here as well."""
    for row in paper.asides:
        given = None if row.given is None else packed(row.given.encode())
        _take_one(connection, aside, job_id, paper, {**vars(row), "given": given}, row, "settled")
    for item in paper.attachments:
        _take_one(connection, attachment, job_id, paper, dict(vars(item)), item, "removed_at")


def _take_one(
    connection: Connection,
    table: Table,
    job_id: str,
    paper: JobPaper,
    values: dict[str, Any],
    row: AsideRow | AttachmentRow,
    ended: str,
) -> None:
    name = row.id if job_id == paper.id else id_from(f"{job_id} {row.id}")
    here = connection.execute(select(table).where(table.c.id == name)).mappings().first()
    if here is None:
        connection.execute(insert(table).values(**{**values, "id": name, "job_id": job_id}))
    elif here["job_id"] != job_id:
        raise StoreRefusal(
            say("Job {id}", id=paper.id),
            say("its entry {name} belongs to another job here", name=name),
            say("Look into both cupboards."),
        )
    elif here[ended] is None and values[ended] is not None:
        ends = [column for column in values if column.startswith(("settled", "removed"))]
        connection.execute(
            update(table).where(table.c.id == name).values(**{column: values[column] for column in ends})
        )
