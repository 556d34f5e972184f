"""From a stored job to printed sheets."""

from __future__ import annotations

from datetime import date
from hashlib import sha256

from hubwright.quantities.text import speaking
from hubwright.reports import Identity, Options, Photograph
from hubwright.reports.printing import Order
from hubwright.store.blobs import SHOWN
from hubwright.store.card import day_in
from hubwright.store.things import Query
from hubwright.web.desk import Desk, Seen, sound

PRINTABLE = ("image/jpeg", "image/png")
MOST_JOBS = 60
"""Jobs of one day printed together."""


def identity(desk: Desk, seen: Seen, address: str, *, with_pictures: bool = False) -> Identity:
    """What matches a sheet with the record.

    Args:
        desk: The desk.
        seen: The job.
        address: Where the program is reached, for the QR code; empty = none.
        with_pictures: Whether the bytes of attached photographs come along.
    """
    stored = seen.stored
    return Identity(
        sha256=sha256(stored.data).hexdigest(),
        job_id=stored.id,
        revision=stored.revision,
        address=address,
        customer=stored.card.get("@customer", ""),
        due=day_in(stored.card.get("@due")),
        photographs=tuple(_photographs(desk, stored.id, with_pictures)),
        workshop=desk.cupboard.shop.now().letterhead,
    )


def orders(desk: Desk, seen: Seen, kinds: tuple[str, ...], options: Options, address: str) -> list[Order]:
    """The sheets of one job, its answer spoken as the paper wants it.

    Raises:
        BadInput: while the job file has faults.
    """
    job = sound(seen)
    with speaking(options.units, options.language):
        answer = desk.answer(seen)
    own = identity(desk, seen, address, with_pictures="inspection" in kinds)
    return [Order(kind, job, answer, own) for kind in kinds]


def jobs_of(desk: Desk, day: date) -> tuple[Seen, ...]:
    """Sound jobs of one day, in the order of their titles."""
    lines = desk.cupboard.find(Query(since=day, until=day, limit=MOST_JOBS))
    seen = (desk.seen(line.id) for line in sorted(lines, key=lambda line: line.title))
    return tuple(one for one in seen if one.job is not None)


def _photographs(desk: Desk, job_id: str, with_pictures: bool) -> list[Photograph]:
    found = []
    for item in desk.cupboard.attachments(job_id):
        if item.kind in SHOWN:
            data = desk.cupboard.fetch(item.id)[1] if with_pictures and item.kind in PRINTABLE else None
            found.append(Photograph(item.name, item.sha256, item.note, data))
    return found
