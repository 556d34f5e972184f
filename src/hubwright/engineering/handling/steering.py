"""Steering: scrub radius and its sign, pull at the wheel, turning circle."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hubwright.engineering.handling.change import Change
from hubwright.engineering.validity import require_positive, require_within

GILLESPIE = "Gillespie, Fundamentals of Vehicle Dynamics, chapter 8"
REIMPELL = "Reimpell, Stoll & Betzler, The Automotive Chassis, turning circle"


@dataclass(frozen=True)
class ScrubChange:
    """Scrub radius before and after; ``flips`` is True where its sign turns round."""

    scrub_mm: Change
    flips: bool


def scrub_change(scrub_mm: float, thickness_mm: float) -> ScrubChange:
    """Scrub radius with a disc.

    Equation:
        r' = r + t.

    Source:
        Barton & Fieldhouse p. 174 (sign: positive when the steering axis meets the ground inboard of the contact
        patch); geometry for t (derived, camber and inclination leave out less than 1 % of t).
    """
    changed = scrub_mm + thickness_mm
    return ScrubChange(Change(scrub_mm, changed), scrub_mm * changed < 0)


def steering_axis_moment_nm(force_n: float, arm_mm: float, inclination_deg: float, caster_deg: float) -> float:
    """Moment of a fore-aft force about one wheel's steering axis.

    Equation:
        M = F_x d cos(caster) cos(inclination).

    Source:
        Gillespie, Fundamentals of Vehicle Dynamics, chapter 8 (moment of tractive force; from memory).

    Args:
        force_n: Fore-aft force at one wheel, positive forwards; a braked or kerbed wheel is negative.
        arm_mm: Scrub radius for a brake in the wheel or a kerb; offset at axle height for drive through a shaft.
        inclination_deg: Lateral inclination of the steering axis.
        caster_deg: Its caster.

    Returns:
        N*m, positive turning the front of the wheel inwards (toe-in).
    """
    require_within("the steering moment", GILLESPIE, -45, 45, inclination_deg=inclination_deg, caster_deg=caster_deg)
    return force_n * arm_mm / 1000 * math.cos(math.radians(caster_deg)) * math.cos(math.radians(inclination_deg))


def steering_axis_moment_change_nm(
    force_n: float, arm_mm: float, thickness_mm: float, inclination_deg: float, caster_deg: float
) -> Change:
    """The same before and after a disc.

    Equation:
        M(d) and M(d + t).

    Source:
        Gillespie, Fundamentals of Vehicle Dynamics, chapter 8 (from memory), with the arm grown by t (derived).
    """
    arms = (arm_mm, arm_mm + thickness_mm)
    return Change(*(steering_axis_moment_nm(force_n, arm, inclination_deg, caster_deg) for arm in arms))


def tie_rod_force_n(moment_nm: float, steering_arm_mm: float) -> float:
    """Force in the tie rod that holds a moment about the steering axis.

    Equation:
        F = M/l.

    Source:
        Statics (derived); the rod square to the arm.
    """
    require_positive("the tie rod force", "statics", steering_arm_mm=steering_arm_mm)
    return moment_nm * 1000 / steering_arm_mm


def turning_circle_change_mm(
    wheelbase_mm: float, outer_lock_deg: float, scrub_mm: float, thickness_mm: float
) -> Change:
    """Turning circle (track circle of the outer front wheel), diameter before and after at the same lock.

    Equation:
        D = 2 (l/sin(delta_o) + r_s); with a disc D + 2 t.

    Source:
        Reimpell, Stoll & Betzler, The Automotive Chassis (turning circle; from memory); slow turn about the rear axle.

    Raises:
        OutsideValidity: for a lock outside 5 to 70 degrees.
    """
    require_positive("the turning circle", REIMPELL, wheelbase_mm=wheelbase_mm)
    require_within("the turning circle", REIMPELL, 5, 70, outer_lock_deg=outer_lock_deg)
    standard = 2 * (wheelbase_mm / math.sin(math.radians(outer_lock_deg)) + scrub_mm)
    return Change(standard, standard + 2 * thickness_mm)
