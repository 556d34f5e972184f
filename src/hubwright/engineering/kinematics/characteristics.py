"""What the wheel stands like in each state: camber, toe, half-track, steering axis, scrub, trail.

Definitions (books differ, so each is said; corner axes x forward, o outboard, z up; n = unit spin axis, outboard):

- camber: true inclination of the wheel plane to the vertical, in the plane through spin axis and vertical,
  ``-asin(n_z)``, negative = top inboard; not its projection on the car's frontal plane.
- toe: ``atan2(n_x, n_o)``, positive = toe-in; steer: the same turn, positive = to the left.
- half-track change: outboard move of the contact centre; the wheel centre's own move is a separate figure.
- contact centre: wheel centre less the loaded radius along the steepest line of the wheel plane; ground: the level
  plane through it.
- kingpin inclination and caster: of the steering axis k, projected on the car's own transverse and side planes,
  ``atan2(-k_o, k_z)`` and ``atan2(-k_x, k_z)``; positive = top inboard, top rearward.
- scrub radius: from where the steering axis meets the ground to the contact centre, along the wheel's own level
  lateral direction, positive = contact outboard; trail: along the wheel's own forward direction, positive = axis ahead.

Source of the terms: ISO 8855; formulas derived from these definitions.

Source: geometry of the poses (derived) with the definitions above; ISO 8855 for the axes.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from hubwright.engineering.kinematics.linkage import Wheel
from hubwright.engineering.kinematics.solve import MotionStates, WheelPoses, carried, rates, wheel_poses
from hubwright.quantities.axes import Array, to_corner

UP = np.array([0.0, 0.0, 1.0])


@dataclass(frozen=True)
class Characteristics:
    """One wheel in every state, arrays (n,) unless said; NaN where the state has no answer.

    The steering-axis figures (kingpin inclination to scrub distance) are NaN throughout where nothing steers the wheel
    or the state has no steering axis.

    Attributes:
        camber_deg, toe_deg, steer_deg: See the module.
        centre_shift_mm: Wheel centre less its rest place, vehicle axes, (n, 3).
        centre_out_mm: Outboard part of it.
        half_track_change_mm: Outboard move of the contact centre.
        contact_mm: Contact centre, vehicle axes, (n, 3).
        kingpin_inclination_deg, caster_deg, scrub_mm, trail_mm: See the module.
        scrub_distance_mm: Level distance from the steering axis to the contact centre: scrub and trail together.
    """

    camber_deg: Array
    toe_deg: Array
    steer_deg: Array
    centre_shift_mm: Array
    centre_out_mm: Array
    half_track_change_mm: Array
    contact_mm: Array
    kingpin_inclination_deg: Array
    caster_deg: Array
    scrub_mm: Array
    trail_mm: Array
    scrub_distance_mm: Array


def characteristics(states: MotionStates, number: int = 0) -> Characteristics:
    """All figures of one wheel of the linkage (see `Characteristics` and the module for the definitions).

    Args:
        states: From `solve`.
        number: Wheel of the linkage; 1 is the right one of a coupled axle.
    """
    poses = wheel_poses(states, number)
    wheel = poses.wheel
    n = to_corner(poses.axis, wheel.side)
    toe = np.degrees(np.arctan2(n[:, 0], n[:, 1]))
    contact = contact_centre(poses)
    rest = WheelPoses(wheel, np.array([wheel.centre_mm]), wheel.axis[None, :])
    shift = poses.centre_mm - np.array(wheel.centre_mm)
    ground = to_corner(contact, wheel.side)
    kpi, caster, scrub, trail = _steering(states, number, n, ground)
    return Characteristics(
        camber_deg=np.degrees(-np.arcsin(np.clip(n[:, 2], -1.0, 1.0))),
        toe_deg=toe,
        steer_deg=-toe if wheel.side == "left" else toe,
        centre_shift_mm=shift,
        centre_out_mm=to_corner(shift, wheel.side)[:, 1],
        half_track_change_mm=ground[:, 1] - to_corner(contact_centre(rest), wheel.side)[0, 1],
        contact_mm=contact,
        kingpin_inclination_deg=kpi,
        caster_deg=caster,
        scrub_mm=scrub,
        trail_mm=trail,
        scrub_distance_mm=np.hypot(scrub, trail),
    )


def contact_centre(poses: WheelPoses) -> Array:
    """Contact centre in each state, vehicle axes, (n, 3) mm: loaded radius down the wheel plane's steepest line."""
    steepest = UP - poses.axis[:, 2:3] * poses.axis
    steepest /= np.linalg.norm(steepest, axis=1, keepdims=True)
    return np.asarray(poses.centre_mm - poses.wheel.radius_mm * steepest)


def steering_axis(states: MotionStates, number: int = 0) -> tuple[Array, Array]:
    """A point of the steering axis and its direction (upward) in each state, vehicle axes, (n, 3) each.

    Through the two pivot points where the hard points show them (ball joints; ball joint and strut top). Where only
    links hold the carrier (five links) it is the instantaneous screw axis of the carrier while the rack moves and the
    wheel centre keeps its height: direction w, point ``c + w x v / |w|^2`` (Mozzi's axis; from memory, e.g. Bottema &
    Roth, Theoretical Kinematics). NaN where nothing steers.
    """
    linkage = states.linkage
    if linkage.kingpin is not None and linkage.steered:
        lower, upper = (
            carried(states, point) if in_body else _standing(states, point)
            for point, in_body in zip(linkage.kingpin, linkage.kingpin_in_body, strict=True)
        )
        return lower, upper - lower
    if not linkage.steered:
        nothing = np.full((len(states.status), 3), np.nan)
        return nothing, nothing
    body = linkage.wheels[number].body - 1
    motion = rates(states)[:, -1, body]
    velocity, turning = motion[:, :3], motion[:, 3:]
    square = np.sum(turning**2, axis=1, keepdims=True)
    point = states.centre_mm[:, body] + np.cross(turning, velocity) / square
    return point, turning * np.sign(turning[:, 2:3])


def _standing(states: MotionStates, point: ArrayLike) -> Array:
    """A point of the vehicle body, once for every state, NaN where the state has no answer."""
    return np.where(states.solved[:, None], np.asarray(point, float), np.nan)


def _steering(states: MotionStates, number: int, n: Array, contact: Array) -> tuple[Array, Array, Array, Array]:
    wheel: Wheel = states.linkage.wheels[number]
    point, direction = (to_corner(one, wheel.side) for one in steering_axis(states, number))
    kpi = np.degrees(np.arctan2(-direction[:, 1], direction[:, 2]))
    caster = np.degrees(np.arctan2(-direction[:, 0], direction[:, 2]))
    pierce = point + direction * ((contact[:, 2] - point[:, 2]) / direction[:, 2])[:, None]
    level = np.hypot(n[:, 0], n[:, 1])
    out_x, out_o = n[:, 0] / level, n[:, 1] / level
    off = contact - pierce
    scrub = off[:, 0] * out_x + off[:, 1] * out_o
    trail = -(off[:, 0] * out_o - off[:, 1] * out_x)
    return kpi, caster, scrub, trail
