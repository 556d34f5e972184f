"""The disc's own spigot: its wall, the axle nose that must pass it, and the wheel bore that must take it."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.engineering.validity import require_not_negative, require_positive
from hubwright.language import marked

GEOMETRY = marked("geometry of lip, nose and bore (derived)")


@dataclass(frozen=True)
class LipRoom:
    """Room of one lipped disc on one hub in one wheel, mm; negative means it does not go.

    Attributes:
        wall_mm: Thickness of the lip's wall.
        nose_reach_mm: How far the axle nose stands beyond the disc's outer face; None without a nose.
        nose_side_mm: Gap between nose and lip all round; None where no nose reaches the lip.
        bore_depth_mm: Wheel bore depth left in front of the lip.
        cap_mm: Gap between the centre cap and the foremost of lip and nose; None where no cap is measured.
        grip_mm: Lip inside the wheel's cylindrical bore, beyond its chamfer.
    """

    wall_mm: float
    nose_reach_mm: float | None
    nose_side_mm: float | None
    bore_depth_mm: float
    cap_mm: float | None
    grip_mm: float


@dataclass(frozen=True)
class Nose:
    """Axle end or dust cap that stands beyond the spigot."""

    diameter_mm: float
    beyond_spigot_mm: float


@dataclass(frozen=True)
class Lip:
    """Disc lip: outer diameter fits the wheel, inner diameter lets the nose through."""

    outer_diameter_mm: float
    inner_diameter_mm: float
    length_mm: float


def overlap_wall_mm(wheel_bore_mm: float, hub_mm: float) -> float:
    """Wall of a lip that sits round the hub's own spigot, possible where the wheel's bore is larger than the hub.

    Equation:
        w = (bore - hub)/2.

    Source:
        Geometry (derived).
    """
    require_positive("the overlapping lip", GEOMETRY, wheel_bore_mm=wheel_bore_mm, hub_mm=hub_mm)
    return (wheel_bore_mm - hub_mm) / 2


def lip_room(
    lip: Lip,
    *,
    spigot_mm: float,
    thickness_mm: float,
    nose: Nose | None,
    bore_depth_mm: float,
    bore_chamfer_mm: float,
    cap_room_mm: float | None,
) -> LipRoom:
    """Every gap of a lipped disc.

    Equation:
        wall = (D_lip - d_lip)/2; nose reach = h + nose - t; nose side = (d_lip - d_nose)/2;
        bore = depth - lip; cap = cap room - max(lip, nose reach); grip = lip - c.

    Source:
        Geometry (derived).

    Args:
        lip: The disc's lip.
        spigot_mm: h.
        thickness_mm: t, per side.
        nose: Axle nose; None where there is none.
        bore_depth_mm: Depth of the wheel's bore at lip diameter, from its mounting face.
        bore_chamfer_mm: Chamfer at its mouth.
        cap_room_mm: From the wheel's mounting face to the inside of the centre cap; None where not measured.
    """
    require_positive("the lip", GEOMETRY, length_mm=lip.length_mm, inner_diameter_mm=lip.inner_diameter_mm)
    require_not_negative("the lip", GEOMETRY, bore_depth_mm=bore_depth_mm, bore_chamfer_mm=bore_chamfer_mm)
    reach = None if nose is None else spigot_mm + nose.beyond_spigot_mm - thickness_mm
    passes = nose is not None and reach is not None and reach > 0
    foremost = max(lip.length_mm, reach or 0.0)
    return LipRoom(
        wall_mm=(lip.outer_diameter_mm - lip.inner_diameter_mm) / 2,
        nose_reach_mm=reach,
        nose_side_mm=(lip.inner_diameter_mm - nose.diameter_mm) / 2 if nose is not None and passes else None,
        bore_depth_mm=bore_depth_mm - lip.length_mm,
        cap_mm=None if cap_room_mm is None else cap_room_mm - foremost,
        grip_mm=lip.length_mm - bore_chamfer_mm,
    )
