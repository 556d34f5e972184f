"""Everything about how one wheel moves, over travel and over lock, as plain columns."""

from __future__ import annotations

from dataclasses import asdict, dataclass, field
from typing import Any

import numpy as np

from hubwright.errors import HubwrightError
from hubwright.jobs.motion import motion_of_corner
from hubwright.jobs.springing import CaseTravel, case_travels
from hubwright.language import marked, say
from hubwright.language.place_words import place_word
from hubwright.parts.job import AxleName, Job
from hubwright.quantities.axes import Side, to_corner

Floats = np.ndarray[Any, np.dtype[np.float64]]

TRAVEL_STATES, LOCK_STATES = 27, 25
GAP_AT = ("gap at the ", ", mm")
"""What stands before and after the point's name in the key of a column of gaps."""
COLUMNS = {
    "camber_deg": marked("camber, °"),
    "toe_deg": marked("toe, °"),
    "half_track_mm": marked("half-track change, {unit}"),
    "centre_forward_mm": marked("wheel centre forward, {unit}"),
    "centre_out_mm": marked("wheel centre outboard, {unit}"),
    "kingpin_deg": marked("kingpin inclination, °"),
    "caster_deg": marked("caster, °"),
    "scrub_mm": marked("scrub radius, {unit}"),
    "trail_mm": marked("trail, {unit}"),
    "front_arm_mm": marked("front swing arm, {unit}"),
    "roll_centre_mm": marked("roll centre height, {unit}"),
    "side_arm_mm": marked("side swing arm, {unit}"),
    "motion_ratio": marked("motion ratio"),
}
"""Name of each column and what stands beside it in charts and tables."""


@dataclass(frozen=True, eq=False)
class MotionTable:
    """One wheel's figures.

    Attributes:
        axle, side: Which wheel.
        grade: hard points, measured motion or class guess.
        reach: Where the ends of the travel come from.
        travel_mm: (n,) travels looked at, straight ahead.
        by_travel: Column -> (n,) figures; NaN where a figure does not exist or the state could not be solved.
        rack_mm: (m,) rack moves looked at, parked; empty without steering.
        by_rack: As ``by_travel``.
        steer_deg: (m,) of this wheel.
        doubt: Column -> (n,) standard doubt, where the motion was measured.
        unsolved: States that could not be solved, in words.
        cases: Travel in every case of load.
        notes: What has to be said beside it.
    """

    axle: AxleName
    side: Side
    grade: str
    reach: str
    travel_mm: Floats
    by_travel: dict[str, Floats]
    rack_mm: Floats
    by_rack: dict[str, Floats]
    steer_deg: Floats
    doubt: dict[str, Floats] = field(default_factory=dict)
    unsolved: tuple[str, ...] = ()
    cases: tuple[CaseTravel, ...] = ()
    notes: tuple[str, ...] = ()

    def plain(self) -> dict[str, Any]:
        """As JSON takes it: lists, and null for what does not exist."""
        return {name: _listed(getattr(self, name)) for name in self.__dataclass_fields__}


def column_words(key: str, unit: str = "mm") -> str:
    """A column as a title, from its key; lengths of the table are mm, a chart may show them in another unit."""
    if key in COLUMNS:
        return say(COLUMNS[key], unit=unit)
    before, after = GAP_AT
    return say("gap at the {point}, {unit}", point=place_word(key[len(before) : -len(after)]), unit=unit)


def motion_table(job: Job, name: AxleName, side: Side) -> MotionTable:
    """Every figure of one wheel.

    Raises:
        BadInput: hard points that cannot be.
    """
    motion = motion_of_corner(job, name, side)
    reach = motion.reach
    travel = _through_zero(reach.low_mm, reach.high_mm, TRAVEL_STATES)
    if motion.linkage is None:
        return _measured(job, name, side, motion, travel)
    from hubwright.engineering.kinematics.solve import STATUS_WORDS, solve  # noqa: PLC0415 - compiled sums

    linkage, number = motion.linkage
    up = solve(linkage, travel)
    by_travel = _columns(job, name, side, up, number)
    unsolved = [
        say("travel {travel} mm: {status}", travel=f"{z:.0f}", status=say(STATUS_WORDS[int(s)]))
        for z, s in zip(travel, up.status, strict=True)
        if s
    ]
    rack, by_rack, steer = np.empty(0), dict[str, Floats](), np.empty(0)
    if motion.second == "rack" and motion.second_range[1] > 0:
        rack = _through_zero(*motion.second_range, LOCK_STATES)
        turned = solve(linkage, 0.0, rack)
        by_rack = _columns(job, name, side, turned, number)
        steer = -by_rack["toe_deg"] if side == "left" else by_rack["toe_deg"]
        unsolved += [
            say("rack {rack} mm: {status}", rack=f"{r:.0f}", status=say(STATUS_WORDS[int(s)]))
            for r, s in zip(rack, turned.status, strict=True)
            if s
        ]
    return MotionTable(
        name, side, motion.grade, reach.words, travel, by_travel, rack, by_rack, steer, {}, tuple(unsolved),
        _cases(job, name), motion.notes,
    )  # fmt: skip


def _columns(job: Job, name: AxleName, side: Side, states: Any, number: int) -> dict[str, Floats]:
    from hubwright.engineering.kinematics.characteristics import characteristics  # noqa: PLC0415
    from hubwright.engineering.kinematics.instant_centres import instant_centres  # noqa: PLC0415
    from hubwright.jobs.ratios import ratios, spring_points  # noqa: PLC0415

    c = characteristics(states, number)
    ic = instant_centres(states, number)
    shift = to_corner(c.centre_shift_mm, side)
    found = {
        "camber_deg": c.camber_deg,
        "toe_deg": c.toe_deg,
        "half_track_mm": c.half_track_change_mm,
        "centre_forward_mm": shift[:, 0],
        "centre_out_mm": shift[:, 1],
        "kingpin_deg": c.kingpin_inclination_deg,
        "caster_deg": c.caster_deg,
        "scrub_mm": c.scrub_mm,
        "trail_mm": c.trail_mm,
        "front_arm_mm": ic.front_arm_mm,
        "roll_centre_mm": ic.roll_centre_height_mm,
        "side_arm_mm": ic.side_arm_mm,
    }
    spring = spring_points(job, name, side)
    if spring is not None:
        try:
            found["motion_ratio"] = ratios(states, number, spring)
        except HubwrightError:
            found["motion_ratio"] = np.full(len(c.camber_deg), np.nan)
    return {key: values for key, values in found.items() if np.any(np.isfinite(values))}


def _measured(job: Job, name: AxleName, side: Side, motion: Any, travel: Floats) -> MotionTable:
    fits = motion.fits
    from hubwright.engineering.kinematics.measured import change, predict  # noqa: PLC0415

    camber, u_camber = predict(fits[0], travel)
    track, u_track = change(fits[1], travel)
    columns = {"camber_deg": camber, "half_track_mm": track}
    doubts = {"camber_deg": u_camber, "half_track_mm": u_track}
    for point in dict(job.axles)[name].corner(side).point:
        readings = [r for r in point.reading if abs(r.steer_deg) < 1.0 and r.disc_mm == 0]
        heights = {round(r.travel_mm) for r in readings}
        if len(heights) < 2:
            continue
        from hubwright.engineering.kinematics.measured import fit_motion  # noqa: PLC0415
        from hubwright.engineering.kinematics.priors import CurvePrior  # noqa: PLC0415

        gaps = [point.gap(r) for r in readings]
        flat = CurvePrior(0.0, 1.0, 0.0, 1e-2)
        fit = fit_motion(
            [r.travel_mm for r in readings], [g.value for g in gaps], [max(g.doubt, 1e-3) for g in gaps], flat
        )
        key = f"{GAP_AT[0]}{point.name}{GAP_AT[1]}"
        columns[key], doubts[key] = predict(fit, travel)
    empty = np.empty(0)
    return MotionTable(
        name, side, motion.grade, motion.reach.words, travel, columns, empty, {}, empty, doubts, (), _cases(job, name),
        motion.notes,
    )  # fmt: skip


def _through_zero(low: float, high: float, count: int) -> Floats:
    if high <= low:
        return np.array([low])
    return np.unique(np.append(np.linspace(low, high, count), 0.0 if low <= 0.0 <= high else low))


def _listed(value: Any) -> Any:
    if isinstance(value, np.ndarray):
        return [None if not np.isfinite(one) else round(float(one), 6) for one in value]
    if isinstance(value, dict):
        return {key: _listed(one) for key, one in value.items()}
    if isinstance(value, tuple):
        return [_listed(asdict(one)) if isinstance(one, CaseTravel) else _listed(one) for one in value]
    return value


def _cases(job: Job, name: AxleName) -> tuple[CaseTravel, ...]:
    given = dict(job.axles)[name].hardpoints
    return case_travels(job, name) if given is not None and given.springs is not None else ()
