"""Words of the rule files' codes."""

from __future__ import annotations

from hubwright.language import marked, say
from hubwright.quantities.text import day
from hubwright.rules.model import Obligation, Rule

_SEEN = {
    "read": marked("read in the source"), "secondary copy": marked("read in a secondary copy"),
    "memory": marked("from memory, confirm it"),
}  # fmt: skip
_BREACH = {
    "refused": marked("refused"), "approval needed": marked("needs an approval"),
    "declaration needed": marked("needs a declaration"), "reject at inspection": marked("rejected at inspection"),
}  # fmt: skip
_FACTS = {
    "frame": marked("whether the body stands on a ladder frame"), "category": marked("the category it is registered in"),
    "axle": marked("whether the axle steers"), "axle_original": marked("whether the axle is the original one"),
    "approval": marked("whether its approval is national or EC"), "seats": marked("the number of seats"),
    "wheel": marked("whether the wheel is a replacement"), "tyre": marked("whether it is a snow tyre"),
}  # fmt: skip


def seen_words(thing: Rule | Obligation) -> str:
    """How a rule was seen."""
    return say(_SEEN[thing.how_seen])


def breach_words(rule: Rule) -> str:
    """What a breach leads to."""
    return say(_BREACH[rule.on_breach])


def fact_words(fact: str) -> str:
    """A fact a rule hangs on."""
    return say(_FACTS[fact])


def dates_words(thing: Rule | Obligation) -> str:
    """From when to when it holds."""
    if thing.starts and thing.ends:
        return say("in force from {start} to {end}", start=day(thing.starts), end=day(thing.ends))
    if thing.ends:
        return say("in force until {end}; its first day is not known", end=day(thing.ends))
    if thing.starts:
        return say("in force since {start}", start=day(thing.starts))
    return say("in force; its first day is not known")
