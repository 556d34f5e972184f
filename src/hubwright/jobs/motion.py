"""How one wheel moves, from the best there is: hard points, measured motion, or a class guess that says so."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Literal

import numpy as np

from hubwright.errors import BadInput, Fault
from hubwright.jobs.springing import Reach, reach_of
from hubwright.language import say, say_as
from hubwright.language.part_words import suspension_word
from hubwright.parts.job import AxleName, Job
from hubwright.quantities.axes import Side

Floats = np.ndarray[Any, np.dtype[np.float64]]
Flags = np.ndarray[Any, np.dtype[np.bool_]]
Grade = Literal["hard points", "measured motion", "class guess"]
READING_DOUBT_DEG, READING_DOUBT_MM = 0.1, 0.5
"""Of motion readings nobody stated a doubt for; guesses."""
ARCH_MM = 320.0
"""Height over the wheel centre at which a doubt of camber is turned into mm; about an arch lip's."""


@dataclass(frozen=True, eq=False)
class CornerMotion:
    """One wheel's motion in corner axes (x forward, o outboard, z up).

    Attributes:
        side: Of the car.
        grade: What it rests on.
        solve: Wheel centres (n, 3), axes (n, 3) and which states can be, for travels (n,) and a second variable (n,).
        reach: How far it travels, and who says so.
        second: What the second variable is: rack, other wheel, or nothing.
        second_range: Its two ends.
        steer_known: Whether lock is part of this motion (always for a wheel that does not steer).
        doubt_mm: Standard doubt of a place at the arch that comes from the motion itself.
        notes: What has to be said beside every result.
        linkage: The linkage and which of its wheels; None without hard points.
        fits: Fitted camber and half-track; None with hard points.
    """

    side: Side
    grade: Grade
    solve: Callable[[Floats, Floats], tuple[Floats, Floats, Flags]]
    reach: Reach
    second: Literal["rack", "other wheel", ""]
    second_range: tuple[float, float]
    steer_known: bool
    doubt_mm: float
    notes: tuple[str, ...]
    linkage: Any = None
    fits: Any = None

    def parked(self) -> tuple[Floats, Floats]:
        """Wheel centre (3,) and axis (3,) as it stands."""
        centre, axis, good = self.solve(np.zeros(1), np.zeros(1))
        if not good[0]:
            wanted, given = say("links that hold the wheel as it stands"), say("links that cannot, or a dead point")
            fault = Fault(
                say("the parked state"), wanted, given, todo=say("Check each hard point, its axes and its sign.")
            )
            raise BadInput(say("hard points"), (fault,))
        return centre[0], axis[0]


def motion_of_corner(job: Job, name: AxleName, side: Side) -> CornerMotion:
    """The motion of one wheel, from hard points where there are any, else from readings, else from the class guess.

    Raises:
        BadInput: hard points that cannot be.
    """
    axle = dict(job.axles)[name]
    steered = job.is_steered(name)
    reach = reach_of(job, name, side)
    if axle.hardpoints is not None:
        found = _from_points(job, name, side, reach, steered)
        if found is not None:
            return found
    return _from_readings(job, name, side, reach, steered)


def _from_points(job: Job, name: AxleName, side: Side, reach: Reach, steered: bool) -> CornerMotion | None:
    from hubwright.engineering.kinematics.solve import solve, wheel_poses  # noqa: PLC0415
    from hubwright.jobs.linkages import linkage_at  # noqa: PLC0415
    from hubwright.quantities.axes import to_corner  # noqa: PLC0415 - compiled sums, not always needed

    axle = dict(job.axles)[name]
    assert axle.hardpoints is not None
    found = linkage_at(axle.hardpoints, side, steered=steered)
    if found is None:
        return None
    linkage, number = found
    coupled = len(linkage.wheels) == 2

    def solved(travel: Floats, second: Floats) -> tuple[Floats, Floats, Flags]:
        if coupled:
            pair = (travel, second) if number == 0 else (second, travel)
            states = solve(linkage, pair[0], 0.0, pair[1])
        else:
            states = solve(linkage, travel, second if linkage.steered else 0.0)
        poses = wheel_poses(states, number)
        return to_corner(poses.centre_mm, side), to_corner(poses.axis, side), states.solved

    rack, notes = (0.0, 0.0), list(reach.notes)
    if linkage.steered:
        rack = _rack_range(job, name, linkage)
        if rack == (0.0, 0.0):
            notes.append(say("Neither rack travel nor lock angle is known: only straight ahead was looked at."))
    kind: Literal["rack", "other wheel", ""] = "other wheel" if coupled else "rack" if linkage.steered else ""
    ends = (reach.low_mm, reach.high_mm) if coupled else rack
    known = not steered or rack != (0.0, 0.0)
    return CornerMotion(side, "hard points", solved, reach, kind, ends, known, 0.0, tuple(notes), (linkage, number))


def _rack_range(job: Job, name: AxleName, linkage: Any) -> tuple[float, float]:
    axle = dict(job.axles)[name]
    assert axle.hardpoints is not None
    if axle.hardpoints.rack_travel_mm is not None:
        return -axle.hardpoints.rack_travel_mm, axle.hardpoints.rack_travel_mm
    if axle.steer_max_deg is None:
        return 0.0, 0.0
    from hubwright.engineering.kinematics.steering import rack_for_steer  # noqa: PLC0415

    found = np.abs(rack_for_steer(linkage, [axle.steer_max_deg, -axle.steer_max_deg]))
    found = found[np.isfinite(found)]
    if not found.size:
        return 0.0, 0.0
    # one wheel turns more than the other: the rack stops when the first of them has its largest angle
    most = float(found.min())
    return -most, most


def _from_readings(job: Job, name: AxleName, side: Side, reach: Reach, steered: bool) -> CornerMotion:
    from hubwright.engineering.kinematics.measured import (  # noqa: PLC0415
        change,
        fit_motion,
        from_prior,
        hub_poses_from_motion,
        predict,
    )
    from hubwright.engineering.kinematics.priors import PRIORS  # noqa: PLC0415

    axle = dict(job.axles)[name]
    corner = axle.corner(side)
    readings = corner.motion or axle.motion
    kind = axle.hardpoints.kind if axle.hardpoints is not None else "unknown"
    prior = PRIORS["multi-link" if kind == "five link" else kind]
    parked = corner.camber_deg.value if corner.camber_deg else 0.0
    tracked = [item for item in readings if item.half_track_mm is not None]
    camber = from_prior(prior.camber, parked, READING_DOUBT_DEG)
    track = from_prior(prior.half_track)
    if readings:
        doubts = [READING_DOUBT_DEG if r.camber_deg.u is None else max(r.camber_deg.u, 1e-3) for r in readings]
        camber = fit_motion(
            [r.travel_mm for r in readings], [r.camber_deg.value for r in readings], doubts, prior.camber
        )
    if tracked:
        values = [r.half_track_mm for r in tracked if r.half_track_mm is not None]
        doubts = [READING_DOUBT_MM if v.u is None else max(v.u, 1e-3) for v in values]
        track = fit_motion([r.travel_mm for r in tracked], [v.value for v in values], doubts, prior.half_track)
    guessed = [
        say("{what} of the {which}", what=say_as("curve", what), which=which)
        for which, fit in ((say("camber"), camber), (say("half-track"), track))
        for what in fit.guessed
    ]
    notes = list(reach.notes)
    if guessed:
        notes.append(
            say(
                "Guessed from the class ({kind}), no source: {terms}.",
                kind=suspension_word(kind),
                terms=", ".join(guessed),
            )
        )
    if steered:
        notes.append(say("Measured motion says nothing about lock: only straight ahead was looked at."))
    toe = corner.toe_deg or 0.0

    def solved(travel: Floats, _: Floats) -> tuple[Floats, Floats, Flags]:
        centre, axis = hub_poses_from_motion(camber, track, travel, toe)
        return centre, axis, np.ones(len(centre), bool)

    ends = np.array([reach.low_mm, reach.high_mm])
    lean = np.radians(predict(camber, ends)[1].max()) * ARCH_MM
    doubt = float(np.hypot(lean, change(track, ends)[1].max()))
    grade: Grade = "measured motion" if readings else "class guess"
    return CornerMotion(
        side, grade, solved, reach, "", (0.0, 0.0), not steered, doubt, tuple(notes), fits=(camber, track)
    )
