"""Which of the valid discs answers the wish, and what is missing where none does."""

from __future__ import annotations

from hubwright.language import say
from hubwright.language.words import question_word
from hubwright.parts.job import Wish
from hubwright.quantities.rounding import at_most
from hubwright.quantities.text import length, thickness
from hubwright.selection.candidates import Candidate, Status


def recommended(candidates: tuple[Candidate, ...], wish: Wish | None) -> Candidate | None:
    """The disc for the wish: never thicker than asked for, a clean one before one with a caution.

    Aim ``thickness``: the thickest valid disc up to the wish; ``widest``: the thickest valid; ``least``: the thinnest.
    """
    for status in (Status.VALID, Status.CAUTION):
        fitting = [candidate for candidate in candidates if candidate.status is status and _within(candidate, wish)]
        if fitting:
            pick = min if wish is not None and wish.aim == "least" else max
            return pick(fitting, key=lambda candidate: candidate.thickness_mm)
    return None


def _within(candidate: Candidate, wish: Wish | None) -> bool:
    if wish is None or wish.aim != "thickness" or wish.thickness_mm is None:
        return True
    return at_most(candidate.thickness_mm, wish.thickness_mm)


def next_thicker(candidates: tuple[Candidate, ...], chosen: Candidate | None) -> Candidate | None:
    """The next disc above the chosen one (or the thinnest), to say why not that one."""
    floor = chosen.thickness_mm if chosen else 0.0
    above = [candidate for candidate in candidates if candidate.thickness_mm > floor]
    return min(above, key=lambda candidate: candidate.thickness_mm, default=None)


def refusal(candidate: Candidate) -> str:
    """Why a disc is refused, in one sentence with its number."""
    parts = [finding.sentence for finding in candidate.failing]
    return " ".join(parts) if parts else ""


def shortfall(candidate: Candidate) -> str:
    """By how much a refused disc misses, where that is a matter of mm."""
    short = [
        (finding.question, -finding.margin_mm)
        for finding in candidate.failing
        if finding.margin_mm is not None and -1e6 < finding.margin_mm < 0
    ]
    return "; ".join(
        say("{question}: {by} short", question=question_word(question), by=length(by)) for question, by in short
    )


def wish_words(wish: Wish | None) -> str:
    """The wish in words."""
    if wish is None:
        return say("no wish stated")
    if wish.aim == "thickness" and wish.thickness_mm is not None:
        return say("{thickness} per side", thickness=thickness(wish.thickness_mm))
    if wish.aim == "widest":
        return say("as wide as it goes")
    return say("the thinnest that fits") if wish.aim == "least" else wish.aim
