"""The clearance maps of a job: motion, obstacles and package of each corner put together, drawn or taken from the cache."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, fields
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING, Any

import numpy as np

from hubwright.checks.house import House
from hubwright.checks.mapped import MapRoom, Neighbour
from hubwright.jobs.asked import Asked, steer_of
from hubwright.jobs.held import held
from hubwright.language import say
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.parts.scan import UNIT_MM, Line, Scan
from hubwright.quantities.axes import Side, to_corner
from hubwright.quantities.text import plain, pointed

if TYPE_CHECKING:
    from hubwright.engineering.envelope.meridian import View
    from hubwright.engineering.envelope.obstacles import Obstacle
    from hubwright.engineering.envelope.outline import Outline
    from hubwright.engineering.envelope.poses import Poses
    from hubwright.engineering.envelope.query import ReadyMap
    from hubwright.jobs.motion import CornerMotion
    from hubwright.jobs.scans import Placed

Floats = np.ndarray[Any, np.dtype[np.float64]]
Flags = np.ndarray[Any, np.dtype[np.bool_]]

QUICK, FINE = (9, 25), (17, 49)
"""States of a map along travel and rack: for a quick answer and for a map that is to be kept and looked at."""
ROOM_MM = 120.0
"""How far beyond the tyre's section the map reaches; what is farther away is only known to be so."""

HELD_BYTES, HELD_THINGS = 512 * 1024 * 1024, 64
"""Of scans laid on cars, and of corners with what they were asked: a reading that touches neither draws nothing anew."""
_asked, _laid, _lock = held(HELD_BYTES, HELD_THINGS), held(HELD_BYTES, HELD_THINGS), Lock()


@dataclass(frozen=True, eq=False)
class MappedCorner:
    """A map with what it was drawn from, for pictures and for other questions.

    Attributes:
        room: What the checks ask.
        ready: The map.
        outline: The package without a disc, in the hub frame.
        travel_mm, steer_deg: (n,) of every state of the map; steer of the wheel, left positive.
    """

    room: MapRoom
    ready: ReadyMap
    outline: Outline
    travel_mm: Floats
    steer_deg: Floats
    motion: CornerMotion
    obstacles: tuple[Obstacle, ...]
    poses: Poses
    package: str
    hub_mm: Floats
    shape: tuple[int, int]
    from_cache: bool
    unsolved: int
    second_at: Callable[[float, float], float]

    @property
    def held_bytes(self) -> int:
        """What it takes in memory."""
        return sum(one.held_bytes for one in self.obstacles)


def has_shapes(axle: Axle, side: Side) -> bool:
    """Whether anything is known of what stands around this wheel as a shape, and all of it is at hand."""
    return bool(axle.corner(side).scan or axle.corner(side).line) and at_hand(axle, side)


def at_hand(axle: Axle, side: Side) -> bool:
    """Whether every scan of a corner has its full path (`hubwright.load` sees to it)."""
    return all(Path(scan.file).is_absolute() for scan in axle.corner(side).scan)


def map_of_corner(
    job: Job, name: AxleName, side: Side, house: House, *, counts: tuple[int, int] = QUICK
) -> MappedCorner | None:
    """The clearance map of one corner; None without shapes, wheels or tyre.

    Args:
        job: The job, its files with full paths as `hubwright.load` leaves them.
        name: Axle.
        side: Side.
        house: Margins.
        counts: States of the map along travel and along rack (or the other wheel's travel).

    Raises:
        BadInput: hard points or picks that cannot be.
    """
    axle = dict(job.axles)[name]
    if axle.fitted is None or not has_shapes(axle, side):
        return None
    from hubwright.engineering.envelope.meridian.build import draw_map, inputs_hash  # noqa: PLC0415
    from hubwright.engineering.envelope.poses import Poses  # noqa: PLC0415
    from hubwright.engineering.envelope.query import ReadyMap  # noqa: PLC0415
    from hubwright.engineering.envelope.settle import state_field  # noqa: PLC0415
    from hubwright.jobs.cache import keep_map, kept_map  # noqa: PLC0415
    from hubwright.jobs.map_outline import inset_of, package_outline  # noqa: PLC0415
    from hubwright.jobs.motion import motion_of_corner  # noqa: PLC0415

    package = package_outline(axle.fitted)
    if package is None:
        return None
    outline, words = package
    motion = motion_of_corner(job, name, side)
    inset = inset_of(axle.fitted)

    def hubs(travel: Floats, second: Floats) -> tuple[Floats, Floats, Flags]:
        centre, spin, good = motion.solve(travel, second)
        return centre + inset * spin, spin, good

    centre, axis = motion.parked()
    hub = centre + inset * axis
    obstacles, neighbours = _obstacles(axle, side, motion, hub, axis)
    field = state_field(
        hubs,
        _steps(motion.reach.low_mm, motion.reach.high_mm, counts[0]),
        _steps(*motion.second_range, counts[1]),
    )
    good = field.good
    poses = Poses(field.origin_mm[good], field.axis[good])
    view = _view(outline)
    mark = inputs_hash(obstacles, poses, view)
    about = tuple((one.name, one.kind, one.region, one.doubt_mm) for one in neighbours.values())
    key = (mark, side, outline.rho_mm.tobytes(), outline.y_mm.tobytes(), motion.second, about)
    with _lock:
        asked = _asked.get(key)
    cached = asked is not None
    if asked is None:
        drawn = kept_map(mark)
        cached = drawn is not None
        if drawn is None:
            drawn = draw_map(obstacles, poses, view)
            keep_map(drawn)
        asked = Asked(side, hubs, field, obstacles, neighbours, outline, ReadyMap(drawn), motion.second == "rack")
        with _lock:
            _asked[key] = asked
    travel = np.broadcast_to(field.travel_mm[:, None], good.shape)[good]
    room = MapRoom(
        side, neighbours, motion.grade, motion.reach.high_known, motion.steer_known, axle.compliance, motion.notes,
        asked.settle, asked.rough, asked.gap_at,
    )  # fmt: skip
    shape = (len(field.travel_mm), len(field.second_mm))
    return MappedCorner(
        room,
        asked.ready,
        outline,
        travel,
        steer_of(poses.axis, side),
        motion,
        asked.obstacles,
        poses,
        words,
        hub,
        shape,
        cached,
        int((~good).sum()),
        asked.second_near,
    )


def _steps(low: float, high: float, count: int) -> Floats:
    """Evenly from low to high with the parked or straight-ahead state among them."""
    if high <= low:
        return np.array([low])
    return np.unique(np.append(np.linspace(low, high, count), 0.0 if low <= 0.0 <= high else low))


def _view(outline: Outline) -> View:
    """A point in the middle of the tyre's section; a convex section stays star-shaped about it on any usual disc."""
    from hubwright.engineering.envelope.meridian import View  # noqa: PLC0415

    rho = 0.5 * float(outline.rho_mm.min() + outline.rho_mm.max())
    y = 0.5 * float(outline.y_mm.min() + outline.y_mm.max())
    return View(rho, y, float(np.hypot(outline.rho_mm - rho, outline.y_mm - y).max()) + ROOM_MM)


def _obstacles(
    axle: Axle, side: Side, motion: CornerMotion, hub: Floats, axis: Floats
) -> tuple[tuple[Obstacle, ...], dict[str, Neighbour]]:
    from hubwright.engineering.envelope.obstacles import Obstacle  # noqa: PLC0415

    made: list[Obstacle] = []
    about: dict[str, Neighbour] = {}
    for scan in axle.corner(side).scan:
        name = _own(scan.name, about)
        carried = scan.kind == "carried"
        obstacle, placed = _on_car(scan, name, side, hub, axis)
        made.append(obstacle)
        words = [
            say("scan noise {doubt} mm", doubt=pointed(f"{placed.doubt_mm:.2f}"))
            if placed.noise_mm is not None
            else say("a mesh without stated doubt")
        ]
        words += [say("{removed} outliers taken out", removed=placed.removed)] if placed.removed else []
        doubt = float(np.hypot(placed.doubt_mm, 0.0 if carried else motion.doubt_mm))
        about[name] = Neighbour(name, scan.kind, scan.region, doubt, placed.spacing_mm, _with_motion(words, motion))
    for line in axle.corner(side).line:
        name = _own(line.name, about)
        carried = line.kind == "carried"
        made.append(Obstacle(name, line.kind, _edge(line, side, hub, axis, motion, carried), carried))
        doubt = float(np.hypot(line.u_mm, 0.0 if carried else motion.doubt_mm))
        about[name] = Neighbour(
            name,
            line.kind,
            line.region,
            doubt,
            0.0,
            _with_motion([say("edge read to {u} mm", u=plain(line.u_mm))], motion),
        )
    return tuple(made), about


@dataclass(frozen=True)
class _Laid:
    """A scan laid on the car, as an obstacle and with what was found about it."""

    obstacle: Obstacle
    placed: Placed

    @property
    def held_bytes(self) -> int:
        return self.obstacle.held_bytes


def _on_car(scan: Scan, name: str, side: Side, hub: Floats, axis: Floats) -> tuple[Obstacle, Placed]:
    from hubwright.engineering.envelope.obstacles import Obstacle  # noqa: PLC0415 - compiled sums
    from hubwright.jobs.scans import place_scan, read_shape  # noqa: PLC0415

    shape = read_shape(Path(scan.file), UNIT_MM[scan.unit])
    said = tuple(getattr(scan, one.name) for one in fields(scan) if one.name not in ("file", "name", "region"))
    key = (shape.fingerprint, name, said, side, hub.tobytes(), axis.tobytes())
    with _lock:
        found: _Laid | None = _laid.get(key)
    if found is None:
        placed = place_scan(shape, scan, side, hub, axis)
        found = _Laid(Obstacle(name, scan.kind, placed.triangles_mm, scan.kind == "carried"), placed)
        with _lock:
            _laid[key] = found
    return found.obstacle, found.placed


def _with_motion(words: list[str], motion: CornerMotion) -> str:
    return ", ".join(
        [*words, say("motion {doubt} mm", doubt=pointed(f"{motion.doubt_mm:.1f}"))] if motion.doubt_mm > 0 else words
    )


def _own(name: str, taken: dict[str, Neighbour]) -> str:
    number, own = 1, name
    while own in taken:
        number += 1
        own = f"{name} {number}"
    return own


def _edge(line: Line, side: Side, hub: Floats, axis: Floats, motion: CornerMotion, carried: bool) -> Floats:
    from hubwright.engineering.envelope.obstacles import lip_by_clock, points, polyline  # noqa: PLC0415
    from hubwright.jobs.scans import hub_axes  # noqa: PLC0415

    if line.points_mm:
        places = to_corner(np.array(line.points_mm), side)
    else:
        centre = motion.parked()[0]
        outboard = hub[1] + np.array(line.outboard_mm)
        places = lip_by_clock([float(v) for v in centre], np.array(line.clock_deg), np.array(line.radius_mm), outboard)
    if carried:
        places = (places - hub) @ hub_axes(axis).T
    return polyline(places) if len(places) > 1 else points(places)
