"""The one way anything gets into a job: look, work it out, lock, look again, write."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Engine, insert, select, update

from hubwright.errors import StoreRefusal
from hubwright.language import say
from hubwright.store import dialects, tables
from hubwright.store.chain import link, packed, sha256, unpacked
from hubwright.store.lookup import columns_of
from hubwright.store.merge import Content, Outcome, Past
from hubwright.store.rows import (
    aside_of,
    card_text,
    changes_of,
    changes_text,
    clashes_text,
    faults_text,
    time_of,
    time_text,
)
from hubwright.store.things import Aside, Receipt

UNLOCKED_TRIES = 4
"""So often the work is done before the lock is taken; after that, with the lock held, so that it must come through."""
ALPHABET = "0123456789abcdefghjkmnpqrstvwxyz"
ID_LETTERS = 12


@dataclass(frozen=True)
class Stamp:
    """Who, when, and the key by which a repeated sending is known."""

    author: str
    at: datetime
    key: str
    note: str = ""


@dataclass(frozen=True)
class Snapshot:
    """A job as an entry finds it."""

    job_id: str
    head: int
    content: Content
    chain: str
    stage_sha256: str
    since: tuple[Past, ...]


@dataclass(frozen=True)
class Draft:
    """What is to be written.

    Attributes:
        outcome: New content and changes, and what was left.
        kind: Of the revision.
        undoes: The revision taken back.
        given: The whole file handed in, kept where it could not go in as it was.
        settles: The aside that ends with this.
        settled: How it ends.
    """

    outcome: Outcome
    kind: str
    undoes: int | None = None
    given: bytes | None = None
    settles: str | None = None
    settled: str = "taken"


Compute = Callable[[Snapshot], Draft]


def id_from(key: str) -> str:
    """A short name for a thing: 60 bits of the hash of a key, in letters that cannot be mistaken."""
    number = int.from_bytes(hashlib.sha256(key.encode()).digest()[:8]) >> 4
    return "".join(ALPHABET[number >> 5 * place & 31] for place in reversed(range(ID_LETTERS)))


def add(engine: Engine, content: Content, stamp: Stamp) -> Receipt:
    """A new job. Sent twice with the same key, it is there once."""
    job_id = id_from(f"job {stamp.key}")

    def work(connection: Connection) -> Receipt:
        if (done := _done(connection, job_id, stamp.key)) is not None:
            return done
        columns = columns_of(content)
        connection.execute(
            insert(tables.job).values(
                id=job_id,
                head=1,
                stage_sha256=columns["data_sha256"],
                changed_at=time_text(stamp.at),
                changed_by=stamp.author,
                **columns,
            )
        )
        _insert_revision(connection, job_id, 1, 0, "", content, stamp, "new", "[]", None, None)
        return Receipt(job_id, 1)

    return dialects.write(engine, work)


def enter(engine: Engine, job_id: str, base: int, stamp: Stamp, compute: Compute) -> Receipt:
    """Write what `compute` makes of the job as it stands.

    It is worked out before the lock is taken, since that takes longest; when somebody else was quicker, it is worked out
    again.

    Raises:
        StoreRefusal: when there is no such job or revision, or nothing could be stored.
    """
    for _ in range(UNLOCKED_TRIES):
        seen = dialects.read(engine, lambda connection: _look(connection, job_id, base, stamp.key))
        if isinstance(seen, Receipt):
            return seen
        draft = compute(seen)
        if not _is_needed(seen, draft):
            return Receipt(job_id, seen.head, merged=seen.head != base)
        if receipt := dialects.write(engine, lambda connection, s=seen, d=draft: _try(connection, s, d, base, stamp)):  # type: ignore[misc]  # mypy cannot infer a lambda with defaults
            return receipt

    def patiently(connection: Connection) -> Receipt:
        dialects.head_for_update(connection, job_id)
        seen = _look(connection, job_id, base, stamp.key)
        if isinstance(seen, Receipt):
            return seen
        draft = compute(seen)
        if not _is_needed(seen, draft):
            return Receipt(job_id, seen.head, merged=seen.head != base)
        return _write(connection, seen, draft, base, stamp)

    return dialects.write(engine, patiently)


def _is_needed(seen: Snapshot, draft: Draft) -> bool:
    return draft.outcome.content != seen.content or draft.outcome.is_open or draft.settles is not None


def _try(connection: Connection, seen: Snapshot, draft: Draft, base: int, stamp: Stamp) -> Receipt | None:
    """Write unless somebody else was quicker."""
    head = dialects.head_for_update(connection, seen.job_id)
    if (done := _done(connection, seen.job_id, stamp.key)) is not None:
        return done
    return _write(connection, seen, draft, base, stamp) if head == seen.head else None


def _look(connection: Connection, job_id: str, base: int, key: str) -> Snapshot | Receipt:
    if (done := _done(connection, job_id, key)) is not None:
        return done
    row = connection.execute(select(tables.job).where(tables.job.c.id == job_id)).mappings().first()
    if row is None:
        raise no_such_job(job_id)
    if not 1 <= base <= row["head"]:
        raise StoreRefusal(
            say("Revision {base}", base=base),
            say("job {job_id} has 1 to {head}", job_id=job_id, head=row["head"]),
            say("Look at the job again."),
        )
    head = revision_row(connection, job_id, row["head"])
    past = tables.revision.c
    later = connection.execute(
        select(past.number, past.author, past.at, past.changes)
        .where(past.job_id == job_id, past.number > base, past.number <= row["head"])
        .order_by(past.number)
    )
    since = tuple(
        Past(change, number, author, time_of(at)) for number, author, at, text in later for change in changes_of(text)
    )
    return Snapshot(job_id, row["head"], content_of(head), head["chain"], row["stage_sha256"], since)


def _done(connection: Connection, job_id: str, key: str) -> Receipt | None:
    """The receipt of an entry that was stored already under this key."""
    aside, revision = (
        connection.execute(select(table).where(table.c.job_id == job_id, table.c.entry_key == key)).mappings().first()
        for table in (tables.aside, tables.revision)
    )
    if aside is None and revision is None:
        return None
    head = connection.execute(select(tables.job.c.head).where(tables.job.c.id == job_id)).scalar_one()
    left = None if aside is None else aside_of(aside)
    if revision is None:
        return Receipt(job_id, head, (), left, merged=True)
    changes, merged = changes_of(revision["changes"]), revision["number"] != revision["base"] + 1
    return Receipt(job_id, revision["number"], changes, left, merged)


def _write(connection: Connection, seen: Snapshot, draft: Draft, base: int, stamp: Stamp) -> Receipt:
    outcome, number = draft.outcome, seen.head
    if outcome.content != seen.content:
        number += 1
        changes = changes_text(outcome.changes)
        _insert_revision(
            connection, seen.job_id, number, base, seen.chain, outcome.content, stamp, draft.kind, changes, draft.undoes,
            draft.given,
        )  # fmt: skip
        columns = columns_of(outcome.content)
        staged = any(change.field == "@stage" for change in outcome.changes)
        connection.execute(
            update(tables.job)
            .where(tables.job.c.id == seen.job_id)
            .values(
                head=number,
                stage_sha256=columns["data_sha256"] if staged else seen.stage_sha256,
                changed_at=time_text(stamp.at),
                changed_by=stamp.author,
                **columns,
            )
        )
    aside = _put_aside(connection, seen, draft, base, stamp) if outcome.is_open else None
    if draft.settles is not None:
        close_aside(connection, draft.settles, draft.settled, stamp)
    return Receipt(seen.job_id, number, outcome.changes, aside, merged=seen.head != base)


def _put_aside(connection: Connection, seen: Snapshot, draft: Draft, base: int, stamp: Stamp) -> Aside:
    outcome = draft.outcome
    name = id_from(f"aside {seen.job_id} {stamp.key}")
    row = {
        "id": name,
        "job_id": seen.job_id,
        "base": base,
        "author": stamp.author,
        "at": time_text(stamp.at),
        "note": stamp.note,
        "changes": changes_text(outcome.left),
        "clashes": clashes_text(outcome.clashes),
        "faults": faults_text(outcome.faults),
        "given": None if draft.given is None else packed(draft.given),
        "entry_key": stamp.key,
        "settled": None,
        "settled_by": None,
        "settled_at": None,
    }
    connection.execute(insert(tables.aside).values(**row))
    return aside_of(row)


def close_aside(connection: Connection, aside_id: str, how: str, stamp: Stamp) -> None:
    """Write down how an entry put aside ended.

    Raises:
        StoreRefusal: when somebody has settled it meanwhile.
    """
    done = connection.execute(
        update(tables.aside)
        .where(tables.aside.c.id == aside_id, tables.aside.c.settled.is_(None))
        .values(settled=how, settled_by=stamp.author, settled_at=time_text(stamp.at))
    )
    if done.rowcount != 1:
        raise StoreRefusal(
            say("Entry {aside_id}", aside_id=aside_id),
            say("somebody has settled it meanwhile"),
            say("Look at the job again."),
        )


def _insert_revision(
    connection: Connection,
    job_id: str,
    number: int,
    base: int,
    before: str,
    content: Content,
    stamp: Stamp,
    kind: str,
    changes: str,
    undoes: int | None,
    given: bytes | None,
) -> None:
    row: dict[str, Any] = {
        "job_id": job_id,
        "number": number,
        "base": base,
        "author": stamp.author,
        "at": time_text(stamp.at),
        "kind": kind,
        "note": stamp.note,
        "changes": changes,
        "undoes": undoes,
        "card": card_text(content.card),
        "data_sha256": sha256(content.data),
        "entry_key": stamp.key,
        "data": packed(content.data),
        "given": None if given is None else packed(given),
    }
    connection.execute(insert(tables.revision).values(**row, chain=link(before, row)))


def revision_row(connection: Connection, job_id: str, number: int) -> Any:
    """One revision of a job.

    Raises:
        StoreRefusal: when there is none.
    """
    past = tables.revision
    row = connection.execute(select(past).where(past.c.job_id == job_id, past.c.number == number)).mappings().first()
    if row is None:
        raise StoreRefusal(
            say("Revision {number} of job {job_id}", number=number, job_id=job_id),
            say("there is none"),
            say("See its history."),
            missing=True,
        )
    return row


def content_of(row: Any) -> Content:
    """The content of a revision."""
    return Content(unpacked(row["data"]), json.loads(row["card"]))


def no_such_job(job_id: str) -> StoreRefusal:
    """Nothing under this name."""
    return StoreRefusal(
        say("Job {job_id}", job_id=job_id[:40]),
        say("there is none of that name"),
        say("Find it: hubwright store find."),
        missing=True,
    )
