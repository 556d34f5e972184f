"""Rows become things, things become rows."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import asdict
from datetime import UTC, date, datetime
from typing import Any

from hubwright.errors import Fault
from hubwright.language import marked, say
from hubwright.language.kept import kept, said_again
from hubwright.store.chain import unpacked
from hubwright.store.things import Aside, Attachment, Change, Clash, JobLine, Revision, Stage

Row = Mapping[Any, Any]
UNTITLED = marked("(without a title)")
"""What stands in the list for a job that says no title; spoken where it is shown."""
SPOKEN = ("wanted", "given", "todo")
"""What of a fault is in words."""
TIME_FORMAT = "%Y-%m-%dT%H:%M:%S.%fZ"


def time_text(at: datetime) -> str:
    """A moment as text of one width, in UTC."""
    return at.astimezone(UTC).strftime(TIME_FORMAT)


def time_of(text: str) -> datetime:
    """The moment in such a text."""
    return datetime.strptime(text, TIME_FORMAT).replace(tzinfo=UTC)


def changes_text(changes: Iterable[Change]) -> str:
    """Changes as JSON."""
    return json.dumps([asdict(change) for change in changes])


def changes_of(text: str) -> tuple[Change, ...]:
    """The changes in such a text."""
    return tuple(Change(**item) for item in json.loads(text))


def clashes_text(clashes: Iterable[Clash]) -> str:
    """Clashes as JSON."""
    return json.dumps([{**asdict(clash), "at": time_text(clash.at)} for clash in clashes])


def faults_text(faults: Iterable[Fault]) -> str:
    """Faults as JSON: with what their texts were made of, for whoever reads them in another language."""
    items = [asdict(fault) for fault in faults]
    return json.dumps([{**item, **{key: kept(item[key]) for key in SPOKEN if item[key]}} for item in items])


def faults_of(text: str) -> tuple[Fault, ...]:
    """The faults in such a text, in the language spoken here."""
    items = json.loads(text)
    return tuple(Fault(**{**item, **{key: said_again(item[key]) for key in SPOKEN if key in item}}) for item in items)


def card_text(card: Mapping[str, str]) -> str:
    """A card as JSON."""
    return json.dumps(dict(card), sort_keys=True)


def revision_of(row: Row) -> Revision:
    """A revision, without its file."""
    return Revision(
        row["job_id"],
        row["number"],
        row["base"],
        row["author"],
        time_of(row["at"]),
        row["kind"],
        row["note"],
        changes_of(row["changes"]),
        row["undoes"],
        row["chain"],
    )


def aside_of(row: Row) -> Aside:
    """An entry put aside."""
    return Aside(
        row["id"],
        row["job_id"],
        row["author"],
        time_of(row["at"]),
        row["base"],
        changes_of(row["changes"]),
        tuple(Clash(**{**item, "at": time_of(item["at"])}) for item in json.loads(row["clashes"])),
        faults_of(row["faults"]),
        row["note"],
        None if row["given"] is None else unpacked(row["given"]),
        row["settled"],
        row["settled_by"],
        None if row["settled_at"] is None else time_of(row["settled_at"]),
    )


def attachment_of(row: Row) -> Attachment:
    """An attachment."""
    stated = {name: row[name] for name in Attachment.__dataclass_fields__}
    removed = row["removed_at"]
    return Attachment(
        **{**stated, "at": time_of(row["at"]), "removed_at": None if removed is None else time_of(removed)}
    )


def line_of(row: Row) -> JobLine:
    """One job in a list."""
    return JobLine(
        row["id"],
        say(UNTITLED) if row["title"] == UNTITLED else row["title"],
        row["head"],
        row["plate"],
        row["customer"],
        tuple(row["axles"].split()),
        None if row["day"] is None else date.fromisoformat(row["day"]),
        Stage(row["stage"]),
        row["stage"] != Stage.DRAFT and row["stage_sha256"] != row["data_sha256"],
        None if row["due"] is None else date.fromisoformat(row["due"]),
        time_of(row["changed_at"]),
        row["changed_by"],
        row["asides"],
    )
