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
from hubwright.language import marked, say
from hubwright.parts.job import Axle, Job
from hubwright.parts.wheel import WheelSet
from hubwright.quantities.text import figure, length, number
from hubwright.uncertainty.band import Band, exactly

NAME, TOPIC = marked("bearing life ratio"), "bearing"
GUESSED_SIDE = Band(0.5, 1.0, 2.0)
"""Where the duty is a guess its side accelerations may be half or double; a guess itself."""


def effect_of(job: Job, axle: Axle, thickness_mm: float) -> Effect:
    """The life ratio of one wheel bearing over everything that is not known, or what is missing."""
    own, wheel_set = axle.bearing, axle.fitted or WheelSet(role="fitted")
    load_kg, radius = axle.parked_load_kg or axle.plate_load_kg, radius_of(wheel_set.tyre)
    track, height = axle.track_mm, job.car.cg_height_mm
    needs = missing(
        (own.spread_mm, say("the spread of the bearing's rows")),
        (own.load_line_mm, say("the load line of the wheel on the bearing")),
        (load_kg, say("the load of the axle")),
        (radius, say("the size of the tyre")),
        (track, say("the track")),
        (height, say("the height of the centre of gravity")),
    )
    if (
        own.spread_mm is None
        or own.load_line_mm is None
        or load_kg is None
        or radius is None
        or track is None
        or height is None
    ):
        return unknown(say(NAME), TOPIC, "ratio", *needs)
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
        return Effect(say(NAME), TOPIC, "ratio", say("Bearing life ratio: unknown: {error}", error=error), known=False)
    words = duty_words(duty)

    sentence = say(
        "The wheel bearing lasts {band_low} to {band_high} of its standard life if the car is driven like this: {words}. "
        "A comparison, not a promise.",
        band_low=number(band.low, 2),
        band_high=number(band.high, 2),
        words=words if own.duty else say("{words}, a guess", words=words),
    )
    rows = say(
        "mean load outboard row {outer} to {outer_then} kN, inboard row {inner} to {inner_then} kN",
        outer=number(change.outboard_load_n.standard / 1000, 2),
        outer_then=number(change.outboard_load_n.with_disc / 1000, 2),
        inner=number(change.inboard_load_n.standard / 1000, 2),
        inner_then=number(change.inboard_load_n.with_disc / 1000, 2),
    )
    steps = (
        Step(say("duty: {words}", words=words), say(GUESS) if not own.duty else say("stated in the job")),
        Step(
            say(
                "spread {spread} ± {spread_doubt}, load line {load_line} ± {load_line_doubt} + {thickness}",
                spread=figure(own.spread_mm),
                spread_doubt=length(own.spread_doubt_mm),
                load_line=figure(own.load_line_mm),
                load_line_doubt=length(own.load_line_doubt_mm),
                thickness=figure(thickness_mm),
            ),
            say("statics of a shaft on two rows (derived)"),
        ),
        radius[1],
        Step(rows, say("ISO 281:2007, equivalent load; ball rows of 40° (factors from memory)")),
        Step(
            say(
                "ratio {life}, over the doubts {band_low} to {band_high}",
                life=number(change.life_ratio, 2),
                band_low=number(band.low, 2),
                band_high=number(band.high, 2),
            ),
            say("ISO 281:2007, basic rating life"),
        ),
    )
    guesses = () if own.duty else (say("duty: {words}", words=words),)
    return Effect(
        say(NAME),
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
            said.append(say("{share} straight", share=share))
        else:
            g = number(abs(phase.side_g), 2)
            said.append(
                say("{share} bends of {g} g as outer wheel", share=share, g=g)
                if phase.side_g > 0
                else say("{share} bends of {g} g as inner wheel", share=share, g=g)
            )
    return ", ".join(said)


def _around(value: float, doubt: float) -> Band:
    return Band(value - doubt, value, value + doubt)
