"""Where a disc puts the wheel, and how the gap at one point changes while the wheel travels."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
import numpy.typing as npt

from hubwright.errors import OutsideValidity
from hubwright.language import say
from hubwright.quantities.axes import DIRECTIONS, spin_axis

Array = npt.NDArray[np.float64]
Curve = Callable[[Array], Array]

BEYOND_READINGS_MM = 3.0
"""How far outside the radii read a half width is still taken as that of the last reading."""


def push(direction: str, camber_deg: float, corner_steer_deg: float) -> float:
    """How much of a disc's thickness is taken from a gap in one direction; negative where the disc opens it.

    A disc moves the wheel along its cambered and steered spin axis, so ``push = axis . direction``: 20 mm at -2 deg of
    camber is 19.99 mm outboard and 0.70 mm up; 15 mm at 35 deg of steer is 12.29 mm sideways and 8.60 mm fore-and-aft.

    Args:
        direction: From the tyre to the point, in corner axes (see `hubwright.quantities.axes.DIRECTIONS`).
        camber_deg: Negative = top inboard.
        corner_steer_deg: In the sense of the left corner (see `hubwright.quantities.axes.to_left`).

    Source: derived from the axes of ISO 8855.
    """
    axis = spin_axis(camber_deg, corner_steer_deg)
    return math.fsum(a * d for a, d in zip(axis, DIRECTIONS[direction], strict=True))


def smooth_through(x: Array, y: Array) -> Curve:
    """A curve through readings that never rises above its neighbours between them.

    Monotone piecewise cubic from three readings on, a straight line through two, constant for one; outside the
    readings it goes on straight with its end slope.

    Args:
        x: Ascending, shape (n,), n >= 1.
        y: Same shape.

    Source: Fritsch and Carlson, SIAM J. Numer. Anal. 17 (1980) 238, as in scipy.interpolate.PchipInterpolator.
    """
    if len(x) == 1:
        return lambda at: np.full(np.shape(at), y[0])
    slopes = np.diff(y) / np.diff(x)

    def straight_on(at: Array, inside: Array) -> Array:
        low, high = y[0] + slopes[0] * (at - x[0]), y[-1] + slopes[-1] * (at - x[-1])
        return np.where(at < x[0], low, np.where(at > x[-1], high, inside))

    if len(x) == 2:
        return lambda at: straight_on(at, y[0] + slopes[0] * (at - x[0]))
    from scipy.interpolate import PchipInterpolator  # noqa: PLC0415 - heavy, and only needed here

    inner = PchipInterpolator(x, y)
    return lambda at: straight_on(at, np.asarray(inner(np.clip(at, x[0], x[-1]))))


def local_half_width(radius_mm: Array, half_width_mm: Array) -> Curve:
    """Half width of the tyre by radius from calliper readings, mm, from the rim centre plane.

    Args:
        radius_mm: Radii read, ascending, shape (n,), n >= 2.
        half_width_mm: Same shape.

    Raises:
        OutsideValidity: when asked for a radius more than 3 mm outside the readings.

    Source: readings; between them see `smooth_through`.
    """
    curve = smooth_through(radius_mm, half_width_mm)

    def at(radius: Array) -> Array:
        low, high = radius_mm[0] - BEYOND_READINGS_MM, radius_mm[-1] + BEYOND_READINGS_MM
        outside = (radius < low) | (radius > high)
        if np.any(outside):
            worst = float(np.asarray(radius)[outside][0])
            raise OutsideValidity(
                "the half width from readings",
                "radius",
                f"{worst:.0f} mm",
                say("{low} to {high} mm", low=f"{low:.0f}", high=f"{high:.0f}"),
                "readings",
            )
        return curve(np.clip(radius, radius_mm[0], radius_mm[-1]))

    return at


def gap_change(travel_mm: Array, height_mm: float, half_width: Curve, camber: Curve, half_track: Curve) -> Array:
    """Change of the sideways gap at a point fixed to the body since the car was parked, mm, shape of ``travel_mm``.

    ``change(z) = -[w(h0 - z) - w(h0)] + [-(h0 - z) sin c(z) + h0 sin c(0)] - [dy(z) - dy(0)]``, with w the local half
    width, h0 the height of the point above the wheel centre when parked, c the camber (negative = top inboard) and dy
    the half-track change (outboard positive). Holds for a point above the wheel centre, wheel straight ahead.

    Source: derived.
    """
    parked = np.zeros(1)

    def lean(height: Array, camber_deg: Array) -> Array:
        return -height * np.sin(np.radians(camber_deg))

    heights = height_mm - travel_mm
    width = half_width(heights) - half_width(np.array([height_mm]))
    leaning = lean(heights, camber(travel_mm)) - lean(np.array([height_mm]), camber(parked))
    return np.asarray(-width + leaning - (half_track(travel_mm) - half_track(parked)))


def compliance_outward(
    height_mm: float, side_force_kn: float, camber_deg_per_kn: float, lateral_mm_per_kn: float
) -> float:
    """How far the loaded outer wheel comes outboard at a height above its centre, mm (negative: inboard).

    The side force of the road points inboard: it shifts the hub inboard and tilts the top of the wheel outboard,
    ``h sin(Cg F) - Cy F``: 5 kN, 0.25 deg/kN, 0.4 mm/kN at 320 mm give +5.0 mm.

    Source: derived.
    """
    tilt_deg = camber_deg_per_kn * side_force_kn
    return height_mm * math.sin(math.radians(tilt_deg)) - lateral_mm_per_kn * side_force_kn


def sagitta(travel_mm: Array, first_mm: float, second_mm: float, radius_mm: float) -> Array:
    """Largest bulge of a sidewall beyond the straight line between two readings, mm: ``(z - z1)(z2 - z) / 2R``.

    Source: circle of radius R, small-angle form; derived.
    """
    return np.asarray((travel_mm - first_mm) * (second_mm - travel_mm) / (2 * radius_mm))


def barrel_loss(move_mm: float, ramp_deg: float, ramp_start_mm: float) -> float:
    """Radial room over the caliper lost when the wheel moves outboard, mm.

    ``(move - start) tan(ramp)`` beyond the start of the ramp: 15 deg starting after 0.5 mm, moved 5 mm: 1.21 mm.

    Source: derived.
    """
    return max(0.0, move_mm - ramp_start_mm) * math.tan(math.radians(ramp_deg))


def floor_slope_mm(left_mm: float, right_mm: float, left_turned_mm: float, right_turned_mm: float) -> float:
    """How much of a plumb-line reading is the slope of the floor, mm, from two rounds with the car turned between.

    ``((L1 - R1) - (L2 - R2)) / 4``. What remains of the left-right difference is the car's own.

    Source: reversal method of metrology (as with a spirit level); derived.
    """
    return ((left_mm - right_mm) - (left_turned_mm - right_turned_mm)) / 4
