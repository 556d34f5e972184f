"""Does friction hold the face, and does the clamp keep it closed: capacity over demand, as ranges."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from hubwright.engineering.joint.wheel_load import InterfaceDemand
from hubwright.engineering.validity import require_ascending, require_not_negative, require_positive
from hubwright.language import marked
from hubwright.uncertainty.band import Band, corners, exactly

STATICS = marked("Coulomb friction and beam statics of a bolted face (derived)")


@dataclass(frozen=True)
class Face:
    """One annular joint face.

    Attributes:
        fasteners: How many clamp it.
        inner_diameter_mm: Inside of the touching ring.
        outer_diameter_mm: Outside of the touching ring.
        friction: Coefficient of friction of the two faces.
    """

    fasteners: int
    inner_diameter_mm: float
    outer_diameter_mm: float
    friction: Band


@dataclass(frozen=True)
class CapacityOverDemand:
    """Capacity, demand and their ratio; ratio 1 is the limit, infinite where nothing is asked.

    ``unit`` says in what capacity and demand are given (``N`` for slip, ``N*m`` for gaping).
    """

    case: str
    unit: str
    capacity: Band
    demand: Band
    ratio: Band


def friction_radius_mm(face: Face) -> float:
    """Mean radius at which an evenly pressed ring rubs.

    Equation:
        r_f = (2/3) (R_o^3 - R_i^3)/(R_o^2 - R_i^2).

    Source:
        Shigley's Mechanical Engineering Design 9th ed., disc clutch with uniform pressure (eq. 16-29 from memory).
    """
    inner, outer = face.inner_diameter_mm, face.outer_diameter_mm
    require_not_negative("the friction radius", STATICS, inner_diameter_mm=inner)
    require_ascending("the friction radius", STATICS, inner_diameter_mm=inner, outer_diameter_mm=outer)
    R_i, R_o = inner / 2, outer / 2
    return 2 / 3 * (R_o**3 - R_i**3) / (R_o**2 - R_i**2)


def slip_ratio(
    face: Face, clamp_n: Band, demand: InterfaceDemand, spigot_carries_shear: bool, load_factor: Band | None = None
) -> CapacityOverDemand:
    """Friction available over friction needed, at one face, for one load case.

    Equation:
        capacity = mu (n F_V - A); demand = T/r_f + Q, or T/r_f where the spigot is counted on for Q.

    Source:
        Coulomb friction; VDI 2230 Part 1 (F_Q and M_Y held by friction: F_Q/(q_F mu_T) + M_Y/(q_M r_a mu_T)).
        Adding T/r_f and Q as numbers is on the safe side: at most fasteners they point in different directions.

    Args:
        face: The ring and its friction.
        clamp_n: Clamp force per fastener after losses.
        demand: From `interface_demand`.
        spigot_carries_shear: True where spigot and bore are a fit and the policy counts on it.
        load_factor: Doubt of the loads as a factor; None for none.

    Returns:
        Ranges in newtons.
    """
    require_positive("slip", STATICS, fasteners=face.fasteners)
    r_f_m = friction_radius_mm(face) / 1000
    shear_n = 0.0 if spigot_carries_shear else demand.shear_n
    asked_n = demand.torque_nm / r_f_m + shear_n
    factor = load_factor or exactly(1.0)

    def capacity(clamp: float, mu: float, load: float) -> float:
        return mu * max(0.0, face.fasteners * clamp - load * demand.separating_n)

    return _over(demand.name, "N", capacity_of=capacity, bands=(clamp_n, face.friction), asked=asked_n, factor=factor)


def gape_ratio(
    face: Face, clamp_n: Band, demand: InterfaceDemand, load_factor: Band | None = None
) -> CapacityOverDemand:
    """Tilting moment at which the face starts to open, over the moment asked, for one load case.

    Equation:
        M_open = (n F_V - A) (R_o^2 + R_i^2)/(4 R_o); demand = M.

    Source:
        Kern of an annulus: sigma = F/A - M/W is zero at the edge for M = F W/A (beam theory, derived; VDI 2230 Part 1
        uses the same one-sided opening limit for eccentric joints).

    Returns:
        Ranges in N*m.
    """
    require_positive("gaping", STATICS, fasteners=face.fasteners)
    require_ascending(
        "gaping", STATICS, inner_diameter_mm=face.inner_diameter_mm, outer_diameter_mm=face.outer_diameter_mm
    )
    R_i, R_o = face.inner_diameter_mm / 2000, face.outer_diameter_mm / 2000
    kern_m = (R_o**2 + R_i**2) / (4 * R_o)
    factor = load_factor or exactly(1.0)

    def capacity(clamp: float, load: float) -> float:
        return kern_m * max(0.0, face.fasteners * clamp - load * demand.separating_n)

    return _over(demand.name, "N*m", capacity_of=capacity, bands=(clamp_n,), asked=demand.moment_nm, factor=factor)


def _over(
    case: str, unit: str, *, capacity_of: Callable[..., float], bands: tuple[Band, ...], asked: float, factor: Band
) -> CapacityOverDemand:
    capacity = corners(capacity_of, *bands, factor)
    demand = factor.scaled(asked)

    def ratio_of(*values: float) -> float:
        wanted = asked * values[-1]
        return capacity_of(*values) / wanted if wanted > 0 else math.inf

    return CapacityOverDemand(case, unit, capacity, demand, corners(ratio_of, *bands, factor))
