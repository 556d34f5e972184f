"""Files that can be a scan: what is attached, what was handed in, and whether it can be read at all."""

from __future__ import annotations

from dataclasses import replace
from hashlib import file_digest
from pathlib import Path, PurePath
from typing import BinaryIO

from hubwright.errors import BadInput, Fault
from hubwright.jobs.scans import SUFFIXES, Shape, read_shape
from hubwright.language import say
from hubwright.store.blobs import clean_name
from hubwright.store.things import Attachment
from hubwright.web.desk import Desk


def attached_scans(desk: Desk, job_id: str) -> tuple[Attachment, ...]:
    """Attached files whose name ends as a scan's does, the newest of each name, oldest first."""
    found = {item.name: item for item in desk.cupboard.attachments(job_id)}
    return tuple(item for item in found.values() if item.name.lower().endswith(SUFFIXES))


def keep_scan(desk: Desk, job_id: str, source: BinaryIO, given: str, author: str, key: str | None) -> str:
    """A file handed in, attached under a name that is its own; what cannot be read as a scan is taken off again.

    A file of the same name with other bytes would take the place of one that is placed already: the new one is renamed. The
    same bytes handed in twice are one file.

    Raises:
        BadInput: no scan.
        StoreRefusal: empty, too large, not stored.
    """
    name = clean_name(given)
    if not name.lower().endswith(SUFFIXES):
        wanted = say("one of {known}", known=", ".join(SUFFIXES))
        todo = say("Let the scanner's program write one of these.")
        raise BadInput("scan", (Fault("file", wanted, PurePath(name).suffix or say("no suffix"), todo),))
    digest = file_digest(source, "sha256").hexdigest()  # type: ignore[arg-type]  # an open file, whatever holds it
    source.seek(0)
    there = {item.name: item for item in desk.cupboard.attachments(job_id)}
    if name in there and there[name].sha256 == digest:
        return name
    item = desk.cupboard.attach(job_id, source, _own_name(name, set(there)), author, key=key)
    try:
        shape_of(desk, job_id, item.name)
    except BadInput:
        desk.cupboard.detach(item.id, author)
        raise
    return item.name


def _own_name(name: str, taken: set[str]) -> str:
    path, number, own = PurePath(name), 1, name
    while own in taken:
        number += 1
        own = f"{path.stem}-{number}{path.suffix}"
    return own


def path_of(desk: Desk, job_id: str, name: str) -> Path:
    """Where an attached scan can be read.

    Raises:
        BadInput: none of that name is attached.
    """
    path = desk.laid_out(job_id, name)
    if path is None:
        todo = say("Attach it, or choose another.")
        raise BadInput("scan", (Fault("file", say("an attached file"), name[:60] or say("nothing"), todo),))
    return path


def shape_of(desk: Desk, job_id: str, name: str, unit_mm: float = 1.0) -> Shape:
    """An attached scan as read.

    Raises:
        BadInput: it is not there, or cannot be used.
    """
    try:
        return read_shape(path_of(desk, job_id, name), unit_mm)
    except BadInput as error:
        todo = say("Write it anew with the scanner's program and bring it again.")
        raise BadInput("scan", tuple(f if f.todo else replace(f, todo=todo) for f in error.faults)) from error
