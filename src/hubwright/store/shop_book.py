"""The shop's settings with their whole history: one text, every revision of it.

As with a job nothing is overwritten unseen. Unlike a job nothing is put aside: settings are no readings, so what clashes is
refused whole and told, and can be sent again.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import datetime

from sqlalchemy import Connection, Engine, select

from hubwright.errors import BadInput, Fault, StoreRefusal
from hubwright.jobs.shopfile import parse_shop
from hubwright.language import say
from hubwright.store import dialects
from hubwright.store.asking import Asked, refuse_asked, stamped
from hubwright.store.merge import Content, Outcome, Past, settle, settle_file
from hubwright.store.rows import revision_of
from hubwright.store.shop_rows import (
    ShopReceipt,
    StoredShop,
    no_such_revision,
    past_since,
    receipt_of,
    settings_at,
    write_revision,
)
from hubwright.store.tables import shop
from hubwright.store.things import Change, Revision
from hubwright.store.tomltext import text_of, tree_of
from hubwright.store.undoing import taken_back

NAME = "shop"
SMALLEST = b"hubwright_shop = 1\n"


def faults_in_shop(data: bytes) -> tuple[Fault, ...]:
    """Every fault of the settings; empty for sound ones."""
    try:
        parse_shop(text_of(data, NAME), NAME)
    except BadInput as error:
        return error.faults
    return ()


class ShopBook:
    """One text, every revision of it. What a method confirms by returning, the disk has."""

    def __init__(self, engine: Engine, clock: Callable[[], datetime], new_key: Callable[[], str]) -> None:
        self._engine, self._clock, self._new_key = engine, clock, new_key

    def now(self, revision: int | None = None) -> StoredShop:
        """The settings as they stand, or as they stood; before anybody settled anything, a text that explains them.

        Raises:
            StoreRefusal: when there is no such revision.
        """
        return dialects.read(self._engine, lambda connection: settings_at(connection, revision))

    def put(self, data: bytes | str, author: str, *, base: int, note: str = "", key: str | None = None) -> ShopReceipt:
        """Take a whole edited text in that was made from revision `base`; if nobody else changed it, byte for byte.

        Raises:
            BadInput: with every fault; nothing is stored.
            StoreRefusal: when somebody else changed the same places since, or nothing could be stored.
        """
        data = data.encode("utf-8", "surrogatepass") if isinstance(data, str) else data
        tree_of(data, NAME)

        def compute(seen: Content, since: tuple[Past, ...], first: Content) -> Outcome:
            return settle_file(first, seen, since, data, faults_in_shop)

        return self._enter(compute, "file" if base else "new", author, base, note, key)

    def enter(
        self, asked: Iterable[Asked], author: str, *, base: int, note: str = "", key: str | None = None
    ) -> ShopReceipt:
        """Change single places, such as ``policy.least_pilot_mm`` or ``disc[+]``.

        Raises:
            BadInput: with every fault; nothing is stored.
            StoreRefusal: when somebody else changed the same places since, or nothing could be stored.
        """
        changes = tuple(Change(field, value) for field, value in asked)
        refuse_asked(changes)
        if card := [change.field for change in changes if change.field.startswith("@")]:
            raise BadInput(NAME, tuple(Fault(field, say("a place of the settings"), field) for field in card))

        def compute(seen: Content, since: tuple[Past, ...], _first: Content) -> Outcome:
            return settle(seen, since, changes, faults_in_shop)

        return self._enter(compute, "entry", author, base, note, key)

    def undo(self, author: str, *, revision: int | None = None, note: str = "") -> ShopReceipt:
        """Take one revision back (the newest unless named) by a new one; nothing leaves the history.

        Raises:
            StoreRefusal: when there is none, or later revisions changed the same places.
        """
        number = self.now().revision if revision is None else revision
        if number < 1:
            raise StoreRefusal(say("The settings of the shop"), say("nothing was settled yet"), "")
        done = self._revision(number).changes
        around = (_content(self.now(number - 1) if number > 1 else _nothing()), _content(self.now(number)))

        def compute(seen: Content, since: tuple[Past, ...], _first: Content) -> Outcome:
            return taken_back(number, done, around, seen, since, faults_in_shop)

        return self._enter(compute, "undo", author, number, note, None, undoes=number)

    def history(self) -> tuple[Revision, ...]:
        """Every revision, oldest first: who, when, what."""
        columns = [column for column in shop.c if column.name != "data"]
        wanted = select(*columns).order_by(shop.c.number)
        rows = dialects.read(self._engine, lambda connection: connection.execute(wanted).mappings().all())
        return tuple(revision_of({**row, "job_id": NAME}) for row in rows)

    def _revision(self, number: int) -> Revision:
        found = next((one for one in self.history() if one.number == number), None)
        if found is None:
            raise no_such_revision(number)
        return found

    def _enter(
        self,
        compute: Callable[[Content, tuple[Past, ...], Content], Outcome],
        kind: str,
        author: str,
        base: int,
        note: str,
        key: str | None,
        undoes: int | None = None,
    ) -> ShopReceipt:
        stamp = stamped(author, self._clock(), key or self._new_key(), note)

        def work(connection: Connection) -> ShopReceipt:
            dialects.hold(connection, shop)
            if (done := receipt_of(connection, stamp.key)) is not None:
                return done
            head, first = settings_at(connection, None), settings_at(connection, base)
            seen = _content(head if head.revision else _nothing())
            outcome = compute(seen, past_since(connection, base), _content(first if base else _nothing()))
            _refuse_open(outcome)
            if outcome.content == seen and head.revision:
                return ShopReceipt(head.revision, (), head.revision != base)
            write_revision(connection, head.revision + 1, base, outcome, stamp, kind, undoes)
            return ShopReceipt(head.revision + 1, outcome.changes, head.revision != base)

        return dialects.write(self._engine, work)


def _nothing() -> StoredShop:
    """What stands before anybody settled anything, without the explanations."""
    return StoredShop(0, SMALLEST)


def _content(stored: StoredShop) -> Content:
    return Content(stored.data, {})


def _refuse_open(outcome: Outcome) -> None:
    if outcome.clashes:
        said = (
            say(
                "{field}: {author} has changed it meanwhile; it is {now}, you wanted {asked}",
                field=clash.field,
                author=clash.author,
                now=clash.stands or say("taken out"),
                asked=clash.asked or say("taken out"),
            )
            for clash in outcome.clashes
        )
        todo = say("Nothing was stored. Look at the settings again.")
        raise StoreRefusal(say("The settings of the shop"), "; ".join(said), todo)
    if outcome.faults:
        raise BadInput(NAME, outcome.faults)
