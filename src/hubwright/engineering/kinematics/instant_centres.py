"""Instant centres and roll centre, from the velocity of the wheel carrier at the solved pose.

No drawing of link lines: the carrier's velocity per mm of travel comes from the Jacobian, so it holds for every type.
The kinematic roll centre follows from the path of the contact centre. Source of the terms: SAE J670 (from memory);
formulas derived here: a point moves along v, so the instant centre lies on the line square to v.

Source: screw axis of rigid-body velocity (textbook kinematics, derived).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from hubwright.engineering.kinematics.characteristics import contact_centre
from hubwright.engineering.kinematics.solve import MotionStates, rates, wheel_poses
from hubwright.quantities.axes import Array, to_corner, turning_to_corner

STILL_PER_MM = 1e-12


@dataclass(frozen=True)
class InstantCentres:
    """Arrays (n,), corner axes with the origin of the vehicle axes; NaN where the state has no answer.

    An instant centre at infinity (the carrier does not turn in that view) is NaN too; the roll centre height and the
    slopes stay good there.

    Attributes:
        front_out_mm, front_up_mm: Front-view instant centre in the transverse plane through the contact centre.
        front_arm_mm: Front-view swing-arm length: contact centre to instant centre, across the car; positive = inboard.
        side_forward_mm, side_up_mm: Side-view instant centre in the lengthwise plane through the contact centre, wheel
            locked to its carrier (outboard brake).
        side_arm_mm: Side-view swing-arm length along the car; positive = instant centre ahead of the contact centre.
        roll_centre_height_mm: Over the ground, where the line from contact centre to instant centre crosses the car's
            middle plane; both sides taken as alike for a single corner, and as they are for an axle in roll.
        contact_out_per_mm, contact_forward_per_mm: Move of the contact centre, outboard and forward, per mm of bump.
    """

    front_out_mm: Array
    front_up_mm: Array
    front_arm_mm: Array
    side_forward_mm: Array
    side_up_mm: Array
    side_arm_mm: Array
    roll_centre_height_mm: Array
    contact_out_per_mm: Array
    contact_forward_per_mm: Array


def instant_centres(states: MotionStates, number: int = 0) -> InstantCentres:
    """Instant centres and roll centre of one wheel.

    The travel that is meant: a single corner's own; for two coupled wheels the front view takes roll (this wheel up,
    the other down by as much) and the side view takes both wheels up together.
    """
    poses = wheel_poses(states, number)
    side = poses.wheel.side
    p = to_corner(contact_centre(poses), side)
    roll = _contact_motion(states, number, p, -1.0)
    heave = _contact_motion(states, number, p, +1.0)
    (v_out, v_up, w_x), (v_fwd, v_rise, w_o) = (
        (roll[0][:, 1], roll[0][:, 2], roll[1][:, 0]),
        (
            heave[0][:, 0],
            heave[0][:, 2],
            heave[1][:, 1],
        ),
    )
    w_x = np.where(np.abs(w_x) > STILL_PER_MM, w_x, np.nan)
    w_o = np.where(np.abs(w_o) > STILL_PER_MM, w_o, np.nan)
    # v + w x (c - p) = 0 in the plane: c - p = (-v_up, v_out) / w_x in front view, (v_rise, -v_fwd) / w_o in side view
    front_out, front_up = -v_up / w_x, v_out / w_x
    side_fwd, side_up = v_rise / w_o, -v_fwd / w_o
    return InstantCentres(
        front_out_mm=p[:, 1] + front_out,
        front_up_mm=p[:, 2] + front_up,
        front_arm_mm=-front_out,
        side_forward_mm=p[:, 0] + side_fwd,
        side_up_mm=p[:, 2] + side_up,
        side_arm_mm=side_fwd,
        roll_centre_height_mm=p[:, 1] * v_out / v_up,
        contact_out_per_mm=v_out / v_up,
        contact_forward_per_mm=v_fwd / v_rise,
    )


def _contact_motion(states: MotionStates, number: int, contact: Array, other: float) -> tuple[Array, Array]:
    """Velocity of the contact centre and turning of the carrier per mm of travel, corner axes, (n, 3) each."""
    wheel = states.linkage.wheels[number]
    all_rates = rates(states)[:, :, wheel.body - 1]
    motion = all_rates[:, number]
    if len(states.linkage.wheels) == 2:
        motion = motion + other * all_rates[:, 1 - number]
    velocity = to_corner(motion[:, :3], wheel.side)
    turning = turning_to_corner(motion[:, 3:], wheel.side)
    arm = contact - to_corner(states.centre_mm[:, wheel.body - 1], wheel.side)
    return velocity + np.cross(turning, arm), turning
