"""The clearance maps of a job: motion, obstacles and package of each corner put together, drawn or taken from the cache."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from hubwright.checks.house import House
from hubwright.checks.mapped import MapRoom, Neighbour, disagreements
from hubwright.checks.plausibility import Question
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.parts.scan import UNIT_MM, Line
from hubwright.quantities.axes import SIDES, Side, to_corner

if TYPE_CHECKING:
    from hubwright.engineering.envelope.meridian import View
    from hubwright.engineering.envelope.obstacles import Obstacle
    from hubwright.engineering.envelope.outline import Outline
    from hubwright.engineering.envelope.poses import Poses
    from hubwright.jobs.motion import CornerMotion

Floats = np.ndarray[Any, np.dtype[np.float64]]

WITHIN_MM = 0.5
"""How much closer than at its states an obstacle may come between them, at the margin owed; wanted of the grid."""
MOST_STATES = 1200
DISC_MM = 60.0
"""Thickest disc the map must still hold the package of."""
MEAN_OF_BOTH = 2.0
ROOM_MM = 120.0
"""How far beyond the tyre's section the map reaches; what is farther away is only known to be so."""


@dataclass(frozen=True, eq=False)
class MappedCorner:
    """A map with what it was drawn from, for pictures and for other questions."""

    room: MapRoom
    motion: CornerMotion
    obstacles: tuple[Obstacle, ...]
    poses: Poses
    package: str
    hub_mm: Floats
    shape: tuple[int, int]
    from_cache: bool
    unsolved: int


def maps_of(job: Job, house: House) -> dict[AxleName, dict[Side, MapRoom]]:
    """The map of every corner that has one."""
    found: dict[AxleName, dict[Side, MapRoom]] = {}
    for name, axle in job.axles:
        for side in SIDES:
            if not has_shapes(axle, side):
                continue
            corner = map_of_corner(job, name, side, house)
            if corner is not None:
                found.setdefault(name, {})[side] = corner.room
    return found


def map_questions(job: Job, house: House, maps: dict[AxleName, dict[Side, MapRoom]]) -> tuple[Question, ...]:
    """Where readings and map disagree by more than their doubts."""
    found: list[Question] = []
    for name, axle in job.axles:
        for side, room in maps.get(name, {}).items():
            found += disagreements(room, axle, name, side, house)
    return tuple(found)


def has_shapes(axle: Axle, side: Side) -> bool:
    """Whether anything is known of what stands around this wheel as a shape."""
    return bool(axle.corner(side).scan or axle.corner(side).line)


def map_of_corner(
    job: Job, name: AxleName, side: Side, house: House, *, within_mm: float = WITHIN_MM, most: int = MOST_STATES
) -> MappedCorner | None:
    """The clearance map of one corner; None without shapes, wheels or tyre.

    Raises:
        BadInput: hard points or picks that cannot be.
    """
    axle = dict(job.axles)[name]
    if axle.fitted is None or not has_shapes(axle, side):
        return None
    from hubwright.engineering.envelope.meridian.build import draw_map, inputs_hash  # noqa: PLC0415
    from hubwright.engineering.envelope.poses import Poses  # noqa: PLC0415
    from hubwright.engineering.envelope.query import ReadyMap  # noqa: PLC0415
    from hubwright.engineering.envelope.states import grid_within  # noqa: PLC0415
    from hubwright.jobs.cache import keep_map, kept_map  # noqa: PLC0415
    from hubwright.jobs.motion import motion_of_corner  # noqa: PLC0415
    from hubwright.jobs.packages import inset_of, package_outline  # noqa: PLC0415

    package = package_outline(axle.fitted)
    if package is None:
        return None
    outline, words = package
    motion = motion_of_corner(job, name, side)
    inset = inset_of(axle.fitted)

    def hubs(travel: Floats, second: Floats) -> tuple[Floats, Floats, Any]:
        centre, spin, good = motion.solve(travel, second)
        return centre + inset * spin, spin, good

    centre, axis = motion.parked()
    hub = centre + inset * axis
    obstacles, neighbours = _obstacles(axle, side, motion, hub, axis)
    owed = min([house.margin_mm[n.kind] for n in neighbours.values() if n.kind != "carried"] or [1.0])
    far = float(np.hypot(outline.rho_mm, np.abs(outline.y_mm) + DISC_MM / MEAN_OF_BOTH).max()) + owed
    grid = grid_within(
        hubs, (motion.reach.low_mm, motion.reach.high_mm), motion.second_range, reach_mm=far,
        radius_mm=max(owed, 1.0), within_mm=within_mm, most=most,
    )  # fmt: skip
    poses = Poses(grid.origin_mm, grid.axis, grid.between_mm)
    view = _view(outline)
    mark = inputs_hash(obstacles, poses, view)
    drawn = kept_map(mark)
    cached = drawn is not None
    if drawn is None:
        drawn = draw_map(obstacles, poses, view)
        keep_map(drawn)
    steer = _steer(grid.axis, side)

    def gap_at(thickness_mm: float, travel_mm: float, steer_deg: float) -> tuple[float, float] | None:
        return _gap_at(hubs, grid, steer, obstacles, neighbours, outline.slid(thickness_mm), travel_mm, steer_deg)

    room = MapRoom(
        side, ReadyMap(drawn), outline, neighbours, grid.travel_mm, steer, grid.origin_mm, grid.axis, grid.between_mm,
        motion.grade, motion.reach.high_known, motion.steer_known, axle.compliance, motion.notes, gap_at,
    )  # fmt: skip
    return MappedCorner(room, motion, obstacles, poses, words, hub, grid.shape, cached, grid.unsolved)


def _view(outline: Outline) -> View:
    """A point in the middle of the tyre's section; a convex section stays star-shaped about it on any usual disc."""
    from hubwright.engineering.envelope.meridian import View  # noqa: PLC0415

    rho = 0.5 * float(outline.rho_mm.min() + outline.rho_mm.max())
    y = 0.5 * float(outline.y_mm.min() + outline.y_mm.max())
    return View(rho, y, float(np.hypot(outline.rho_mm - rho, outline.y_mm - y).max()) + ROOM_MM)


def _steer(axis: Floats, side: Side) -> Floats:
    """Steer of the wheel in each state, left positive, from spin axes in corner axes."""
    toe = np.degrees(np.arctan2(axis[:, 0], axis[:, 1]))
    return -toe if side == "left" else toe


def _gap_at(
    hubs: Any, grid: Any, steer: Floats, obstacles: tuple[Obstacle, ...], neighbours: dict[str, Neighbour],
    outline: Any, travel_mm: float, steer_deg: float,
) -> tuple[float, float] | None:  # fmt: skip
    """Straight from the triangles at one state: least gap to the bodywork outside, and its standard doubt."""
    from hubwright.engineering.envelope.poses import Poses  # noqa: PLC0415
    from hubwright.engineering.envelope.sweep import gap_at_every_state  # noqa: PLC0415

    if not grid.travel_mm.min() - 0.5 <= travel_mm <= grid.travel_mm.max() + 0.5:
        return None
    nearest = int(np.abs(steer - steer_deg + 0.05 * np.abs(grid.travel_mm - travel_mm)).argmin())
    if abs(steer[nearest] - steer_deg) > 3.0:
        return None
    second = _second_for(grid, steer, travel_mm, steer_deg)
    origin, axis, good = hubs(np.array([travel_mm]), np.array([second]))
    if not good[0]:
        return None
    best: tuple[float, float] | None = None
    for obstacle in obstacles:
        about = neighbours[obstacle.name]
        if about.kind == "body" and about.region == "outside":
            gap = float(gap_at_every_state(outline, obstacle, Poses(origin, axis)).gap_mm[0])
            if best is None or gap < best[0]:
                best = (gap, about.doubt_mm)
    return best


def _second_for(grid: Any, steer: Floats, travel_mm: float, steer_deg: float) -> float:
    """The rack that gives a steer angle, read off the grid's states at the nearest travel."""
    if abs(steer_deg) < 1e-9:
        return 0.0
    near = np.abs(grid.travel_mm - travel_mm) <= np.abs(grid.travel_mm - travel_mm).min() + 1e-9
    order = np.argsort(steer[near])
    return float(np.interp(steer_deg, steer[near][order], grid.second_mm[near][order]))


def _obstacles(
    axle: Axle, side: Side, motion: CornerMotion, hub: Floats, axis: Floats
) -> tuple[tuple[Obstacle, ...], dict[str, Neighbour]]:
    from pathlib import Path  # noqa: PLC0415

    from hubwright.engineering.envelope.obstacles import Obstacle  # noqa: PLC0415
    from hubwright.jobs.scans import place_scan, read_shape  # noqa: PLC0415

    made, about = [], {}
    for scan in axle.corner(side).scan:
        placed = place_scan(read_shape(Path(scan.file), UNIT_MM[scan.unit]), scan, side, hub, axis)
        name = _own(scan.name, about)
        carried = scan.kind == "carried"
        made.append(Obstacle(name, scan.kind, placed.triangles_mm, carried))
        words = [f"scan noise {placed.doubt_mm:.2f} mm" if placed.noise_mm is not None else "a mesh without stated doubt"]
        words += [f"{placed.removed} outliers taken out"] if placed.removed else []
        doubt = float(np.hypot(placed.doubt_mm, 0.0 if carried else motion.doubt_mm))
        about[name] = Neighbour(name, scan.kind, scan.region, doubt, placed.spacing_mm, _with_motion(words, motion))
    for line in axle.corner(side).line:
        name = _own(line.name, about)
        carried = line.kind == "carried"
        made.append(Obstacle(name, line.kind, _edge(line, side, hub, axis, motion, carried), carried))
        doubt = float(np.hypot(line.u_mm, 0.0 if carried else motion.doubt_mm))
        about[name] = Neighbour(name, line.kind, line.region, doubt, 0.0, _with_motion([f"edge read to {line.u_mm:g} mm"], motion))
    return tuple(made), about


def _with_motion(words: list[str], motion: CornerMotion) -> str:
    return ", ".join([*words, f"motion {motion.doubt_mm:.1f} mm"] if motion.doubt_mm > 0 else words)


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
        places = lip_by_clock(centre, np.array(line.clock_deg), np.array(line.radius_mm), outboard)
    if carried:
        places = (places - hub) @ hub_axes(axis).T
    return polyline(places) if len(places) > 1 else points(places)
