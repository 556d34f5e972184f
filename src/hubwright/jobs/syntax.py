"""What of a text is not TOML: every place, not only the first."""

from __future__ import annotations

import re
import tomllib

from hubwright.errors import Fault
from hubwright.jobs import lines
from hubwright.language import marked, say

SEE_TOML = marked("See the TOML rules: key = value, texts in quotes.")
MOST_ROUNDS = 25
"""Faults looked for one after the other; a text with more has another trouble than a slip of the pen."""
_LINE = re.compile(r"\(at line (\d+), column \d+\)")
_TWICE = re.compile(r"Cannot (overwrite|declare|mutate|redefine|add)|Duplicate|already")


def syntax_faults(text: str) -> tuple[Fault, ...]:
    """A fault for every place that is not TOML, first to last.

    A tolerant parser names the broken places at once. What it lets pass (a key given twice, a day that is not in the
    calendar) the strict one names, one in a round: the line is taken out and the rest is read again.
    """
    kept = text.split("\n")
    rest, last = list(kept), ""
    found = {
        line: Fault(say("the text"), say("TOML"), shown, say(SEE_TOML), line)
        for line, shown in lines.syntax_faults(text)
    }
    for line in found:
        rest[line - 1] = _without(rest[line - 1], line)
    for _ in range(MOST_ROUNDS):
        try:
            tomllib.loads("\n".join(rest))
            break
        except (RecursionError, ValueError) as error:
            last = str(error)
        place = _LINE.search(last)
        line = int(place[1]) if place else len(rest)
        if not rest[line - 1]:
            break
        found.setdefault(line, _strict(last, lines.shown(kept, line - 1), line))
        rest[line - 1] = _without(rest[line - 1], line)
    if not found:
        return (Fault(say("the text"), say("TOML"), last, say(SEE_TOML), len(kept)),)
    return tuple(found[line] for line in sorted(found))


def _without(line: str, number: int) -> str:
    """What stands in for a broken line: the head of a table keeps its keys apart from those of the table before."""
    stand_in = f"[unreadable_{number}]"
    return stand_in if line.lstrip().startswith("[") and line != stand_in else ""


def _strict(words: str, shown: str, line: int) -> Fault:
    if _TWICE.search(words):
        return Fault(say("the text"), say("each key and each table once"), shown, say("Keep one of the two."), line)
    return Fault(say("the text"), say("TOML"), shown, say(SEE_TOML), line)
