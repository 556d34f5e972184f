"""Predicted against measured: what was read with a disc fitted, beside what the bare readings had said it would be."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from hubwright.checks.clearance import NO_PUSH, RELEASE_STEER_DEG, RELEASE_TRAVEL_MM, room_of
from hubwright.checks.gaps import REACH_MM, SAME_STEER_DEG, GapCurve, curves_of
from hubwright.checks.house import House, house_of
from hubwright.errors import OutsideValidity
from hubwright.parts.base import READERS
from hubwright.parts.corner import GapReading, Point
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.quantities.axes import SIDES, Side
from hubwright.quantities.rounding import at_least

COVERAGE = 2.0
"""Combined doubts within which both agree, about 95 %: JCGM 100:2008, 6.3.3."""


@dataclass(frozen=True)
class Compared:
    """One gap read with the disc fitted.

    Attributes:
        side, place: Where.
        travel_mm, steer_deg: In which state.
        disc_mm: The disc fitted.
        measured_mm, measured_doubt_mm: As read.
        predicted_mm, predicted_doubt_mm: From the bare readings; None where they do not reach this state.
        wanted_mm: Free air that must be read here: the margin and the shop's share of the reading's own doubt.
    """

    side: Side
    place: str
    travel_mm: float
    steer_deg: float
    disc_mm: float
    measured_mm: float
    measured_doubt_mm: float
    predicted_mm: float | None
    predicted_doubt_mm: float | None
    wanted_mm: float

    @property
    def difference_mm(self) -> float | None:
        """Measured less predicted: negative where there is less air than promised."""
        return None if self.predicted_mm is None else self.measured_mm - self.predicted_mm

    @property
    def doubt_mm(self) -> float | None:
        """Within which both agree: twice the root of the sum of both doubts squared (JCGM 100:2008, 5.1.2 and 6.3.3)."""
        if self.predicted_doubt_mm is None:
            return None
        return COVERAGE * math.hypot(self.measured_doubt_mm, self.predicted_doubt_mm)

    @property
    def agrees(self) -> bool | None:
        """Whether the difference lies within that doubt; None where nothing was predicted."""
        if self.difference_mm is None or self.doubt_mm is None:
            return None
        return abs(self.difference_mm) <= self.doubt_mm

    @property
    def keeps_margin(self) -> bool:
        """Whether the gap read leaves the margin after its doubt."""
        return at_least(self.measured_mm, self.wanted_mm)


def compared(job: Job, name: AxleName, disc_mm: float, bare: Job | None = None) -> tuple[Compared, ...]:
    """Every gap of one axle read with this disc, left before right.

    Args:
        job: The job with the readings.
        name: The axle.
        disc_mm: Thickness of the disc fitted.
        bare: The job as it was predicted from, where its bare readings were taken out since; the job itself when None.
    """
    axle = job.front if name == "front" else job.rear
    if axle is None:
        return ()
    before = (bare or job).front if name == "front" else (bare or job).rear
    house = house_of(job)
    found = []
    for side in SIDES:
        for point in axle.corner(side).point:
            curves = (
                ()
                if before is None
                else tuple(_bare_curves(before, side, point.name, house.policy.sidewall_curvature_mm))
            )
            for reading in point.reading:
                if reading.disc_mm == disc_mm:
                    found.append(_one(side, point, reading, curves, house))
    return tuple(found)


def has_bare(axle: Axle | None, side: Side, place: str) -> bool:
    """Whether a place has a gap read without a disc."""
    points = () if axle is None else axle.corner(side).point
    return any(point.name == place and any(not reading.disc_mm for reading in point.reading) for point in points)


def _bare_curves(axle: Axle, side: Side, place: str, curvature_mm: float) -> Iterator[tuple[GapCurve, float]]:
    """Curves from the bare readings alone, each with what the work offered there gains."""
    for point in axle.corner(side).point:
        readings = tuple(reading for reading in point.reading if not reading.disc_mm)
        if point.name == place and readings:
            gain = sum(work.gain_mm for work in point.work)
            try:
                for curve in curves_of(axle, side, replace(point, reading=readings), curvature_mm):
                    yield curve, gain
            except OutsideValidity:
                return  # the tyre was not read where the point passes: nothing was predicted


def _one(
    side: Side, point: Point, reading: GapReading, curves: tuple[tuple[GapCurve, float], ...], house: House
) -> Compared:
    gap = point.gap(reading)
    predicted = doubt = None
    for curve, gain in curves:
        at, low, high = reading.travel_mm, float(curve.travel_mm[0]), float(curve.travel_mm[-1])
        if abs(curve.steer_deg - reading.steer_deg) <= SAME_STEER_DEG and low - REACH_MM <= at <= high + REACH_MM:
            bare_mm, push = (float(np.interp(at, curve.travel_mm, row)) for row in (curve.gap_mm, curve.push))
            predicted = bare_mm + gain - push * reading.disc_mm
            doubt = float(np.interp(at, curve.travel_mm, curve.doubt_mm))
    return Compared(
        side, point.name, reading.travel_mm, reading.steer_deg, reading.disc_mm, gap.value, gap.doubt, predicted, doubt,
        house.margin_mm[point.kind] + house.guard_mm(gap.doubt),
    )  # fmt: skip


@dataclass(frozen=True)
class Unproven:
    """A state in which a gap must still be read with the disc fitted before the car may go."""

    side: Side
    place: str
    travel_mm: float
    steer_deg: float


def unproven(job: Job, name: AxleName, disc_mm: float) -> tuple[Unproven, ...]:
    """The narrowest state of each place the disc moves the wheel towards, where it was not read with this disc fitted.

    The same rule as `hubwright.checks.clearance.proven_fitted`, which also asks that the margin is kept.
    """
    axle = job.front if name == "front" else job.rear
    if axle is None or disc_mm <= 0:
        return ()
    house, found = house_of(job), []
    for side in SIDES:
        try:
            room = room_of(axle, side, house, steered=job.is_steered(name), with_work=True)
        except OutsideValidity:
            continue  # the answer says what is wrong
        for swept in room.swept:
            state = int(swept.slack_at(disc_mm).argmin())
            travel, steer = float(swept.curve.travel_mm[state]), swept.curve.steer_deg
            if float(swept.curve.push.max()) > NO_PUSH and not _read(swept.curve.point, travel, steer, disc_mm):
                found.append(Unproven(side, swept.curve.point.name, travel, steer))
    return tuple(found)


def _read(point: Point, travel_mm: float, steer_deg: float, disc_mm: float) -> bool:
    return any(
        reading.disc_mm == disc_mm
        and point.gap(reading).by == READERS[0]
        and abs(reading.travel_mm - travel_mm) <= RELEASE_TRAVEL_MM
        and abs(reading.steer_deg - steer_deg) <= RELEASE_STEER_DEG
        for reading in point.reading
    )
