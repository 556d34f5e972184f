"""Whether a rule is about this car and axle: yes, no, or not to be said because a fact is missing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from hubwright.errors import BadInput, Fault
from hubwright.language import say
from hubwright.rules.model import FACTS, Filter, Rule


@dataclass(frozen=True)
class Applicability:
    """Answer of `applicability`.

    Attributes:
        applies: True, False, or None where it hangs on facts nobody gave.
        missing: Those facts.
    """

    applies: bool | None
    missing: tuple[str, ...] = ()


def applicability(rule: Rule, facts: Mapping[str, str]) -> Applicability:
    """Whether a rule is about a car and axle with the facts given.

    Every fact under ``applies`` must be met; if all facts under ``unless`` are met the rule is off. A missing fact
    leaves the answer open (None) unless another fact settles it. A caller may still judge an open rule: kept, it does
    not matter whether it applies; broken, the answer is unknown until the fact is known.

    Args:
        rule: The rule.
        facts: Words of `model.FACTS`, such as ``{"frame": "ladder", "category": "off-road"}``.

    Raises:
        BadInput: for a fact or word `model.FACTS` does not have.
    """
    _checked(facts)
    wanted, off = _all_met(rule.applies, facts), _all_met(rule.unless, facts)
    if wanted is False or (rule.unless and off is True):
        return Applicability(False)
    if wanted is True and (not rule.unless or off is False):
        return Applicability(True)
    return Applicability(None, tuple(fact for fact in (*rule.applies, *rule.unless) if fact not in facts))


def _all_met(filters: Filter, facts: Mapping[str, str]) -> bool | None:
    if any(fact in facts and facts[fact] not in words for fact, words in filters.items()):
        return False
    return True if all(fact in facts for fact in filters) else None


def _checked(facts: Mapping[str, str]) -> None:
    faults = [
        Fault(fact, say("one of {known}", known=", ".join(FACTS)), repr(fact)) for fact in facts if fact not in FACTS
    ]
    faults += [
        Fault(fact, say("one of {known}", known=", ".join(FACTS[fact])), repr(word))
        for fact, word in facts.items()
        if fact in FACTS and word not in FACTS[fact]
    ]
    if faults:
        raise BadInput(say("facts about the car"), tuple(faults))
