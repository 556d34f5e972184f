"""A finding as it stands in a table: shape, word, what is left over."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.findings import Finding, Verdict
from hubwright.jobs.answer import DiscAnswer
from hubwright.language.words import fits_word, law_word, question_word
from hubwright.quantities.text import left_over

SHAPES = {
    Verdict.PASS: "valid", Verdict.CAUTION: "caution", Verdict.UNKNOWN: "not known", Verdict.FAIL: "refused",
}  # fmt: skip
"""Shape of a verdict in the page's kit."""
ALWAYS = ("clearance", "brake", "centring", "fastener", "law")
"""Questions with a column of their own whatever they say; the others have one where they keep a disc from being clean."""
MOST_MM = 1e6


@dataclass(frozen=True)
class Cell:
    """One question put to one disc.

    Attributes:
        question: Its code.
        title: In words.
        shape: Which shape stands for the verdict.
        word: The verdict.
        left: What is left over, signed, without its unit; empty where the question is none of mm or not answered.
        finding: All of it.
    """

    question: str
    title: str
    shape: str
    word: str
    left: str
    finding: Finding

    @property
    def place(self) -> str:
        """Where its working is told."""
        return place_of(self.question)


def place_of(question: str) -> str:
    """Id of the place on the page where the working of a question is told."""
    return f"working-{question.replace(' ', '-')}"


def cell_of(finding: Finding) -> Cell:
    """A finding as a cell."""
    word = law_word if finding.question == "law" else fits_word
    margin, known = finding.margin_mm, finding.verdict is not Verdict.UNKNOWN
    left = left_over(margin) if margin is not None and known and abs(margin) < MOST_MM else ""
    return Cell(
        finding.question, question_word(finding.question), SHAPES[finding.verdict], word(finding.verdict), left, finding
    )


def cells_of(disc: DiscAnswer) -> dict[str, Cell]:
    """Every question of a disc, by its code, in the order asked."""
    return {finding.question: cell_of(finding) for finding in disc.findings}


def columns_of(discs: tuple[DiscAnswer, ...]) -> tuple[str, ...]:
    """Questions worth a column for these discs: the usual five, and any other that is not clean for one of them."""
    said = {finding.question for disc in discs for finding in disc.findings if finding.sentence in disc.reasons}
    asked = dict.fromkeys(finding.question for disc in discs for finding in disc.findings)
    return tuple(question for question in asked if question in ALWAYS or question in said)
