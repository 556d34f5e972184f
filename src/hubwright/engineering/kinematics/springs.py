"""Length and motion ratio of a spring, damper or bar link over the states.

Source: geometry of the poses (derived).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from hubwright.engineering.kinematics.linkage import Arm, Point
from hubwright.engineering.kinematics.solve import MotionStates, carried, rates
from hubwright.errors import BadInput, Fault
from hubwright.language import say
from hubwright.quantities.axes import Array


@dataclass(frozen=True)
class Spring:
    """Two ends at rest, vehicle axes, mm. ``on`` is ``carrier`` or the name of an arm of the linkage (upper, lower)."""

    body_end_mm: Point
    moving_end_mm: Point
    on: str = "carrier"
    body: int = 1


@dataclass(frozen=True)
class SpringMotion:
    """Arrays (n,). ``motion_ratio`` = compression of the spring per mm of wheel travel at the state, dimensionless."""

    length_mm: Array
    compression_mm: Array
    motion_ratio: Array


def spring_motion(states: MotionStates, spring: Spring, number: int = 0) -> SpringMotion:
    """How a spring or damper follows wheel ``number``: ``ratio = -dL/dz`` from the Jacobian, other inputs held.

    A wheel rate follows as ``k ratio^2 + F d(ratio)/dz``; derived from virtual work.

    Raises:
        BadInput: ``on`` names no arm of this linkage, or the two ends are in one place.
    """
    rest = float(np.linalg.norm(np.subtract(spring.moving_end_mm, spring.body_end_mm)))
    if rest < 1.0:
        raise BadInput(say("spring"), (Fault("ends", say("two places at least 1 mm apart"), say("one place")),))
    place, velocity = _end(states, spring, number)
    along = place - np.array(spring.body_end_mm)
    length = np.linalg.norm(along, axis=1)
    ratio = -np.sum(along * velocity, axis=1) / length
    return SpringMotion(length, rest - length, ratio)


def _end(states: MotionStates, spring: Spring, number: int) -> tuple[Array, Array]:
    """Place and velocity per mm of travel of the moving end."""
    if spring.on == "carrier":
        return carried(states, spring.moving_end_mm, spring.body), _velocity(
            states, spring.moving_end_mm, spring.body, number
        )
    if spring.on not in states.linkage.arms:
        known = ", ".join(["carrier", *states.linkage.arms])
        raise BadInput(say("spring"), (Fault("on", say("one of {known}", known=known), spring.on),))
    return _end_on_arm(states, states.linkage.arms[spring.on], spring.moving_end_mm, number)


def _velocity(states: MotionStates, point: Point, body: int, number: int) -> Array:
    motion = rates(states)[:, number, body - 1]
    arm = carried(states, point, body) - states.centre_mm[:, body - 1]
    return np.asarray(motion[:, :3] + np.cross(motion[:, 3:], arm))


def _end_on_arm(states: MotionStates, arm: Arm, end: Point, number: int) -> tuple[Array, Array]:
    """An arm turns about its hinge line by the angle that brings its outer point where the carrier took it."""
    pivot = np.array(arm.pivot_rear_mm)
    hinge = np.subtract(arm.pivot_front_mm, arm.pivot_rear_mm)
    hinge = hinge / np.linalg.norm(hinge)
    before = np.subtract(arm.outer_mm, pivot)
    after = carried(states, arm.outer_mm, arm.body) - pivot
    flat_before = before - hinge * (before @ hinge)
    flat_after = after - np.outer(after @ hinge, hinge)
    angle = np.arctan2(np.cross(flat_before, flat_after) @ hinge, flat_after @ flat_before)
    reach = np.subtract(end, pivot)
    cosine, sine = np.cos(angle)[:, None], np.sin(angle)[:, None]
    # Rodrigues' rotation formula about the hinge
    turned = reach * cosine + np.cross(hinge, reach) * sine + np.outer(1.0 - np.cos(angle), hinge * (hinge @ reach))
    sweep = np.cross(hinge, flat_after)
    speed = np.sum(sweep * _velocity(states, arm.outer_mm, arm.body, number), axis=1) / np.sum(sweep**2, axis=1)
    return pivot + turned, speed[:, None] * np.cross(hinge, turned)
