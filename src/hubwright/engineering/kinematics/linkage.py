"""A suspension as one table of constraint rows between the vehicle body and the moving bodies.

Every type of suspension is written with four kinds of row, so one solver serves all:

- ``distance``: a rigid link, |second - first| = length; residual ``(|d|^2 - L^2) / (2 L)``.
- ``plane``: the second point keeps its place along a direction fixed in the first body; residual ``d . e - rest``.
- ``square``: a direction of one body keeps its angle to a direction of the other; residual ``ARM_MM (e . f) - rest``.
- ``mean``: two points share a direction equally; residual ``(a + b) . e - rest``.

The rows are holonomic joint constraints in absolute coordinates, from memory: E. J. Haug, Computer Aided Kinematics
and Dynamics of Mechanical Systems, chapter 9 (distance, dot-1, dot-2 constraints).

Source: rigid-link constraints (derived).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hubwright.engineering.kinematics import kernels
from hubwright.errors import BadInput, Fault
from hubwright.language import say
from hubwright.language.part_words import link_word, suspension_word
from hubwright.quantities.axes import Array, Side, to_corner
from hubwright.quantities.text import plain

Point = tuple[float, float, float]
Kind = Literal["distance", "plane", "square", "mean"]
CODE: dict[str, int] = {
    "distance": kernels.DISTANCE,
    "plane": kernels.PLANE,
    "square": kernels.SQUARE,
    "mean": kernels.MEAN,
}
NOWHERE: Point = (0.0, 0.0, 0.0)


@dataclass(frozen=True)
class Row:
    """One constraint. Body 0 is the vehicle; points are rest places in vehicle axes, mm.

    Attributes:
        name: What a fault is reported as.
        kind: See the module.
        first, second: Bodies.
        point_first_mm, point_second_mm: Rest places of the two points.
        along: Direction fixed in the first body (plane, square) or in the vehicle (mean), at rest.
        along_second: Direction fixed in the second body (square), at rest.
        moves: Shift of the row's vehicle point per mm of rack, vehicle axes.
        drive: Number of the wheel whose travel drives this row; None where it is a plain constraint.
        gives: A link whose ends give (rubber): its length is kept as well as all such links can, not exactly.
    """

    name: str
    kind: Kind
    first: int
    second: int
    point_first_mm: Point = NOWHERE
    point_second_mm: Point = NOWHERE
    along: Point = NOWHERE
    along_second: Point = NOWHERE
    moves: Point = NOWHERE
    drive: int | None = None
    gives: bool = False


@dataclass(frozen=True)
class Wheel:
    """One wheel of a linkage, at rest.

    Attributes:
        side: Of the car.
        centre_mm: Wheel centre (the point whose height is the travel), vehicle axes.
        radius_mm: Loaded radius: wheel centre to ground in the wheel plane.
        camber_deg: Negative = top inboard.
        toe_deg: Positive = toe-in.
        body: Moving body that carries it, counted from 1.
    """

    side: Side
    centre_mm: Point
    radius_mm: float
    camber_deg: float
    toe_deg: float
    body: int = 1

    @property
    def axis(self) -> Array:
        """Spin axis at rest, unit, outboard, vehicle axes; in the corner (cos c sin t, cos c cos t, -sin c)."""
        camber, toe = np.radians(self.camber_deg), np.radians(self.toe_deg)
        corner = np.array([np.cos(camber) * np.sin(toe), np.cos(camber) * np.cos(toe), -np.sin(camber)])
        return to_corner(corner, self.side)


@dataclass(frozen=True)
class Arm:
    """A wishbone or link turning about a line of the vehicle body, its outer end riding on a moving body."""

    pivot_front_mm: Point
    pivot_rear_mm: Point
    outer_mm: Point
    body: int = 1


@dataclass(frozen=True)
class Linkage:
    """What the solver needs: rows, wheels, and the steering axis where the hard points show one.

    Attributes:
        name: Type of suspension.
        rows: All constraints, drives included.
        wheels: Travel inputs are in this order.
        bodies: Number of moving bodies.
        kingpin: (lower, upper) points of the steering axis at rest; ``kingpin_fixed`` says whether each one belongs
            to the carrier (a ball joint, or the top of a strut, which carrier and body share). None: no steering axis
            can be read from the points.
        arms: Arms a spring or a bar link may stand on.
    """

    name: str
    rows: tuple[Row, ...]
    wheels: tuple[Wheel, ...]
    bodies: int = 1
    kingpin: tuple[Point, Point] | None = None
    kingpin_in_body: tuple[bool, bool] = (True, True)
    arms: Mapping[str, Arm] = field(default_factory=dict)

    @property
    def origins_mm(self) -> Array:
        """Rest place of each moving body's origin: the centre of the first wheel it carries, else of wheel 0."""
        places = [self.wheels[0].centre_mm] * self.bodies
        for wheel in reversed(self.wheels):
            places[wheel.body - 1] = wheel.centre_mm
        return np.array(places, float)

    @property
    def steered(self) -> bool:
        """Does the rack move anything?"""
        return any(any(row.moves) for row in self.rows)


def table_of(linkage: Linkage) -> tuple[NDArray[np.int64], Array]:
    """The linkage as the two arrays (codes, figures) that `kernels` takes, a line per row.

    Raises:
        BadInput: a link without length, a coordinate that is not a number, too few or too many rows.
    """
    _refuse_what_cannot_be(linkage)
    rows = linkage.rows
    origins = np.vstack([np.zeros(3), linkage.origins_mm])
    codes = np.array([(CODE[row.kind], row.first, row.second, row.gives) for row in rows], np.int64)
    a, b = np.array([row.point_first_mm for row in rows]), np.array([row.point_second_mm for row in rows])
    e, f = np.array([row.along for row in rows]), np.array([row.along_second for row in rows])
    rest = np.choose(
        codes[:, 0],
        [
            np.linalg.norm(b - a, axis=1),
            np.sum((b - a) * e, axis=1),
            kernels.ARM_MM * np.sum(e * f, axis=1),
            np.sum((a + b) * e, axis=1),
        ],
    )
    gain = np.zeros((len(rows), len(linkage.wheels) + 1))
    for k, row in enumerate(rows):
        if row.drive is not None:
            gain[k, row.drive] = 1.0
    moves = np.array([row.moves for row in rows], float)
    a, b = a - origins[codes[:, 1]], b - origins[codes[:, 2]]
    return codes, np.ascontiguousarray(np.column_stack([a, b, e, f, moves, rest, gain]))


def _refuse_what_cannot_be(linkage: Linkage) -> None:
    faults = []
    for row in linkage.rows:
        if not np.all(np.isfinite([*row.point_first_mm, *row.point_second_mm, *row.along, *row.along_second])):
            faults.append(Fault(link_word(row.name), say("three finite coordinates in mm"), _shown(row.point_first_mm)))
        elif row.kind == "distance" and np.linalg.norm(np.subtract(row.point_second_mm, row.point_first_mm)) < 1.0:
            faults.append(Fault(link_word(row.name), say("two ends at least 1 mm apart"), say("ends in one place")))
    for wheel in linkage.wheels:
        if not to_corner(wheel.centre_mm, wheel.side)[1] > 0.0:
            wanted = say("a left wheel with Y above 0") if wheel.side == "left" else say("a right wheel with Y below 0")
            faults.append(Fault("wheel.centre_mm", wanted, _shown(wheel.centre_mm)))
        if not wheel.radius_mm > 0.0 or not np.all(np.isfinite([wheel.camber_deg, wheel.toe_deg])):
            faults.append(
                Fault(
                    "wheel",
                    say("a radius above 0, camber and toe in deg"),
                    _shown((wheel.radius_mm, wheel.camber_deg, wheel.toe_deg)),
                )
            )
    free, rigid = 6 * linkage.bodies, sum(not row.gives for row in linkage.rows)
    if rigid > free or len(linkage.rows) < free:
        wanted = say("{count} rows in all, or more with some that give", count=free)
        faults.append(
            Fault(
                suspension_word(linkage.name),
                wanted,
                say("{count} rows, {rigid} of them rigid", count=len(linkage.rows), rigid=rigid),
            )
        )
    if faults:
        raise BadInput(say("hard points"), tuple(faults))


def _shown(figures: Sequence[float]) -> str:
    return "; ".join(plain(float(one)) for one in figures)


def link(name: str, inner_mm: Point, outer_mm: Point, *, moves: Point = NOWHERE, gives: bool = False) -> Row:
    """A rigid link from the vehicle body to a moving body."""
    return Row(name, "distance", 0, 1, inner_mm, outer_mm, moves=moves, gives=gives)


def drive(number: int, wheel: Wheel) -> Row:
    """The row that sets the height of a wheel centre over the vehicle body."""
    up = (0.0, 0.0, 1.0)
    return Row(f"travel {number}", "plane", 0, wheel.body, wheel.centre_mm, wheel.centre_mm, along=up, drive=number)


def pin(name: str, first: int, second: int, place_mm: Point, directions: Sequence[ArrayLike]) -> list[Row]:
    """The second body's point stays in its place along the directions, which are fixed in the first body."""
    return [Row(name, "plane", first, second, place_mm, place_mm, along=as_point(one)) for one in directions]


def across(axis: ArrayLike) -> tuple[Array, Array, Array]:
    """The unit axis and two unit directions square to it and to each other."""
    unit = np.asarray(axis, float) / np.linalg.norm(axis)
    helper = np.eye(3)[int(np.argmin(np.abs(unit)))]
    one = np.cross(unit, helper)
    one /= np.linalg.norm(one)
    return unit, one, np.cross(unit, one)


def hinge(name: str, first: int, second: int, place_mm: Point, axis: ArrayLike) -> list[Row]:
    """A hinge between two bodies: five rows."""
    unit, one, two = across(axis)
    square = [
        Row(name, "square", first, second, along=as_point(side), along_second=as_point(unit)) for side in (one, two)
    ]
    return [*pin(name, first, second, place_mm, (unit, one, two)), *square]


def as_point(vector: ArrayLike) -> Point:
    """Three plain numbers."""
    x, y, z = (float(v) for v in np.asarray(vector, float))
    return (x, y, z)
