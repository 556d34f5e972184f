"""Words of the rule files' dates."""

from __future__ import annotations

from hubwright.language import say
from hubwright.quantities.text import day
from hubwright.rules.model import Obligation, Rule


def dates_words(thing: Rule | Obligation) -> str:
    """From when to when it holds."""
    if thing.starts and thing.ends:
        return say("in force from {start} to {end}", start=day(thing.starts), end=day(thing.ends))
    if thing.ends:
        return say("in force until {end}; its first day is not known", end=day(thing.ends))
    if thing.starts:
        return say("in force since {start}", start=day(thing.starts))
    return say("in force; its first day is not known")
