"""Solve a linkage for the poses of its bodies over travel and rack, all states in one batch.

Source: Newton's method with continuation on the rows of `linkage` (derived).
"""

# the kernels take their types from Numba
# mypy: disable-error-code="no-untyped-call"

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hubwright.engineering.kinematics import kernels
from hubwright.engineering.kinematics.linkage import Linkage, Wheel, table_of
from hubwright.engineering.turns import one_parallel_kernel
from hubwright.errors import BadInput, Fault
from hubwright.language import marked, say
from hubwright.language.part_words import suspension_word
from hubwright.quantities.axes import Array

UNTIDY_MM, ROW_MM = 15.0, 4.0
STATUS_WORDS = {
    kernels.OK: marked("solved"),
    kernels.IMPOSSIBLE: marked("the links cannot meet"),
    kernels.SINGULAR: marked("at or next to a dead point"),
    kernels.PAST_DEAD_POINT: marked("only reached by passing a dead point"),
}


@dataclass(frozen=True)
class MotionStates:
    """Poses of the moving bodies. Where ``status`` is not 0 every other figure of the state is NaN.

    Attributes:
        linkage: What was solved.
        inputs_mm: Travel of each wheel (positive = bump), then rack, (n, wheels + 1).
        centre_mm: Origin of each body, vehicle axes, (n, bodies, 3).
        rotation: Turn of each body from rest, (n, bodies, 3, 3); columns are where X, Y, Z directions went.
        status: 0 solved; see `STATUS_WORDS`, (n,).
        strain_mm: Largest length error left in any row, (n,): rounding for a rigid linkage, the give of the rubber
            where more links than four hold an axle.
        pivot_ratio: Smallest over largest pivot of the Jacobian, (n,); small = close to a dead point.
    """

    linkage: Linkage
    inputs_mm: Array
    centre_mm: Array
    rotation: Array
    status: NDArray[np.int8]
    strain_mm: Array
    pivot_ratio: Array

    @property
    def solved(self) -> NDArray[np.bool_]:
        """Which states have an answer, (n,)."""
        return np.asarray(self.status == kernels.OK)


@dataclass(frozen=True)
class WheelPoses:
    """Where one wheel is in each state, vehicle axes: centre (n, 3) mm and unit spin axis pointing outboard (n, 3)."""

    wheel: Wheel
    centre_mm: Array
    axis: Array


@dataclass(frozen=True)
class HubPoses:
    """What the clearance map takes: hub face centre (n, 3) mm, spin axis outboard (n, 3), status (n,), vehicle axes."""

    origin_mm: Array
    axis: Array
    status: NDArray[np.int8]


def solve(
    linkage: Linkage, travel_mm: ArrayLike, rack_mm: ArrayLike = 0.0, travel_other_mm: ArrayLike | None = None
) -> MotionStates:
    """Poses over travel and rack.

    Newton on the constraint rows with their analytic Jacobian, each state started from its neighbour or from rest,
    whichever is nearer, in steps of at most 25 mm; closed to 1e-8 mm. States that cannot be closed, lie at a dead
    point (pivot ratio below 1e-2) or past one (the determinant has changed sign, or a body turned too far for the
    step) carry a status and no numbers.

    Args:
        linkage: From `linkage_of`.
        travel_mm: Wheel-centre height over rest, positive = bump, (n,) or a number; of the left wheel on an axle.
        rack_mm: Along the rack's positive direction, (n,) or a number.
        travel_other_mm: Of the right wheel on an axle with two coupled wheels, (n,) or a number; None = as the left.

    Raises:
        BadInput: impossible hard points; a rack move on a linkage without a steered link; an input that is no number.
    """
    columns = [travel_mm]
    if len(linkage.wheels) == 2:
        columns.append(travel_mm if travel_other_mm is None else travel_other_mm)
    elif travel_other_mm is not None:
        raise BadInput("solve", (Fault("travel_other_mm", say("nothing: one wheel only"), say("a travel")),))
    shaped = np.broadcast_arrays(*[np.atleast_1d(np.asarray(c, float)) for c in [*columns, rack_mm]])
    inputs = np.ascontiguousarray(np.stack([c.ravel() for c in shaped], axis=1))
    if not np.all(np.isfinite(inputs)):
        raise BadInput(
            "solve", (Fault(say("travel or rack"), say("finite numbers in mm"), say("a value that is no number")),)
        )
    if np.any(inputs[:, -1]) and not linkage.steered:
        raise BadInput(
            "solve",
            (
                Fault(
                    "rack_mm",
                    say("0: nothing steers this {linkage}", linkage=suspension_word(linkage.name)),
                    say("a rack move"),
                ),
            ),
        )
    order = _visiting_order(inputs)
    if len(inputs) <= kernels.FEW:
        found = kernels.solve_few(*table_of(linkage), linkage.origins_mm, inputs[order])
    else:
        with one_parallel_kernel:
            found = kernels.solve_batch(*table_of(linkage), linkage.origins_mm, inputs[order])
    back = np.argsort(order) if isinstance(order, np.ndarray) else order
    centre, rotation, status, strain, ratio = (one[back] for one in found)
    return MotionStates(linkage, inputs, centre, rotation, status, strain, ratio)


def _visiting_order(inputs: Array) -> NDArray[np.int64] | slice:
    """States that lie about at random are visited in neat rows, so that each has a near neighbour to start from."""
    apart = np.abs(np.diff(inputs, axis=0)).max(axis=1).mean() if len(inputs) > 1 else 0.0
    if apart < UNTIDY_MM:
        return slice(None)
    return np.lexsort((inputs[:, 0], *(np.round(column / ROW_MM) for column in inputs[:, 1:].T)))


def rates(states: MotionStates) -> Array:
    """How each body moves per mm of each input: (n, inputs, bodies, 6), velocity of its origin then turning in rad.

    From the Jacobian at the solved pose, J dq = input; no differences. NaN where the state has no answer.
    """
    codes, figures = table_of(states.linkage)
    given = (codes, figures, states.centre_mm, states.rotation, states.status, states.inputs_mm)
    if len(states.status) <= kernels.FEW:
        return np.asarray(kernels.rates_few(*given))
    with one_parallel_kernel:
        return np.asarray(kernels.rates_batch(*given))


def carried(states: MotionStates, point_mm: ArrayLike, body: int = 1) -> Array:
    """Where a point of a moving body is in each state, (n, 3) mm, from its rest place in vehicle axes."""
    arm = np.asarray(point_mm, float) - states.linkage.origins_mm[body - 1]
    return np.asarray(states.centre_mm[:, body - 1] + states.rotation[:, body - 1] @ arm)


def wheel_poses(states: MotionStates, number: int = 0) -> WheelPoses:
    """Wheel centre and spin axis in each state. ``number`` 1 is the right wheel of a coupled axle."""
    wheel = states.linkage.wheels[number]
    axis = states.rotation[:, wheel.body - 1] @ wheel.axis
    return WheelPoses(wheel, carried(states, wheel.centre_mm, wheel.body), axis)


def hub_poses(states: MotionStates, face_from_centre_mm: float, number: int = 0) -> HubPoses:
    """Hub-face centre and spin axis in each state.

    Args:
        states: From `solve`.
        face_from_centre_mm: Hub face from the wheel centre of the hard points, along the spin axis, positive
            outboard: the inset of the wheel for which the wheel centre was given (ISO 3911).
        number: Wheel of the linkage.
    """
    poses = wheel_poses(states, number)
    return HubPoses(poses.centre_mm + face_from_centre_mm * poses.axis, poses.axis, states.status)
