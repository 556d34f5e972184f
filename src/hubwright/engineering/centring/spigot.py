"""How much spigot a wheel still finds behind a plain disc, and how thick a lipped one must be."""

from __future__ import annotations

from hubwright.engineering.validity import require_not_negative
from hubwright.language import marked

GEOMETRY = marked("geometry of spigot and bore (derived)")


def plain_engagement_mm(spigot_mm: float, thickness_mm: float, bore_chamfer_mm: float) -> float:
    """Spigot inside the wheel's cylindrical bore behind a plain disc; negative when the wheel hangs free.

    Equation:
        e = h - t - c.

    Source:
        Geometry (derived).

    Args:
        spigot_mm: h, cylindrical spigot beyond the seating face.
        thickness_mm: t, per side.
        bore_chamfer_mm: c, chamfer of the wheel's bore.
    """
    require_not_negative("the plain disc", GEOMETRY, spigot_mm=spigot_mm, bore_chamfer_mm=bore_chamfer_mm)
    return spigot_mm - thickness_mm - bore_chamfer_mm


def thickest_plain_mm(spigot_mm: float, bore_chamfer_mm: float, least_engagement_mm: float) -> float:
    """Thickest plain disc that leaves the wanted spigot.

    Equation:
        t = h - c - e.

    Source:
        Geometry (derived); e is a policy of the shop.
    """
    return plain_engagement_mm(spigot_mm, 0.0, bore_chamfer_mm) - least_engagement_mm


def thinnest_lipped_mm(spigot_mm: float, air_mm: float) -> float:
    """Thinnest lipped disc with wheel bore = hub: the spigot must end inside the disc.

    Equation:
        t >= h + air, air = 1 mm.

    Source:
        Geometry; 1 mm of air before the closed end is common practice, no source.
    """
    require_not_negative("the lipped disc", GEOMETRY, spigot_mm=spigot_mm, air_mm=air_mm)
    return spigot_mm + air_mm
