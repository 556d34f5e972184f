"""Forces on one wheel, and what they ask of a joint face at a given place along the axle."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hubwright.engineering.validity import require_not_negative, require_positive
from hubwright.language import marked

STATICS = marked("statics of one wheel (derived); sign as UN R124 annex 6 bending moment F (mu r + d)")


@dataclass(frozen=True)
class WheelLoad:
    """Forces of the ground on one tyre, and the torque that passes through the wheel fasteners.

    Attributes:
        name: Which case.
        vertical_n: Upwards.
        inward_n: Sideways, positive towards the car (outer wheel in a bend, kerb struck sideways), negative away.
        fore_aft_n: Along the car, either sign.
        spin_torque_nm: Drive or brake torque about the spin axis carried by the joint.
        radius_mm: Height of the axle above the ground.
    """

    name: str
    vertical_n: float
    inward_n: float
    fore_aft_n: float
    spin_torque_nm: float
    radius_mm: float


@dataclass(frozen=True)
class InterfaceDemand:
    """What one joint face must carry.

    Attributes:
        name: Load case.
        torque_nm: About the spin axis, to be carried by friction.
        shear_n: Across the face, vertical and fore-aft together.
        separating_n: Pull that parts the face; a push counts as zero.
        moment_nm: Tilting moment, to be carried without gaping.
    """

    name: str
    torque_nm: float
    shear_n: float
    separating_n: float
    moment_nm: float


def braking(vertical_n: float, grip: float, radius_mm: float) -> WheelLoad:
    """A wheel braked to the grip of its tyre.

    Equation:
        F_x = grip F_z, T = F_x r.

    Source:
        Statics (derived).
    """
    require_not_negative("braking", STATICS, vertical_n=vertical_n, grip=grip)
    force_n = grip * vertical_n
    return WheelLoad("braking", vertical_n, 0.0, -force_n, force_n * radius_mm / 1000, radius_mm)


def driving(vertical_n: float, wheel_torque_nm: float, grip: float, radius_mm: float) -> WheelLoad:
    """A driven wheel: the torque at the wheel, or what the grip of the tyre can take if that is less.

    Equation:
        T = min(T_wheel, grip F_z r), F_x = T/r.

    Source:
        Statics (derived).
    """
    require_positive("driving", STATICS, radius_mm=radius_mm)
    require_not_negative("driving", STATICS, vertical_n=vertical_n, grip=grip, wheel_torque_nm=wheel_torque_nm)
    torque_nm = min(wheel_torque_nm, grip * vertical_n * radius_mm / 1000)
    return WheelLoad("driving", vertical_n, 0.0, torque_nm * 1000 / radius_mm, torque_nm, radius_mm)


def cornering(vertical_n: float, side_grip: float, radius_mm: float, outer: bool) -> WheelLoad:
    """A wheel in a bend.

    Equation:
        F_y = side_grip F_z, towards the car on the outer wheel, away from it on the inner.

    Source:
        Statics (derived).
    """
    require_not_negative("cornering", STATICS, vertical_n=vertical_n, side_grip=side_grip)
    side_n = side_grip * vertical_n * (1 if outer else -1)
    return WheelLoad(
        "cornering, outer wheel" if outer else "cornering, inner wheel", vertical_n, side_n, 0, 0, radius_mm
    )


def kerb(
    static_n: float, vertical_factor: float, side_factor: float, fore_aft_factor: float, radius_mm: float
) -> WheelLoad:
    """One wheel on a kerb; no torque passes a rolling wheel.

    Equation:
        each force = factor x static wheel load.

    Source:
        Common practice, no source: the factors are assumptions of the caller.
    """
    require_not_negative("the kerb case", STATICS, static_n=static_n, vertical_factor=vertical_factor)
    vertical, side, along = (static_n * factor for factor in (vertical_factor, side_factor, fore_aft_factor))
    return WheelLoad("kerb", vertical, side, along, 0.0, radius_mm)


def face_offsets_mm(inset_mm: float, thickness_mm: float) -> tuple[float, float]:
    """Place of the tyre's middle plane outboard of the hub face and of the wheel's mounting face.

    Equation:
        a_hub = t - ET, a_wheel = -ET. Only the hub face feels the disc.

    Source:
        ISO 3911 inset (definition); geometry (derived).
    """
    return thickness_mm - inset_mm, -inset_mm


def interface_demand(load: WheelLoad, face_offset_mm: float) -> InterfaceDemand:
    """What one face must carry when the tyre's middle plane stands ``face_offset_mm`` outboard of it.

    Equation:
        T = |T_spin|; Q = sqrt(F_z^2 + F_x^2); A = max(0, -F_inward); M = sqrt((F_z a - F_inward r)^2 + (F_x a)^2).

    Source:
        Statics of one wheel (derived). For inset a = -d and the outer wheel, M = F (mu r + d) as in UN R124 annex 6.
        A disc relieves the outer wheel of an inset wheel and loads the inner one; look at both.

    Raises:
        OutsideValidity: when the radius is not positive.
    """
    require_positive("the demand on a face", STATICS, radius_mm=load.radius_mm)
    a, r = face_offset_mm / 1000, load.radius_mm / 1000
    roll_nm = load.vertical_n * a - load.inward_n * r
    yaw_nm = load.fore_aft_n * a
    return InterfaceDemand(
        name=load.name,
        torque_nm=abs(load.spin_torque_nm),
        shear_n=math.hypot(load.vertical_n, load.fore_aft_n),
        separating_n=max(0.0, -load.inward_n),
        moment_nm=math.hypot(roll_nm, yaw_nm),
    )
