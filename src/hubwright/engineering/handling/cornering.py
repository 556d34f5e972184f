"""A car in a bend: body roll, load transfer of each axle, and which end loses grip earlier."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hubwright.engineering.handling.change import Change
from hubwright.engineering.handling.suspension import roll_centre_change_mm, roll_stiffness_change
from hubwright.engineering.handling.track import GRAVITY_M_S2, lateral_transfer_n, track_change_mm
from hubwright.engineering.validity import require_positive

BOOK = "Barton & Fieldhouse, Automotive Chassis Engineering, p. 174"


@dataclass(frozen=True)
class Axle:
    """One axle of a rolling car.

    Attributes:
        track_mm: T.
        sprung_mass_kg: Part of the sprung mass that rests on it.
        roll_centre_mm: Height of the roll centre.
        roll_stiffness_nm_per_rad: Springs and bar together.
        unsprung_mass_kg: Wheels, hubs and the rest that does not roll with the body.
        unsprung_height_mm: Height of its centre.
        arm_mm: Contact patch to front-view instant centre; None for a solid axle.
    """

    track_mm: float
    sprung_mass_kg: float
    roll_centre_mm: float
    roll_stiffness_nm_per_rad: float
    unsprung_mass_kg: float
    unsprung_height_mm: float
    arm_mm: float | None


@dataclass(frozen=True)
class Car:
    """Two axles and the height of the sprung centre of gravity."""

    front: Axle
    rear: Axle
    sprung_height_mm: float


@dataclass(frozen=True)
class AxleTransfer:
    """Load from the inner to the outer wheel of one axle, N, by the way it takes."""

    geometric_n: float
    unsprung_n: float
    elastic_n: float

    @property
    def total_n(self) -> float:
        """All three together."""
        return self.geometric_n + self.unsprung_n + self.elastic_n


@dataclass(frozen=True)
class CorneringChanges:
    """What discs change in a steady bend.

    ``front_share`` is the front axle's part of the whole transfer: when it grows the car tends to run wide
    (understeer), when it falls the tail tends to go (oversteer).
    """

    front_track_mm: Change
    rear_track_mm: Change
    front_transfer_n: Change
    rear_transfer_n: Change
    roll_deg: Change
    front_share: Change


def roll_arm_mm(car: Car) -> float:
    """Height of the sprung centre of gravity above the roll axis.

    Equation:
        d = h - (m_f h_rf + m_r h_rr)/(m_f + m_r).

    Source:
        Barton & Fieldhouse p. 174 (roll axis through both roll centres, taken at the centre of gravity).
    """
    front, rear = car.front, car.rear
    sprung_kg = front.sprung_mass_kg + rear.sprung_mass_kg
    moment = front.sprung_mass_kg * front.roll_centre_mm + rear.sprung_mass_kg * rear.roll_centre_mm
    return car.sprung_height_mm - moment / sprung_kg


def roll_rad(car: Car, side_g: float) -> float:
    """Body roll in a steady bend.

    Equation:
        phi = m_s a d / (K_f + K_r - m_s g d).

    Source:
        Barton & Fieldhouse p. 174.

    Raises:
        OutsideValidity: when the springs cannot hold the body up.
    """
    m_s = car.front.sprung_mass_kg + car.rear.sprung_mass_kg
    d = roll_arm_mm(car) / 1000
    stiffness = car.front.roll_stiffness_nm_per_rad + car.rear.roll_stiffness_nm_per_rad
    require_positive("body roll", BOOK, stiffness_left_nm_per_rad=stiffness - m_s * GRAVITY_M_S2 * d)
    return m_s * side_g * GRAVITY_M_S2 * d / (stiffness - m_s * GRAVITY_M_S2 * d)


def axle_transfer(axle: Axle, side_g: float, roll: float) -> AxleTransfer:
    """The three parts of one axle's load transfer at a given body roll in rad.

    Equation:
        geometric m_s,i a h_rc/T; unsprung m_u a h_u/T; elastic K_i phi/T.

    Source:
        Barton & Fieldhouse p. 174.
    """
    unsprung_n = 0.0
    if axle.unsprung_mass_kg > 0:
        unsprung_n = lateral_transfer_n(axle.unsprung_mass_kg, side_g, axle.unsprung_height_mm, axle.track_mm)
    return AxleTransfer(
        geometric_n=lateral_transfer_n(axle.sprung_mass_kg, side_g, axle.roll_centre_mm, axle.track_mm),
        unsprung_n=unsprung_n,
        elastic_n=axle.roll_stiffness_nm_per_rad * roll / (axle.track_mm / 1000),
    )


def with_disc(axle: Axle, thickness_mm: float) -> Axle:
    """The axle with discs of ``thickness_mm`` per side on both sides.

    Equation:
        T + 2 t; K and h_rc by the lever L/(L + t), see `suspension`.

    Source:
        Geometry and lever (derived).
    """
    return Axle(
        track_mm=track_change_mm(axle.track_mm, thickness_mm, thickness_mm).with_disc,
        sprung_mass_kg=axle.sprung_mass_kg,
        roll_centre_mm=roll_centre_change_mm(axle.roll_centre_mm, axle.track_mm, axle.arm_mm, thickness_mm).with_disc,
        roll_stiffness_nm_per_rad=roll_stiffness_change(
            axle.roll_stiffness_nm_per_rad, axle.track_mm, axle.arm_mm, thickness_mm
        ).with_disc,
        unsprung_mass_kg=axle.unsprung_mass_kg,
        unsprung_height_mm=axle.unsprung_height_mm,
        arm_mm=None if axle.arm_mm is None else axle.arm_mm + thickness_mm,
    )


def cornering_changes(car: Car, front_mm: float, rear_mm: float, side_g: float) -> CorneringChanges:
    """Everything a steady bend shows of discs of ``front_mm`` and ``rear_mm`` per side.

    Equation:
        `roll_rad` and `axle_transfer` of both cars; front share = front transfer over both.

    Source:
        Barton & Fieldhouse p. 174 for each car; differences (derived).
    """
    changed = Car(with_disc(car.front, front_mm), with_disc(car.rear, rear_mm), car.sprung_height_mm)
    before, after = ((_totals(each, side_g)) for each in (car, changed))
    return CorneringChanges(
        front_track_mm=Change(car.front.track_mm, changed.front.track_mm),
        rear_track_mm=Change(car.rear.track_mm, changed.rear.track_mm),
        front_transfer_n=Change(before[0], after[0]),
        rear_transfer_n=Change(before[1], after[1]),
        roll_deg=Change(math.degrees(roll_rad(car, side_g)), math.degrees(roll_rad(changed, side_g))),
        front_share=Change(before[0] / sum(before), after[0] / sum(after)),
    )


def _totals(car: Car, side_g: float) -> tuple[float, float]:
    require_positive("the load transfer", BOOK, side_g=side_g)
    roll = roll_rad(car, side_g)
    return axle_transfer(car.front, side_g, roll).total_n, axle_transfer(car.rear, side_g, roll).total_n
