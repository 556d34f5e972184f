"""Say no in one line where a formula does not hold."""

from __future__ import annotations

import math
from itertools import pairwise

from hubwright.errors import OutsideValidity
from hubwright.language import say
from hubwright.quantities.text import pointed


def require_positive(formula: str, source: str, **values: float) -> None:
    """Every value must be finite and above zero.

    Raises:
        OutsideValidity: naming formula, quantity, value and source.
    """
    for name, value in values.items():
        if not (math.isfinite(value) and value > 0):
            raise OutsideValidity(formula, name, value, "finite values above zero", source)


def require_not_negative(formula: str, source: str, **values: float) -> None:
    """Every value must be finite and zero or more (errors as `require_positive`)."""
    for name, value in values.items():
        if not (math.isfinite(value) and value >= 0):
            raise OutsideValidity(formula, name, value, "finite values, zero or more", source)


def require_within(formula: str, source: str, low: float, high: float, **values: float) -> None:
    """Every value must lie between ``low`` and ``high``, both allowed (errors as `require_positive`)."""
    for name, value in values.items():
        if not low <= value <= high:
            raise OutsideValidity(
                formula, name, value, say("{low} to {high}", low=pointed(str(low)), high=pointed(str(high))), source
            )


def require_ascending(formula: str, source: str, **values: float) -> None:
    """The values, in the order given, must each be greater than the one before (errors as `require_positive`)."""
    pairs = list(values.items())
    for (lesser, small), (greater, large) in pairwise(pairs):
        if not small < large:
            raise OutsideValidity(
                formula,
                greater,
                large,
                say("more than {name} = {value}", name=lesser, value=pointed(str(small))),
                source,
            )
