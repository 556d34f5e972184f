"""What keeps a disc off the hub face: the fillet at the spigot's foot, the head of a retaining screw."""

from __future__ import annotations

import math

from hubwright.engineering.validity import require_not_negative
from hubwright.language import marked

GEOMETRY = marked("geometry of fillet and chamfer (derived)")


def fillet_standoff_mm(fillet_mm: float, chamfer_mm: float, bore_gap_mm: float) -> float:
    """How far a disc is held off the face by the fillet between spigot and face; zero where its chamfer clears it.

    The fillet's outline is hollow, so a straight 45 degree chamfer touches it only at one of its two edges.

    Equation:
        face edge at x = g + c: s1 = r - sqrt(r^2 - (r - x)^2) for x < r; bore edge at x = g: the outline stands at
        height y = r - sqrt(r^2 - (r - g)^2), s2 = y - c; s = max(0, s1, s2). A chamfer c >= r always seats.

    Source:
        Plane geometry (derived).

    Args:
        fillet_mm: r, radius at the spigot's foot.
        chamfer_mm: c, leg of the 45 degree chamfer of the disc's bore on the hub side.
        bore_gap_mm: g, radial gap between bore and spigot.

    Returns:
        Stand-off s, mm.
    """
    require_not_negative("the fillet", GEOMETRY, fillet_mm=fillet_mm, chamfer_mm=chamfer_mm, bore_gap_mm=bore_gap_mm)

    def height(x: float) -> float:
        return fillet_mm - math.sqrt(fillet_mm**2 - (fillet_mm - x) ** 2) if x < fillet_mm else 0.0

    return max(0.0, height(bore_gap_mm + chamfer_mm), height(bore_gap_mm) - chamfer_mm)


def retaining_screw_room_mm(head_proud_mm: float, pocket_depth_mm: float) -> float:
    """Room over a retaining screw's head in the disc's pocket; negative lifts the disc.

    Equation:
        room = pocket depth - head; pocket depth 0 where there is none.

    Source:
        Geometry (derived).
    """
    require_not_negative("the retaining screw", GEOMETRY, head_proud_mm=head_proud_mm, pocket_depth_mm=pocket_depth_mm)
    return pocket_depth_mm - head_proud_mm
