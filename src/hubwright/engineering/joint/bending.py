"""Bending of a long bolt or stud: by a crooked seat, by a hole out of place, by a face that slips."""

from __future__ import annotations

import math

from hubwright.engineering.validity import require_not_negative, require_positive
from hubwright.language import marked
from hubwright.tables.threads import Thread

BEAM = marked("Bernoulli beam, both ends held (derived)")


def seat_angle_stress_mpa(thread: Thread, free_mm: float, seat_angle_deg: float, modulus_mpa: float) -> float:
    """Bending stress in the root section when the seat is out of square with the thread.

    Equation:
        M = E I theta / l, sigma = M/W = E d3 theta/(2 l).

    Source:
        Bernoulli beam bent to the angle theta over its free length (derived).

    Returns:
        MPa. Longer is better here; compare `slip_stress_mpa`, where longer is worse.
    """
    require_positive("bolt bending", BEAM, free_mm=free_mm, modulus_mpa=modulus_mpa)
    return modulus_mpa * thread.d3_mm * math.radians(abs(seat_angle_deg)) / (2 * free_mm)


def misplaced_hole_stress_mpa(thread: Thread, free_mm: float, offset_mm: float, modulus_mpa: float) -> float:
    """Bending stress when the seat pulls the fastener sideways by ``offset_mm`` over its free length.

    Equation:
        M = 6 E I delta / l^2, sigma = 3 E d3 delta / l^2.

    Source:
        Bernoulli beam, both ends held parallel, shifted by delta (derived).
    """
    require_positive("bolt bending", BEAM, free_mm=free_mm, modulus_mpa=modulus_mpa)
    return 3 * modulus_mpa * thread.d3_mm * abs(offset_mm) / free_mm**2


def slip_stress_mpa(thread: Thread, free_mm: float, side_force_n: float) -> float:
    """Bending stress when a slipped face hangs on the fastener: the long stud through a slip-on disc.

    Equation:
        M = Q l/2, sigma = 32 M/(pi d3^3).

    Source:
        Bernoulli beam, both ends held parallel, side force Q (derived). A face that holds by friction never asks this.
    """
    require_positive("bolt bending", BEAM, free_mm=free_mm)
    require_not_negative("bolt bending", BEAM, side_force_n=side_force_n)
    return 32 * (side_force_n * free_mm / 2) / (math.pi * thread.d3_mm**3)
