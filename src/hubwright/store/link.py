"""A customer's link to the measuring sheet of one job: what may be written through it. No database in here."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from functools import cache

from hubwright.errors import BadInput, Fault
from hubwright.jobs.jobfile import known_keys
from hubwright.language import say
from hubwright.parts.base import READERS
from hubwright.store.card import readable
from hubwright.store.fields import CARD
from hubwright.store.leaves import leaves
from hubwright.store.person import CUSTOMER, LONGEST_NAME
from hubwright.store.things import Revision

AXLES, SIDES = ("front", "rear"), ("left", "right")
EVERYTHING = ("car", *AXLES)
"""Where a link leads unless told otherwise: every reading of the measuring sheet."""
OF_AXLE = (
    "hub", "fastener", "motion", "wheel_set", "wheel_set.wheel", "wheel_set.wheel.weight", "wheel_set.tyre",
    "wheel_set.tyre.half_width", "wheel_set.fastener",
)  # fmt: skip
OF_CORNER = ("motion", "brake", "hub", "point", "point.reading", "body_line", "line")
WITHHELD = frozenset({"original", "discs"})
"""Keys of those tables that are decisions."""
BY = "by"
LEAST_DAYS, MOST_DAYS, USUAL_DAYS = 1, 90, 14


@cache
def sheet_tables() -> frozenset[str]:
    """Tables of the job file that hold readings. No wish, request, torque record, package, file or shelf is among them."""
    axle = [name for end in AXLES for name in (end, *(f"{end}.{table}" for table in OF_AXLE))]
    corners = [f"{end}.{side}" for end in AXLES for side in SIDES]
    return frozenset(("car", *axle, *corners, *(f"{corner}.{table}" for corner in corners for table in OF_CORNER)))


@cache
def sheet_fields() -> frozenset[str]:
    """Every reading of the measuring sheet, list numbers left out, in every spelling that may come in."""
    keys = known_keys()
    found = (f"{table}.{key}" for table in sheet_tables() for key in keys[table] if key not in WITHHELD)
    return frozenset(field for field in found if field not in keys)


class WhyNot(StrEnum):
    """Why a link leads nowhere."""

    UNKNOWN = "unknown"
    EXPIRED = "expired"
    REVOKED = "revoked"


@dataclass(frozen=True)
class Link:
    """A link as the shop sees it; the token is known to whoever holds the address, and to nobody else.

    Attributes:
        areas: Where it may write, such as ``rear``, ``rear.left`` or ``front.hub``; readings only, wherever it leads.
        customer: Whose; may be empty.
        uses: How often the address was opened.
    """

    id: str
    job_id: str
    areas: tuple[str, ...]
    customer: str
    made_at: datetime
    made_by: str
    expires_at: datetime
    revoked_at: datetime | None
    revoked_by: str | None
    uses: int
    used_at: datetime | None

    @property
    def author(self) -> str:
        """Who stands beside what comes in through it."""
        return f"{CUSTOMER}: {self.customer}" if self.customer else CUSTOMER

    @property
    def note(self) -> str:
        """What stands in the history beside it."""
        return f"link {self.id}"

    def why_not(self, now: datetime) -> WhyNot | None:
        """Why it leads nowhere at a moment; None when it does."""
        if self.revoked_at is not None:
            return WhyNot.REVOKED
        return WhyNot.EXPIRED if now >= self.expires_at else None


def may_write(link: Link, field: str, value: str | None = None) -> bool:
    """Whether a link permits to write a field: readings of the measuring sheet, inside its areas, read by the customer.

    A whole table cannot be taken out: a place the wheel could touch must not vanish.

    Args:
        link: The link.
        field: As in an entry, such as ``rear.left.point[1].reading[+]``.
        value: The TOML value; with a table in it everything in the table must be permitted. None takes the field out.
    """
    try:
        filled = leaves(field, value)
    except BadInput:
        return False
    areas = [tuple(area.split(".")) for area in link.areas]
    return all(
        any(keys[: len(area)] == area for area in areas)
        and _is_reading(keys)
        and (keys[-1] != BY or held in (None, READERS[1]))
        for keys, held in filled
    )


def _is_reading(keys: tuple[str, ...]) -> bool:
    """Whether the place is a reading of the sheet, or lies in one: its repeats, doubt, method and reader."""
    return any(".".join(keys[:end]) in sheet_fields() for end in range(1, len(keys) + 1))


def came_through(link: Link, history: Iterable[Revision]) -> tuple[Revision, ...]:
    """What came into the job through a link, oldest first."""
    return tuple(step for step in history if step.note == link.note and step.author == link.author)


def faults_of_link(areas: tuple[str, ...], customer: str, days: int) -> Iterator[Fault]:
    """Everything wrong with a link that is asked for."""
    if not areas:
        yield Fault("areas", say("where it may write, such as rear or front.left"), say("nothing"))
    for area in areas:
        if area.startswith(CARD) or (area not in sheet_tables() and area not in sheet_fields()):
            yield Fault("areas", say("places of the measuring sheet, such as rear or front.left"), repr(area[:60]))
    if not readable(customer) or len(customer) > LONGEST_NAME or not customer.isprintable():
        wanted = say("at most {count} letters that can be printed", count=LONGEST_NAME)
        yield Fault("customer", wanted, repr(customer[:40]))
    if not LEAST_DAYS <= days <= MOST_DAYS:
        yield Fault("days", say("{low} to {high} days", low=LEAST_DAYS, high=MOST_DAYS), str(days))
