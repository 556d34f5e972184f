"""What an entry must look like before anything is looked up: who, when, which fields."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import datetime

from hubwright.errors import BadInput, Fault
from hubwright.language import say
from hubwright.store.card import LONGEST, fault_on_card, readable
from hubwright.store.entries import Stamp
from hubwright.store.fields import place_of
from hubwright.store.things import Change

KEY = re.compile(r"[0-9A-Za-z_-]{1,64}")
ASKED_AT_ONCE = 500
LONGEST_AUTHOR = 200
Asked = tuple[str, str | None]
"""A field and its TOML value; None takes it out. ``[+]`` at the end of the field adds to a list."""


def stamped(author: str, at: datetime, key: str, note: str) -> Stamp:
    """Who, when and under which key.

    Raises:
        BadInput: with everything wrong with author, note and key.
    """
    wanted = say("a name of 1 to {longest_author} letters", longest_author=LONGEST_AUTHOR)
    faults = [
        None if readable(text) and least <= len(text.strip()) <= most else Fault(field, wanted, repr(text[:40]))
        for field, text, least, most, wanted in (
            ("author", author, 1, LONGEST_AUTHOR, wanted),
            ("note", note, 0, LONGEST, say("at most {longest} letters", longest=LONGEST)),
        )
    ]
    if not KEY.fullmatch(key):
        faults.append(Fault("key", say("1 to 64 letters, digits, - and _"), repr(key[:80])))
    refuse_faults(faults)
    return Stamp(author.strip(), at, key, note)


def refuse_asked(changes: tuple[Change, ...]) -> None:
    """Hold back an entry whose fields are not written as fields, or whose values no place can take.

    Raises:
        BadInput: with every fault.
    """
    faults: list[Fault | None] = []
    for change in changes:
        if place_of(change.field).on_card:
            faults.append(fault_on_card(change.field, change.value))
        elif change.value is not None and not readable(change.value):
            faults.append(Fault(change.field, say("text"), repr(change.value[:40])))
    if not 1 <= len(changes) <= ASKED_AT_ONCE:
        faults.append(
            Fault("entry", say("1 to {asked_at_once} fields", asked_at_once=ASKED_AT_ONCE), str(len(changes)))
        )
    refuse_faults(faults)


def refuse_faults(faults: Iterable[Fault | None]) -> None:
    """Hold back what has faults.

    Raises:
        BadInput: with all of them, when there are any.
    """
    found = tuple(fault for fault in faults if fault is not None)
    if found:
        raise BadInput(say("store"), found)
