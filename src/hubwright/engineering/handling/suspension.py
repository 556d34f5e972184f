"""Springs seen from the road, and how a disc softens them by lengthening the lever."""

from __future__ import annotations

from hubwright.engineering.handling.change import Change
from hubwright.engineering.validity import require_not_negative, require_positive
from hubwright.language import marked

LEVER = marked("lever from the front-view instant centre to the contact patch (derived)")


def wheel_rate_n_per_mm(spring_rate_n_per_mm: float, motion_ratio: float) -> float:
    """Rate at the wheel of a spring somewhere along the arm.

    Equation:
        k_w = k_s (c/b)^2, c/b = spring travel over wheel travel.

    Source:
        Barton & Fieldhouse, Automotive Chassis Engineering, p. 174.
    """
    require_positive("the wheel rate", "Barton & Fieldhouse p. 174", spring_rate_n_per_mm=spring_rate_n_per_mm)
    require_positive("the wheel rate", "Barton & Fieldhouse p. 174", motion_ratio=motion_ratio)
    return spring_rate_n_per_mm * motion_ratio**2


def lever_factor(arm_mm: float | None, thickness_mm: float) -> float:
    """Force at the contact patch for the same spring force, over the standard one.

    Equation:
        L/(L + t); 1 for a solid axle, whose springs do not feel the wheels move out.

    Source:
        Lever (derived). Holds for small t against L.

    Args:
        arm_mm: L, contact patch to front-view instant centre; None for a solid axle.
        thickness_mm: t, per side.
    """
    if arm_mm is None:
        return 1.0
    require_positive("the lever", LEVER, arm_mm=arm_mm, lengthened_mm=arm_mm + thickness_mm)
    return arm_mm / (arm_mm + thickness_mm)


def wheel_rate_change(wheel_rate_n_per_mm: float, arm_mm: float | None, thickness_mm: float) -> Change:
    """Wheel rate before and after, N/mm.

    Equation:
        k' = k (L/(L + t))^2.

    Source:
        Lever, once for travel and once for force (derived).
    """
    require_positive("the wheel rate", LEVER, wheel_rate_n_per_mm=wheel_rate_n_per_mm)
    return Change(wheel_rate_n_per_mm, wheel_rate_n_per_mm * lever_factor(arm_mm, thickness_mm) ** 2)


def roll_stiffness_nm_per_rad(wheel_rate_n_per_mm: float, track_mm: float) -> float:
    """Roll stiffness of one independent axle's springs.

    Equation:
        K = k T^2/2.

    Source:
        Barton & Fieldhouse, Automotive Chassis Engineering, p. 174.
    """
    require_positive("the roll stiffness", "Barton & Fieldhouse p. 174", track_mm=track_mm)
    require_not_negative("the roll stiffness", "Barton & Fieldhouse p. 174", wheel_rate_n_per_mm=wheel_rate_n_per_mm)
    return wheel_rate_n_per_mm * track_mm**2 / 2 / 1000


def roll_stiffness_change(
    stiffness_nm_per_rad: float, track_mm: float, arm_mm: float | None, thickness_mm: float
) -> Change:
    """Roll stiffness of an axle before and after, springs and anti-roll bar alike.

    Equation:
        K' = K (L/(L + t))^2 ((T + 2 t)/T)^2; a solid axle keeps its K.

    Source:
        K = k T^2/2 (Barton & Fieldhouse p. 174) with the lever (derived); a bar worked by the same arm scales alike.
    """
    require_not_negative("the roll stiffness", LEVER, stiffness_nm_per_rad=stiffness_nm_per_rad)
    if arm_mm is None:
        return Change(stiffness_nm_per_rad, stiffness_nm_per_rad)
    wider = track_change_factor(track_mm, thickness_mm)
    factor = (lever_factor(arm_mm, thickness_mm) * wider) ** 2
    return Change(stiffness_nm_per_rad, stiffness_nm_per_rad * factor)


def track_change_factor(track_mm: float, thickness_mm: float) -> float:
    """Track with discs over standard track, t per side on both sides.

    Equation:
        (T + 2 t)/T.

    Source:
        Geometry (derived).
    """
    require_positive("the track", "geometry", track_mm=track_mm, with_disc_mm=track_mm + 2 * thickness_mm)
    return (track_mm + 2 * thickness_mm) / track_mm


def roll_centre_change_mm(height_mm: float, track_mm: float, arm_mm: float | None, thickness_mm: float) -> Change:
    """Height of the roll centre before and after; the instant centre stays, the contact patch moves out.

    Equation:
        h' = h (L/(L + t)) ((T/2 + t)/(T/2)); a solid axle keeps its h.

    Source:
        Line from contact patch through instant centre to the middle of the car (derived).
    """
    if arm_mm is None:
        return Change(height_mm, height_mm)
    factor = lever_factor(arm_mm, thickness_mm) * track_change_factor(track_mm, thickness_mm)
    return Change(height_mm, height_mm * factor)


def parked_drop_mm(
    sprung_load_n: float, wheel_rate_n_per_mm: float, arm_mm: float | None, thickness_mm: float
) -> float:
    """How far the parked body sinks because the longer lever presses the spring harder.

    Equation:
        s = F t/(L + t) / k', k' = k (L/(L + t))^2.

    Source:
        Lever and linear spring (derived); zero for a solid axle.

    Args:
        sprung_load_n: Parked wheel load without wheel, hub and the arm's share.
        wheel_rate_n_per_mm: k, standard.
        arm_mm: L.
        thickness_mm: t, per side.

    Returns:
        Millimetres, positive when the body sinks.
    """
    require_not_negative("the parked drop", LEVER, sprung_load_n=sprung_load_n)
    softer = wheel_rate_change(wheel_rate_n_per_mm, arm_mm, thickness_mm).with_disc
    return sprung_load_n * (1 - lever_factor(arm_mm, thickness_mm)) / softer
