"""Links for customers who measure by mail. Only the SHA-256 of a token is stored."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping, Sequence
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import Connection, Engine, insert, select, update

from hubwright.errors import BadInput, StoreRefusal
from hubwright.language import say
from hubwright.store import dialects, tables
from hubwright.store.entries import id_from, no_such_job
from hubwright.store.link import EVERYTHING, USUAL_DAYS, Link, WhyNot, faults_of_link
from hubwright.store.rows import time_of, time_text
from hubwright.store.secret import digest, new_token

Row = Mapping[Any, Any]


class Links:
    """Making, looking up and revoking links. What a method confirms by returning, the disk has."""

    def __init__(
        self,
        engine: Engine,
        clock: Callable[[], datetime],
        new_key: Callable[[], str],
        new: Callable[[], str] = new_token,
    ) -> None:
        self._engine, self._clock, self._new_key, self._new = engine, clock, new_key, new

    def moment(self) -> datetime:
        """The present moment, as links end by it."""
        return self._clock()

    def make(
        self,
        job_id: str,
        by: str,
        *,
        areas: Sequence[str] = EVERYTHING,
        customer: str = "",
        days: int = USUAL_DAYS,
    ) -> tuple[str, Link]:
        """A new link and its token. The token is told here once; nobody can look it up later.

        Args:
            job_id: The job.
            by: Who makes it.
            areas: Where it may write, such as ``("rear",)`` or ``("front.left", "front.hub")``.
            customer: Whose; stands beside what comes in as ``customer: NAME``.
            days: How long it leads anywhere.

        Raises:
            BadInput: with everything wrong with it.
            StoreRefusal: when there is no such job, or nothing could be stored.
        """
        customer = " ".join(customer.split())
        faults = tuple(faults_of_link(tuple(areas), customer, days))
        if faults:
            raise BadInput(say("link"), faults)
        now, token = self._clock(), self._new()
        row = {
            "id": id_from(f"link {self._new_key()}"),
            "token_sha256": digest(token),
            "job_id": job_id,
            "areas": json.dumps(list(dict.fromkeys(areas))),
            "customer": customer,
            "made_at": time_text(now),
            "made_by": by,
            "expires_at": time_text(now + timedelta(days=days)),
            "revoked_at": None,
            "revoked_by": None,
            "uses": 0,
            "used_at": None,
        }

        def work(connection: Connection) -> Link:
            if connection.execute(select(tables.job.c.id).where(tables.job.c.id == job_id)).first() is None:
                raise no_such_job(job_id)
            if (found := _row(connection, row["id"])) is None:  # else the line broke after it was stored
                connection.execute(insert(tables.link).values(**row))
            return _link_of(found or row)

        return token, dialects.write(self._engine, work)

    def look_up(self, token: str) -> Link | WhyNot:
        """What a token permits, or why it leads nowhere."""
        wanted = select(tables.link).where(tables.link.c.token_sha256 == digest(token))
        row = dialects.read(self._engine, lambda connection: connection.execute(wanted).mappings().first())
        if row is None:
            return WhyNot.UNKNOWN
        link = _link_of(row)
        return link.why_not(self._clock()) or link

    def count_use(self, link_id: str) -> None:
        """Note that the address was opened."""
        link, now = tables.link, time_text(self._clock())
        opened = update(link).where(link.c.id == link_id).values(uses=link.c.uses + 1, used_at=now)
        dialects.write(self._engine, lambda connection: connection.execute(opened))

    def revoke(self, link_id: str, by: str) -> Link:
        """Let a link lead nowhere from now on; who was first stays.

        Raises:
            StoreRefusal: when there is none.
        """
        link, now = tables.link, time_text(self._clock())
        ended = update(link).where(link.c.id == link_id, link.c.revoked_at.is_(None))

        def work(connection: Connection) -> Link:
            connection.execute(ended.values(revoked_at=now, revoked_by=by))
            if (row := _row(connection, link_id)) is None:
                raise StoreRefusal(
                    repr(link_id[:40]), say("there is no such link"), say("Look at the job again."), missing=True
                )
            return _link_of(row)

        return dialects.write(self._engine, work)

    def of(self, job_id: str) -> tuple[Link, ...]:
        """The links of a job, the newest first, those that lead nowhere any more too."""
        wanted = select(tables.link).where(tables.link.c.job_id == job_id)
        rows = dialects.read(self._engine, lambda connection: connection.execute(wanted).mappings().all())
        return tuple(sorted(map(_link_of, rows), key=lambda link: (link.made_at, link.id), reverse=True))


def _row(connection: Connection, link_id: Any) -> Row | None:
    return connection.execute(select(tables.link).where(tables.link.c.id == link_id)).mappings().first()


def _link_of(row: Row) -> Link:
    revoked, used = row["revoked_at"], row["used_at"]
    return Link(
        row["id"],
        row["job_id"],
        tuple(json.loads(row["areas"])),
        row["customer"],
        time_of(row["made_at"]),
        row["made_by"],
        time_of(row["expires_at"]),
        None if revoked is None else time_of(revoked),
        row["revoked_by"],
        row["uses"],
        None if used is None else time_of(used),
    )
