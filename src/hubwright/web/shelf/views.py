"""What the shelf shows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from urllib.parse import urlencode

from hubwright.errors import Fault
from hubwright.language import say
from hubwright.language.words import stage_word
from hubwright.rules.ruleset import jurisdictions
from hubwright.store.card import day_in
from hubwright.store.cupboard import Cupboard
from hubwright.store.things import JobLine, Query, Stage

PAGE = 50
SOON_DAYS = 2
"""A re-torque appointment this near is shown first."""


@dataclass(frozen=True)
class Shelf:
    """The list of jobs.

    Attributes:
        asked: What was looked for, by field of the form.
        lines: Jobs found, the one changed last first.
        due: Jobs whose re-torque appointment is near or over; only on the plain shelf.
        returned: Jobs that came back; only on the plain shelf.
        waiting: Jobs with an entry put aside; only on the plain shelf.
        skip: How many jobs came before.
        more: Whether there are further ones.
        empty: Whether the shop has no job at all.
        stages: For the form.
    """

    asked: Mapping[str, str]
    lines: tuple[JobLine, ...]
    due: tuple[JobLine, ...]
    returned: tuple[JobLine, ...]
    waiting: tuple[JobLine, ...]
    skip: int
    more: bool
    empty: bool
    today: date

    @property
    def searching(self) -> bool:
        """Whether anything was looked for."""
        return any(self.asked.values())

    @property
    def stage_options(self) -> tuple[tuple[str, str], ...]:
        """Stages for the form."""
        return (("", say("any")), *((stage.value, stage_word(stage)) for stage in Stage))

    def address(self, step: int) -> str:
        """The page before (−1) or after (+1) this one, with the same search."""
        asked = {name: value for name, value in self.asked.items() if value}
        skip = max(self.skip + step * PAGE, 0)
        return "?" + urlencode({**asked, **({"skip": skip} if skip else {})})


@dataclass(frozen=True)
class NewJob:
    """The form for a new job, with what was typed."""

    typed: Mapping[str, str] = field(default_factory=dict)
    faults: tuple[Fault, ...] = ()
    countries: tuple[str, ...] = field(default_factory=lambda: tuple(jurisdictions()))

    def value(self, name: str) -> str:
        """What was typed into one field."""
        return self.typed.get(name, "")

    def fault(self, name: str) -> Fault | None:
        """What is wrong with one field."""
        return next((fault for fault in self.faults if fault.field == name), None)


def query_of(asked: Mapping[str, str], skip: int) -> Query:
    """What to look for; a stage, axle or day that is none is left out."""
    stage = next((stage for stage in Stage if stage.value == asked.get("stage")), None)
    axle = asked.get("axle") if asked.get("axle") in ("front", "rear") else None
    return Query(
        words=asked.get("words", "")[:200], plate=asked.get("plate", "")[:40], customer=asked.get("customer", "")[:100],
        axle=axle, stage=stage, since=day_in(asked.get("since")), until=day_in(asked.get("until")), limit=PAGE + 1, skip=skip,
    )  # fmt: skip


def shelf_of(cupboard: Cupboard, asked: Mapping[str, str], skip: int, today: date) -> Shelf:
    """Look through the shelf."""
    lines = cupboard.find(query_of(asked, skip))
    due: tuple[JobLine, ...] = ()
    returned: tuple[JobLine, ...] = ()
    waiting: tuple[JobLine, ...] = ()
    if not any(asked.values()) and not skip:
        soon = today + timedelta(days=SOON_DAYS)
        due = cupboard.find(Query(stage=Stage.WAITING, due_by=soon))
        returned = cupboard.find(Query(stage=Stage.RETURNED))
        waiting = cupboard.find(Query(only_open_asides=True))
    empty = not lines and not any(asked.values()) and not skip
    return Shelf(asked, lines[:PAGE], due, returned, waiting, skip, len(lines) > PAGE, empty, today)


def use_words() -> tuple[tuple[str, str], ...]:
    """Kinds of use with their words."""
    return (
        ("street", say("street")), ("laden", say("laden or towing")), ("track", say("track")),
        ("off-road", say("off-road")),
    )  # fmt: skip
