"""Axes. Vehicle: X forward, Y left, Z up (ISO 8855). Corner: x forward, o outboard, z up, on both sides.

A left corner's axes are the vehicle's; a right corner's are the vehicle's seen in a mirror on the plane Y = 0. The
mirror is here and nowhere else: `mirrored` for places and directions, `turning_to_corner` for turnings, `to_left` for
steer angles. Nothing else flips a sign. Source: ISO 8855 (vehicle axes); the mirror is its geometry.
"""

from __future__ import annotations

import math
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]
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


def mirrored(vectors: ArrayLike) -> Array:
    """Points or directions (..., 3) seen in the mirror Y = 0. Its own inverse. Source: ISO 8855 axes."""
    return np.asarray(np.asarray(vectors, float) * np.array([1.0, -1.0, 1.0]), float)


def to_corner(vectors: ArrayLike, side: Side) -> Array:
    """Points or directions (..., 3) in vehicle axes, in the corner axes of ``side``; also the way back."""
    return mirrored(vectors) if side == "right" else np.asarray(vectors, float)


def turning_to_corner(turning: ArrayLike, side: Side) -> Array:
    """An angular velocity or moment (..., 3) in vehicle axes, in the corner axes of ``side``; also the way back.

    A turning is an axial vector: the mirror keeps its part across the mirror plane and flips the two within it.
    """
    return -mirrored(turning) if side == "right" else np.asarray(turning, float)
