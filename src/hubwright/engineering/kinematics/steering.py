"""From a lock angle to the rack that makes it.

Source: inverse of the solved motion (derived).
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from hubwright.engineering.kinematics.characteristics import characteristics
from hubwright.engineering.kinematics.linkage import Linkage
from hubwright.engineering.kinematics.solve import MotionStates, rates, solve, wheel_poses
from hubwright.errors import BadInput, Fault
from hubwright.language import say
from hubwright.language.part_words import suspension_word
from hubwright.quantities.axes import Array

CLOSE_DEG = 1e-7
ROUNDS = 40
RACK_STEP_MAX_MM = 20.0


def rack_for_steer(linkage: Linkage, steer_deg: ArrayLike, travel_mm: ArrayLike = 0.0) -> Array:
    """Rack that turns the wheel to a steer angle at a travel, (n,) mm; NaN where no rack reaches it.

    Newton with the slope ``d steer / d rack`` from the Jacobian: the spin axis n turns with w, ``dn = w x n``, and
    ``d atan2(n_x, n_y) = (n_y dn_x - n_x dn_y) / (n_x^2 + n_y^2)``. Steps are at most 20 mm and are halved whenever the
    linkage cannot follow, so a wheel that meets its dead point before the angle gives NaN, not a number.

    Args:
        linkage: With a steered link.
        steer_deg: Positive = left turn, (n,) or a number, as `characteristics` gives it.
        travel_mm: Positive = bump, (n,) or a number.

    Raises:
        BadInput: nothing steers this linkage.
    """
    if not linkage.steered:
        raise BadInput(
            "rack_for_steer",
            (
                Fault(
                    "linkage",
                    say("a steered link"),
                    say("{linkage} without one", linkage=suspension_word(linkage.name)),
                ),
            ),
        )
    wanted, travel = (np.array(a, float).ravel() for a in np.broadcast_arrays(steer_deg, travel_mm))
    rack = np.zeros_like(wanted)
    good, step = np.zeros_like(wanted), np.zeros_like(wanted)
    step_max = np.full_like(wanted, RACK_STEP_MAX_MM)
    miss = np.full_like(wanted, np.inf)
    for _ in range(ROUNDS):
        states = solve(linkage, travel, rack)
        solved = states.solved
        step_max[~solved] *= 0.5
        reached = characteristics(states).steer_deg
        slope = _steer_slope(states)
        found = wanted - reached
        # where the linkage did not follow, go back to the last good rack and try a shorter step from there
        miss = np.where(solved, found, miss)
        good = np.where(solved, rack, good)
        if np.all(solved & (np.abs(miss) < CLOSE_DEG)):
            break
        step = np.where(solved, found / slope, step)
        rack = good + np.clip(step, -step_max, step_max)
    return np.where(np.abs(miss) < 10.0 * CLOSE_DEG, good, np.nan)


def _steer_slope(states: MotionStates) -> Array:
    axis = wheel_poses(states).axis
    turning = rates(states)[:, -1, states.linkage.wheels[0].body - 1, 3:]
    change = np.cross(turning, axis)
    level = axis[:, 0] ** 2 + axis[:, 1] ** 2
    # steer = -toe on the left, +toe on the right; both are the turn of the axis about Z seen in vehicle axes
    return np.asarray(np.degrees((axis[:, 0] * change[:, 1] - axis[:, 1] * change[:, 0]) / level))
