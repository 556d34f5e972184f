"""Outlines as points: point n of outline k is (rho[n], y[n]) for n in a .. b, the first repeated at b.

Source: derived here.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from hubwright.engineering.envelope.outline.kernels import side_distance
from hubwright.engineering.kernels import njit

Floats = np.ndarray[Any, np.dtype[np.float64]]

DEPTH_MM = 0.005


@njit(error_model="numpy")
def within(r: float, h: float, rho: Floats, y: Floats, a: int, b: int, slide: float) -> bool:
    """Whether a point (r, h) lies inside the outline a .. b slid along y (crossing number)."""
    inside = False
    for i in range(a, b):
        yi, yj = y[i + 1] + slide, y[i] + slide
        if (yi > h) != (yj > h) and r < rho[i + 1] + (h - yi) / (yj - yi) * (rho[i] - rho[i + 1]):
            inside = not inside
    return inside


@njit(error_model="numpy")
def _depth(r: float, h: float, rho: Floats, y: Floats, a: int, b: int, slide: float) -> float:
    """Distance of an inside point from the sides that are surface (not on the axis)."""
    best = math.inf
    for i in range(a, b):
        if rho[i] > 0.0 or rho[i + 1] > 0.0:
            best = min(best, side_distance(r, h, rho[i], y[i] + slide, rho[i + 1], y[i + 1] + slide)[0])
    return best


@njit(error_model="numpy")
def overlap(lines: Floats, rho: Floats, y: Floats, a: int, b: int, slide: float) -> tuple[float, int]:
    """Depth of the deepest point of the lines inside the outline, by halving (depth grows 1 per 1), as minus the depth.

    To ``DEPTH_MM``, and the line it lies on.
    """
    deepest, which = 0.0, 0
    stack = np.empty((64, 2))
    for k in range(lines.shape[0]):
        dr, dy = lines[k, 2] - lines[k, 0], lines[k, 3] - lines[k, 1]
        length = math.hypot(dr, dy)
        stack[0, 0], stack[0, 1], top = 0.0, 1.0, 1
        while top > 0:
            top -= 1
            s0, s1 = stack[top, 0], stack[top, 1]
            s, half = 0.5 * (s0 + s1), 0.5 * (s1 - s0) * length
            r, h = lines[k, 0] + dr * s, lines[k, 1] + dy * s
            depth = _depth(r, h, rho, y, a, b, slide)
            if not within(r, h, rho, y, a, b, slide):
                depth = -depth
            if depth > deepest:
                deepest, which = depth, k
            if depth + half > deepest + DEPTH_MM and half > 0.5 * DEPTH_MM and top + 2 <= 64:
                stack[top, 0], stack[top, 1], stack[top + 1, 0], stack[top + 1, 1] = s0, s, s, s1
                top += 2
    return -deepest, which
