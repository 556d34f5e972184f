"""One figure as standard and with the disc."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Change:
    """A figure before and after; the unit stands in the name of the field that holds it."""

    standard: float
    with_disc: float

    @property
    def difference(self) -> float:
        """With disc minus standard, signed."""
        return self.with_disc - self.standard

    @property
    def fraction(self) -> float | None:
        """Difference over the size of the standard figure; None where that is zero."""
        return None if self.standard == 0 else self.difference / abs(self.standard)
