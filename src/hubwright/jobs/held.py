"""What is kept in memory so as not to be worked out twice: bounded by what it weighs, for scans weigh hundreds of MiB."""

from __future__ import annotations

from collections.abc import Hashable
from typing import Any

from cachetools import LRUCache

LIGHT_BYTES = 4096
"""What a thing that does not say its weight is taken for: figures, sentences, small drawings."""


def weight_of(thing: object) -> int:
    """About how many bytes a thing holds: what it says itself (``held_bytes``), else its length if it is text or bytes."""
    if isinstance(thing, str | bytes):
        return LIGHT_BYTES + len(thing)
    if isinstance(thing, tuple):
        return LIGHT_BYTES + sum(weight_of(part) for part in thing)
    told = getattr(thing, "held_bytes", 0)
    return LIGHT_BYTES + (told if isinstance(told, int) else 0)


def held(most_bytes: int, most_things: int) -> LRUCache[Hashable, Any]:
    """A dictionary that lets go of what was asked longest ago. Not safe between threads by itself.

    Args:
        most_bytes: All together; what is heavier alone is kept alone, else it would be worked out at every question.
        most_things: How many at most, however light.
    """
    least = max(1, most_bytes // most_things)
    return LRUCache(most_bytes, getsizeof=lambda thing: min(most_bytes, max(least, weight_of(thing))))
