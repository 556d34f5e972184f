"""Which reading is worth taking next, and why: what is missing, in the order of what it would settle."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import chain

from hubwright.findings import Wanted, Window, wanted
from hubwright.language import say
from hubwright.language.said import code_of
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.quantities.axes import SIDES

CLEARANCE, LATER = "clearance", "other wheels"


def wanted_readings(job: Job, name: AxleName, axle: Axle, windows: tuple[Window, ...]) -> tuple[Wanted, ...]:
    """Missing readings of one axle, the most valuable first; both sides of one reading in one line.

    The worth of each is the doubt about the allowed thickness that it would remove, by class; guesses, no source.
    """
    found = chain((item for window in windows for item in window.missing), _helpful(job, name, axle))
    merged: dict[object, list[Wanted]] = {}
    for item in found:
        merged.setdefault((item.question, code_of(item.thing)), []).append(item)
    return tuple(sorted((_both(items) for items in merged.values()), key=lambda item: -item.worth_mm))


def _both(items: list[Wanted]) -> Wanted:
    first = items[0]
    needed = any(item.needed for item in items)
    if {item.side for item in items} >= set(SIDES):
        return wanted(first.thing, first.how, first.question, first.worth_mm, "both", needed=needed, about=first.about)
    return replace(first, needed=needed)


def _helpful(job: Job, name: AxleName, axle: Axle) -> Iterator[Wanted]:
    """Readings without which an answer stands, but with more doubt than it need have."""
    if any(axle.corner(side).brake.axial_gap_mm is None for side in SIDES):
        how = say("Modelling clay between spokes and caliper; a disc gives it 1:1, new linings take from it.")
        yield wanted(say("axial room between spokes and caliper"), how, "brake", 1.1, needed=False)
    points = [
        point for side in SIDES for point in axle.corner(side).point if point.room == "outside" and point.kind == "body"
    ]
    if points and not any(reading.travel_mm < 0 for point in points for reading in point.reading):
        how = say("Wheel hanging: arch lip, and anything behind the wheel that it passes on the way down.")
        yield wanted(say("gaps in droop"), how, CLEARANCE, 0.9, needed=False)
    if points and all(point.return_mm is None for point in points):
        yield wanted(
            say("how far the arch lip returns"),
            say("Rule from the lip's outer edge inboard."),
            CLEARANCE,
            1.9,
            needed=False,
        )
    fitted = axle.fitted
    if fitted is None or fitted.tyre.section_width_mm is None:
        how = say(
            "Calliper over the widest part of the tyre, inflated, protector included; half widths at several radii."
        )
        yield wanted(say("section width of the tyre"), how, CLEARANCE, 1.8, needed=False)
    if job.is_steered(name) and any(axle.corner(side).toe_deg is None for side in SIDES):
        how = say("Steering wheel centred, car rolled; toe left and right alike.")
        yield wanted(say("that the steering stood straight"), how, CLEARANCE, 1.6, needed=False)
    if any(axle.corner(side).ride_height_mm is None for side in SIDES):
        how = say("Wheel centre to arch edge, straight up, both sides, tyres at placard pressure.")
        yield wanted(say("ride heights"), how, CLEARANCE, 1.0, needed=False)
    if not axle.torque:
        how = say(
            "The vehicle maker's documents: vehicle, wheel, fastener, lubrication state, stages, order, source, date."
        )
        yield wanted(say("the torque record"), how, "torque", 0.1, needed=False)
    if not any(wheel_set.role != "fitted" for wheel_set in axle.wheel_set):
        how = say("Winter set and spare: bore, chamfer, seat, engagement; or write that there is none.")
        yield wanted(say("the other wheel sets and the spare"), how, LATER, 0.8, needed=False)
