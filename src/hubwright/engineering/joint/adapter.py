"""Discs bolted to the hub by their own inner joint: heads in the disc, original studs behind the wheel."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hubwright.engineering.validity import require_not_negative, require_positive
from hubwright.language import marked

GEOMETRY = marked("geometry of a bolted disc (derived)")


@dataclass(frozen=True)
class InnerJoint:
    """The joint that holds the disc to the hub.

    Attributes:
        head_below_face_mm: How far the head or nut stays below the disc's outer face; negative means it stands proud.
        web_mm: Material under the head.
    """

    head_below_face_mm: float
    web_mm: float


@dataclass(frozen=True)
class StudRoom:
    """An original stud that comes through the disc, against the pocket in the wheel's back.

    Attributes:
        proud_mm: Stud beyond the disc's outer face; zero or less means it stays inside.
        depth_room_mm: Pocket depth left in front of the stud's end.
        side_room_mm: Gap between stud and pocket wall along the circle; None where the pocket is a ring.
        radial_room_mm: Gap between stud and pocket wall along the radius.
    """

    proud_mm: float
    depth_room_mm: float
    side_room_mm: float | None
    radial_room_mm: float


def inner_joint(thickness_mm: float, counterbore_mm: float, head_mm: float) -> InnerJoint:
    """Room over the head and material under it.

    Equation:
        below face = counterbore - head; web = t - counterbore.

    Source:
        Geometry (derived).

    Args:
        thickness_mm: Disc, per side.
        counterbore_mm: Depth of the counterbore from the outer face.
        head_mm: Height of bolt head or nut with washer.
    """
    require_positive("the inner joint", GEOMETRY, thickness_mm=thickness_mm, head_mm=head_mm)
    require_not_negative("the inner joint", GEOMETRY, counterbore_mm=counterbore_mm)
    return InnerJoint(counterbore_mm - head_mm, thickness_mm - counterbore_mm)


def stud_room(
    *,
    stud_mm: float,
    stud_diameter_mm: float,
    thickness_mm: float,
    pocket_depth_mm: float,
    pocket_width_mm: float,
    stud_circle_mm: float,
    pocket_circle_mm: float,
    pocket_angle_deg: float | None,
) -> StudRoom:
    """Whether an original stud disappears in the wheel's pocket.

    Equation:
        proud = l - t; depth room = pocket depth - max(proud, 0); side room = (w - d)/2 - r |sin(angle)|;
        radial room = (w - d)/2 - |D_pocket - r_D cos(angle)|/2 with r_D the stud circle.

    Source:
        Geometry (derived).

    Args:
        stud_mm: Stud from the hub face (with the brake disc fitted) to its end.
        stud_diameter_mm: Its diameter.
        thickness_mm: Disc, per side.
        pocket_depth_mm: Depth of the pocket in the wheel's mounting face; 0 for a flat one.
        pocket_width_mm: Its width, along the circle and along the radius.
        stud_circle_mm: Bolt circle of the original studs.
        pocket_circle_mm: Circle through the middle of the pockets.
        pocket_angle_deg: Angle between stud and middle of the nearest pocket; None where the pocket is a full ring.
    """
    require_positive("stud room", GEOMETRY, stud_circle_mm=stud_circle_mm, pocket_circle_mm=pocket_circle_mm)
    require_not_negative("stud room", GEOMETRY, pocket_depth_mm=pocket_depth_mm, pocket_width_mm=pocket_width_mm)
    angle = math.radians(pocket_angle_deg or 0.0)
    free = (pocket_width_mm - stud_diameter_mm) / 2
    proud = stud_mm - thickness_mm
    side = None if pocket_angle_deg is None else free - stud_circle_mm / 2 * abs(math.sin(angle))
    radial = free - abs(pocket_circle_mm - stud_circle_mm * math.cos(angle)) / 2
    return StudRoom(proud, pocket_depth_mm - max(proud, 0.0), side, radial)
