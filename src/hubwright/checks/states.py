"""One state of a wheel in words: ride height and steer."""

from __future__ import annotations

from hubwright.language import say
from hubwright.quantities.text import length, number


def state_words(travel_mm: float, steer_deg: float, straight_deg: float) -> str:
    """Ride height and steer; a steer below ``straight_deg`` is not worth a word."""
    height = height_words(travel_mm)
    if abs(steer_deg) < straight_deg:
        return height
    steer = number(abs(steer_deg), 0)
    if steer_deg > 0:
        return say("{height}, steered {steer}° left", height=height, steer=steer)
    return say("{height}, steered {steer}° right", height=height, steer=steer)


def height_words(travel_mm: float) -> str:
    """``parked``, ``bump 46 mm`` or ``droop 40 mm``."""
    if abs(travel_mm) < 0.5:
        return say("parked")
    travel = length(abs(travel_mm), 0)
    return say("bump {travel}", travel=travel) if travel_mm > 0 else say("droop {travel}", travel=travel)
