"""Names that places, work and wheels usually have. A job says them in English or as its reader likes; these are known."""

from __future__ import annotations

from hubwright.language import marked_as
from hubwright.language.words import word

PLACE = {
    "arch edge": marked_as("place", "arch edge"),
    "arch edge, straight up": marked_as("place", "arch edge, straight up"),
    "arch edge, plumb line": marked_as("place", "arch edge, plumb line"),
    "arch lip": marked_as("place", "arch lip"),
    "arch lip, inner edge": marked_as("place", "arch lip, inner edge"),
    "arch lip at lock": marked_as("place", "arch lip at lock"),
    "arch, liner and bumper corner": marked_as("place", "arch, liner and bumper corner"),
    "brake hose": marked_as("place", "brake hose"),
    "bumper corner": marked_as("place", "bumper corner"),
    "damper tube": marked_as("place", "damper tube"),
    "fender edge above the wheel": marked_as("place", "fender edge above the wheel"),
    "liner ahead of the wheel": marked_as("place", "liner ahead of the wheel"),
    "liner behind the wheel": marked_as("place", "liner behind the wheel"),
    "lower liner behind the wheel": marked_as("place", "lower liner behind the wheel"),
    "strut": marked_as("place", "strut"),
    "strut or damper": marked_as("place", "strut or damper"),
}
"""Places a wheel could touch."""
WORK = {
    "roll the arch lip": marked_as("work", "roll the arch lip"),
    "roll the arch lips": marked_as("work", "roll the arch lips"),
}
"""What can be done there."""
WHEELS = {
    "alloy wheels": marked_as("wheels", "alloy wheels"),
    "summer wheels": marked_as("wheels", "summer wheels"),
    "winter wheels": marked_as("wheels", "winter wheels"),
    "steel spare": marked_as("wheels", "steel spare"),
    "17-inch wheels": marked_as("wheels", "17-inch wheels"),
}
"""Wheels as they are usually called."""


def place_word(name: str) -> str:
    """A place, such as ``arch lip, inner edge``; any other name as it was typed."""
    return word("place", PLACE, name)


def work_word(name: str) -> str:
    """Work offered at a place, such as ``roll the arch lip``; any other as it was typed."""
    return word("work", WORK, name)


def wheels_word(name: str) -> str:
    """A set of wheels, such as ``winter wheels``; any other name as it was typed."""
    return word("wheels", WHEELS, name)
