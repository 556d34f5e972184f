"""The named ways of holding a figure against a limit."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from hubwright.errors import MissingReading, OutsideValidity
from hubwright.language import marked_as, say, say_as
from hubwright.quantities.text import plain, pointed
from hubwright.rules.model import Rule
from hubwright.rules.quantity import QUANTITIES

ROUNDING = 1e-9
"""A figure this close to a limit stands on it: 1577.94/1547 - 1 is 0.02 but for the arithmetic of the machine."""


@dataclass(frozen=True)
class Bounds:
    """Where a figure must lie; None is open, and an ``open`` end is not allowed itself."""

    low: float | None = None
    high: float | None = None
    low_open: bool = False
    high_open: bool = False

    def hold(self, value: float) -> bool:
        """Whether a figure lies within."""
        above = self.low is None or (value > self.low + ROUNDING if self.low_open else value >= self.low - ROUNDING)
        below = self.high is None or (value < self.high - ROUNDING if self.high_open else value <= self.high + ROUNDING)
        return above and below


@dataclass(frozen=True)
class Comparison:
    """One way of comparing: how many figures it takes, its words, and the bounds it sets."""

    name: str
    count: int
    words: str
    bounds: Callable[[tuple[float, ...], float], Bounds]
    wants_base: bool = False


_ALL = (
    Comparison("at_most", 1, "at most {first}", lambda v, _: Bounds(high=v[0])),
    Comparison("at_least", 1, "at least {first}", lambda v, _: Bounds(low=v[0])),
    Comparison("below", 1, "below {first}", lambda v, _: Bounds(high=v[0], high_open=True)),
    Comparison("above", 1, "above {first}", lambda v, _: Bounds(low=v[0], low_open=True)),
    Comparison("between", 2, "from {first} to {second}", lambda v, _: Bounds(low=v[0], high=v[1])),
    Comparison("must_be_zero", 0, "not permitted", lambda _v, _: Bounds(low=0.0, high=0.0)),
    Comparison(
        "zero_to_share_plus",
        2,
        "from 0 to {first} of the base plus {second}",
        lambda v, base: Bounds(low=0.0, high=v[0] * base + v[1]),
        wants_base=True,
    ),
)

COMPARISONS: dict[str, Comparison] = {each.name: each for each in _ALL}


def bounds(rule: Rule, base: float | None = None) -> Bounds:
    """Where the figure a rule asks for must lie, in the rule's unit.

    Args:
        rule: The rule.
        base: What a share is taken of (`Quantity.base`); only the rules that set a share need it.

    Raises:
        MissingReading: where a share is asked for and no base given.
    """
    comparison = COMPARISONS[rule.comparison]
    if comparison.wants_base and base is None:
        what = say(QUANTITIES[rule.quantity].base or "the base of the share")
        raise MissingReading(
            what, say("to know the limit of {rule}", rule=say(rule.title)), say("Give the value the share is taken of.")
        )
    return comparison.bounds(rule.values, math.nan if base is None else base)


def judge(rule: Rule, value: float, base: float | None = None) -> bool:
    """Whether a figure keeps a rule. Standing on a limit keeps it, unless the law says above or below.

    Args:
        rule: The rule.
        value: The figure for `rule.quantity`, in `rule.unit`.
        base: See `bounds`.

    Raises:
        MissingReading: see `bounds`.
        OutsideValidity: for a value that is not a finite number; what is not known is never judged.
    """
    if not math.isfinite(value):
        raise OutsideValidity(say("rule {id}", id=rule.id), rule.quantity, value, "finite numbers", rule.citation)
    return bounds(rule, base).hold(value)


def limit_words(rule: Rule) -> str:
    """The limit for the screen: ``at most 25 mm per axle against the largest series track``."""
    words = COMPARISONS[rule.comparison].words
    if not rule.values:
        return say(words)
    figures = [plain(value) if rule.unit != "ratio" else pointed(f"{value * 100:.4g} %") for value in rule.values]
    places = dict(zip(("first", "second"), figures, strict=False))
    unit = "" if rule.unit in ("ratio", "count") else f" {_unit_words(rule.unit)}"
    limit = f"{say(words, **places)}{unit}"
    if not rule.reference:
        return say("{limit} per {per}", limit=limit, per=say_as("per", rule.per))
    return say(
        "{limit} per {per} against {reference}",
        limit=limit,
        per=say_as("per", rule.per),
        reference=say(rule.reference),
    )


PER = (marked_as("per", "axle"), marked_as("per", "side"), marked_as("per", "vehicle"))


def _unit_words(unit: str) -> str:
    return say("turns") if unit == "turns" else unit
