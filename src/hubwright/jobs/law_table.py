"""The law of one axle as a table: each dated limit against the measure it asks for, disc beside disc."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.checks import clearance, law
from hubwright.checks.house import house_of
from hubwright.findings import Finding, Verdict
from hubwright.jobs.answer import AxleAnswer
from hubwright.jobs.shown import Shown, shown_discs
from hubwright.parts.job import AxleName, Job
from hubwright.quantities.axes import SIDES
from hubwright.rules.applies import applicability
from hubwright.rules.comparisons import limit_words
from hubwright.rules.model import Rule, RuleSet


@dataclass(frozen=True)
class LawCell:
    """One rule for one disc: the measure in words, how it ended, and what to do."""

    measure: str
    verdict: Verdict
    todo: str


@dataclass(frozen=True)
class LawRow:
    """One rule.

    Attributes:
        rule: With its papers.
        limit: In words.
        hangs_on: Facts nobody gave, on which it hangs whether the rule is about this car.
        cells: One for each disc of the table.
    """

    rule: Rule
    limit: str
    hangs_on: tuple[str, ...]
    cells: tuple[LawCell, ...]

    @property
    def gravest(self) -> Verdict:
        """What stands first: broken, then in need of papers, then open, then kept."""
        return min((cell.verdict for cell in self.cells), key=law.GRAVITY.index, default=Verdict.UNKNOWN)

    @property
    def todos(self) -> tuple[str, ...]:
        """What to do, each once: of the gravest cells first."""
        ordered = sorted(self.cells, key=lambda cell: law.GRAVITY.index(cell.verdict))
        return tuple(dict.fromkeys(cell.todo for cell in ordered if cell.todo))


@dataclass(frozen=True)
class LawTable:
    """One axle.

    Attributes:
        axle: Which.
        discs: The columns.
        rows: Rules a disc touches, the gravest first.
        verdicts: All rules together, for each disc; open as soon as one is and none is broken.
        open: What no rule answers, such as a country without a rule file; the same for every disc.
        not_about: Rules in force that are not about this car or axle.
        untouched: Rules in force that a disc leaves as they are.
    """

    axle: AxleName
    discs: tuple[Shown, ...]
    rows: tuple[LawRow, ...]
    verdicts: tuple[Verdict, ...]
    open: tuple[Finding, ...]
    not_about: tuple[Rule, ...]
    untouched: tuple[Rule, ...]


def law_table(job: Job, name: AxleName, answer: AxleAnswer, rules: RuleSet, chosen_mm: float | None = None) -> LawTable:
    """Every rule in force against every disc worth looking at.

    Args:
        job: The job.
        name: Axle.
        answer: Its answer; the work of the plan it decides for is reckoned as done.
        rules: Of the countries and the day asked for.
        chosen_mm: A disc chosen on the page.
    """
    axle, house = dict(job.axles)[name], house_of(job)
    with_work, steered = bool(answer.plan.work), job.is_steered(name)
    rooms = tuple(clearance.room_of(axle, side, house, steered=steered, with_work=with_work) for side in SIDES)
    discs, facts = shown_discs(job, answer, chosen_mm), law.facts_of(job, name, axle)
    rows, not_about, untouched = [], [], []
    for rule in rules.rules:
        about = applicability(rule, facts)
        if rule.quantity in law.UNCHANGED_BY_A_DISC:
            untouched.append(rule)
        elif about.applies is False:
            not_about.append(rule)
        else:
            cells = []
            for shown in discs:
                measure = law.measure_of(rule, axle, rooms, shown.thickness_mm)
                finding = law.held(rule, facts, measure)
                if finding is not None:
                    cells.append(LawCell(measure.words, finding.verdict, finding.todo))
            rows.append(LawRow(rule, limit_words(rule), about.missing, tuple(cells)))
    judged = [law.judge(job, name, axle, rooms, rules, shown.thickness_mm) for shown in discs]
    unruled = tuple(dict.fromkeys(finding for found in judged for finding in found if not finding.working))
    return LawTable(
        name, discs, tuple(sorted(rows, key=lambda row: law.GRAVITY.index(row.gravest))),
        tuple(law.summary(found).verdict for found in judged), unruled, tuple(not_about), tuple(untouched),
    )  # fmt: skip
