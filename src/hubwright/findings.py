"""Answers. A bad fit is a result, not an exception: every question put to a car ends in a `Finding`."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from hubwright.language import say
from hubwright.language.words import side_word


class Verdict(StrEnum):
    """How a question ended. Unknown never counts as a pass."""

    PASS = "pass"
    CAUTION = "caution"
    UNKNOWN = "unknown"
    FAIL = "fail"


SEVERITY = {Verdict.PASS: 0, Verdict.CAUTION: 1, Verdict.UNKNOWN: 2, Verdict.FAIL: 3}


def worst(verdicts: Iterable[Verdict]) -> Verdict:
    """The worst of several; of none at all: unknown, since nothing was asked."""
    return max(verdicts, key=SEVERITY.__getitem__, default=Verdict.UNKNOWN)


class Evidence(StrEnum):
    """What a clearance rests on, best first. Only the first may release a car."""

    FITTED = "measured with the disc fitted"
    MEASURED = "measured bare"
    PREDICTED = "predicted from measurements"
    STATED = "stated by a customer"
    NONE = "nothing measured"


EVIDENCE_RANK = {grade: rank for rank, grade in enumerate(Evidence)}


def weakest(grades: Iterable[Evidence]) -> Evidence:
    """The weakest of several; of none at all: nothing measured."""
    return max(grades, key=EVIDENCE_RANK.__getitem__, default=Evidence.NONE)


@dataclass(frozen=True)
class Case:
    """Where a limit comes from.

    Attributes:
        side: ``left``, ``right`` or ``both``.
        item: The point, part or rule that governs.
        state: Ride height and steer at which it does, in words.
    """

    side: str
    item: str
    state: str = ""

    def __str__(self) -> str:
        return ", ".join(part for part in (side_word(self.side), self.item, self.state) if part)


@dataclass(frozen=True)
class Step:
    """One line of working, with the paper it rests on."""

    text: str
    source: str = ""


@dataclass(frozen=True)
class Finding:
    """One question, answered for one disc.

    Attributes:
        question: Which window asked: clearance, brake, centring, fastener, law, policy.
        verdict: How it ended.
        sentence: One plain sentence with its number.
        margin_mm: What is left (negative: how much is missing), where the question is one of mm.
        case: Where it comes from.
        evidence: What it rests on.
        working: How the figure was found.
        todo: What to do now.
    """

    question: str
    verdict: Verdict
    sentence: str
    margin_mm: float | None = None
    case: Case | None = None
    evidence: Evidence = Evidence.MEASURED
    working: tuple[Step, ...] = ()
    todo: str = ""


@dataclass(frozen=True)
class Interval:
    """Thicknesses from ``low_mm`` to ``high_mm``, both allowed; None = no bound on that side."""

    low_mm: float | None
    high_mm: float | None

    def holds(self, thickness_mm: float) -> bool:
        """Whether the thickness lies inside, float noise of 1e-9 forgiven."""
        above = self.low_mm is None or thickness_mm >= self.low_mm - 1e-9
        return above and (self.high_mm is None or thickness_mm <= self.high_mm + 1e-9)


@dataclass(frozen=True)
class Bound:
    """One end of a window: no thicker (``most``) or no thinner (``least``) than ``at_mm``, and who says so."""

    kind: str
    at_mm: float
    case: Case
    sentence: str
    evidence: Evidence = Evidence.MEASURED


@dataclass(frozen=True)
class Wanted:
    """A reading that is missing, and what taking it is worth; `wanted` makes one.

    Attributes:
        what: The reading, with its side where it has one.
        how: How to take it.
        question: The window it opens.
        worth_mm: Doubt about the allowed thickness that it would remove, mm; an order of merit, not a promise.
        needed: Whether there is no answer without it.
        thing: The reading without its side, for a sentence that names the side already.
        side: ``left``, ``right``, ``both``, or empty.
        about: ``bump`` or ``lock`` where a clearance map may know it as well.
    """

    what: str
    how: str
    question: str
    worth_mm: float
    needed: bool = True
    thing: str = ""
    side: str = ""
    about: str = ""


def wanted(
    thing: str, how: str, question: str, worth_mm: float, side: str = "", *, needed: bool = True, about: str = ""
) -> Wanted:
    """A missing reading of one side, or of none."""
    what = say("{thing}, {side}", thing=thing, side=side_word(side)) if side else thing
    return Wanted(what, how, question, worth_mm, needed, thing, side, about)


@dataclass(frozen=True)
class Window:
    """The thicknesses one question allows on one axle for one kind of disc.

    Attributes:
        question: clearance, brake, centring, fastener, law or policy.
        disc: ``plain``, ``lipped``, ``bolted`` or ``any``.
        side: ``left``, ``right`` or ``both``.
        intervals: Thicknesses that pass, ascending; empty = none does.
        bounds: All bounds found, the governing one of each kind first.
        known: False when a needed reading is missing; then the intervals are only what can be ruled out.
        evidence: The weakest thing it rests on.
        sentence: The window in one plain sentence.
    """

    question: str
    disc: str
    side: str
    intervals: tuple[Interval, ...]
    bounds: tuple[Bound, ...] = ()
    known: bool = True
    evidence: Evidence = Evidence.MEASURED
    sentence: str = ""
    missing: tuple[Wanted, ...] = ()

    def allows(self, thickness_mm: float) -> bool:
        """Whether any interval holds the thickness."""
        return any(interval.holds(thickness_mm) for interval in self.intervals)
