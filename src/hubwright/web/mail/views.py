"""What the shop sees of its customers' links."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from markupsafe import Markup

from hubwright.errors import Fault
from hubwright.language import say
from hubwright.store.link import MOST_DAYS, USUAL_DAYS, Link, WhyNot, came_through
from hubwright.store.things import Aside, Revision
from hubwright.web.frame import Frame


@dataclass(frozen=True)
class Made:
    """A link made just now: its address is shown this once."""

    link: Link
    address: str
    code: Markup
    only_here: bool


@dataclass(frozen=True)
class LinkLine:
    """One link with what came through it.

    Attributes:
        why_not: Why it leads nowhere any more; None while it does.
        entries: Revisions of the job that came through it.
        asides: Entries that were put aside.
    """

    link: Link
    why_not: WhyNot | None
    entries: tuple[Revision, ...]
    asides: tuple[Aside, ...]

    @property
    def state(self) -> str:
        """How it stands, in words."""
        if self.why_not is WhyNot.REVOKED:
            return say("revoked by {name}", name=self.link.revoked_by or "")
        return say("ended") if self.why_not is WhyNot.EXPIRED else say("open")

    @property
    def where(self) -> str:
        """Where it leads, in words."""
        return "; ".join(area_words(area) for area in self.link.areas)

    @property
    def values(self) -> int:
        """How many fields came through it."""
        return sum(len(step.changes) for step in self.entries)


@dataclass(frozen=True)
class CustomerView:
    """Links of one job.

    Attributes:
        areas: For the form: code, words, ticked.
        made: The one made just now.
        typed: Name and days as typed.
    """

    frame: Frame
    lines: tuple[LinkLine, ...]
    areas: tuple[tuple[str, str, bool], ...]
    customer: str
    days: str
    made: Made | None = None
    faults: tuple[Fault, ...] = ()
    most_days: int = MOST_DAYS

    def fault(self, name: str) -> Fault | None:
        """What is wrong with one field."""
        return next((fault for fault in self.faults if fault.field == name), None)


def area_words(area: str) -> str:
    """A part of the car in words; a place the pages do not offer as it is written."""
    return {
        "car": say("the car itself"),
        "front": say("the whole front axle"),
        "rear": say("the whole rear axle"),
        "front.left": say("front left"),
        "front.right": say("front right"),
        "rear.left": say("rear left"),
        "rear.right": say("rear right"),
    }.get(area, area)


OFFERED = ("car", "front", "rear", "front.left", "front.right", "rear.left", "rear.right")


def areas_for(chosen: Sequence[str]) -> tuple[tuple[str, str, bool], ...]:
    """Parts of the car a link can lead to, those chosen ticked."""
    return tuple((area, area_words(area), area in chosen) for area in OFFERED)


def lines_of(
    links: Sequence[Link], history: Sequence[Revision], asides: Sequence[Aside], now: datetime
) -> tuple[LinkLine, ...]:
    """Every link with what came through it."""
    return tuple(
        LinkLine(
            link,
            link.why_not(now),
            came_through(link, history),
            tuple(aside for aside in asides if aside.note == link.note and aside.author == link.author),
        )
        for link in links
    )


USUAL = str(USUAL_DAYS)
