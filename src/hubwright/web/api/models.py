"""What the API answers and takes, field by field. Names stay."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field

STRICT = ConfigDict(extra="forbid", frozen=True)
Text = Annotated[str, Field(max_length=4000)]


@dataclass(frozen=True)
class FaultOut:
    """One thing wrong with what was handed in."""

    field: str
    wanted: str
    given: str
    what_to_do: str
    line: int | None


@dataclass(frozen=True)
class Problem:
    """Why there is no answer, with every fault found (after RFC 9457)."""

    status: int
    title: str
    detail: str
    what_to_do: str
    faults: list[FaultOut]


@dataclass(frozen=True)
class ChangeOut:
    """One field before and after: TOML values; null = not there. Fields that begin with @ are on the card: plain text."""

    field: str
    value: str | None
    before: str | None


@dataclass(frozen=True)
class ClashOut:
    """Two people, one field, two values."""

    field: str
    asked: str | None
    stands: str | None
    author: str
    at: datetime
    revision: int


@dataclass(frozen=True)
class AsideOut:
    """An entry that could not go in. It is kept whole until somebody decides."""

    id: str
    job_id: str
    author: str
    at: datetime
    base: int
    note: str
    changes: list[ChangeOut]
    clashes: list[ClashOut]
    faults: list[FaultOut]
    settled: str | None
    settled_by: str | None
    settled_at: datetime | None


@dataclass(frozen=True)
class ReceiptOut:
    """Given only after the disk has it. `changes` went in, `aside` could not and waits for a decision."""

    job_id: str
    revision: int
    changes: list[ChangeOut]
    aside: AsideOut | None
    merged: bool


@dataclass(frozen=True)
class JobLineOut:
    """One job in a list."""

    id: str
    title: str
    revision: int
    plate: str
    customer: str
    axles: list[str]
    day: date | None
    stage: str
    outdated: bool
    due: date | None
    changed_at: datetime
    changed_by: str
    asides: int


@dataclass(frozen=True)
class JobList:
    """Jobs found, the one changed last first; `more` when there are further ones."""

    jobs: list[JobLineOut]
    skip: int
    more: bool


@dataclass(frozen=True)
class CardOut:
    """What belongs to the visit and is no reading."""

    customer: str
    stage: str
    due: str
    complaint: str
    note: str


@dataclass(frozen=True)
class JobOut:
    """A job as it stands or stood: `job` holds the tables of its file, `faults` why there is no answer."""

    id: str
    revision: int
    title: str
    card: CardOut
    faults: list[FaultOut]
    job: dict[str, Any]


@dataclass(frozen=True)
class RevisionOut:
    """One step in the history of a job."""

    number: int
    base: int
    author: str
    at: datetime
    kind: str
    note: str
    changes: list[ChangeOut]
    undoes: int | None
    chain: str


@dataclass(frozen=True)
class AttachmentOut:
    """A photograph, scan or paper of a job."""

    id: str
    job_id: str
    name: str
    kind: str
    size_bytes: int
    sha256: str
    author: str
    at: datetime
    note: str
    removed_by: str | None
    removed_at: datetime | None


class ReadingIn(BaseModel):
    """One field and what it should hold. `value` is plain JSON; `toml` the same as it should stand in the file, letter by letter.

    Null takes the field out. ``[+]`` at the end of the field adds to a list. Fields of the card (``@customer``, ``@stage``, ``@due``,
    ``@complaint``, ``@note``) take a text.
    """

    model_config = STRICT

    field: Annotated[str, Field(min_length=1, max_length=400, examples=["rear.hub.spigot_length_mm"])]
    value: Any = None
    toml: Text | None = None


class EntryIn(BaseModel):
    """Readings entered together: all that can go in does, the rest is put aside whole."""

    model_config = STRICT

    base: Annotated[int, Field(ge=1, le=2**31 - 1, description="The revision that was looked at.")]
    readings: Annotated[list[ReadingIn], Field(min_length=1, max_length=500)]
    key: Annotated[str, Field(pattern=r"^[0-9A-Za-z_-]{1,64}$")] | None = None
    note: Text = ""


class ScanIn(BaseModel):
    """A scan as a job file has it, its file attached before."""

    model_config = STRICT

    base: Annotated[int, Field(ge=1, le=2**31 - 1, description="The revision that was looked at.")]
    scan: Annotated[dict[str, Any], Field(description="Fields of a scan, as in a job file; see its schema.")]
    sure: Annotated[bool, Field(description="Taken although something speaks against how it lies.")] = False
    key: Annotated[str, Field(pattern=r"^[0-9A-Za-z_-]{1,64}$")] | None = None
    note: Text = ""


@dataclass(frozen=True)
class ScanOut:
    """A scan of a corner; `placing` tells how it lies, `faults` why that cannot be told."""

    number: int
    field: str
    scan: dict[str, Any]
    at_hand: bool
    placing: dict[str, Any] | None
    faults: list[FaultOut]


class ShopEntryIn(BaseModel):
    """Settings of the shop entered together: all or none."""

    model_config = STRICT
    base: Annotated[
        int, Field(ge=0, le=2**31 - 1, description="The revision that was looked at; 0 = nobody settled anything yet.")
    ]
    readings: Annotated[list[ReadingIn], Field(min_length=1, max_length=500)]
    key: Annotated[str, Field(pattern=r"^[0-9A-Za-z_-]{1,64}$")] | None = None
    note: Text = ""


class UndoIn(BaseModel):
    """Take one revision back: the newest unless named."""

    model_config = STRICT

    revision: Annotated[int, Field(ge=1, le=2**31 - 1)] | None = None
    key: Annotated[str, Field(pattern=r"^[0-9A-Za-z_-]{1,64}$")] | None = None
    note: Text = ""


class TakeOverIn(BaseModel):
    """Let a job take over what the shop has settled."""

    model_config = STRICT

    base: Annotated[int, Field(ge=1, le=2**31 - 1, description="The revision of the job that was looked at.")]
    key: Annotated[str, Field(pattern=r"^[0-9A-Za-z_-]{1,64}$")] | None = None
    note: Text = ""


class ShopUndoIn(BaseModel):
    """Take one revision of the settings back: the newest unless named."""

    model_config = STRICT

    revision: Annotated[int, Field(ge=1, le=2**31 - 1)] | None = None
    note: Text = ""


class SettleIn(BaseModel):
    """How an entry put aside ends: taken into the job, or dropped. It stays in the history either way."""

    model_config = STRICT

    decision: Literal["take", "drop"]
    base: Annotated[int, Field(ge=1, le=2**31 - 1, description="The revision that was looked at.")]
    note: Text = ""


@dataclass(frozen=True)
class BroughtOut:
    """What an import did: ids of jobs by outcome; `copies`: id there to id here, where histories went different ways."""

    new: list[str]
    longer: list[str]
    same: list[str]
    copies: dict[str, str]


@dataclass(frozen=True)
class AuditOut:
    """What a look through the whole store found; `orphans` are files no job speaks of, which do no harm."""

    jobs: int
    revisions: int
    attachments: int
    problems: list[str]
    orphans: int


@dataclass(frozen=True)
class TableOut:
    """The figures of a drawing."""

    caption: str
    columns: list[str]
    rows: list[list[str]]


@dataclass(frozen=True)
class ServerOut:
    """What answers here, and who asks."""

    program: str
    version: str
    who: str
    role: str
    languages: list[str]
    today: date
