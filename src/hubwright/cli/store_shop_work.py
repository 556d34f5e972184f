"""What the commands of ``hubwright store shop`` do."""

from __future__ import annotations

import sys
from pathlib import Path

from hubwright.cli.files import refuse_existing, write_out
from hubwright.cli.store_work import bytes_of, change_line, opened, say_line, say_receipt, say_revision
from hubwright.language import say
from hubwright.store.shop_in_job import differences_from_shop
from hubwright.store.shop_rows import ShopReceipt


def show(file: Path | None, revision: int | None) -> None:
    """The settings out."""
    if file is not None:
        refuse_existing(file)
    with opened() as (cupboard, _):
        stored = cupboard.shop.now(revision)
    if file is None:
        sys.stdout.buffer.write(stored.data)
        return
    write_out(file, stored.data)
    say_line(
        say(
            "{name} written. After editing: hubwright store shop put {name} --base {revision}",
            name=file.name,
            revision=stored.revision,
        )
    )


def put(file: Path, base: int | None, note: str, by: str | None) -> None:
    """Edited settings back."""
    data = bytes_of(file)
    with opened() as (cupboard, settings):
        base = cupboard.shop.now().revision if base is None else base
        receipt = cupboard.shop.put(data, by or settings.author, base=base, note=note)
    _say_receipt(receipt)


def history() -> None:
    """Who, when, what."""
    with opened() as (cupboard, _):
        found = cupboard.shop.history()
    for revision in found:
        say_revision(revision)
    if not found:
        say_line(say("Nothing was settled yet. Begin with: hubwright store shop show shop.toml"))


def undo(revision: int | None, note: str, by: str | None) -> None:
    """One revision back."""
    with opened() as (cupboard, settings):
        receipt = cupboard.shop.undo(by or settings.author, revision=revision, note=note)
    _say_receipt(receipt)


def into(job: str, note: str, by: str | None, *, look: bool) -> None:
    """A job brought up to date with the shop, or only compared with it."""
    with opened() as (cupboard, settings):
        name = cupboard.name(job)
        stored, shop = cupboard.job(name), cupboard.shop.now()
        changes = differences_from_shop(stored.data, shop.data) if shop.revision else ()
        if not changes:
            say_line(say("{job}: nothing differs from what the shop has settled.", job=name))
            return
        if look:
            for change in changes:
                say_line(f"  {change_line(change)}")
            return
        asked = [(change.field, change.value) for change in changes]
        receipt = cupboard.enter(name, asked, by or settings.author, base=stored.revision, note=note)
    say_receipt(receipt)


def _say_receipt(receipt: ShopReceipt) -> None:
    say_line(say("Settings of the shop, revision {number}.", number=receipt.revision))
    for change in receipt.changes:
        say_line(f"  {change_line(change)}")
