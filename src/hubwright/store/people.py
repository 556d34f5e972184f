"""The people of the shop: who has an account and what they may do. There is always somebody who can manage."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Engine, insert, select, update

from hubwright.errors import BadInput, Fault, StoreRefusal
from hubwright.language import say
from hubwright.store import dialects
from hubwright.store.entries import id_from
from hubwright.store.person import (
    Person,
    Role,
    faults_of_name,
    faults_of_password,
    faults_of_role,
    key_of,
    tidied,
)
from hubwright.store.rows import time_of, time_text
from hubwright.store.secret import Passwords
from hubwright.store.tables import person, session

Row = Mapping[Any, Any]


class People:
    """Accounts. What a method confirms by returning, the disk has."""

    def __init__(
        self,
        engine: Engine,
        clock: Callable[[], datetime],
        new_key: Callable[[], str],
        passwords: Passwords | None = None,
    ) -> None:
        self._engine, self._clock, self._new_key = engine, clock, new_key
        self._passwords = passwords or Passwords()

    def add(self, name: str, password: str, role: str, by: str) -> Person:
        """A new account.

        Args:
            name: Unlike every other, capitals aside; deactivated people keep theirs.
            password: At least ten characters, not the name.
            role: measure, decide or manage. The first person must manage.
            by: Who adds them.

        Raises:
            BadInput: with everything wrong with name, password and role.
            StoreRefusal: when nothing could be stored.
        """
        faults = [*faults_of_name(name), *faults_of_password(password, name), *faults_of_role(role)]
        if self._is_taken(name):
            faults.append(_taken(name))
        _refuse(faults)
        plain, hashed, now = tidied(name), self._passwords.hashed(password), time_text(self._clock())
        row = {
            "id": id_from(f"person {self._new_key()}"),
            "name": plain,
            "name_key": key_of(plain),
            "password": hashed,
            "role": role,
            "made_at": now,
            "made_by": by,
            "changed_at": now,
            "changed_by": by,
            "left_at": None,
        }

        def work(connection: Connection) -> Person:
            dialects.hold(connection, person)
            if (found := _row(connection, plain)) is not None:
                if found["id"] == row["id"]:  # the line broke after it was stored
                    return person_of(found)
                _refuse([_taken(name)])
            if role != Role.MANAGE and not _managers(connection):
                wanted, todo = Role.MANAGE.value, say("The first person must be able to manage the others.")
                _refuse([Fault("role", wanted, role, todo)])
            connection.execute(insert(person).values(**row))
            return person_of(row)

        return dialects.write(self._engine, work)

    def set_role(self, name: str, role: str, by: str) -> Person:
        """Give somebody another role.

        Raises:
            BadInput: when there is no such role.
            StoreRefusal: when there is no such person, or nobody active could manage any more.
        """
        _refuse(faults_of_role(role))
        return self._change(name, {"role": role}, by)

    def set_password(self, name: str, password: str, by: str) -> Person:
        """Give somebody a new password; all their sessions end.

        Raises:
            BadInput: with everything wrong with the password.
            StoreRefusal: when there is no such person.
        """
        _refuse(faults_of_password(password, name))
        return self._change(name, {"password": self._passwords.hashed(password)}, by, ends_sessions=True)

    def refuse_password(self, password: str, name: str) -> None:
        """Hold back a password that could not be set; nothing is stored either way.

        Raises:
            BadInput: with everything wrong with it.
        """
        _refuse(faults_of_password(password, name))

    def deactivate(self, name: str, by: str) -> Person:
        """Take somebody's access away; their sessions end, what they entered keeps their name.

        Raises:
            StoreRefusal: when there is no such person, or nobody active could manage any more.
        """
        return self._change(name, {"left_at": time_text(self._clock())}, by, ends_sessions=True)

    def activate(self, name: str, by: str) -> Person:
        """Give access back, with role and password as they were.

        Raises:
            StoreRefusal: when there is no such person.
        """
        return self._change(name, {"left_at": None}, by)

    def everybody(self) -> tuple[Person, ...]:
        """All people, by name, those without access too."""
        rows = dialects.read(
            self._engine, lambda c: c.execute(select(person).order_by(person.c.name_key)).mappings().all()
        )
        return tuple(person_of(row) for row in rows)

    def named(self, name: str) -> Person:
        """The person of a name.

        Raises:
            StoreRefusal: when there is none.
        """
        row = dialects.read(self._engine, lambda connection: _row(connection, name))
        if row is None:
            raise _unknown(name)
        return person_of(row)

    def can_be_managed(self) -> bool:
        """Whether anybody with access may manage; without one a server on a network would lock everybody out."""
        return bool(dialects.read(self._engine, _managers))

    def sign_in(self, name: str, password: str) -> Person | None:
        """The person, when name and password belong together and they have access; nobody otherwise.

        An unknown name takes as long as a known one. A hash of older parameters is made again.
        """
        row = dialects.read(self._engine, lambda connection: _row(connection, name))
        fits = self._passwords.fits(password, None if row is None else row["password"])
        if row is None or not fits or row["left_at"] is not None:
            return None
        if self._passwords.is_old(row["password"]):
            self._hash_again(row, password)
        return person_of(row)

    def _hash_again(self, row: Row, password: str) -> None:
        better = self._passwords.hashed(password)
        same = (person.c.id == row["id"], person.c.password == row["password"])
        dialects.write(self._engine, lambda c: c.execute(update(person).where(*same).values(password=better)))

    def _is_taken(self, name: str) -> bool:
        return dialects.read(self._engine, lambda connection: _row(connection, name)) is not None

    def _change(self, name: str, values: dict[str, Any], by: str, *, ends_sessions: bool = False) -> Person:
        stamped = {**values, "changed_at": time_text(self._clock()), "changed_by": by}

        def work(connection: Connection) -> Person:
            dialects.hold(connection, person)
            before = _row(connection, name)
            if before is None:
                raise _unknown(name)
            connection.execute(update(person).where(person.c.id == before["id"]).values(**stamped))
            if not _managers(connection):
                why = say("nobody with access could manage any more")
                raise StoreRefusal(before["name"], why, say("Let somebody else manage first."))
            if ends_sessions:
                connection.execute(session.delete().where(session.c.person_id == before["id"]))
            return person_of({**before, **stamped})

        return dialects.write(self._engine, work)


def _row(connection: Connection, name: str) -> Row | None:
    key = key_of(name) if "\0" not in name else ""
    return connection.execute(select(person).where(person.c.name_key == key)).mappings().first()


def _managers(connection: Connection) -> list[str]:
    active = select(person.c.id).where(person.c.role == Role.MANAGE.value, person.c.left_at.is_(None))
    return list(connection.execute(active).scalars())


def person_of(row: Row) -> Person:
    """The person in a row of their table."""
    return Person(
        row["id"],
        row["name"],
        Role(row["role"]),
        row["left_at"] is None,
        time_of(row["made_at"]),
        row["made_by"],
        time_of(row["changed_at"]),
        row["changed_by"],
    )


def _taken(name: str) -> Fault:
    return Fault("name", say("a name nobody else has"), repr(tidied(name)), say("Add a letter or a surname."))


def _unknown(name: str) -> StoreRefusal:
    why = say("nobody of that name has an account")
    return StoreRefusal(repr(name[:40]), why, say("See hubwright store people list."), missing=True)


def _refuse(faults: Iterable[Fault]) -> None:
    found = tuple(faults)
    if found:
        raise BadInput(say("person"), found)
