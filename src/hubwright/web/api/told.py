"""From things of the store to answers of the API."""

from __future__ import annotations

from collections.abc import Iterable

from hubwright.drawings.table import Table
from hubwright.errors import Fault
from hubwright.store.card import stage_of
from hubwright.store.things import Aside, Attachment, Change, JobLine, Receipt, Revision, StoredJob
from hubwright.store.tomltext import tree_of
from hubwright.web.api.models import (
    AsideOut,
    AttachmentOut,
    CardOut,
    ChangeOut,
    ClashOut,
    FaultOut,
    JobLineOut,
    JobOut,
    ReceiptOut,
    RevisionOut,
    TableOut,
)
from hubwright.web.api.plain import plain


def faults_out(faults: Iterable[Fault]) -> list[FaultOut]:
    """Faults by field."""
    return [FaultOut(fault.field, fault.wanted, fault.given, fault.todo, fault.line) for fault in faults]


def changes_out(changes: Iterable[Change]) -> list[ChangeOut]:
    """Changes by field."""
    return [ChangeOut(change.field, change.value, change.before) for change in changes]


def aside_out(aside: Aside) -> AsideOut:
    """An entry put aside, without the whole file it may have been."""
    clashes = [ClashOut(c.field, c.asked, c.stands, c.author, c.at, c.revision) for c in aside.clashes]
    return AsideOut(
        aside.id, aside.job_id, aside.author, aside.at, aside.base, aside.note, changes_out(aside.changes), clashes,
        faults_out(aside.faults), aside.settled, aside.settled_by, aside.settled_at,
    )  # fmt: skip


def receipt_out(receipt: Receipt) -> ReceiptOut:
    """A receipt."""
    aside = None if receipt.aside is None else aside_out(receipt.aside)
    return ReceiptOut(receipt.job_id, receipt.revision, changes_out(receipt.changes), aside, receipt.merged)


def line_out(line: JobLine) -> JobLineOut:
    """One job of a list."""
    return JobLineOut(
        line.id, line.title, line.revision, line.plate, line.customer, list(line.axles), line.day, line.stage.value,
        line.outdated, line.due, line.changed_at, line.changed_by, line.asides,
    )  # fmt: skip


def job_out(stored: StoredJob) -> JobOut:
    """A job with its tables."""
    tree, card = tree_of(stored.data), stored.card
    rest = [card.get(f"@{name}", "") for name in ("due", "complaint", "note")]
    shown = CardOut(card.get("@customer", ""), stage_of(card).value, *rest)
    return JobOut(stored.id, stored.revision, str(tree.get("title", "")), shown, faults_out(stored.faults), plain(tree))


def revision_out(revision: Revision) -> RevisionOut:
    """One step of a history."""
    return RevisionOut(
        revision.number, revision.base, revision.author, revision.at, revision.kind, revision.note,
        changes_out(revision.changes), revision.undoes, revision.chain,
    )  # fmt: skip


def attachment_out(item: Attachment) -> AttachmentOut:
    """An attachment, without its bytes."""
    return AttachmentOut(**vars(item))


def table_out(table: Table) -> TableOut:
    """The figures of a drawing."""
    return TableOut(table.caption, list(table.columns), [list(row) for row in table.rows])
