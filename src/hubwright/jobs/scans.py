"""The door for scans and meshes: a file beside the job file becomes triangles in corner axes, or a fault with its line."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from threading import Lock
from typing import Any

import numpy as np
from cachetools import cached

from hubwright.errors import BadInput, Fault
from hubwright.jobs.held import held
from hubwright.language import say
from hubwright.parts.job import Job
from hubwright.parts.scan import UNIT_MM, Scan
from hubwright.quantities.axes import SIDES, Side, to_corner

Floats = np.ndarray[Any, np.dtype[np.float64]]
Place = tuple[str | int, ...]

SUFFIXES = (".ply", ".obj", ".stl", ".gltf", ".glb", ".csv")
LARGEST_BYTES = 200 * 1024 * 1024
MOST_TRIANGLES = 2_000_000
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
    """

    triangles_mm: Floats
    noise_mm: float | None
    spacing_mm: float
    removed: int
    rule: str

    @property
    def doubt_mm(self) -> float:
        """Standard doubt of a place: the noise."""
        return self.noise_mm or 0.0


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
                picked = (scan.hub_centre is not None, bool(scan.hub_plane or scan.normal), scan.forward is not None)
                if any(picked) and not all(picked):
                    missing = ("hub_centre", "hub_plane", "forward")[picked.index(False)]
                    yield (
                        (name, side, "scan", number),
                        say("hub_centre, hub_plane or normal, and forward"),
                        say("no {missing}", missing=missing),
                        "",
                    )
                elif 0 < len(scan.hub_plane) < 3:
                    count = str(len(scan.hub_plane))
                    yield (
                        (name, side, "scan", number, "hub_plane"),
                        say("three points and more"),
                        count,
                        say("Pick more."),
                    )


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
    from hubwright.jobs.plain_ply import read_plain_ply  # noqa: PLC0415

    data = path.read_bytes()
    mark = hashlib.sha256(data).hexdigest()
    if path.suffix.lower() == ".csv":
        return Shape(unit_mm * _degenerate(_csv(data, path.name)), True, mark)
    found = read_plain_ply(data) if path.suffix.lower() == ".ply" else None
    if found is None:
        from hubwright.engineering.envelope.scan import read_scan  # noqa: PLC0415 - loads the mesh library

        triangles = read_scan(path, unit_mm)
    else:
        vertices, faces = found
        triangles = unit_mm * (vertices[faces] if len(faces) else _degenerate(vertices))
    if not np.all(np.isfinite(triangles)):
        raise BadInput(path.name, (Fault("file", say("finite coordinates"), say("a place that is no number")),))
    return Shape(triangles, bool(np.all(triangles[:, 0] == triangles[:, 1])), mark)


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
    triangles = shape.triangles_mm
    removed, rule, noise, spacing = 0, "", scan.u_mm, 0.0
    if scan.outliers if scan.outliers is not None else shape.is_points:
        from hubwright.engineering.envelope.alignment import find_outliers  # noqa: PLC0415 - needs a tree of points

        cleaned = find_outliers(triangles[:, 0] if shape.is_points else triangles.mean(axis=1))
        triangles, removed, rule = triangles[cleaned.kept], cleaned.removed_count, cleaned.rule
        noise = cleaned.noise_mm if noise is None and shape.is_points else noise
    if shape.is_points:
        spacing = _spacing(triangles[:, 0])
    hub = hub_axes(axis)
    if scan.hub_centre is None:
        placed = to_corner(triangles + np.array(scan.shift_mm), side)
        return Placed((placed - hub_mm) @ hub.T if scan.kind == "carried" else placed, noise, spacing, removed, rule)
    unit = UNIT_MM[scan.unit]
    on_hub = (triangles - unit * np.array(scan.hub_centre)) @ _picked(scan, side, unit).T
    return Placed(on_hub if scan.kind == "carried" else hub_mm + on_hub @ hub, noise, spacing, removed, rule)


def _picked(scan: Scan, side: Side, unit_mm: float) -> Floats:
    """Rows forward, outboard, up of the picked hub in the file's axes; up mirrored on the right as corner axes are."""
    from hubwright.engineering.envelope.alignment import align  # noqa: PLC0415

    centre = unit_mm * np.array(scan.hub_centre)
    forward = np.array(scan.forward)
    if scan.normal is not None:
        n = np.array(scan.normal) / np.linalg.norm(scan.normal)
        one = np.cross(n, forward)
        plane = np.array([centre, centre + one, centre + np.cross(n, one)])
        outboard = n
    else:
        plane = unit_mm * np.array(scan.hub_plane)
        outboard = _outboard(plane)
    turn = align(centre, plane, outboard, forward).turn
    return turn if side == "left" else np.stack([turn[0], turn[1], -turn[2]])


def _outboard(plane: Floats) -> Floats:
    """The normal of the first three picked points, which are taken counter-clockwise as seen from outside the car."""
    return np.cross(plane[1] - plane[0], plane[2] - plane[0])


def hub_axes(axis: Floats) -> Floats:
    """Rows forward, outboard, up of the parked hub in corner axes."""
    ahead = np.array([1.0, 0.0, 0.0]) - axis[0] * axis
    ahead /= np.linalg.norm(ahead)
    return np.stack([ahead, axis, np.cross(ahead, axis)])


def _spacing(points: Floats) -> float:
    from scipy.spatial import cKDTree  # noqa: PLC0415 - heavy, and only for points

    return float(np.median(np.asarray(cKDTree(points).query(points, k=2)[0])[:, 1]))
