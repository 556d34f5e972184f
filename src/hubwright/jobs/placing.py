"""How a scan lies once it is placed: how well the picks agree, where it stands about the wheel, and what must be asked."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

import numpy as np

from hubwright.errors import BadInput
from hubwright.jobs.picked import PickedHub, picked_hub
from hubwright.jobs.scan_units import Size, size_of
from hubwright.jobs.scans import Placed, Shape, hub_axes, place_scan, read_shape
from hubwright.parts.job import AxleName, Job
from hubwright.parts.scan import UNIT_MM, Scan
from hubwright.quantities.axes import Side, to_corner

if TYPE_CHECKING:
    from hubwright.engineering.envelope.outline import Outline

Floats = np.ndarray[Any, np.dtype[np.float64]]
Doubtful = Literal[
    "size", "far", "below", "outside", "other side", "centre off plane", "plane scatter", "circle scatter", "in the tyre",
    "in the rim", "three picks",
]  # fmt: skip
"""What may be wrong, found from where the scan lies."""

WORTH_KNOWING: tuple[Doubtful, ...] = ("in the tyre", "in the rim", "three picks")
BESIDE_AXIS_MM = 200.0
"""What lies nearer to the spin axis may be hub, brake and arms: it says nothing about where the arch is."""
ENOUGH = 120_000
NEAR_MM = 1500.0
ABOVE_LEAST = 0.4
"""Share of an arch that stands above the hub; common practice, no source."""
OUTSIDE_MM = 150.0
"""A guard goes so far outside the hub face, not farther; common practice, no source."""
SCATTER_MM = 1.0
OFF_PLANE_MM = 3.0
IN_TYRE = 0.02
"""Share of the scan inside the parked tyre from which the wheel itself is thought to have been scanned."""


@dataclass(frozen=True, eq=False)
class Placing:
    """A scan on the car.

    Attributes:
        scan: As the job says, or would say.
        shape: The file as read.
        size: Of the file in its own unit.
        picks: The hub as picked; None where the file lies in the car's axes.
        placed: In corner axes, or in hub axes where the knuckle carries it.
        hub_mm: Parked hub-face centre in corner axes.
        axis: Parked spin axis in corner axes.
        stands_on_motion: Whether hub and axis come from the job's own motion; False: wheel straight up at the origin.
        outline: The fitted package; None where it is not known.
        centre_off_mm: How far a picked hub centre stands outside the plane of its face.
        doubtful: What must be asked, the gravest first.
    """

    scan: Scan
    shape: Shape
    size: Size
    picks: PickedHub | None
    placed: Placed
    hub_mm: Floats
    axis: Floats
    stands_on_motion: bool
    outline: Outline | None
    side: Side
    centre_off_mm: float | None
    doubtful: tuple[Doubtful, ...]

    @property
    def on_hub_mm(self) -> Floats:
        """(k, 3, 3) in hub axes: forward, outboard, up from the parked hub-face centre."""
        return self._on_hub(self.placed.triangles_mm)

    @cached_property
    def sample_mm(self) -> Floats:
        """The same, of a huge scan only every so-manieth: enough to judge and to draw by."""
        return self._on_hub(sampled(self.placed.triangles_mm))

    def _on_hub(self, triangles: Floats) -> Floats:
        if self.scan.kind == "carried":
            return triangles
        return np.asarray((triangles - self.hub_mm) @ hub_axes(self.axis).T)

    @property
    def asked(self) -> tuple[Doubtful, ...]:
        """What speaks against the placing itself; the rest is worth knowing only."""
        return tuple(one for one in self.doubtful if one not in WORTH_KNOWING)


def sampled(triangles: Floats) -> Floats:
    """Every so-manieth triangle, at most about `ENOUGH` of them."""
    return triangles[:: len(triangles) // ENOUGH + 1]


def placing_of(job: Job, name: AxleName, side: Side, scan: Scan, path: Path) -> Placing:
    """How a scan lies, whether it stands in the job already or would only be entered.

    Raises:
        BadInput: a file that cannot be used, picks that make no alignment.
    """
    unit = UNIT_MM[scan.unit]
    shape = read_shape(path, unit)
    hub, axis, known = parked_hub(job, name, side)
    placed = place_scan(shape, scan, side, hub, axis)
    picks, size = picked_hub(scan, side), size_of(shape.triangles_mm / unit)
    off = None
    if picks is not None and len(picks.plane_mm) and not len(picks.circle_mm):
        off = float((picks.centre_mm - picks.plane_mm.mean(axis=0)) @ picks.turn[1])
    made = Placing(scan, shape, size, picks, placed, hub, axis, known, package_of(job, name), side, off, ())
    return replace(made, doubtful=tuple(_doubtful(made)))


def parked_hub(job: Job, name: AxleName, side: Side) -> tuple[Floats, Floats, bool]:
    """Hub-face centre and spin axis as the car stands, and whether the job could tell them."""
    from hubwright.jobs.map_outline import inset_of  # noqa: PLC0415
    from hubwright.jobs.motion import motion_of_corner  # noqa: PLC0415 - compiled sums

    axle = dict(job.axles).get(name)
    if axle is None:
        return np.zeros(3), np.array([0.0, 1.0, 0.0]), False
    try:
        centre, axis = motion_of_corner(job, name, side).parked()
    except BadInput:
        return np.zeros(3), np.array([0.0, 1.0, 0.0]), False
    inset = 0.0 if axle.fitted is None else inset_of(axle.fitted)
    return centre + inset * axis, axis, True


def middle_of(shape: Shape) -> Floats:
    """The middle (3,) of the box around a scan: drawn far from it, single precision would lose what is picked."""
    flat = shape.triangles_mm.reshape(-1, 3)
    return np.asarray(0.5 * (flat.min(axis=0) + flat.max(axis=0)))


def package_of(job: Job, name: AxleName) -> Outline | None:
    """Section of the fitted wheel and tyre; None where it is not known."""
    from hubwright.jobs.map_outline import package_outline  # noqa: PLC0415 - compiled sums

    axle = dict(job.axles).get(name)
    found = None if axle is None or axle.fitted is None else package_outline(axle.fitted)
    return None if found is None else found[0]


def _doubtful(made: Placing) -> list[Doubtful]:
    found: list[Doubtful] = []
    if made.size.guess is None or not 0.3 <= made.size.mm(made.scan.unit) / made.size.mm(made.size.guess) <= 3.0:
        found.append("size")
    middles, weight = weighted(made.sample_mm)
    if np.linalg.norm(middles, axis=1).min() > NEAR_MM:
        return [*found, *_wrong_side(made), "far"]
    found += _wrong_side(made)
    found += _upside_down(middles, weight) if made.scan.kind == "body" else _inside_out(middles, weight)
    if made.centre_off_mm is not None and abs(made.centre_off_mm) > OFF_PLANE_MM:
        found.append("centre off plane")
    if made.picks is not None:
        found += _scatter(made.picks)
    if made.outline is not None and _share_inside(middles, weight, made.outline) > IN_TYRE:
        found.append("in the tyre")
    if made.scan.kind == "body" and made.outline is not None and _reaches_into_rim(middles, made.outline):
        found.append("in the rim")
    return found


def _reaches_into_rim(middles: Floats, outline: Outline) -> bool:
    """Whether anything of it stands where hub and brake are."""
    low, high = float(outline.y_mm.min()), float(outline.y_mm.max())
    near = np.hypot(middles[:, 0], middles[:, 2]) < float(outline.rho_mm.min())
    return bool(np.any(near & (middles[:, 1] > low) & (middles[:, 1] < high)))


def weighted(triangles: Floats) -> tuple[Floats, Floats]:
    """Middles (k, 3) and areas (k,) of triangles; points count alike."""
    sides = triangles[:, 1:] - triangles[:, :1]
    area = 0.5 * np.linalg.norm(np.cross(sides[:, 0], sides[:, 1]), axis=1)
    return triangles.mean(axis=1), area if area.sum() > 0.0 else np.ones(len(triangles))


def _wrong_side(made: Placing) -> list[Doubtful]:
    """A scan in the car's axes that lies beyond the middle of the car."""
    if made.picks is not None or not made.stands_on_motion or abs(float(made.hub_mm[1])) < NEAR_MM / 5:
        return []
    if made.scan.kind == "carried":
        return []
    return ["other side"] if float(np.percentile(made.placed.triangles_mm[..., 1], 95.0)) < 0.0 else []


def _upside_down(middles: Floats, weight: Floats) -> list[Doubtful]:
    """Whether an arch stands under the hub, or its liner outside it."""
    far = np.hypot(middles[:, 0], middles[:, 2]) > BESIDE_AXIS_MM
    if weight[far].sum() <= 0.0:
        return []
    share, (inside, outside) = above(middles[far], weight[far]), depth(middles[far])
    found: list[Doubtful] = ["below"] if share < ABOVE_LEAST else []
    if outside > OUTSIDE_MM and outside > inside:
        found.append("outside")
    return found


def _inside_out(middles: Floats, weight: Floats) -> list[Doubtful]:
    """Whether what the knuckle carries, or a hose, stands outside the hub face."""
    return ["outside"] if float(weight[middles[:, 1] > 0.0].sum()) > 0.5 * float(weight.sum()) else []


def above(middles: Floats, weight: Floats) -> float:
    """Share of it that stands above the hub."""
    return float(weight[middles[:, 2] > 0.0].sum() / weight.sum())


def depth(middles: Floats) -> tuple[float, float]:
    """How far it reaches inboard and outboard of the hub face in mm, strays left aside."""
    low, high = np.percentile(middles[:, 1], [1.0, 99.0])
    return float(-low), float(high)


def _scatter(picks: PickedHub) -> list[Doubtful]:
    found: list[Doubtful] = []
    if len(picks.plane_off_mm) and np.abs(picks.plane_off_mm).max() > SCATTER_MM:
        found.append("plane scatter")
    if len(picks.circle_off_mm) and np.abs(picks.circle_off_mm).max() > SCATTER_MM:
        found.append("circle scatter")
    if len(picks.plane_mm) == 3 or len(picks.circle_mm) == 3:
        found.append("three picks")
    return found


def _share_inside(middles: Floats, weight: Floats, outline: Outline) -> float:
    """Share of the scan that lies inside the section of the parked wheel."""
    rho, y = np.hypot(middles[:, 0], middles[:, 2]), middles[:, 1]
    inside = np.ones(len(rho), bool)
    corners = np.column_stack([outline.rho_mm, outline.y_mm])
    around = _area(corners)
    for one, other in zip(corners, np.roll(corners, -1, axis=0), strict=True):
        turn = (other[0] - one[0]) * (y - one[1]) - (other[1] - one[1]) * (rho - one[0])
        inside &= turn * around > 0.0
    return float(weight[inside].sum() / weight.sum())


def _area(corners: Floats) -> float:
    """Signed, so that its sign tells which way round the corners run."""
    after = np.roll(corners, -1, axis=0)
    return 0.5 * float((corners[:, 0] * after[:, 1] - corners[:, 1] * after[:, 0]).sum())


def scan_turn(made: Placing) -> tuple[Floats, Floats]:
    """Turn (3, 3) and shift (3,) from the file in mm to vehicle axes: vehicle = turn @ place + shift."""
    if made.picks is None:
        return np.eye(3), np.array(made.scan.shift_mm)
    hub = hub_axes(made.axis)
    turn = hub.T @ made.picks.turn
    shift = made.hub_mm - turn @ made.picks.centre_mm
    return to_corner(turn.T, made.side).T, to_corner(shift, made.side)
