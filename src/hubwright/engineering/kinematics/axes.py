"""The one mirror between vehicle axes and corner axes.

Vehicle axes: ISO 8855, X forward, Y left, Z up. Corner axes: x forward, o outboard, z up, on both sides of the car.
A left corner's axes are the vehicle's; a right corner's are the vehicle's seen in a mirror on the plane Y = 0.

Source: ISO 8855 (vehicle axes); the mirror is its geometry.
"""

from __future__ import annotations

from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

Side = Literal["left", "right"]
Array = NDArray[np.float64]


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
