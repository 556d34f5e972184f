"""Which reading is worth taking next, and why: what is missing, in the order of what it would settle."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import chain

from hubwright.findings import Wanted, Window
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.quantities.axes import SIDES

CLEARANCE, LATER = "clearance", "other wheels"
_SIDE = re.compile(r", (left|right)$")


def wanted_readings(job: Job, name: AxleName, axle: Axle, windows: tuple[Window, ...]) -> tuple[Wanted, ...]:
    """Missing readings of one axle, the most valuable first; both sides of one reading in one line.

    The worth of each is the doubt about the allowed thickness that it would remove, by class; guesses, no source.
    """
    found = chain((item for window in windows for item in window.missing), _helpful(job, name, axle))
    merged: dict[tuple[str, str], list[Wanted]] = {}
    for item in found:
        stem = _SIDE.sub("", item.what)
        merged.setdefault((item.question, stem), []).append(item)
    return tuple(sorted((_both(stem, items) for (_, stem), items in merged.items()), key=lambda item: -item.worth_mm))


def _both(stem: str, items: list[Wanted]) -> Wanted:
    first = items[0]
    sides = {match[1] for item in items if (match := _SIDE.search(item.what))}
    what = f"{stem}, both sides" if len(sides) == len(SIDES) else first.what
    return Wanted(what, first.how, first.question, first.worth_mm, any(item.needed for item in items))


def _helpful(job: Job, name: AxleName, axle: Axle) -> Iterator[Wanted]:
    """Readings without which an answer stands, but with more doubt than it need have."""
    if any(axle.corner(side).brake.axial_gap_mm is None for side in SIDES):
        how = "Modelling clay between spokes and caliper; a disc gives it 1:1, new linings take from it."
        yield Wanted("axial room between spokes and caliper", how, "brake", 1.1, needed=False)
    points = [
        point for side in SIDES for point in axle.corner(side).point if point.room == "outside" and point.kind == "body"
    ]
    if points and not any(reading.travel_mm < 0 for point in points for reading in point.reading):
        how = "Wheel hanging: arch lip, and anything behind the wheel that it passes on the way down."
        yield Wanted("gaps in droop", how, CLEARANCE, 0.9, needed=False)
    if points and all(point.return_mm is None for point in points):
        yield Wanted(
            "how far the arch lip returns", "Rule from the lip's outer edge inboard.", CLEARANCE, 1.9, needed=False
        )
    fitted = axle.fitted
    if fitted is None or fitted.tyre.section_width_mm is None:
        how = "Calliper over the widest part of the tyre, inflated, protector included; half widths at several radii."
        yield Wanted("section width of the tyre", how, CLEARANCE, 1.8, needed=False)
    if job.is_steered(name) and any(axle.corner(side).toe_deg is None for side in SIDES):
        how = "Steering wheel centred, car rolled; toe left and right alike."
        yield Wanted("that the steering stood straight", how, CLEARANCE, 1.6, needed=False)
    if any(axle.corner(side).ride_height_mm is None for side in SIDES):
        how = "Wheel centre to arch edge, straight up, both sides, tyres at placard pressure."
        yield Wanted("ride heights", how, CLEARANCE, 1.0, needed=False)
    if not axle.torque:
        how = "The vehicle maker's documents: vehicle, wheel, fastener, lubrication state, stages, order, source, date."
        yield Wanted("the torque record", how, "torque", 0.1, needed=False)
    if not any(wheel_set.role != "fitted" for wheel_set in axle.wheel_set):
        how = "Winter set and spare: bore, chamfer, seat, engagement; or write that there is none."
        yield Wanted("the other wheel sets and the spare", how, LATER, 0.8, needed=False)
