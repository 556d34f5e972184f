"""The meridian map: every obstacle over every state, seen from inside the tyre section, as lines in one half-plane.

Source: a body of revolution meets a point in the meridian plane of the point (derived).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

Floats = np.ndarray[Any, np.dtype[np.float64]]
Whole = np.ndarray[Any, np.dtype[np.int32]]


@dataclass(frozen=True)
class View:
    """Where the map is seen from.

    Attributes:
        rho_mm: Distance of the view point from the spin axis.
        y_mm: Its position along the axis.
        reach_mm: Obstacles farther from it are left out; gaps to the edge of that disc are all the map can promise.
    """

    rho_mm: float
    y_mm: float
    reach_mm: float


@dataclass(frozen=True, eq=False)
class Layer:
    """One obstacle's lines in the half-plane. Rows are corners; equal ``chain`` joins neighbours by a straight line.

    Attributes:
        name: Name of the obstacle.
        kind: Its kind.
        carried: Whether it moves with the knuckle.
        rho_mm: (k,) distance from the spin axis.
        y_mm: (k,) position along it.
        chain: (k,) number of the line.
        state: (k,) pose at which this point stands there.
        triangle: (k,) triangle of the obstacle it belongs to.
        place_mm: (k, 3) the point in the obstacle's own coordinates.
        error_mm: The truth lies within ``error_mm`` below what these lines give.
        covered: A state at which the obstacle covers the view point (no package fits), -1 where none.
    """

    name: str
    kind: str
    carried: bool
    rho_mm: Floats
    y_mm: Floats
    chain: Whole
    state: Whole
    triangle: Whole
    place_mm: Floats
    error_mm: float
    covered: int


@dataclass(frozen=True, eq=False)
class MeridianMap:
    """A car's corner, ready for any package.

    Attributes:
        view: Where it is seen from.
        layers: One per obstacle.
        states: How many poses it holds.
        inputs: SHA-256 over the obstacles, the poses and the settings.
    """

    view: View
    layers: tuple[Layer, ...]
    states: int
    inputs: str
