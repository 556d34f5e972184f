"""What is asked of the tables besides the search."""

from __future__ import annotations

from sqlalchemy import Connection, insert, select, update

from hubwright.errors import StoreRefusal
from hubwright.language import say
from hubwright.store import tables
from hubwright.store.blobs import Blob
from hubwright.store.entries import Stamp, content_of, id_from, no_such_job, revision_row
from hubwright.store.merge import Content
from hubwright.store.rows import aside_of, attachment_of, revision_of, time_text
from hubwright.store.things import Aside, Attachment, Revision


def content_at(connection: Connection, job_id: str, number: int | None) -> tuple[int, Content]:
    """The number and content of a revision; of the newest when None.

    Raises:
        StoreRefusal: when there is none.
    """
    head = connection.execute(select(tables.job.c.head).where(tables.job.c.id == job_id)).scalar()
    if head is None:
        raise no_such_job(job_id)
    number = head if number is None else number
    return number, content_of(revision_row(connection, job_id, number))


def whole_name(connection: Connection, beginning: str) -> str:
    """The only job whose name begins so.

    Raises:
        StoreRefusal: when there is none or more than one.
    """
    name = tables.job.c.id
    found = connection.execute(
        select(name).where(name.startswith(beginning.strip().lower(), autoescape=True)).limit(3)
    ).scalars().all()  # fmt: skip
    if not found or not beginning.strip():
        raise no_such_job(beginning)
    if len(found) > 1 and beginning not in found:
        raise StoreRefusal(
            say("Job {beginning}", beginning=beginning),
            say("more than one begins so ({found}...)", found=", ".join(found)),
            say("Write more of it."),
        )
    return beginning if beginning in found else str(found[0])


def history(connection: Connection, job_id: str) -> tuple[Revision, ...]:
    """Every revision of a job.

    Raises:
        StoreRefusal: when there is no such job.
    """
    columns = [column for column in tables.revision.c if column.name not in ("data", "given")]
    rows = connection.execute(
        select(*columns).where(tables.revision.c.job_id == job_id).order_by(tables.revision.c.number)
    )
    found = tuple(revision_of(row) for row in rows.mappings())
    if not found:
        raise no_such_job(job_id)
    return found


def asides(connection: Connection, job_id: str | None, *, also_settled: bool) -> tuple[Aside, ...]:
    """Entries put aside."""
    wanted = select(tables.aside).order_by(tables.aside.c.at, tables.aside.c.id)
    if job_id is not None:
        wanted = wanted.where(tables.aside.c.job_id == job_id)
    if not also_settled:
        wanted = wanted.where(tables.aside.c.settled.is_(None))
    return tuple(aside_of(row) for row in connection.execute(wanted).mappings())


def aside(connection: Connection, aside_id: str) -> Aside:
    """One entry put aside.

    Raises:
        StoreRefusal: when there is none.
    """
    row = connection.execute(select(tables.aside).where(tables.aside.c.id == aside_id)).mappings().first()
    if row is None:
        raise StoreRefusal(
            say("Entry {aside_id}", aside_id=aside_id[:40]),
            say("there is none of that name"),
            say("See hubwright store open."),
            missing=True,
        )
    return aside_of(row)


def attach(connection: Connection, job_id: str, blob: Blob, name: str, stamp: Stamp) -> Attachment:
    """Write down that a file belongs to a job."""
    item = Attachment(
        id_from(f"attachment {job_id} {stamp.key}"),
        job_id,
        name,
        blob.kind,
        blob.size_bytes,
        blob.sha256,
        stamp.author,
        stamp.at,
        stamp.note,
    )
    if connection.execute(select(tables.attachment.c.id).where(tables.attachment.c.id == item.id)).first() is None:
        connection.execute(insert(tables.attachment).values(**{**vars(item), "at": time_text(stamp.at)}))
    return item


def attachments(connection: Connection, job_id: str, *, also_removed: bool) -> tuple[Attachment, ...]:
    """What is attached to a job."""
    item = tables.attachment
    wanted = select(item).where(item.c.job_id == job_id).order_by(item.c.at, item.c.id)
    if not also_removed:
        wanted = wanted.where(item.c.removed_at.is_(None))
    return tuple(attachment_of(row) for row in connection.execute(wanted).mappings())


def attachment(connection: Connection, attachment_id: str) -> Attachment:
    """One attachment.

    Raises:
        StoreRefusal: when there is none.
    """
    item = tables.attachment
    row = connection.execute(select(item).where(item.c.id == attachment_id)).mappings().first()
    if row is None:
        raise StoreRefusal(
            say("Attachment {attachment_id}", attachment_id=attachment_id[:40]),
            say("there is none of that name"),
            say("See what is attached to the job: hubwright store show JOB."),
            missing=True,
        )
    return attachment_of(row)


def detach(connection: Connection, attachment_id: str, stamp: Stamp) -> None:
    """Write down that an attachment was taken off; who was first stays.

    Raises:
        StoreRefusal: when there is none.
    """
    attachment(connection, attachment_id)
    item = tables.attachment
    connection.execute(
        update(item)
        .where(item.c.id == attachment_id, item.c.removed_at.is_(None))
        .values(removed_by=stamp.author, removed_at=time_text(stamp.at))
    )


def all_hashes(connection: Connection) -> set[str]:
    """Hashes of all files any job speaks of, attachments taken off included."""
    return set(connection.execute(select(tables.attachment.c.sha256).distinct()).scalars())
