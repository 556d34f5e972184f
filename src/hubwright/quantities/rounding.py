"""Rounding, once, at the end, to the safe side."""

from __future__ import annotations

import math

NOISE = 1e-9
"""A hundredth of the smallest figure anybody reads, so that 5.0 computed as 4.9999999999 still is 5."""


def down(value: float, step: float) -> float:
    """The largest multiple of ``step`` not above ``value`` (float noise of 1e-9 forgiven)."""
    return math.floor(value / step + NOISE) * step


def up(value: float, step: float) -> float:
    """The smallest multiple of ``step`` not below ``value`` (float noise of 1e-9 forgiven)."""
    return math.ceil(value / step - NOISE) * step


def at_least(value: float, limit: float) -> bool:
    """Whether ``value`` reaches ``limit``, float noise forgiven."""
    return value >= limit - NOISE


def at_most(value: float, limit: float) -> bool:
    """Whether ``value`` stays within ``limit``, float noise forgiven."""
    return value <= limit + NOISE
