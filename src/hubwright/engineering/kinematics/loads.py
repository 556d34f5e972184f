"""What each way of using the car puts on the wheels, as changes of sprung load per wheel or axle, in N or kg.

Source: statics (derived) where a function names no book.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from scipy.optimize import brentq

from hubwright.engineering.kinematics.travel import FAR_MM, SprungWheel, spring_energy
from hubwright.errors import OutsideValidity

GRAVITY_M_PER_S2 = 9.80665


@dataclass(frozen=True)
class AxleChange:
    """Change per axle, both wheels together, in the unit of the function that gives it."""

    front: float
    rear: float


def plate_wheel_load(axle_plate_kg: float, unsprung_axle_kg: float) -> float:
    """Sprung load on each wheel with the axle loaded to its plate, N: ``(m_plate - m_unsprung) g / 2``."""
    return 0.5 * (axle_plate_kg - unsprung_axle_kg) * GRAVITY_M_PER_S2


def towing_change(nose_kg: float, behind_axle_mm: float, wheelbase_mm: float) -> AxleChange:
    """Axle load change from a nose weight behind the rear axle, kg.

    ``rear = m (1 + a / L)``, ``front = -m a / L``: the law of the lever. 100 kg at 1100 mm, wheelbase 3300 mm: +133.3
    and -33.3 kg.
    """
    lever = behind_axle_mm / wheelbase_mm
    return AxleChange(front=-nose_kg * lever, rear=nose_kg * (1.0 + lever))


def braking_change(
    mass_kg: float,
    slowing_m_per_s2: float,
    centre_height_mm: float,
    wheelbase_mm: float,
    *,
    links_front: float = 0.0,
    links_rear: float = 0.0,
) -> AxleChange:
    """Axle load change that the springs feel in braking, N.

    ``+-m a h / L``, less the share that the links carry (anti-dive, anti-lift, 0..1 each). Source: moment balance, e.g.
    Milliken & Milliken, Race Car Vehicle Dynamics, ch. 18 (from memory). Shares of 0 give the longest travel.
    """
    transfer = mass_kg * slowing_m_per_s2 * centre_height_mm / wheelbase_mm
    return AxleChange(front=transfer * (1.0 - links_front), rear=-transfer * (1.0 - links_rear))


def roll_angle(mass_kg: float, sideways_m_per_s2: float, arm_mm: float, roll_stiffness_nm_per_rad: float) -> float:
    """Roll of the body in steady cornering, rad.

    ``phi = m a d / (K - m g d)``, d = centre of mass over the roll axis. Source: Barton & Fieldhouse, Automotive
    Chassis Engineering, p. 174 (1280 kg, 365 mm, 28650 Nm/rad: 0.0194 rad per m/s2).

    Raises:
        OutsideValidity: the car would fall over on its springs (K not above m g d), or the angle is above 0.2 rad.
    """
    source = "Barton & Fieldhouse, Automotive Chassis Engineering, p. 174"
    arm_m = arm_mm * 1e-3
    left = roll_stiffness_nm_per_rad - mass_kg * GRAVITY_M_PER_S2 * arm_m
    if left <= 0.0:
        raise OutsideValidity("roll_angle", "roll stiffness", roll_stiffness_nm_per_rad, "K above m g d", source)
    angle = mass_kg * sideways_m_per_s2 * arm_m / left
    if abs(angle) > 0.2:
        raise OutsideValidity("roll_angle", "roll angle in rad", angle, "small angles, up to 0.2 rad", source)
    return angle


def cornering_change(axle_roll_stiffness_nm_per_rad: float, roll_rad: float, track_mm: float) -> float:
    """Sprung load the springs of an axle move from the inner to the outer wheel, N: ``K_axle phi / T``.

    The rest of the load transfer goes through the links at roll-centre height and bends no spring. Source: Barton &
    Fieldhouse, p. 174.
    """
    return axle_roll_stiffness_nm_per_rad * roll_rad / (track_mm * 1e-3)


def axle_roll_stiffness(wheel_rate_n_per_mm: float, bar_n_per_mm: float, track_mm: float) -> float:
    """Roll stiffness of an axle, Nm/rad: ``(k + 2 b) T^2 / 2``, k per wheel, b = bar force per mm of height difference.

    Source: Barton & Fieldhouse, p. 174 for ``k T^2 / 2``; the bar's term from the same moment balance.
    """
    return 0.5 * (wheel_rate_n_per_mm + 2.0 * bar_n_per_mm) * track_mm**2 * 1e-3


def kerb_strike_travel(
    wheel: SprungWheel, unsprung_kg: float, speed_km_per_h: float, kerb_mm: float, radius_mm: float
) -> float:
    """Bump travel of one wheel that runs over a kerb, mm; simple and on the long side.

    A stiff wheel pivots about the kerb's edge after an impact without rebound: the speed square to the line from edge
    to centre stays, ``v cos b`` with ``cos b = (R - h) / R``; its upright part is ``v cos b sin b``. Spring and stop
    take up ``m v_z^2 / 2`` while the body stands still; damper, tyre and the body's own move, which all shorten the
    travel, are left out. Never less than the kerb itself, nor more than a limit read with the spring out. Derived.

    Raises:
        OutsideValidity: a kerb below 0 or at least as high as the wheel centre.
    """
    if not 0.0 <= kerb_mm < radius_mm:
        raise OutsideValidity("kerb_strike_travel", "kerb_mm", kerb_mm, "0 to below the wheel radius", "derived")
    cosine = (radius_mm - kerb_mm) / radius_mm
    upright_m_per_s = speed_km_per_h / 3.6 * cosine * math.sqrt(1.0 - cosine**2)
    energy_n_mm = 0.5 * unsprung_kg * upright_m_per_s**2 * 1e3
    travel = float(brentq(lambda z: spring_energy(wheel, z) - energy_n_mm, 0.0, FAR_MM, xtol=1e-9))
    travel = max(travel, kerb_mm)
    return travel if wheel.bump_limit_mm is None else min(travel, wheel.bump_limit_mm)
