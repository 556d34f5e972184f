"""A reading: what was read, how often, by which method, and how much it may be wrong.

Doubt follows JCGM 100:2008 (GUM): type A from the spread of repeats, ``u_A = s / sqrt(n)`` (4.2.3); type B stated or
taken from the method (4.3); both add as squares (5.1.2).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

METHOD_DOUBT_MM: dict[str, float] = {
    "blocks": 1.0,
    "calliper": 0.2,
    "depth gauge": 0.2,
    "feeler": 0.2,
    "turns counted": 0.7,
    "tape": 1.0,
    "rule": 0.7,
    "plumb line": 3.0,
    "photograph": 4.0,
    "modelling clay": 0.7,
    "drawing": 0.1,
    "customer": 4.0,
}
"""Standard uncertainty by method, in mm. Guesses, no source; a shop states its own."""

UNSTATED_DOUBT_MM = 1.0
"""When neither doubt nor method is known. A guess, no source."""


@dataclass(frozen=True)
class Reading:
    """One quantity as read, in the unit its name ends with.

    Attributes:
        values: Every repeat, in the order taken; at least one.
        u: Standard uncertainty as stated, without the spread of the repeats; None when nobody stated it.
        method: How it was read; None when nobody said.
        by: ``workshop`` or ``customer``.
    """

    values: tuple[float, ...]
    u: float | None = None
    method: str | None = None
    by: str = "workshop"

    @property
    def value(self) -> float:
        """Mean of the repeats."""
        return math.fsum(self.values) / len(self.values)

    @property
    def spread(self) -> float:
        """Experimental standard deviation of the repeats (n - 1); 0 for a single reading."""
        count = len(self.values)
        if count == 1:
            return 0.0
        mean = self.value
        return math.sqrt(math.fsum((value - mean) ** 2 for value in self.values) / (count - 1))

    @property
    def method_doubt(self) -> float:
        """Type B part: stated, else by method, else the guess for an unstated one."""
        if self.u is not None:
            return self.u
        return METHOD_DOUBT_MM.get(self.method or "", UNSTATED_DOUBT_MM)

    @property
    def doubt(self) -> float:
        """Combined standard uncertainty: ``sqrt(u_B^2 + s^2 / n)``."""
        return math.hypot(self.method_doubt, self.spread / math.sqrt(len(self.values)))

    @property
    def doubt_is_guess(self) -> bool:
        """Whether the doubt was not stated but taken from the method or from nothing."""
        return self.u is None


def exact(value: float) -> Reading:
    """A reading without doubt, for figures that are given and not measured."""
    return Reading((value,), u=0.0, method="given")
