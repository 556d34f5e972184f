"""The door for scans and meshes: a file beside the job file becomes triangles in corner axes, or a fault with its line."""

from __future__ import annotations

import hashlib
import math
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING, Any

import numpy as np
from cachetools import LRUCache, cached

from hubwright.errors import BadInput, Fault
from hubwright.jobs.held import held
from hubwright.jobs.picked import pick_faults, picked_hub
from hubwright.language import say
from hubwright.parts.job import Job
from hubwright.parts.scan import UNIT_MM, Scan
from hubwright.quantities.axes import SIDES, Side, to_corner

if TYPE_CHECKING:
    from hubwright.engineering.envelope.alignment import Cleaned

Floats = np.ndarray[Any, np.dtype[np.float64]]
Place = tuple[str | int, ...]

SUFFIXES = (".ply", ".obj", ".stl", ".gltf", ".glb", ".csv")
LARGEST_BYTES = 200 * 1024 * 1024
MOST_TRIANGLES = 2_000_000
FARTHEST_MM = 1e8
AXIS_FREE_DEPTH_MM = 150.0
"""So far inboard of the hub face hub and brake are left out: about to the inner edge of a usual rim, beyond which bodywork may
stand that the wheel meets at lock. Common practice, no source."""
CSV_HEADER = "x_mm,y_mm,z_mm"
HELD_BYTES, HELD_FILES = 256 * 1024 * 1024, 16
"""Of files read, as triangles."""


@dataclass(frozen=True, eq=False)
class Shape:
    """A file as read: triangles (k, 3, 3) mm in its own axes; points are triangles without area."""

    triangles_mm: Floats
    is_points: bool
    fingerprint: str

    @property
    def held_bytes(self) -> int:
        """What it takes in memory."""
        return self.triangles_mm.nbytes


@dataclass(frozen=True, eq=False)
class Placed:
    """A scan laid on the car.

    Attributes:
        triangles_mm: (k, 3, 3) in corner axes; of a carried one in hub axes, origin at the parked hub-face centre.
        noise_mm: Of its points, from their neighbours; None where it is a mesh and nobody stated a doubt.
        spacing_mm: Usual distance of a point to the next one; 0 for a mesh.
        removed: How many points were taken out as outliers.
        rule: By which rule.
        left_out: How many points or triangles were cut out by hand.
        picks_mm: Standard doubt of a place that comes from the picks; None where nothing tells.
    """

    triangles_mm: Floats
    noise_mm: float | None
    spacing_mm: float
    removed: int
    rule: str
    left_out: int = 0
    picks_mm: float | None = None

    @property
    def doubt_mm(self) -> float:
        """Standard doubt of a place: noise and picks together."""
        return math.hypot(self.noise_mm or 0.0, self.picks_mm or 0.0)


def scan_faults(job: Job, folder: Path) -> Iterator[tuple[Place, str, str, str]]:
    """Path, wanted, given and what to do, of every scan file of a job that cannot be used."""
    for name, axle in job.axles:
        for side in SIDES:
            for number, scan in enumerate(axle.corner(side).scan):
                place: Place = (name, side, "scan", number)
                try:
                    read_shape(folder / scan.file, UNIT_MM[scan.unit])
                    continue
                except BadInput as error:
                    fault = error.faults[0]
                yield (*place, "file"), fault.wanted, fault.given, fault.todo
            for number, scan in enumerate(axle.corner(side).scan):
                for key, wanted, given, todo in pick_faults(scan):
                    yield (name, side, "scan", number, *((key,) if key else ())), wanted, given, todo


def read_shape(path: Path, unit_mm: float) -> Shape:
    """The triangles of a file, read once.

    Raises:
        BadInput: no such file, not one of the formats, too large, not readable, empty.
    """

    def refuse(wanted: str, given: str, todo: str = "") -> BadInput:
        return BadInput(path.name, (Fault("file", wanted, given, todo),))

    if path.suffix.lower() not in SUFFIXES:
        raise refuse(say("one of {known}", known=", ".join(SUFFIXES)), path.suffix or say("no suffix"))
    try:
        size, changed = path.stat().st_size, path.stat().st_mtime_ns
        if not path.is_file():
            raise refuse(say("a file"), say("a folder"))
    except OSError as error:
        given = (
            say("no file {path}", path=path.name)
            if isinstance(error, FileNotFoundError)
            else error.strerror or str(error)
        )
        raise refuse(
            say("a scan file beside the job file"), given, say("Check the name; it is taken from the job's folder.")
        ) from None
    if size > LARGEST_BYTES:
        wanted = say("at most {size} MiB", size=LARGEST_BYTES // 1024**2)
        raise refuse(
            wanted, say("{size} MiB", size=f"{size / 1024**2:.0f}"), say("Cut out what is near the wheel, or thin it.")
        )
    shape = _read(path, unit_mm, size, changed)
    if len(shape.triangles_mm) > MOST_TRIANGLES:
        wanted = say("at most {count} triangles or points", count=MOST_TRIANGLES)
        raise refuse(wanted, str(len(shape.triangles_mm)), say("Cut out what is near the wheel, or thin it."))
    return shape


@cached(held(HELD_BYTES, HELD_FILES), lock=Lock())
def _read(path: Path, unit_mm: float, size: int, changed: int) -> Shape:
    data = path.read_bytes()
    mark = hashlib.sha256(data).hexdigest()
    triangles = unit_mm * (_degenerate(_csv(data, path.name)) if path.suffix.lower() == ".csv" else _mesh(path, data))
    if not len(triangles):
        raise BadInput(path.name, (Fault("file", say("a mesh or points"), say("nothing of the kind")),))
    if not np.all(np.isfinite(triangles)):
        raise BadInput(path.name, (Fault("file", say("finite coordinates"), say("a place that is no number")),))
    if np.abs(triangles).max() > FARTHEST_MM:
        wanted = say("places within {far} km of the origin", far=f"{FARTHEST_MM / 1e6:g}")
        todo = say("Move the scan to its origin, or choose another unit.")
        raise BadInput(path.name, (Fault("file", wanted, say("one farther away"), todo),))
    return Shape(triangles, bool(np.all(triangles[:, 0] == triangles[:, 1])), mark)


def _mesh(path: Path, data: bytes) -> Floats:
    """Triangles (k, 3, 3) of a mesh or points, in the file's own unit."""
    from hubwright.jobs.plain_ply import read_plain_ply  # noqa: PLC0415

    found = read_plain_ply(data) if path.suffix.lower() == ".ply" else None
    if found is None:
        from hubwright.engineering.envelope.scan import read_scan  # noqa: PLC0415 - loads the mesh library

        return read_scan(path, 1.0)
    vertices, faces = found
    if not len(faces):
        return _degenerate(vertices)
    if not 0 <= faces.min() <= faces.max() < len(vertices):
        wanted, given = say("triangles of its own vertices"), say("one that names a vertex that is not there")
        raise BadInput(path.name, (Fault("file", wanted, given),))
    return np.asarray(vertices[faces])


def _degenerate(points: Floats) -> Floats:
    return np.repeat(points.reshape(-1, 1, 3), 3, axis=1)


def _csv(data: bytes, name: str) -> Floats:
    text = data.decode("utf-8-sig", errors="replace").splitlines()
    header = text[0].replace(" ", "") if text else ""
    if header != CSV_HEADER:
        raise BadInput(name, (Fault("file", say("the header {header}", header=CSV_HEADER), repr(header[:40])),))
    try:
        found = np.array([[float(cell) for cell in line.split(",")] for line in text[1:] if line.strip()])
    except ValueError as error:
        raise BadInput(name, (Fault("file", say("three numbers in every line"), str(error)),)) from None
    if found.ndim != 2 or found.shape[1] != 3:
        raise BadInput(name, (Fault("file", say("three numbers in every line"), say("another count")),))
    return found


def place_scan(shape: Shape, scan: Scan, side: Side, hub_mm: Floats, axis: Floats) -> Placed:
    """A scan in corner axes.

    Args:
        shape: As read.
        scan: Picks, shift, doubt.
        side: Of the car.
        hub_mm: Parked hub-face centre in corner axes, (3,).
        axis: Parked spin axis in corner axes, (3,).

    Raises:
        BadInput: picks that make no alignment, too few points.
    """
    unit, hub = UNIT_MM[scan.unit], hub_axes(axis)
    picks = picked_hub(scan, side)

    def on_hub(places: Floats) -> Floats:
        if picks is not None:
            return np.asarray((places - picks.centre_mm) @ picks.turn.T)
        return np.asarray((to_corner(places + np.array(scan.shift_mm), side) - hub_mm) @ hub.T)

    triangles = shape.triangles_mm
    kept = _kept_by_hand(triangles, scan, unit)
    if scan.axis_free_mm is not None:
        near = on_hub(triangles)
        away = (np.hypot(near[..., 0], near[..., 2]) >= scan.axis_free_mm) | (near[..., 1] < -AXIS_FREE_DEPTH_MM)
        kept &= np.any(away, axis=1)
    left_out = int((~kept).sum())
    removed, rule, noise, spacing = 0, "", scan.u_mm, _spacing(shape) if shape.is_points else 0.0
    if scan.outliers if scan.outliers is not None else shape.is_points:
        cleaned = _cleaned(shape)
        removed, rule, kept = int((kept & ~cleaned.kept).sum()), cleaned.rule, kept & cleaned.kept
        noise = cleaned.noise_mm if noise is None and shape.is_points else noise
    triangles = triangles[kept]
    if not len(triangles):
        raise BadInput(scan.name, (_all_left_out(left_out),))
    carried, laid = scan.kind == "carried", on_hub(triangles)
    doubt = None
    if picks is not None:
        doubt = picks.doubt_mm(float(np.median(np.linalg.norm(laid.mean(axis=1), axis=1))))
        placed = laid if carried else hub_mm + laid @ hub
    else:
        placed = laid if carried else to_corner(triangles + np.array(scan.shift_mm), side)
    return Placed(placed, noise, spacing, removed, rule, left_out, doubt)


def _kept_by_hand(triangles: Floats, scan: Scan, unit_mm: float) -> np.ndarray[Any, np.dtype[np.bool_]]:
    """Which triangles reach outside every ball cut out."""
    kept = np.ones(len(triangles), bool)
    for ball in scan.left_out:
        kept &= np.any(np.linalg.norm(triangles - unit_mm * np.array(ball.centre), axis=2) > ball.radius_mm, axis=1)
    return kept


def _all_left_out(count: int) -> Fault:
    given = say("all {count} points or triangles left out", count=count)
    return Fault(
        "left_out", say("something of the scan that is kept"), given, say("Leave out less, or check the unit.")
    )


def hub_axes(axis: Floats) -> Floats:
    """Rows forward, outboard, up of the parked hub in corner axes."""
    ahead = np.array([1.0, 0.0, 0.0]) - axis[0] * axis
    ahead /= np.linalg.norm(ahead)
    return np.stack([ahead, axis, np.cross(ahead, axis)])


def _measured(shape: Shape) -> tuple[str, float]:
    """What a shape is known by: its file and its unit."""
    return shape.fingerprint, float(np.abs(shape.triangles_mm).max())


@cached(LRUCache(8), key=_measured, lock=Lock())
def _cleaned(shape: Shape) -> Cleaned:
    """Outliers of a shape as read, found once: they do not depend on where it is laid or what is left out."""
    from hubwright.engineering.envelope.alignment import find_outliers  # noqa: PLC0415 - needs a tree of points

    return find_outliers(shape.triangles_mm[:, 0] if shape.is_points else shape.triangles_mm.mean(axis=1))


@cached(LRUCache(8), key=_measured, lock=Lock())
def _spacing(shape: Shape) -> float:
    """Usual distance of a point to the next one."""
    from scipy.spatial import cKDTree  # noqa: PLC0415 - heavy, and only for points

    points = shape.triangles_mm[:, 0]
    return float(np.median(np.asarray(cKDTree(points).query(points, k=2)[0])[:, 1])) if len(points) > 1 else 0.0
