"""A figure known only between two limits, and how such figures pass through a formula."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from itertools import product

from hubwright.errors import OutsideValidity


@dataclass(frozen=True)
class Band:
    """Low, nominal and high of one figure; the unit stands in the name of the field that holds it.

    Raises:
        OutsideValidity: when the three are not in order, or one of them is not a number.
    """

    low: float
    nominal: float
    high: float

    def __post_init__(self) -> None:
        if not self.low <= self.nominal <= self.high:
            given = f"({self.low}, {self.nominal}, {self.high})"
            raise OutsideValidity("a band", "low, nominal, high", given, "three numbers in rising order", "definition")

    @property
    def width(self) -> float:
        """High minus low."""
        return self.high - self.low

    def scaled(self, factor: float) -> Band:
        """The band times a number of either sign."""
        return corners(lambda value: value * factor, self)


def exactly(value: float) -> Band:
    """A band without width, for a figure that is not in doubt."""
    return Band(value, value, value)


def about(nominal: float, fraction: float) -> Band:
    """``nominal`` plus and minus ``fraction`` of its size, such as 0.04 for a wrench good to 4 %."""
    half = abs(nominal) * fraction
    return Band(nominal - half, nominal, nominal + half)


def corners(function: Callable[..., float], *bands: Band) -> Band:
    """What ``function`` gives at the nominal values, and its least and greatest value at all corners of the box.

    Holds where the function rises or falls throughout in each argument: then no value inside the box lies beyond a
    corner. A function with a turning point inside the box needs a finer look.

    Equation:
        y = f(x_1 .. x_n); [min, max] of f over {low_1, high_1} x .. x {low_n, high_n}.

    Source:
        The vertex method of interval arithmetic for functions monotone in each argument (derived: elementary).
    """
    nominal = function(*(band.nominal for band in bands))
    ends = [(band.low,) if band.width == 0 else (band.low, band.high) for band in bands]
    values = [function(*point) for point in product(*ends)]
    return Band(min(nominal, *values, math.inf), nominal, max(nominal, *values, -math.inf))


def envelope(*bands: Band) -> Band:
    """The band that holds all given ones, with the nominal of the first."""
    return Band(min(band.low for band in bands), bands[0].nominal, max(band.high for band in bands))


def over_grid(function: Callable[..., float], steps: int, *bands: Band) -> Band:
    """As `corners`, for a function that may turn inside the box: looks at ``steps`` even points of every band.

    Equation:
        y = f(x_1 .. x_n); [min, max] of f over the grid of ``steps`` points per band.

    Source:
        Plain sampling (derived); what lies between two points is not seen, so choose steps for a smooth function.

    Raises:
        OutsideValidity: for less than two steps.
    """
    if steps < 2:
        raise OutsideValidity("a grid", "steps", steps, "two or more", "definition")
    nominal = function(*(band.nominal for band in bands))
    axes = [
        (band.low,) if band.width == 0 else tuple(band.low + band.width * i / (steps - 1) for i in range(steps))
        for band in bands
    ]
    values = [function(*point) for point in product(*axes)]
    return Band(min(nominal, *values, math.inf), nominal, max(nominal, *values, -math.inf))
