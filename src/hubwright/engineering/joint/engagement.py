"""Length of thread in use, before and after a disc (in turns: `hubwright.tables.threads.turns`)."""

from __future__ import annotations


def bolt_engagement_mm(engaged_now_mm: float, length_now_mm: float, length_new_mm: float, thickness_mm: float) -> float:
    """Engagement of a wheel bolt after disc and bolt are changed; may be negative, when it no longer reaches.

    Equation:
        L_e' = L_e + (l' - l) - t.

    Source:
        Geometry of the stack (derived); both lengths by the same seat reference.
    """
    return engaged_now_mm + (length_new_mm - length_now_mm) - thickness_mm


def required_length_mm(length_now_mm: float, thickness_mm: float) -> float:
    """Bolt length that keeps the engagement of today.

    Equation:
        l' = l + t.

    Source:
        Geometry of the stack (derived).
    """
    return length_now_mm + thickness_mm


def stud_reach_mm(stud_mm: float, hat_mm: float, pad_mm: float, thickness_mm: float) -> float:
    """How far the stud, its lead included, enters the nut.

    Equation:
        reach = l - hat - pad - t.

    Source:
        Geometry of the stack (derived).

    Args:
        stud_mm: Stud from the hub flange to its end.
        hat_mm: Brake disc hat between flange and disc.
        pad_mm: Wheel from its mounting face to where the nut's thread starts.
        thickness_mm: Disc, per side.
    """
    return stud_mm - hat_mm - pad_mm - thickness_mm


def stud_engagement_mm(stud_mm: float, lead_mm: float, hat_mm: float, pad_mm: float, thickness_mm: float) -> float:
    """Full thread of a stud inside its nut.

    Equation:
        L_e = l - lead - hat - pad - t.

    Source:
        Geometry of the stack (derived).
    """
    return stud_reach_mm(stud_mm, hat_mm, pad_mm, thickness_mm) - lead_mm


def closed_nut_room_mm(nut_depth_mm: float, reach_mm: float) -> float:
    """Free depth left in a closed nut; negative when the stud bottoms before the nut clamps.

    Equation:
        room = depth - reach.

    Source:
        Geometry of the stack (derived).
    """
    return nut_depth_mm - reach_mm
