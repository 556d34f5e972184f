"""What the pages of the law show."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from hubwright.checks.law import NOT_ADVICE, law_of
from hubwright.errors import Fault
from hubwright.findings import Verdict
from hubwright.jobs.answer import PackageAnswer
from hubwright.jobs.law_table import LawTable, law_table
from hubwright.jobs.shown import Shown
from hubwright.language import say
from hubwright.language.part_words import breach_word, fact_word, seen_word
from hubwright.rules.comparisons import limit_words
from hubwright.rules.model import Jurisdiction, Obligation, Rule, RuleSet
from hubwright.rules.ruleset import all_rules
from hubwright.web.desk import Desk, Seen
from hubwright.web.frame import Frame, axle_words, frame_of
from hubwright.web.law.asked import AskedLaw
from hubwright.web.law.words import dates_words
from hubwright.web.looked_at import SHAPES, LookedAt, Pill, pills, why_words


class _Words:
    """Words the templates of the law share."""

    @property
    def not_advice(self) -> str:
        """Beside every page of the law."""
        return say(NOT_ADVICE)

    def said(self, text: str) -> str:
        """A text of a rule file in the language spoken."""
        return say(text)

    def limit(self, rule: Rule) -> str:
        """The limit in words."""
        return limit_words(rule)

    def seen(self, thing: Rule | Obligation) -> str:
        """How it was seen."""
        return seen_word(thing.how_seen)

    def dates(self, thing: Rule | Obligation) -> str:
        """From when to when it holds."""
        return dates_words(thing)

    def breach(self, rule: Rule) -> str:
        """What a breach leads to."""
        return breach_word(rule.on_breach)

    def facts(self, facts: tuple[str, ...]) -> str:
        """Facts a rule hangs on."""
        return "; ".join(fact_word(fact) for fact in facts)

    def shape(self, verdict: Verdict) -> str:
        """Shape of a verdict."""
        return SHAPES[verdict]

    def why(self, shown: Shown) -> str:
        """Why a disc is shown."""
        return why_words(shown)


@dataclass(frozen=True)
class AxleLaw:
    """One axle on the page; packages are the offered ones, with what the law says of them."""

    title: str
    table: LawTable
    packages: tuple[PackageAnswer, ...]


@dataclass(frozen=True)
class LawView(_Words):
    """The law of one job.

    Attributes:
        asked: Whose law and which day; None while the job file has faults.
        countries: Every jurisdiction there is a file for: code, name, whether it is asked.
        rules: In force.
        axles: Front first.
        waiting: Whether a map is still being drawn, so that recommendations rest on readings alone.
        duties, definitions: Of the countries asked, open for the inspector.
    """

    frame: Frame
    looked: LookedAt
    asked: AskedLaw | None = None
    countries: tuple[tuple[str, str, bool], ...] = ()
    rules: RuleSet | None = None
    axles: tuple[AxleLaw, ...] = ()
    pills: tuple[Pill, ...] = ()
    waiting: bool = False

    @property
    def faults(self) -> tuple[Fault, ...]:
        """Everything wrong with the address."""
        return (*self.looked.faults, *(self.asked.faults if self.asked else ()))

    def fault(self, field: str) -> Fault | None:
        """What is wrong with one field."""
        return next((fault for fault in self.faults if fault.field == field), None)

    @property
    def duties(self) -> tuple[Obligation, ...]:
        """What only an inspector can judge."""
        return tuple(duty for duty in self.rules.obligations if duty.kind == "duty") if self.rules else ()

    @property
    def definitions(self) -> tuple[Obligation, ...]:
        """Texts that fix the meaning of a word."""
        return tuple(duty for duty in self.rules.obligations if duty.kind != "duty") if self.rules else ()


@dataclass(frozen=True)
class Pack:
    """One rule file on a day."""

    law: Jurisdiction
    in_force: tuple[Rule, ...]
    ended: tuple[Rule, ...]
    coming: tuple[Rule, ...]
    duties: tuple[Obligation, ...]


@dataclass(frozen=True)
class PacksView(_Words):
    """Every pack, or one of them."""

    on: date
    typed_day: str
    packs: tuple[Pack, ...]
    faults: tuple[Fault, ...] = ()

    def fault(self, field: str) -> Fault | None:
        """What is wrong with one field."""
        return next((fault for fault in self.faults if fault.field == field), None)


def law_view(desk: Desk, seen: Seen, asked: AskedLaw | None, looked: LookedAt) -> LawView:
    """The page for the job's own law, or for the one asked for."""
    frame = frame_of(desk, seen, "law")
    if seen.job is None or asked is None:
        return LawView(frame, looked)
    job = asked.job(seen.job)
    rules = law_of(job, asked.on)

    worked = desk.worked(seen)

    def make() -> tuple[AxleLaw, ...]:
        from hubwright.jobs.assess import answer_on  # noqa: PLC0415 - slow to import, not needed to start
        from hubwright.jobs.bench import benches_of  # noqa: PLC0415

        other = asked.other  # its law is another, its maps are the same
        answer = answer_on(benches_of(job, asked.on, worked.benches.maps)) if other else worked.answer
        return tuple(
            AxleLaw(
                axle_words(name), law_table(job, name, answer.axle(name), rules, looked.thickness_mm),
                answer.axle(name).packages,
            )
            for name, _ in job.axles
        )  # fmt: skip

    axles = desk.once("law", seen, make, asked.countries, asked.on, looked.thickness_mm, worked.waiting)
    countries = tuple((pack.code, pack.name, pack.code in asked.countries) for pack in all_rules())
    shown = pills(job, f"/jobs/{frame.job_id}/law", looked.thickness_mm)
    return LawView(frame, looked, asked, countries, rules, axles, shown, worked.waiting)


def packs_view(on: date, typed: str, code: str | None = None, faults: tuple[Fault, ...] = ()) -> PacksView:
    """Every rule file on a day, or the one of a code."""
    packs = tuple(_pack(law, on) for law in all_rules() if code in (None, law.code))
    return PacksView(on, typed, packs, faults)


def _pack(law: Jurisdiction, on: date) -> Pack:
    ended = tuple(rule for rule in law.rules if rule.ends is not None and rule.ends < on)
    coming = tuple(rule for rule in law.rules if rule.starts is not None and rule.starts > on)
    duties = tuple(duty for duty in law.obligations if duty.in_force(on))
    return Pack(law, tuple(rule for rule in law.rules if rule.in_force(on)), ended, coming, duties)
