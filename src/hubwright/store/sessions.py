"""Who is signed in. A session is a random token in a cookie; only its SHA-256 is stored."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import Connection, Engine, delete, insert, or_, select, update

from hubwright.errors import StoreRefusal
from hubwright.language import say
from hubwright.store import dialects
from hubwright.store.people import person_of
from hubwright.store.person import Person
from hubwright.store.rows import time_of, time_text
from hubwright.store.secret import digest, new_token
from hubwright.store.tables import person, session

IDLE = timedelta(hours=12)
"""So long a tablet may lie about: a working day."""
LONGEST = timedelta(days=7)
NOTED_EVERY = timedelta(minutes=5)
"""How exactly the last sight is kept; to write it at every page would wear the disk for nothing."""


@dataclass(frozen=True)
class Session:
    """One device somebody is signed in on.

    Attributes:
        seen_at: Last sight, to some minutes.
        ends_at: The end, however busy it is.
    """

    made_at: datetime
    seen_at: datetime
    ends_at: datetime


class Sessions:
    """Signing in, being recognised, signing out."""

    def __init__(self, engine: Engine, clock: Callable[[], datetime], new: Callable[[], str] = new_token) -> None:
        self._engine, self._clock, self._new = engine, clock, new

    def begin(self, person_id: str) -> str:
        """A new session; the token for the cookie. What ran out, of anybody, is cleared away.

        Raises:
            StoreRefusal: when the person has no access, or nothing could be stored.
        """
        now, token = self._clock(), self._new()
        row = {
            "token_sha256": digest(token),
            "person_id": person_id,
            "made_at": time_text(now),
            "seen_at": time_text(now),
            "ends_at": time_text(now + LONGEST),
        }

        def work(connection: Connection) -> None:
            active = select(person.c.id).where(person.c.id == person_id, person.c.left_at.is_(None))
            if connection.execute(active.with_for_update(read=True)).first() is None:
                raise StoreRefusal(
                    say("The session"), say("this account has no access"), say("Ask whoever manages the accounts.")
                )
            over = or_(session.c.ends_at <= time_text(now), session.c.seen_at <= time_text(now - IDLE))
            connection.execute(delete(session).where(or_(over, session.c.token_sha256 == row["token_sha256"])))
            connection.execute(insert(session).values(**row))

        dialects.write(self._engine, work)
        return token

    def who(self, token: str) -> Person | None:
        """The person signed in with a token; None when it is unknown, ran out or lost its access."""
        now, hashed = self._clock(), digest(token)
        wanted = (
            select(person, session.c.seen_at)
            .join_from(session, person, session.c.person_id == person.c.id)
            .where(
                session.c.token_sha256 == hashed,
                session.c.ends_at > time_text(now),
                session.c.seen_at > time_text(now - IDLE),
                person.c.left_at.is_(None),
            )
        )
        row = dialects.read(self._engine, lambda connection: connection.execute(wanted).mappings().first())
        if row is None:
            return None
        if time_of(row["seen_at"]) <= now - NOTED_EVERY:
            seen = update(session).where(session.c.token_sha256 == hashed).values(seen_at=time_text(now))
            dialects.write(self._engine, lambda connection: connection.execute(seen))
        return person_of(row)

    def end(self, token: str) -> None:
        """Sign out; of a token nobody has, nothing happens."""
        gone = delete(session).where(session.c.token_sha256 == digest(token))
        dialects.write(self._engine, lambda connection: connection.execute(gone))

    def end_all(self, person_id: str) -> int:
        """Sign somebody out everywhere; how many sessions that ended."""
        gone = delete(session).where(session.c.person_id == person_id)
        return dialects.write(self._engine, lambda connection: connection.execute(gone).rowcount)

    def of(self, person_id: str) -> tuple[Session, ...]:
        """The sessions of a person that still run, the newest first."""
        now = self._clock()
        wanted = select(session).where(
            session.c.person_id == person_id,
            session.c.ends_at > time_text(now),
            session.c.seen_at > time_text(now - IDLE),
        )
        rows = dialects.read(self._engine, lambda connection: connection.execute(wanted).mappings().all())
        found = (Session(*(time_of(row[name]) for name in ("made_at", "seen_at", "ends_at"))) for row in rows)
        return tuple(sorted(found, key=lambda one: one.made_at, reverse=True))
