"""What unit a scan may be in, guessed from its size; always put as a question, since no format is sure to say.

Source: common practice, no source: a scan of a wheel arch is about a metre long, of a whole car up to six.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np

from hubwright.parts.scan import UNIT_MM

Floats = np.ndarray[Any, np.dtype[np.float64]]

USUAL_MM, LEAST_MM, MOST_MM = 1000.0, 300.0, 7000.0
SPREAD_PERCENT = 0.5
"""So much of the points at either end does not count: strays must not make the size."""


@dataclass(frozen=True)
class Size:
    """How large a file is in its own unit, and which unit that speaks for.

    Attributes:
        length: Longest side of the box around it, strays left aside, in the file's own unit.
        guess: The unit by which it comes nearest to an arch; None where it fits none.
    """

    length: float
    guess: str | None

    def mm(self, unit: str) -> float:
        """How long it is if the file is in this unit."""
        return self.length * UNIT_MM[unit]


def size_of(places: Floats) -> Size:
    """The size of a scan.

    Args:
        places: (..., 3) in the file's own unit.
    """
    flat = places.reshape(-1, 3)
    low, high = np.percentile(flat, [SPREAD_PERCENT, 100.0 - SPREAD_PERCENT], axis=0)
    longest = float((high - low).max())
    if longest <= 0.0:
        return Size(longest, None)
    fits = {name: longest * unit for name, unit in UNIT_MM.items() if LEAST_MM <= longest * unit <= MOST_MM}
    guess = min(fits, key=lambda name: abs(math.log(fits[name] / USUAL_MM)), default=None)
    return Size(longest, guess)
