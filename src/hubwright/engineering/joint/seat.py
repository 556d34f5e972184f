"""Seats of bolt or nut, and the radius at which each one rubs while it is tightened."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hubwright.engineering.validity import require_ascending, require_positive, require_within
from hubwright.language import marked

STATICS = marked("statics of a wedge: normal force = clamp / cosine of the normal's angle to the axis (derived)")


@dataclass(frozen=True)
class FlatSeat:
    """A flat ring; also the flange of a shank nut, whose shank locates but does not clamp."""

    inner_diameter_mm: float
    outer_diameter_mm: float


@dataclass(frozen=True)
class ConeSeat:
    """A cone; the included angle is 60 degrees by common practice, the contact circle is its mean diameter."""

    contact_diameter_mm: float
    included_angle_deg: float


@dataclass(frozen=True)
class BallSeat:
    """A ball of ``ball_radius_mm`` that touches its seat on a circle of ``contact_diameter_mm``."""

    contact_diameter_mm: float
    ball_radius_mm: float


@dataclass(frozen=True)
class FloatingWasherSeat:
    """A loose washer: flat under the nut, any fixed seat against the wheel. It turns where it turns more easily."""

    face: FlatSeat
    under: FlatSeat | ConeSeat | BallSeat


Seat = FlatSeat | ConeSeat | BallSeat | FloatingWasherSeat


def friction_arm_mm(seat: Seat) -> float:
    """Friction torque of the seat divided by (clamp force times coefficient of friction).

    Equation:
        flat: (d_i + d_o)/4; cone: r_c / sin(angle/2); ball: r_c / cos(asin(r_c/R)); loose washer: the least of its two.

    Source:
        Flat: VDI 2230 (DKm = (dW + Dki)/2, half of it). Cone and ball: statics of a wedge (derived), so that a cone of
        60 degrees counts double. Loose washer: slip on the face with the smaller torque, equal friction (derived).

    Raises:
        OutsideValidity: for sizes that make no seat (inner above outer, contact circle wider than the ball).
    """
    if isinstance(seat, FloatingWasherSeat):
        return min(friction_arm_mm(seat.face), friction_arm_mm(seat.under))
    if isinstance(seat, FlatSeat):
        inner, outer = seat.inner_diameter_mm, seat.outer_diameter_mm
        require_positive("the flat seat", "VDI 2230", inner_diameter_mm=inner)
        require_ascending("the flat seat", "VDI 2230", inner_diameter_mm=inner, outer_diameter_mm=outer)
        return (inner + outer) / 4
    r_c = seat.contact_diameter_mm / 2
    require_positive("the wedge seat", STATICS, contact_diameter_mm=seat.contact_diameter_mm)
    if isinstance(seat, ConeSeat):
        require_within("the cone seat", STATICS, 20, 180, included_angle_deg=seat.included_angle_deg)
        return r_c / math.sin(math.radians(seat.included_angle_deg / 2))
    require_ascending("the ball seat", STATICS, contact_radius_mm=r_c, ball_radius_mm=seat.ball_radius_mm)
    return r_c / math.cos(math.asin(r_c / seat.ball_radius_mm))


def bearing_diameter_mm(seat: Seat) -> float:
    """Diameter at which the clamp force enters the clamped parts; under a loose washer, the washer's own.

    Equation:
        flat: d_W = outer diameter; cone and ball: the contact circle.

    Source:
        VDI 2230 Part 1 (d_W); contact circle of a wedge (derived).
    """
    if isinstance(seat, FloatingWasherSeat):
        return bearing_diameter_mm(seat.under)
    return seat.outer_diameter_mm if isinstance(seat, FlatSeat) else seat.contact_diameter_mm
