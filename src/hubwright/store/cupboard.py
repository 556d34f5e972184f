"""The cupboard itself: opened once, used by many threads, closed at the end."""

from __future__ import annotations

import secrets
from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import UTC, datetime
from pathlib import Path
from types import TracebackType
from typing import BinaryIO, Self

from sqlalchemy import Connection, Engine

from hubwright.errors import StoreRefusal
from hubwright.language import say
from hubwright.store import audit, backup, blobs, bundle, dialects, entries, lookup, migrate, queries
from hubwright.store.asking import Asked, refuse_asked, refuse_faults, stamped
from hubwright.store.backup import BackupNote
from hubwright.store.card import fault_on_card, refuse_unproven, stage_of
from hubwright.store.entries import Draft, Snapshot, Stamp
from hubwright.store.links import Links
from hubwright.store.merge import Content, Outcome, settle, settle_file
from hubwright.store.people import People
from hubwright.store.rows import revision_of, time_text
from hubwright.store.sessions import Sessions
from hubwright.store.shop_book import ShopBook
from hubwright.store.things import (
    Aside,
    Attachment,
    Audit,
    Brought,
    Change,
    JobLine,
    Query,
    Receipt,
    Revision,
    StoredJob,
)
from hubwright.store.tomltext import faults_in, job_of, tree_of
from hubwright.store.undoing import taken_back

DATABASE_FILE = "hubwright.sqlite3"
FILES_FOLDER = "files"
BACKUPS_FOLDER = "backups"
SWEEP_AGE_S = 24 * 3600


def now() -> datetime:
    """The present moment in UTC."""
    return datetime.now(UTC)


class Cupboard:
    """Jobs, their history and their files. What a method confirms by returning, the disk has.

    Attributes:
        data: The folder of files and, without `database`, of the SQLite database.
        people: Accounts.
        sessions: Who is signed in.
        links: Customers' links to one job's measuring sheet.
        shop: The shop's settings with their history.
    """

    def __init__(self, engine: Engine, data: Path, clock: Callable[[], datetime], new_key: Callable[[], str]) -> None:
        self._engine, self.data, self._clock, self._new_key = engine, data, clock, new_key
        self.people = People(engine, clock, new_key)
        self.sessions = Sessions(engine, clock)
        self.links = Links(engine, clock, new_key)
        self.shop = ShopBook(engine, clock, new_key)

    @classmethod
    def open(
        cls,
        data: Path,
        database: str | None = None,
        *,
        clock: Callable[[], datetime] = now,
        new_key: Callable[[], str] = lambda: secrets.token_hex(16),
    ) -> Self:
        """Open a cupboard, made on first use, its tables brought up to date.

        Args:
            data: Folder for files, backups before changes of the tables, and the database unless named.
            database: URL of a PostgreSQL (or other SQLite) database.
            clock: Tells the moment, with its time zone.
            new_key: Makes keys no two of which are alike.

        Raises:
            StoreRefusal: when folder or database cannot be used, or a newer program made it.
        """
        try:
            data.mkdir(parents=True, exist_ok=True, mode=0o700)
        except OSError as error:
            todo = say("Choose another with HUBWRIGHT_DATA.")
            raise StoreRefusal(say("The data folder {data}", data=data), error.strerror or str(error), todo) from error
        engine = dialects.open_engine(database or f"sqlite:///{data / DATABASE_FILE}")
        cupboard = cls(engine, data, clock, new_key)
        try:
            migrate.bring_up_to_date(engine, cupboard._backup_before)
        except BaseException:
            engine.dispose()
            raise
        return cupboard

    def close(self) -> None:
        """Let go of the database."""
        self._engine.dispose()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def add(
        self,
        data: bytes | str,
        author: str,
        *,
        card: Mapping[str, str] | None = None,
        note: str = "",
        key: str | None = None,
        name: str = "job",
    ) -> Receipt:
        """Take a job file in as a new job.

        Args:
            data: The file; kept byte for byte.
            author: Who.
            card: Customer and the like: ``{"@customer": "..."}``.
            note: Why, for the history.
            key: Sent again with the same key, it is there once.
            name: How the file is called in messages.

        Raises:
            BadInput: when the file or the card has faults; the file is still where it came from.
            StoreRefusal: when nothing could be stored.
        """
        data = data.encode("utf-8", "surrogatepass") if isinstance(data, str) else data
        job_of(data, name)
        card = {field: value for field, value in (card or {}).items() if value}
        refuse_faults(fault_on_card(field, value) for field, value in card.items())
        stamp = self._stamp(author, note, key)
        content = Content(data, card)
        refuse_unproven(stage_of(card), data, stamp.at.date())
        return entries.add(self._engine, content, stamp)

    def enter(
        self,
        job_id: str,
        asked: Iterable[Asked],
        author: str,
        *,
        base: int,
        note: str = "",
        key: str | None = None,
    ) -> Receipt:
        """Enter readings, or fields of the card (``@customer``, ``@stage``, ``@due``, ``@complaint``, ``@note``).

        What somebody else changed since `base` to something else, and what would make the job faulty, is not lost: it is put
        aside whole (`Receipt.aside`) until somebody settles it; the rest goes in.

        Args:
            job_id: The job.
            asked: Fields and values.
            author: Who.
            base: The revision the author had before them.
            note: Why, for the history.
            key: Sent again with the same key, it is there once.

        Raises:
            BadInput: when a field is not written as one or a value of the card is wrong; nothing is stored.
            StoreRefusal: when nothing could be stored, or the stage asked for is not proven.
        """
        changes = tuple(Change(field, value) for field, value in asked)
        refuse_asked(changes)
        stamp = self._stamp(author, note, key)

        def compute(seen: Snapshot) -> Draft:
            return self._proven(Draft(settle(seen.content, seen.since, changes), "entry"), stamp)

        return entries.enter(self._engine, job_id, base, stamp, compute)

    def take(
        self,
        job_id: str,
        data: bytes | str,
        author: str,
        *,
        base: int,
        note: str = "",
        key: str | None = None,
        merge: bool = True,
    ) -> Receipt:
        """Take a whole edited file back that was made from revision `base`; if nobody else changed the job, byte for byte.

        Raises:
            BadInput: when it is not TOML; the file is still where it came from.
            StoreRefusal: when nothing could be stored; without `merge` also when somebody has changed the job since.
        """
        data = data.encode("utf-8", "surrogatepass") if isinstance(data, str) else data
        tree_of(data, say("the file"))
        stamp = self._stamp(author, note, key)

        def compute(seen: Snapshot) -> Draft:
            if seen.head != base and not merge:
                why = say("the job is at revision {head}", head=seen.head)
                todo = say("Look at the job again, or let the two be merged.")
                raise StoreRefusal(say("The file made from revision {base}", base=base), why, todo, stale=True)
            outcome = settle_file(self._content(job_id, base), seen.content, seen.since, data)
            return Draft(outcome, "file", given=None if outcome.content.data == data else data)

        return entries.enter(self._engine, job_id, base, stamp, compute)

    def undo(
        self, job_id: str, author: str, *, revision: int | None = None, note: str = "", key: str | None = None
    ) -> Receipt:
        """Take one revision back (the newest unless named) by a new one; nothing leaves the history.

        Raises:
            StoreRefusal: when it is the first, later revisions changed the same places, or the job would become faulty.
        """
        number = self.job(job_id).revision if revision is None else revision
        if number < 2:
            raise StoreRefusal(
                say("Revision {number}", number=number),
                say("the first cannot be taken back"),
                say("Close the job instead."),
            )
        stamp = self._stamp(author, note, key)
        before, after = self._content(job_id, number - 1), self._content(job_id, number)
        done = dialects.read(self._engine, lambda c: revision_of(entries.revision_row(c, job_id, number))).changes

        def compute(seen: Snapshot) -> Draft:
            outcome = taken_back(number, done, (before, after), seen.content, seen.since)
            return self._proven(Draft(outcome, "undo", undoes=number), stamp)

        return entries.enter(self._engine, job_id, number, stamp, compute)

    def settle(self, aside_id: str, author: str, *, take: bool, base: int, note: str = "") -> Receipt:
        """End an entry put aside: take it into the job as it stands now, or drop it. It stays in the history either way.

        Args:
            aside_id: The entry.
            author: Who decides.
            take: Whether it goes in.
            base: The revision the deciding person had before them.
            note: Why.

        Raises:
            StoreRefusal: when it is settled already, or still cannot go in; then it stays open.
        """
        stamp = self._stamp(author, note, None)
        found = self._aside(aside_id)

        def compute(seen: Snapshot) -> Draft:
            if not take:
                return Draft(Outcome(seen.content), "settled", settles=aside_id, settled="dropped")
            outcome = settle(seen.content, seen.since, found.changes)
            if outcome.is_open or (found.faults and not found.changes):
                reasons = [str(fault) for fault in outcome.faults or found.faults]
                reasons += [
                    say(
                        "{field} was changed by {author} to {stands}",
                        field=clash.field,
                        author=clash.author,
                        stands=clash.stands,
                    )
                    for clash in outcome.clashes
                ]
                raise StoreRefusal(
                    say("Entry {aside_id}", aside_id=aside_id),
                    "; ".join(reasons),
                    say("It stays open. Look at the job again."),
                )
            return self._proven(Draft(outcome, "settled", settles=aside_id), stamp)

        return entries.enter(self._engine, found.job_id, base, stamp, compute)

    def job(self, job_id: str, revision: int | None = None) -> StoredJob:
        """A job as it stands, or as it stood.

        Raises:
            StoreRefusal: when there is no such job or revision.
        """
        number, content = dialects.read(self._engine, lambda c: queries.content_at(c, job_id, revision))
        return StoredJob(job_id, number, content.data, content.card, faults_in(content.data))

    def name(self, beginning: str) -> str:
        """The whole name of a job of which the first letters are known.

        Raises:
            StoreRefusal: when none or more than one begins so.
        """
        return dialects.read(self._engine, lambda connection: queries.whole_name(connection, beginning))

    def history(self, job_id: str) -> tuple[Revision, ...]:
        """Every revision of a job, oldest first: who, when, what.

        Raises:
            StoreRefusal: when there is no such job.
        """
        return dialects.read(self._engine, lambda connection: queries.history(connection, job_id))

    def find(self, query: Query | None = None) -> tuple[JobLine, ...]:
        """Jobs for which everything in the query holds, the one changed last first."""
        return dialects.read(self._engine, lambda connection: lookup.found(connection, query or Query()))

    def asides(self, job_id: str | None = None, *, also_settled: bool = False) -> tuple[Aside, ...]:
        """Entries put aside, of one job or of all, oldest first."""
        return dialects.read(self._engine, lambda c: queries.asides(c, job_id, also_settled=also_settled))

    def attach(
        self, job_id: str, source: BinaryIO | bytes, name: str, author: str, *, note: str = "", key: str | None = None
    ) -> Attachment:
        """Keep a photograph, scan or paper with a job.

        Args:
            job_id: The job.
            source: An open file, or its bytes.
            name: Its name; folders and odd characters are taken off.
            author: Who.
            note: What it shows.
            key: Sent again with the same key, it is there once.

        Raises:
            StoreRefusal: when it is empty or too large, there is no such job, or it could not be stored.
        """
        stamp = self._stamp(author, note, key)
        self.job(job_id)
        pieces = [source] if isinstance(source, bytes) else blobs.pieces_of(source)
        blob = blobs.keep(self._files, pieces)
        return dialects.write(self._engine, lambda c: queries.attach(c, job_id, blob, blobs.clean_name(name), stamp))

    def attachments(self, job_id: str, *, also_removed: bool = False) -> tuple[Attachment, ...]:
        """What is attached to a job, oldest first."""
        return dialects.read(self._engine, lambda c: queries.attachments(c, job_id, also_removed=also_removed))

    def fetch(self, attachment_id: str) -> tuple[Attachment, bytes]:
        """An attachment and its bytes, their hash checked.

        Raises:
            StoreRefusal: when there is none, or its file is gone or changed.
        """
        item = dialects.read(self._engine, lambda connection: queries.attachment(connection, attachment_id))
        return item, blobs.fetch(self._files, item.sha256)

    def lay_out(self, attachment_id: str, target: Path) -> None:
        """Put an attachment where programs can read it by name; no second copy where the disk can do without.

        Raises:
            StoreRefusal: when there is none, its file is gone or changed, or the disk does not take it.
        """
        blobs.lay_out(self._files, self.fetch(attachment_id)[0].sha256, target)

    def detach(self, attachment_id: str, author: str) -> None:
        """Take an attachment off a job; its file stays, and `attachments` can still list it.

        Raises:
            StoreRefusal: when there is none.
        """
        stamp = self._stamp(author, "", None)
        dialects.write(self._engine, lambda connection: queries.detach(connection, attachment_id, stamp))

    def export(self, target: Path, author: str, job_ids: Sequence[str] | None = None) -> int:
        """Write jobs (all when None) with history and attachments into one zip file; how many.

        Raises:
            StoreRefusal: when a job or file is missing, the target exists or cannot be written.
        """
        return bundle.write_bundle(self._engine, self._files, target, job_ids, self._stamp(author, "", None))

    def bring(self, source: Path, author: str) -> Brought:
        """Take the jobs of such a zip file in; nothing here is overwritten (see `hubwright.store.bundle`).

        Raises:
            StoreRefusal: when the file is spoilt.
        """
        return bundle.read_bundle(self._engine, self._files, source, self._stamp(author, "", None))

    def backup(self, target: Path) -> BackupNote:
        """Write everything into one file while others work, and read it again.

        Raises:
            StoreRefusal: when it cannot be written.
        """
        return backup.write_backup(self._engine, self._files, target, time_text(self._clock()))

    def restore(self, source: Path, *, force: bool = False) -> Audit:
        """Make this cupboard what it was when a backup was taken, and look through it.

        Args:
            source: The backup, of this or an earlier version, from either database.
            force: Also when jobs, people or settings are here; they are backed up into the data folder first.

        Raises:
            StoreRefusal: when the backup is spoilt or something is here; nothing is changed.
        """
        before, made_at = self._backup_place("before-restore"), time_text(self._clock())
        backup.read_backup(self._engine, self._files, source, force=force, before=before, made_at=made_at)
        return self.check()

    def check(self) -> Audit:
        """Check the database, every history link by link, and every attachment's bytes."""
        return audit.audit(self._engine, self._files)

    def mend_list(self) -> int:
        """Work out lists and searches again from the jobs themselves; how many lines were wrong."""
        return audit.mend_list(self._engine)

    def sweep(self, older_than_s: float = SWEEP_AGE_S) -> tuple[str, ...]:
        """Remove files no job speaks of that have lain there for a day; their names."""
        known = dialects.read(self._engine, queries.all_hashes)
        return blobs.sweep(self._files, known, self._clock().timestamp() - older_than_s)

    @property
    def _files(self) -> Path:
        return self.data / FILES_FOLDER

    def _backup_place(self, why: str) -> Path:
        folder = self.data / BACKUPS_FOLDER
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        return folder / f"{why}-{self._clock().astimezone(UTC):%Y%m%dT%H%M%S%f}.zip"

    def _backup_before(self, connection: Connection, version: str) -> None:
        target = self._backup_place(f"before-tables-{migrate.NEWEST}")
        backup.write_tables(connection, version, target, time_text(self._clock()), None)

    def _content(self, job_id: str, number: int) -> Content:
        return dialects.read(self._engine, lambda connection: queries.content_at(connection, job_id, number))[1]

    def _aside(self, aside_id: str) -> Aside:
        return dialects.read(self._engine, lambda connection: queries.aside(connection, aside_id))

    def _proven(self, draft: Draft, stamp: Stamp) -> Draft:
        """Hold back a draft that says released of a job whose readings do not."""
        if any(change.field == "@stage" for change in draft.outcome.changes):
            refuse_unproven(stage_of(draft.outcome.content.card), draft.outcome.content.data, stamp.at.date())
        return draft

    def _stamp(self, author: str, note: str, key: str | None) -> Stamp:
        return stamped(author, self._clock(), key or self._new_key(), note)
