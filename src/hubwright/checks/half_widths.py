"""Half width of the fitted tyre over its radius: by calliper, or by the outline of its size on its rim."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from hubwright.engineering.placement import BEYOND_READINGS_MM, Array, Curve, local_half_width
from hubwright.language import say
from hubwright.language.part_words import estimate_word
from hubwright.parts.wheel import Tyre, WheelSet

HALF_WIDTH_DOUBT_MM = 0.5
"""Of the difference of two calliper readings of the half width; a guess."""
MEMBRANE_DOUBT_MM = 1.5
"""Of the difference of two half widths by the membrane where the section width was read; a guess."""
WIDTH_TOLERANCE = 0.04
"""How far the section width may lie off its design (UN R30 6.1.4 upwards, a guess downwards), taken as a rectangle."""


@dataclass(frozen=True)
class HalfWidth:
    """Half width by radius, and the radii for which it may be asked."""

    at: Curve
    low_mm: float
    high_mm: float
    words: str
    doubt_mm: float
    guess: bool

    def covers(self, low_mm: float, high_mm: float) -> bool:
        """Whether it may be asked for all radii from low to high."""
        return self.low_mm <= low_mm and high_mm <= self.high_mm


def read_half_width(tyre: Tyre) -> HalfWidth | None:
    """The calliper readings; None where there are not two."""
    widths = sorted((item.radius_mm, item.half_width_mm) for item in tyre.half_width)
    if len(widths) < 2:
        return None
    radius, half = np.array(widths).T
    low, high = float(radius[0]) - BEYOND_READINGS_MM, float(radius[-1]) + BEYOND_READINGS_MM
    words = say("local half width, camber and half-track by travel")
    return HalfWidth(local_half_width(radius, half), low, high, words, HALF_WIDTH_DOUBT_MM, False)


def membrane_half_width(fitted: WheelSet) -> HalfWidth | None:
    """The sidewall as a membrane on its rim, bent to what readings there are; from flange to tread edge."""
    if fitted.tyre.designation is None or fitted.wheel.rim is None:
        return None
    from hubwright.checks.outlines import try_built  # noqa: PLC0415 - compiled sums load slowly
    from hubwright.engineering.tyrewheel.surface import half_width_mm  # noqa: PLC0415

    shape, _ = try_built(fitted.wheel, fitted.tyre)
    if shape is None:
        return None
    tyre = shape.tyre
    low, high = tyre.carcass.bead_radius_mm, tyre.tread_edge[0]
    doubt = MEMBRANE_DOUBT_MM
    if fitted.tyre.section_width_mm is None and not fitted.tyre.half_width:
        doubt = float(np.hypot(doubt, WIDTH_TOLERANCE * tyre.section_width_mm / 2 / np.sqrt(3)))
    guessed = ", ".join(estimate_word(name) for name in shape.guessed)
    words = say(
        "sidewall as a membrane by size and rim (guess: {guessed}), camber and half-track by travel", guessed=guessed
    )

    def at(radius: Array) -> Array:
        return half_width_mm(tyre, np.clip(radius, low, high))

    return HalfWidth(at, low, high, words, doubt, True)
