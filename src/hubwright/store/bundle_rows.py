"""The paper of one job in a bundle: what may stand in it, and that its history is unbroken."""

from __future__ import annotations

import json
from typing import Annotated

from pydantic import AfterValidator, ConfigDict, Field, TypeAdapter, ValidationError
from pydantic.dataclasses import dataclass

from hubwright.errors import BadInput
from hubwright.jobs.jobfile import LARGEST_FILE_BYTES
from hubwright.language import say
from hubwright.store.archive import spoilt
from hubwright.store.blobs import LARGEST_BYTES, clean_name
from hubwright.store.card import fault_on_card, readable
from hubwright.store.chain import link, sha256
from hubwright.store.fields import place_of
from hubwright.store.rows import changes_of, faults_of, time_of
from hubwright.store.things import Clash
from hubwright.store.tomltext import tree_of

STRICT = ConfigDict(extra="forbid", strict=True)


def _readable(text: str) -> str:
    if not readable(text):
        raise ValueError(say("text no database can keep"))
    return text


def _changes(text: str) -> str:
    for change in changes_of(text):
        place_of(change.field)
        if not all(value is None or isinstance(value, str) for value in (change.value, change.before)):
            raise ValueError(say("a change that is no text"))
    return _readable(text)


def _clashes(text: str) -> str:
    for item in json.loads(text):
        Clash(**{**item, "at": time_of(item["at"])})
    return _readable(text)


def _faults(text: str) -> str:
    faults_of(text)
    return _readable(text)


def _card(text: str) -> str:
    card = json.loads(text)
    if not isinstance(card, dict) or any(not isinstance(value, str) for value in card.values()):
        raise ValueError(say("no card"))
    for field, value in card.items():
        if (fault := fault_on_card(field, value)) is not None:
            raise ValueError(str(fault))
    return text


def _moment(text: str) -> str:
    time_of(text)
    return text


Id = Annotated[str, Field(pattern=r"^[0-9a-z]{1,32}$")]
Hash = Annotated[str, Field(pattern=r"^[0-9a-f]{64}$")]
Key = Annotated[str, Field(pattern=r"^[0-9A-Za-z_-]{1,64}$")]
Words = Annotated[str, Field(max_length=8000), AfterValidator(_readable)]
Kind = Annotated[str, Field(pattern=r"^[a-z]{1,20}$")]
Moment = Annotated[str, AfterValidator(_moment), Field(max_length=27)]
File = Annotated[str, Field(max_length=LARGEST_FILE_BYTES), AfterValidator(_readable)]
Changes = Annotated[str, AfterValidator(_changes)]


@dataclass(frozen=True, kw_only=True, config=STRICT)
class RevisionRow:
    """One revision on paper."""

    number: int
    base: Annotated[int, Field(ge=0)]
    author: Words
    at: Moment
    kind: Kind
    note: Words
    changes: Changes
    undoes: int | None
    data: File
    card: Annotated[str, AfterValidator(_card)]
    given: File | None
    data_sha256: Hash
    chain: Hash
    entry_key: Key


@dataclass(frozen=True, kw_only=True, config=STRICT)
class AsideRow:
    """One entry put aside, on paper."""

    id: Id
    base: Annotated[int, Field(ge=1)]
    author: Words
    at: Moment
    note: Words
    changes: Changes
    clashes: Annotated[str, AfterValidator(_clashes)]
    faults: Annotated[str, AfterValidator(_faults)]
    given: File | None
    entry_key: Key
    settled: Kind | None
    settled_by: Words | None
    settled_at: Moment | None


@dataclass(frozen=True, kw_only=True, config=STRICT)
class AttachmentRow:
    """One attachment on paper."""

    id: Id
    name: Annotated[Words, Field(max_length=200), AfterValidator(clean_name)]
    kind: Annotated[str, Field(pattern=r"^[a-z]+/[a-z0-9.+-]{1,60}$")]
    size_bytes: Annotated[int, Field(gt=0, le=LARGEST_BYTES)]
    sha256: Hash
    author: Words
    at: Moment
    note: Words
    removed_by: Words | None
    removed_at: Moment | None


@dataclass(frozen=True, kw_only=True, config=STRICT)
class JobPaper:
    """One job with all that belongs to it."""

    id: Id
    revisions: Annotated[tuple[RevisionRow, ...], Field(min_length=1)]
    asides: tuple[AsideRow, ...]
    attachments: tuple[AttachmentRow, ...]


PAPER = TypeAdapter(JobPaper)


def paper_of(data: bytes, name: str, box: str) -> JobPaper:
    """The paper of a job, its history proven link by link.

    Raises:
        StoreRefusal: when anything in it is not as this program writes it.
    """
    try:
        paper = PAPER.validate_json(data)
    except (ValidationError, BadInput, ValueError, TypeError, KeyError, AttributeError, RecursionError) as error:
        raise spoilt(box, f"{name}: {str(error)[:300]}") from None
    if name != f"jobs/{paper.id}.json":
        raise spoilt(box, say("{name} is about another job", name=name))
    try:
        tree_of(paper.revisions[-1].data.encode())
    except BadInput as error:
        raise spoilt(box, f"{name}: {error}") from None
    before = ""
    for number, row in enumerate(paper.revisions, start=1):
        if (
            row.number != number
            or row.base >= number
            or row.data_sha256 != sha256(row.data.encode())
            or row.chain != link(before, vars(row))
        ):
            raise spoilt(
                box, say("{name}: the history does not hold together at revision {number}", name=name, number=number)
            )
        before = row.chain
    return paper
