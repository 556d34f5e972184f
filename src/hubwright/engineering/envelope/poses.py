"""Where the hub is: one pose per state of travel, steering and load.

Source: rigid-body motion (derived).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from hubwright.engineering.envelope.culling import neighbour_order
from hubwright.errors import BadInput, Fault
from hubwright.language import say
from hubwright.quantities.text import plain

Floats = np.ndarray[Any, np.dtype[np.float64]]
Whole = np.ndarray[Any, np.dtype[np.int32]]


@dataclass(frozen=True, eq=False)
class Poses:
    """Hub poses in body coordinates.

    Attributes:
        origin_mm: (n, 3) centre of the hub face the disc sits on.
        axis: (n, 3) unit spin axis pointing outboard.
        between_mm: Most that any point within reach moves, relative to the hub, from a state that can occur to the
            nearest one listed; 0 when the list is all there is. It is owed to every gap of a body-fixed obstacle.
    """

    origin_mm: Floats
    axis: Floats
    between_mm: float = 0.0

    def __post_init__(self) -> None:
        origin, axis = np.array(self.origin_mm, float), np.array(self.axis, float)
        faults = _faults(origin, axis, self.between_mm)
        if faults:
            raise BadInput(say("hub poses"), faults)
        axis /= np.linalg.norm(axis, axis=1)[:, None]
        object.__setattr__(self, "origin_mm", origin)
        object.__setattr__(self, "axis", axis)

    def __len__(self) -> int:
        return int(self.origin_mm.shape[0])


def hub_at_rest() -> Poses:
    """The pose in which body and hub coordinates agree (y axis = spin axis): for obstacles the knuckle carries."""
    return Poses(np.zeros((1, 3)), np.array([[0.0, 1.0, 0.0]]))


def motion_between_mm(origin_mm: Floats, axis: Floats, reach_mm: float) -> float:
    """Bound on the motion from any state inside a regular grid of states to its nearest grid state.

    Holds when no point moves faster, between two neighbouring grid states, than twice its mean speed over that step
    along either grid direction; smooth linkages swept at a few mm per step keep well within it. Equation: sum over
    grid directions of step, step = largest over neighbours of |move of hub| + reach * |change of axis| (half a step
    times a speed factor of two).

    Args:
        origin_mm: (n_a, n_b, 3) hub face centres over the grid; a single row or column is allowed.
        axis: (n_a, n_b, 3) unit spin axes.
        reach_mm: Greatest distance from the hub of a point that can bind.

    Returns:
        The bound (mm), for ``Poses.between_mm``.
    """
    total = 0.0
    for direction in (0, 1):
        if origin_mm.shape[direction] > 1:
            move = np.linalg.norm(np.diff(origin_mm, axis=direction), axis=2)
            turn = np.linalg.norm(np.diff(axis, axis=direction), axis=2)
            total += float((move + reach_mm * turn).max())
    return total


def visiting_order(poses: Poses, reach_mm: float) -> Whole:
    """Order in which neighbouring states follow each other, by the three main directions of their spread."""
    return neighbour_order(_main_spread(poses, reach_mm))


def outermost(poses: Poses, reach_mm: float, directions: int = 12) -> Whole:
    """States at the rim of all that are listed, by the two main directions of their spread, and one in the middle."""
    spread = _main_spread(poses, reach_mm)
    spread = spread / np.maximum(np.abs(spread).max(axis=0), 1e-12)
    clock = 2.0 * np.pi / directions * np.arange(directions)
    rim = (spread @ np.array([np.cos(clock), np.sin(clock)])).argmax(axis=0)
    middle = (spread**2).sum(axis=1).argmin()
    return np.unique(np.append(rim, middle)).astype(np.int32)


def _main_spread(poses: Poses, reach_mm: float) -> Floats:
    features = np.column_stack([poses.origin_mm, reach_mm * poses.axis])
    features -= features.mean(axis=0)
    _, _, main = np.linalg.svd(features.T @ features)
    return np.asarray(features @ main[:2].T)


def _faults(origin: Floats, axis: Floats, between_mm: float) -> tuple[Fault, ...]:
    if origin.ndim != 2 or origin.shape[1:] != (3,) or axis.shape != origin.shape or origin.shape[0] == 0:
        return (
            Fault(
                "poses",
                say("two arrays of shape (n, 3), n >= 1"),
                say("{first} and {second}", first=origin.shape, second=axis.shape),
            ),
        )
    if not (np.all(np.isfinite(origin)) and np.all(np.isfinite(axis))):
        return (Fault("poses", say("finite numbers"), say("a pose that is not")),)
    size = np.linalg.norm(axis, axis=1)
    if float(np.abs(size - 1.0).max()) > 1e-6:
        return (
            Fault(
                "poses.axis",
                say("unit vectors"),
                say("one of length {length}", length=plain(float(size[np.abs(size - 1).argmax()]))),
            ),
        )
    if not between_mm >= 0.0:
        return (Fault("poses.between_mm", say("0 or more"), plain(between_mm)),)
    return ()
