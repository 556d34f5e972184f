"""Questions a careful colleague would ask about the readings before anybody computes with them."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

from hubwright.engineering.joint.hole_reading import COMMON_CIRCLES_MM, chord_mm, tell_circles_apart
from hubwright.engineering.placement import floor_slope_mm
from hubwright.engineering.tyrewheel.dimensions import design_section_width_mm, measuring_rim_width_mm
from hubwright.errors import BadInput, OutsideValidity
from hubwright.language import marked, say
from hubwright.language.place_words import place_word
from hubwright.language.words import axle_word, side_word
from hubwright.parts.corner import Point
from hubwright.parts.hole_circle import read_hole_circle
from hubwright.parts.hub import Hub
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.parts.rim_size import read_rim_size
from hubwright.parts.tyre_size import read_tyre_size
from hubwright.parts.wheel import WheelSet
from hubwright.quantities.axes import SIDES, Side
from hubwright.quantities.text import length, number, plain
from hubwright.tables.rims import rim_ratios

GUESS = marked("threshold: guess, no source")
SIDE_GAP_MM = 8.0
"""Parked gaps left and right further apart than this are questioned; a guess."""
SLOPE_DEG = 0.3
"""Floor slope that is worth a word; 1 deg is 10.5 mm on a 600 mm plumb line."""
PLUMB_MM = 600.0
"""Length of a plumb line nobody stated."""
TOE_APART_DEG = 0.6
"""Toe left and right further apart than this: the steering was hardly straight; a guess."""
SECTION_SHARE = 0.06
"""A section this share off the design is questioned: UN R30 6.1.4 allows +4 %, doubt of the reading added."""
FAR_CHORD_MM = 1.0
"""A chord this far from the stated circle is another circle, whatever the doubt; a guess."""
MASS_SHARE = 0.05
"""Axle loads whose sum is this share off the car's mass are questioned; a guess."""


@dataclass(frozen=True)
class Question:
    """Something that does not look right.

    Attributes:
        about: A short word for it.
        place: Axle, side and item.
        text: What was noticed, with its figures.
        todo: How to settle it.
    """

    about: str
    place: str
    text: str
    todo: str


def questions(job: Job) -> tuple[Question, ...]:
    """Every question the readings of a job raise."""
    found = [*_car(job), *_loads(job)]
    for name, axle in job.axles:
        found += _sides(job, name, axle)
        found += _steering(job, name, axle)
        found += _circle(axle.hub, name)
        for wheel_set in axle.wheel_set:
            found += _wheel(job, name, wheel_set)
    found += _floor(job)
    return tuple(found)


def _car(job: Job) -> Iterator[Question]:
    car, settle = job.car, job.shop.policy.settle_days
    if car.springs_age_days is not None and car.springs_age_days < settle:
        text = say(
            "The springs have been on the road for {springs_age_days} days; they settle for about {settle}.",
            springs_age_days=number(car.springs_age_days, 0),
            settle=number(settle, 0),
        )
        yield Question(
            say("unsettled springs"),
            say("car"),
            text,
            say("Measure again when they have settled; heights and gaps will shrink."),
        )
    if car.level_floor is False:
        text = say("The floor was found not to be level; 1° is 10.5 mm on a plumb line of 600 mm.")
        yield Question(
            say("floor slope"), say("car"), text, say("Read on a level floor, or twice with the car turned between.")
        )
    if car.suspension == "air" and car.suspension_mode is None:
        text = say("The car has air suspension and no mode is stated.")
        yield Question(
            say("air suspension mode"),
            say("car"),
            text,
            say("Set the normal driving mode, let it level, and state the mode read in."),
        )


def _loads(job: Job) -> Iterator[Question]:
    """Do the weights fit together?"""
    parked = [axle.parked_load_kg for _, axle in job.axles]
    if job.car.mass_kg is not None and len(parked) == 2 and parked[0] is not None and parked[1] is not None:
        total = parked[0] + parked[1]
        if abs(total - job.car.mass_kg) > MASS_SHARE * job.car.mass_kg:
            text = say(
                "The axles weigh {total} kg together, the car is stated with {mass} kg.",
                total=number(total, 0),
                mass=number(job.car.mass_kg, 0),
            )
            yield Question(say("weights"), say("car"), text, say("Weigh both axles in one state of load."))
    for name, axle in job.axles:
        if (
            axle.parked_load_kg is not None
            and axle.plate_load_kg is not None
            and axle.parked_load_kg > axle.plate_load_kg
        ):
            text = say(
                "The axle weighs {parked_load} kg, its plate allows {plate_load} kg.",
                parked_load=number(axle.parked_load_kg, 0),
                plate_load=number(axle.plate_load_kg, 0),
            )
            yield Question(
                say("weights"),
                say("{axle} axle", axle=axle_word(name)),
                text,
                say("Overloaded, or a figure of another car?"),
            )


def parked_gap(point: Point) -> float | None:
    """Mean of the gaps read straight ahead and parked, bare; None when there is none."""
    gaps = [
        reading.gap_mm.value
        for reading in point.reading
        if abs(reading.travel_mm) < 1 and abs(reading.steer_deg) < 1 and reading.disc_mm == 0
    ]
    return math.fsum(gaps) / len(gaps) if gaps else None


def _pairs(axle: Axle) -> Iterator[tuple[Point, Point]]:
    for left, right in product(axle.left.point, axle.right.point):
        if left.name == right.name:
            yield left, right


def _sides(job: Job, name: AxleName, axle: Axle) -> Iterator[Question]:
    heights = [axle.corner(side).ride_height_mm for side in SIDES]
    apart = abs(heights[0].value - heights[1].value) if heights[0] and heights[1] else None
    limit = job.shop.policy.side_ride_height_mm
    if apart is not None and apart > limit:
        text = say("Ride heights differ by {apart}; makers allow 10 to 20 mm.", apart=length(apart))
        yield Question(
            say("ride height"),
            say("{axle} axle", axle=axle_word(name)),
            text,
            say("Level floor, tyre pressures, load, broken spring?"),
        )
    for left, right in _pairs(axle):
        first, second = _first_round(left), _first_round(right)
        if first is None or second is None:
            continue
        differ = abs(first - second)
        if differ > SIDE_GAP_MM + (apart or 0.0):
            gaps = {"first": length(first), "second": length(second), "differ": length(differ)}
            if apart is None:
                text = say(
                    "Parked gaps left {first} and right {second} differ by {differ}, but ride heights were not read.",
                    **gaps,
                )
            else:
                text = say(
                    "Parked gaps left {first} and right {second} differ by {differ}, but ride heights differ by only {apart}.",
                    apart=length(apart),
                    **gaps,
                )
            yield Question(
                say("left-right difference"),
                say("{axle} axle, {point}", axle=axle_word(name), point=place_word(left.name)),
                text,
                say("Check floor, steering straight and plumb line; turn the car round and read again."),
            )


def _first_round(point: Point) -> float | None:
    for reading in point.reading:
        if (
            abs(reading.travel_mm) < 1
            and abs(reading.steer_deg) < 1
            and reading.disc_mm == 0
            and not reading.car_turned
        ):
            return reading.gap_mm.value
    return None


def _rounds(point: Point) -> tuple[float, float] | None:
    """Parked gaps of both rounds: as it stood, and with the car turned."""
    rounds: dict[bool, list[float]] = {False: [], True: []}
    for reading in point.reading:
        if abs(reading.travel_mm) < 1 and abs(reading.steer_deg) < 1:
            rounds[reading.car_turned].append(reading.gap_mm.value)
    if not rounds[False] or not rounds[True]:
        return None
    return math.fsum(rounds[False]) / len(rounds[False]), math.fsum(rounds[True]) / len(rounds[True])


def _floor(job: Job) -> Iterator[Question]:
    leaning: list[tuple[AxleName, float]] = []
    for name, axle in job.axles:
        for left, right in _pairs(axle):
            a, b = _rounds(left), _rounds(right)
            if a is not None and b is not None:
                drop = left.drop_mm or right.drop_mm or PLUMB_MM
                slope_mm = floor_slope_mm(a[0], b[0], a[1], b[1])
                slope = math.degrees(math.atan(slope_mm / drop))
                if abs(slope) > SLOPE_DEG:
                    text = say(
                        "The side that has more room changes when the car is turned: the floor slopes about {slope}° ({slope2} over a "
                        "drop of {drop}). Means of both rounds: left {a}, right {b}.",
                        slope=number(abs(slope), 1),
                        slope2=length(abs(slope_mm)),
                        drop=length(drop, 0),
                        a=length(sum(a) / 2),
                        b=length(sum(b) / 2),
                    )
                    yield Question(
                        say("floor slope"),
                        say("{axle} axle, {point}", axle=axle_word(name), point=place_word(left.name)),
                        text,
                        say("Use the means, or read on a level floor."),
                    )
            else:
                first, second = _first_round(left), _first_round(right)
                if first is not None and second is not None and abs(first - second) > SIDE_GAP_MM / 2:
                    leaning.append((name, first - second))
    if len({name for name, _ in leaning}) == 2 and len({gap > 0 for _, gap in leaning}) == 1:
        side = "left" if leaning[0][1] > 0 else "right"
        text = say(
            "Front and rear both show more room on the {side}: that is how a sloping floor looks.", side=side_word(side)
        )
        yield Question(
            say("floor slope"),
            say("car"),
            text,
            say("Check the floor with a level, or turn the car round and read again."),
        )


def _steering(job: Job, name: AxleName, axle: Axle) -> Iterator[Question]:
    if not job.is_steered(name):
        return
    left, right = axle.left.toe_deg, axle.right.toe_deg
    if left is not None and right is not None and abs(left - right) > TOE_APART_DEG:
        text = say(
            "Toe left {left}° and right {right}°: the steering was not straight ahead.",
            left=number(left, 2),
            right=number(right, 2),
        )
        yield Question(
            say("steering not straight"),
            say("{axle} axle", axle=axle_word(name)),
            text,
            say("Centre the steering wheel, roll the car, read again."),
        )
    fore_aft: dict[Side, float] = {}
    for side in SIDES:
        gaps = {point.direction: gap for point in axle.corner(side).point if (gap := parked_gap(point)) is not None}
        if "forward" in gaps and "rearward" in gaps:
            fore_aft[side] = gaps["forward"] - gaps["rearward"]
    if len(fore_aft) == 2 and abs(fore_aft["left"] - fore_aft["right"]) > SIDE_GAP_MM:
        text = say("Gaps ahead of and behind the wheel lie opposite ways left and right.")
        yield Question(
            say("steering not straight"),
            say("{axle} axle", axle=axle_word(name)),
            text,
            say("Centre the steering wheel, roll the car, read again."),
        )


def _circle(hub: Hub, name: AxleName) -> Iterator[Question]:
    if hub.bolt_circle is None:
        return
    try:
        stated = read_hole_circle(hub.bolt_circle)
    except BadInput as error:
        yield from _unread(
            error, say("{axle} axle", axle=axle_word(name)), say("Count the holes and measure the circle.")
        )
        return
    if hub.chord_mm is None:
        return
    read = hub.chord_mm.value
    guesses = tell_circles_apart(
        read, max(hub.chord_mm.doubt, 0.01), stated.holes, candidates_mm=(*COMMON_CIRCLES_MM, stated.diameter_mm)
    )
    nearest = guesses[0].circle
    if nearest.diameter_mm != stated.diameter_mm:
        text = say(
            "Stated {holes}x{diameter} has a chord of {stated}; {read} was read, which fits {holes}x{diameter2} ({nearest}).",
            holes=stated.holes,
            diameter=plain(stated.diameter_mm),
            stated=length(chord_mm(stated), 2),
            read=length(read, 2),
            diameter2=plain(nearest.diameter_mm),
            nearest=length(chord_mm(nearest), 2),
        )
        yield Question(
            say("hole circle"),
            say("{axle} axle", axle=axle_word(name)),
            text,
            say("Measure neighbouring holes over their outer and inner edges and take the mean."),
        )
    elif abs(guesses[0].difference_mm) > max(FAR_CHORD_MM, 3.0 * hub.chord_mm.doubt):
        yield Question(
            say("hole circle"),
            say("{axle} axle", axle=axle_word(name)),
            say(
                "Stated {holes}x{diameter} has a chord of {stated}; {read} was read, which fits no usual circle of {holes} holes.",
                holes=stated.holes,
                diameter=plain(stated.diameter_mm),
                stated=length(chord_mm(stated), 2),
                read=length(read, 2),
            ),
            say("Measure neighbouring holes over their outer and inner edges and take the mean."),
        )


def _wheel(job: Job, name: AxleName, wheel_set: WheelSet) -> Iterator[Question]:
    wheel, place = wheel_set.wheel, say("{axle} axle, {set}", axle=axle_word(name), set=wheel_set.title)
    if (
        wheel.inset_mm is not None
        and wheel.inset_mm.value < 0
        and job.car.frame != "ladder"
        and job.car.category != "goods"
    ):
        text = say(
            "Inset {inset} means the rim centre lies outboard of the mounting face.",
            inset=length(wheel.inset_mm.value, 0),
        )
        yield Question(
            say("inset sign"),
            place,
            text,
            say("Inset is positive when the rim centre lies inboard of the face (most cars): check the sign."),
        )
    yield from _section(wheel_set, place)


def _unread(error: BadInput, place: str, todo: str) -> Iterator[Question]:
    for fault in error.faults:
        yield Question(say("designation"), place, str(fault), todo)


def _section(wheel_set: WheelSet, place: str) -> Iterator[Question]:
    tyre, rim, size, rim_width = wheel_set.tyre, wheel_set.wheel.rim, None, None
    try:
        size = None if tyre.designation is None else read_tyre_size(tyre.designation)
    except BadInput as error:
        yield from _unread(error, place, say("Copy it from the sidewall."))
    try:
        rim_width = None if rim is None else read_rim_size(rim).width_mm
    except BadInput as error:
        yield from _unread(error, place, say("Copy it from the rim."))
    if size is None or size.aspect_percent is None or tyre.section_width_mm is None:
        return
    try:
        ratios = rim_ratios(size.aspect_percent)
    except OutsideValidity:
        return  # no table row for this aspect ratio: nothing to hold the reading against
    on = rim_width or measuring_rim_width_mm(size.section_width_mm, ratios.measuring_ratio)
    wanted = design_section_width_mm(size.section_width_mm, on, ratios.theoretical_ratio)
    read, allowed = tyre.section_width_mm.value, SECTION_SHARE * wanted + tyre.section_width_mm.doubt
    if abs(read - wanted) > allowed:
        text = say(
            "A {designation} on this rim should be about {wanted} wide (UN R30 6.1.1.1); {read} was read.",
            designation=tyre.designation,
            wanted=length(wanted, 0),
            read=length(read, 0),
        )
        yield Question(
            say("section width"),
            place,
            text,
            say("Check size, rim width and reading; measure inflated, over the protector."),
        )
