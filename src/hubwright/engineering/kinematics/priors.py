"""What to expect of a wheel's motion while nobody has measured it. All of these are guesses, no source.

They are in the corner axes, at the parked height, and each has a doubt wide enough to be useless on its own: a result
that leans on one says so (`FittedMotion.guessed`). A shop edits them once it has measured enough cars of a class.

Source: guesses, no source; a shop states its own.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from hubwright.language import marked

SuspensionClass = Literal["double wishbone", "strut", "multi-link", "swing arm", "twist beam", "live axle", "unknown"]
GUESS = marked("guess, no source")


@dataclass(frozen=True)
class CurvePrior:
    """Slope and bend against travel, ``value(z) = value(0) + slope z + bend z^2``; ``u_`` = standard doubt."""

    slope_per_mm: float
    u_slope_per_mm: float
    bend_per_mm2: float
    u_bend_per_mm2: float
    source: str = GUESS


@dataclass(frozen=True)
class MotionPrior:
    """Camber (deg) and half-track change (mm) against travel (mm), both per side."""

    camber: CurvePrior
    half_track: CurvePrior


PRIORS: dict[SuspensionClass, MotionPrior] = {
    "double wishbone": MotionPrior(CurvePrior(-0.020, 0.010, -4e-5, 6e-5), CurvePrior(0.06, 0.08, -1.0e-3, 7e-4)),
    "strut": MotionPrior(CurvePrior(-0.012, 0.010, 5e-5, 8e-5), CurvePrior(0.04, 0.08, -1.0e-3, 7e-4)),
    "multi-link": MotionPrior(CurvePrior(-0.020, 0.010, -4e-5, 6e-5), CurvePrior(0.05, 0.08, -8e-4, 7e-4)),
    "swing arm": MotionPrior(CurvePrior(-0.015, 0.015, 0.0, 6e-5), CurvePrior(0.03, 0.08, -6e-4, 7e-4)),
    "twist beam": MotionPrior(CurvePrior(-0.005, 0.008, 0.0, 6e-5), CurvePrior(0.0, 0.04, -1e-4, 3e-4)),
    "live axle": MotionPrior(CurvePrior(0.0, 0.010, 0.0, 4e-5), CurvePrior(0.0, 0.06, -2e-4, 3e-4)),
    "unknown": MotionPrior(CurvePrior(-0.012, 0.020, 0.0, 1e-4), CurvePrior(0.03, 0.10, -8e-4, 1e-3)),
}
