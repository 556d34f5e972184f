"""Revisions of the shop's settings as rows, and as they come out."""

from __future__ import annotations

import zlib
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, insert, select

from hubwright.errors import BadInput, StoreRefusal
from hubwright.jobs.shopfile import new_shop, parse_shop
from hubwright.language import say
from hubwright.parts.shop_settings import ShopSettings
from hubwright.store.chain import link, packed, sha256, unpacked
from hubwright.store.entries import Stamp
from hubwright.store.merge import Outcome, Past
from hubwright.store.rows import changes_of, changes_text, time_of, time_text
from hubwright.store.tables import shop
from hubwright.store.things import Change

EMPTY_CARD = "{}"
"""A job has a card beside its file, the settings have none; the fingerprint wants one."""


@dataclass(frozen=True)
class StoredShop:
    """The settings as they stand or stood.

    Attributes:
        revision: From 1; 0 while nobody has settled anything.
        data: The text, byte for byte.
    """

    revision: int
    data: bytes

    @property
    def text(self) -> str:
        """The settings as text."""
        return self.data.decode("utf-8-sig")

    @property
    def settings(self) -> ShopSettings:
        """The settings as nouns.

        Raises:
            BadInput: when an older program took in what this one does not.
        """
        return parse_shop(self.text)

    @property
    def letterhead(self) -> tuple[str, ...]:
        """Name and address for paper, one line each; nothing of settings with faults."""
        try:
            found = self.settings
        except BadInput:
            return ()
        return tuple(line for line in (found.name, *found.address) if line)


@dataclass(frozen=True)
class ShopReceipt:
    """Given only after the disk has it.

    Attributes:
        revision: The newest now.
        changes: What went in; empty when everything stood there already.
        merged: Whether others had changed the settings since the revision the author saw.
    """

    revision: int
    changes: tuple[Change, ...]
    merged: bool


def settings_at(connection: Connection, number: int | None) -> StoredShop:
    """A revision of the settings; the newest when None.

    Raises:
        StoreRefusal: when there is none.
    """
    wanted = select(shop.c.number, shop.c.data).order_by(shop.c.number.desc()).limit(1)
    if number is not None and number != 0:
        wanted = wanted.where(shop.c.number == number)
    row = None if number == 0 else connection.execute(wanted).first()
    if row is None and number:
        raise no_such_revision(number)
    return StoredShop(0, new_shop().encode()) if row is None else StoredShop(row[0], unpacked(row[1]))


def past_since(connection: Connection, base: int) -> tuple[Past, ...]:
    """Every change since a revision, oldest first."""
    later = select(shop.c.number, shop.c.author, shop.c.at, shop.c.changes).where(shop.c.number > base)
    return tuple(
        Past(change, number, author, time_of(at))
        for number, author, at, text in connection.execute(later.order_by(shop.c.number))
        for change in changes_of(text)
    )


def receipt_of(connection: Connection, key: str) -> ShopReceipt | None:
    """The receipt of what was stored already under this key."""
    row = connection.execute(select(shop).where(shop.c.entry_key == key)).mappings().first()
    if row is None:
        return None
    return ShopReceipt(row["number"], changes_of(row["changes"]), row["number"] != row["base"] + 1)


def write_revision(
    connection: Connection, number: int, base: int, outcome: Outcome, stamp: Stamp, kind: str, undoes: int | None
) -> None:
    """Add a revision behind all others."""
    past = select(shop.c.chain).where(shop.c.number == number - 1)
    before = connection.execute(past).scalar() or ""
    row: dict[str, Any] = {
        "number": number,
        "base": base,
        "author": stamp.author,
        "at": time_text(stamp.at),
        "kind": kind,
        "note": stamp.note,
        "changes": changes_text(outcome.changes),
        "undoes": undoes,
        "data_sha256": sha256(outcome.content.data),
    }
    chained = link(before, {**row, "card": EMPTY_CARD})
    data = packed(outcome.content.data)
    connection.execute(insert(shop).values(**row, data=data, chain=chained, entry_key=stamp.key))


def no_such_revision(number: int) -> StoreRefusal:
    """Nothing under this number."""
    return StoreRefusal(
        say("Revision {number}", number=number), say("there is none"), say("See the history."), missing=True
    )


def problems_of(connection: Connection) -> Iterator[str]:
    """What is wrong with the history of the settings, if anything."""
    before = ""
    for number, row in enumerate(connection.execute(select(shop).order_by(shop.c.number)).mappings(), 1):
        try:
            whole = sha256(unpacked(row["data"])) == row["data_sha256"]
        except zlib.error:
            whole = False
        if row["number"] != number or not whole or row["chain"] != link(before, {**row, "card": EMPTY_CARD}):
            yield say("settings of the shop: revision {number} is not what was stored", number=row["number"])
            return
        before = row["chain"]
