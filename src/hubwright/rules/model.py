"""What a rule file says, once read."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

ON_BREACH = ("refused", "approval needed", "declaration needed", "reject at inspection")
HOW_SEEN = ("read", "secondary copy", "memory")
OBLIGATION_KINDS = ("duty", "definition")

FACTS: dict[str, tuple[str, ...]] = {
    "frame": ("ladder", "unibody"),
    "category": ("passenger", "off-road", "goods"),
    "axle": ("steered", "not steered"),
    "axle_original": ("yes", "no"),
    "approval": ("national", "EC"),
    "seats": ("under 10", "10 or more"),
    "wheel": ("original", "replacement"),
    "tyre": ("normal", "snow"),
}
"""What a rule may be restricted to, and the words for it."""

Filter = Mapping[str, tuple[str, ...]]


@dataclass(frozen=True)
class Rule:
    """One dated limit with its papers.

    Attributes:
        id: Unique over all files, begins with the jurisdiction.
        jurisdiction: Whose rule it is.
        title: What it limits, in words.
        quantity: Name in `quantity.QUANTITIES`.
        unit: Unit of the limit.
        comparison: Name in `comparisons.COMPARISONS`.
        values: The figures the comparison takes.
        per: axle, side or vehicle.
        reference: What the figure is measured against (which track!); empty where nothing is.
        applies: Facts of which every one must be met; a fact is met by any of its words.
        unless: Facts which, all met together, switch the rule off.
        starts: First day; None where it is not known.
        ends: Last day; None while in force.
        date_note: What is known about the dates.
        replaces: Rules of a parent jurisdiction that give way to this one.
        on_breach: What a breach leads to, one of `ON_BREACH`.
        breach: The same in plain words.
        source: Document.
        clause: Place in it.
        how_seen: read, secondary copy or memory.
        confidence: 0 to 1.
        what_to_do: What the technician does about it.
    """

    id: str
    jurisdiction: str
    title: str
    quantity: str
    unit: str
    comparison: str
    values: tuple[float, ...]
    per: str
    reference: str
    applies: Filter
    unless: Filter
    starts: date | None
    ends: date | None
    date_note: str
    replaces: tuple[str, ...]
    on_breach: str
    breach: str
    source: str
    clause: str
    how_seen: str
    confidence: float
    what_to_do: str

    @property
    def citation(self) -> str:
        """Source and clause in one line."""
        return ", ".join(part for part in (self.source, self.clause) if part)

    def in_force(self, on: date) -> bool:
        """Whether the limit holds on a day; an unknown first day counts as long past."""
        return (self.starts is None or self.starts <= on) and (self.ends is None or on <= self.ends)


@dataclass(frozen=True)
class Obligation:
    """Something the law asks that is never computed here: a duty is always open for the inspector.

    ``kind`` is ``duty``, or ``definition`` for a text that only fixes the meaning of a word.
    """

    id: str
    jurisdiction: str
    kind: str
    text: str
    starts: date | None
    ends: date | None
    source: str
    clause: str
    how_seen: str
    confidence: float
    what_to_do: str

    @property
    def citation(self) -> str:
        """Source and clause in one line."""
        return ", ".join(part for part in (self.source, self.clause) if part)

    def in_force(self, on: date) -> bool:
        """Whether it holds on a day; an unknown first day counts as long past."""
        return (self.starts is None or self.starts <= on) and (self.ends is None or on <= self.ends)


@dataclass(frozen=True)
class Jurisdiction:
    """One rule file."""

    code: str
    name: str
    includes: tuple[str, ...]
    includes_why: str
    note: str
    rules: tuple[Rule, ...]
    obligations: tuple[Obligation, ...]


@dataclass(frozen=True)
class Unanswered:
    """A jurisdiction about which nothing can be said, and why."""

    jurisdiction: str
    reason: str


@dataclass(frozen=True)
class RuleSet:
    """The law of some jurisdictions on a day.

    Attributes:
        asked: Jurisdictions asked for.
        covered: The same with everything they include, where a file exists.
        on: The day.
        rules: Limits in force.
        obligations: Duties and definitions in force.
        unknown: Jurisdictions without an answer. A set with any is never a pass, whatever the rules say.
    """

    asked: tuple[str, ...]
    covered: tuple[str, ...]
    on: date
    rules: tuple[Rule, ...]
    obligations: tuple[Obligation, ...]
    unknown: tuple[Unanswered, ...]

    @property
    def known(self) -> bool:
        """Whether every jurisdiction asked for has an answer."""
        return not self.unknown
