"""Wheel bearing life with a disc over life without, for a duty that is printed and may be edited. A band, not a promise."""

from __future__ import annotations

from hubwright.checks.assumed import GUESS
from hubwright.checks.effect import Effect, missing, unknown
from hubwright.checks.rolling import GRAVITY_M_S2, radius_of
from hubwright.engineering.handling.bearing_duty import (
    GENTLE_ROAD,
    BearingWheel,
    Phase,
    bearing_change,
    life_ratio_band,
)
from hubwright.engineering.handling.bearing_rows import ball_unit
from hubwright.errors import OutsideValidity
from hubwright.findings import Step
from hubwright.parts.job import Axle, Job
from hubwright.parts.wheel import WheelSet
from hubwright.quantities.text import figure, length, number
from hubwright.uncertainty.band import Band, exactly

NAME, TOPIC = "bearing life ratio", "bearing"
GUESSED_SIDE = Band(0.5, 1.0, 2.0)
"""Where the duty is a guess its side accelerations may be half or double; a guess itself."""


def effect_of(job: Job, axle: Axle, thickness_mm: float) -> Effect:
    """The life ratio of one wheel bearing over everything that is not known, or what is missing."""
    own, wheel_set = axle.bearing, axle.fitted or WheelSet(role="fitted")
    load_kg, radius = axle.parked_load_kg or axle.plate_load_kg, radius_of(wheel_set.tyre)
    track, height = axle.track_mm, job.car.cg_height_mm
    needs = missing(
        (own.spread_mm, "the spread of the bearing's rows"),
        (own.load_line_mm, "the load line of the wheel on the bearing"),
        (load_kg, "the load of the axle"),
        (radius, "the size of the tyre"),
        (track, "the track"),
        (height, "the height of the centre of gravity"),
    )
    if (
        own.spread_mm is None
        or own.load_line_mm is None
        or load_kg is None
        or radius is None
        or track is None
        or height is None
    ):
        return unknown(NAME, TOPIC, "ratio", *needs)
    duty = tuple(Phase(phase.share, phase.side_g) for phase in own.duty) or GENTLE_ROAD
    wheel = BearingWheel(load_kg / 2 * GRAVITY_M_S2, radius[0], height / track)
    unit = ball_unit(own.spread_mm, own.load_line_mm)
    try:
        change = bearing_change(unit, wheel, duty, thickness_mm)
        band = life_ratio_band(
            unit,
            wheel,
            duty,
            thickness_mm=thickness_mm,
            spread_mm=_around(own.spread_mm, own.spread_doubt_mm),
            load_line_mm=_around(own.load_line_mm, own.load_line_doubt_mm),
            side_factor=exactly(1.0) if own.duty else GUESSED_SIDE,
        )
    except OutsideValidity as error:
        return Effect(NAME, TOPIC, "ratio", f"Bearing life ratio: unknown: {error}", known=False)
    words = duty_words(duty)
    guess = "" if own.duty else ", a guess"
    sentence = (
        f"The wheel bearing lasts {number(band.low, 2)} to {number(band.high, 2)} of its standard life if the car is driven"
        f" like this: {words}{guess}. A comparison, not a promise."
    )
    rows = (
        f"mean load outboard row {number(change.outboard_load_n.standard / 1000, 2)} to {number(change.outboard_load_n.with_disc / 1000, 2)} kN, "
        f"inboard row {number(change.inboard_load_n.standard / 1000, 2)} to {number(change.inboard_load_n.with_disc / 1000, 2)} kN"
    )
    steps = (
        Step(f"duty: {words}", GUESS if not own.duty else "stated in the job"),
        Step(
            f"spread {figure(own.spread_mm)} ± {length(own.spread_doubt_mm)}, load line {figure(own.load_line_mm)} ± {length(own.load_line_doubt_mm)}"
            f" + {figure(thickness_mm)}",
            "statics of a shaft on two rows (derived)",
        ),
        radius[1],
        Step(rows, "ISO 281:2007, equivalent load; ball rows of 40° (factors from memory)"),
        Step(
            f"ratio {number(change.life_ratio, 2)}, over the doubts {number(band.low, 2)} to {number(band.high, 2)}",
            "ISO 281:2007, basic rating life",
        ),
    )
    guesses = () if own.duty else (f"duty: {words}",)
    return Effect(
        NAME,
        TOPIC,
        "ratio",
        sentence,
        1.0,
        change.life_ratio,
        band.low,
        band.high,
        guesses=guesses,
        alarm=band.low < 0.5,
        working=steps,
    )


def duty_words(duty: tuple[Phase, ...]) -> str:
    """The duty so that a customer sees it: ``90 % straight, 5 % bends of 0.15 g as outer wheel, ..``."""
    total = sum(phase.share for phase in duty)
    said = []
    for phase in duty:
        share = f"{number(100 * phase.share / total, 0)} %"
        if phase.side_g == 0:
            said.append(f"{share} straight")
        else:
            which = "outer" if phase.side_g > 0 else "inner"
            said.append(f"{share} bends of {number(abs(phase.side_g), 2)} g as {which} wheel")
    return ", ".join(said)


def _around(value: float, doubt: float) -> Band:
    return Band(value - doubt, value, value + doubt)
