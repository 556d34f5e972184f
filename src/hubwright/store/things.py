"""What comes out of the cupboard: frozen, printable, without a connection to any database."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from enum import StrEnum

from hubwright.errors import Fault


class Stage(StrEnum):
    """How far a visit has come. It is kept beside the job file: it is no reading."""

    DRAFT = "draft"
    ASSESSED = "assessed"
    RELEASED = "released"
    WAITING = "waiting for re-torque"
    RETURNED = "came back"
    CLOSED = "closed"


@dataclass(frozen=True)
class Change:
    """One field of a job, before and after.

    Attributes:
        field: Place in the job file, list items counted from 1, such as ``rear.left.point[1].reading[3]``; or a field
            of the card, such as ``@customer``.
        value: The new TOML value (of the card: plain text); None = taken out.
        before: What stood there; None = nothing.
    """

    field: str
    value: str | None
    before: str | None = None


@dataclass(frozen=True)
class Clash:
    """Two people, one field, two values: what was asked and what somebody else had written meanwhile."""

    field: str
    asked: str | None
    stands: str | None
    author: str
    at: datetime
    revision: int


@dataclass(frozen=True)
class Aside:
    """An entry that could not go into the job. It is kept whole until somebody decides.

    Attributes:
        id: Its own name.
        job_id: The job it belongs to.
        base: The revision its author saw.
        changes: What its author wanted, before = None.
        clashes: Fields somebody else had changed meanwhile; empty when the entry had faults instead.
        faults: Why the job would be faulty with it.
        given: The whole file that was handed in, where it was one.
        settled: How it ended: taken, dropped; None = still open.
    """

    id: str
    job_id: str
    author: str
    at: datetime
    base: int
    changes: tuple[Change, ...]
    clashes: tuple[Clash, ...]
    faults: tuple[Fault, ...]
    note: str = ""
    given: bytes | None = None
    settled: str | None = None
    settled_by: str | None = None
    settled_at: datetime | None = None


@dataclass(frozen=True)
class Receipt:
    """Given only after the disk has it.

    Attributes:
        job_id: The job.
        revision: The job's revision now.
        changes: What went in. Empty with no `aside` when everything stood there already.
        aside: What could not go in, kept; None = nothing was put aside.
        merged: Whether others had changed the job since the revision the author saw.
    """

    job_id: str
    revision: int
    changes: tuple[Change, ...] = ()
    aside: Aside | None = None
    merged: bool = False


@dataclass(frozen=True)
class Revision:
    """One step in the history of a job.

    Attributes:
        number: From 1.
        base: The revision its author saw; 0 for the first.
        kind: ``new``, ``entry``, ``file``, ``undo`` or ``settled``.
        undoes: The revision it takes back, if any.
        chain: Fingerprint of this revision and all before it.
    """

    job_id: str
    number: int
    base: int
    author: str
    at: datetime
    kind: str
    note: str
    changes: tuple[Change, ...]
    undoes: int | None
    chain: str


@dataclass(frozen=True)
class StoredJob:
    """A job as it stands.

    Attributes:
        data: The job file, byte for byte.
        card: What is kept beside it: customer, stage, due, complaint, note.
        faults: Why it could not be assessed as it stands; empty for nearly all.
    """

    id: str
    revision: int
    data: bytes
    card: Mapping[str, str]
    faults: tuple[Fault, ...] = ()

    @property
    def text(self) -> str:
        """The job file as text, without a byte order mark."""
        return self.data.decode("utf-8-sig")


@dataclass(frozen=True)
class JobLine:
    """One job in a list.

    Attributes:
        stage: As somebody set it; `outdated` when the job file has changed since.
        due: Day of the re-torque appointment.
        asides: Entries put aside and still open.
    """

    id: str
    title: str
    revision: int
    plate: str
    customer: str
    axles: tuple[str, ...]
    day: date | None
    stage: Stage
    outdated: bool
    due: date | None
    changed_at: datetime
    changed_by: str
    asides: int


@dataclass(frozen=True)
class Query:
    """What to look for; everything stated must hold.

    Attributes:
        words: Each must occur somewhere in the job: title, plate, car, tyres, points, notes, comments, customer.
        plate: Part of it, spaces and dashes ignored.
        axle: front or rear: the job says something about it.
        since, until: Day of the visit, both included.
        due_by: Re-torque appointment on or before this day.
    """

    words: str = ""
    title: str = ""
    plate: str = ""
    customer: str = ""
    axle: str | None = None
    stage: Stage | None = None
    since: date | None = None
    until: date | None = None
    due_by: date | None = None
    only_open_asides: bool = False
    limit: int = 50
    skip: int = 0


@dataclass(frozen=True)
class Attachment:
    """A photograph, scan or paper that belongs to a job."""

    id: str
    job_id: str
    name: str
    kind: str
    size_bytes: int
    sha256: str
    author: str
    at: datetime
    note: str = ""
    removed_by: str | None = None
    removed_at: datetime | None = None


@dataclass(frozen=True)
class Brought:
    """What an import did: ids of jobs by outcome."""

    new: tuple[str, ...] = ()
    longer: tuple[str, ...] = ()
    same: tuple[str, ...] = ()
    copies: Mapping[str, str] = field(default_factory=dict)
    """Jobs that had gone different ways here and there: their id there -> the id of the copy here."""
    settled: bool = False
    """Whether the shop's settings were taken in, because there were none here."""


@dataclass(frozen=True)
class Audit:
    """What a look through the whole cupboard found."""

    jobs: int
    revisions: int
    attachments: int
    problems: tuple[str, ...]
    orphans: int
    """Files no job speaks of; harmless."""
