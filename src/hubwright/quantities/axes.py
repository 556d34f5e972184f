"""Axes. Vehicle: X forward, Y left, Z up (ISO 8855). Corner: x forward, o outboard, z up, on both sides.

`to_left` is the one mirror: a right corner is computed as the left corner it mirrors. Nothing else flips a sign.
"""

from __future__ import annotations

import math
from typing import Literal

Side = Literal["left", "right"]
SIDES: tuple[Side, Side] = ("left", "right")

Direction = Literal["outboard", "inboard", "forward", "rearward", "up"]
DIRECTIONS: dict[str, tuple[float, float, float]] = {
    "outboard": (0.0, 1.0, 0.0),
    "inboard": (0.0, -1.0, 0.0),
    "forward": (1.0, 0.0, 0.0),
    "rearward": (-1.0, 0.0, 0.0),
    "up": (0.0, 0.0, 1.0),
}
"""Unit vectors in corner axes (x forward, o outboard, z up)."""


def to_left(side: Side, steer_deg: float) -> float:
    """Steer angle of a wheel as seen in the left corner: positive steer is a left turn on the car.

    On the left corner a left turn swings the outboard end of the spin axis rearward; on the right corner a right
    turn does. This is the only place where left and right differ.
    """
    return steer_deg if side == "left" else -steer_deg


def spin_axis(camber_deg: float, corner_steer_deg: float) -> tuple[float, float, float]:
    """Unit vector along the spin axis, pointing outboard, in corner axes (x forward, o outboard, z up).

    Camber negative = top inboard, so the axis rises outboard by ``sin(-camber)``; steer in the sense of the left
    corner (see `to_left`). Source: derived from the definitions of ISO 8855.
    """
    camber, steer = math.radians(camber_deg), math.radians(corner_steer_deg)
    return (-math.sin(steer) * math.cos(camber), math.cos(steer) * math.cos(camber), -math.sin(camber))
