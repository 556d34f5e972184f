"""Track, wheel rate, roll stiffness and parked height of one axle before and after."""

from __future__ import annotations

from hubwright.checks.effect import Effect, changed, missing, unknown
from hubwright.checks.rolling import GRAVITY_M_S2
from hubwright.engineering.handling.change import Change
from hubwright.engineering.handling.suspension import (
    lever_factor,
    parked_drop_mm,
    roll_stiffness_change,
    track_change_factor,
    wheel_rate_change,
    wheel_rate_n_per_mm,
)
from hubwright.engineering.handling.track import track_change_mm
from hubwright.findings import Step
from hubwright.language import marked, say
from hubwright.parts.job import Axle
from hubwright.quantities.text import figure, length, number, percent, plain, torque

TOPIC = "handling"
BOOK = marked("Barton & Fieldhouse, Automotive Chassis Engineering, p. 174")
LEVER = marked("lever L/(L + t) (derived)")


def axle_effects(axle: Axle, thickness_mm: float) -> tuple[Effect, ...]:
    """What one axle feels by itself with a disc of ``thickness_mm`` per side."""
    return (_track(axle, thickness_mm), *_springs(axle, thickness_mm))


def _track(axle: Axle, thickness_mm: float) -> Effect:
    if axle.track_mm is None:
        return unknown(say("track"), TOPIC, "mm", say("the track"))
    change = track_change_mm(axle.track_mm, thickness_mm, thickness_mm)
    share = percent(change.fraction or 0.0)
    sentence = say(
        "The track grows by {difference} to {change_with_disc} ({share}).",
        difference=length(change.difference, 0),
        change_with_disc=length(change.with_disc, 0),
        share=share,
    )
    return changed(
        say("track"),
        TOPIC,
        "mm",
        change,
        sentence,
        Step(f"{figure(axle.track_mm, 0)} + 2 × {figure(thickness_mm)}", say("geometry (derived)")),
    )


def rate_of(axle: Axle) -> tuple[float, Step] | None:
    """Wheel rate as stated, else spring rate times motion ratio squared."""
    own = axle.suspension
    if own.wheel_rate_n_per_mm is not None:
        return own.wheel_rate_n_per_mm, Step(
            say("wheel rate {wheel_rate_n_per} N/mm", wheel_rate_n_per=number(own.wheel_rate_n_per_mm, 1)),
            say("stated in the job"),
        )
    if own.spring_rate_n_per_mm is None or own.motion_ratio is None:
        return None
    rate = wheel_rate_n_per_mm(own.spring_rate_n_per_mm, own.motion_ratio)
    return rate, Step(
        say(
            "{spring_rate_n_per} × {motion}² = {rate} N/mm at the wheel",
            spring_rate_n_per=plain(own.spring_rate_n_per_mm),
            motion=plain(own.motion_ratio),
            rate=number(rate, 1),
        ),
        say(BOOK),
    )


def arm_known(axle: Axle) -> tuple[bool, float | None]:
    """Whether the lever of the disc is known, and its length; None for a solid axle, which has none."""
    own = axle.suspension
    return (True, None) if own.kind == "solid" else (own.arm_mm is not None and own.kind is not None, own.arm_mm)


def _springs(axle: Axle, thickness_mm: float) -> tuple[Effect, ...]:
    known, arm = arm_known(axle)
    if not known:
        need = missing(
            (axle.suspension.kind, say("whether the axle is independent or solid")),
            (arm, say("the front-view instant centre arm L")),
        )
        return tuple(
            unknown(name, TOPIC, unit, *need)
            for name, unit in (
                (say("wheel rate"), "N/mm"),
                (say("roll stiffness"), "N·m/°"),
                (say("parked height"), "mm"),
            )
        )
    return (_rate(axle, arm, thickness_mm), _stiffness(axle, arm, thickness_mm), _height(axle, arm, thickness_mm))


def _rate(axle: Axle, arm: float | None, thickness_mm: float) -> Effect:
    if arm is None:
        sentence = say("A solid axle does not feel its wheels move out: the springs stay as stiff as they are.")
        return Effect(
            say("wheel rate"),
            TOPIC,
            "N/mm",
            sentence,
            working=(Step(say("L/(L + t) = 1 for a solid axle"), say(LEVER)),),
        )
    factor, rate = lever_factor(arm, thickness_mm) ** 2, rate_of(axle)
    step = Step(f"({figure(arm, 0)} / ({figure(arm, 0)} + {figure(thickness_mm)}))² = {number(factor, 4)}", say(LEVER))
    words = say("The longer lever makes the springs {share} softer at the wheel", share=percent(1 - factor).lstrip("+"))
    if rate is None:
        return Effect(
            say("wheel rate"),
            TOPIC,
            "N/mm",
            say("{words}; the rate itself is not known.", words=words),
            working=(step,),
            needs=(say("the wheel rate"),),
        )
    change = wheel_rate_change(rate[0], arm, thickness_mm)
    sentence = say(
        "{words}: {change_standard} to {change_with_disc} N/mm.",
        words=words,
        change_standard=number(change.standard, 1),
        change_with_disc=number(change.with_disc, 1),
    )
    return changed(say("wheel rate"), TOPIC, "N/mm", change, sentence, rate[1], step)


def _stiffness(axle: Axle, arm: float | None, thickness_mm: float) -> Effect:
    name, unit, stiff, track = say("roll stiffness"), "N·m/°", axle.suspension.roll_stiffness_nm_per_deg, axle.track_mm
    if track is None:
        return unknown(name, TOPIC, unit, say("the track"))
    factor = 1.0 if arm is None else (lever_factor(arm, thickness_mm) * track_change_factor(track, thickness_mm)) ** 2
    step = Step(
        say("lever² × track² = {factor}", factor=number(factor, 4))
        if arm is not None
        else say("a solid axle keeps its roll stiffness"),
        f"{say(LEVER)}; K = k T²/2, {say(BOOK)}",
    )
    words = (
        say("The axle's hold against roll changes by {factor}", factor=percent(factor - 1))
        if arm is not None
        else say("The axle holds against roll as before")
    )
    if stiff is None:
        return Effect(
            name,
            TOPIC,
            unit,
            say("{words}; the figure itself is not known.", words=words),
            working=(step,),
            needs=(say("the roll stiffness"),),
        )
    change = roll_stiffness_change(stiff, track, arm, thickness_mm)
    sentence = say(
        "{words}: {change_standard} to {change_with_disc} per degree of lean.",
        words=words,
        change_standard=torque(change.standard),
        change_with_disc=torque(change.with_disc),
    )
    return changed(name, TOPIC, unit, change, sentence, step)


def _height(axle: Axle, arm: float | None, thickness_mm: float) -> Effect:
    name = say("parked height")
    if arm is None:
        return changed(
            name,
            TOPIC,
            "mm",
            Change(0.0, 0.0),
            say("The body stands as high as before."),
            Step(say("solid axle"), say(LEVER)),
        )
    rate, load = rate_of(axle), axle.parked_load_kg
    needs = missing(
        (rate, say("the wheel rate")),
        (load, say("the axle's load parked")),
        (axle.suspension.unsprung_mass_kg, say("the unsprung mass")),
    )
    if rate is None or load is None or axle.suspension.unsprung_mass_kg is None:
        return unknown(name, TOPIC, "mm", *needs)
    sprung_n = max(0.0, load - axle.suspension.unsprung_mass_kg) / 2 * GRAVITY_M_S2
    drop = parked_drop_mm(sprung_n, rate[0], arm, thickness_mm)
    step = Step(
        say(
            "{sprung} N × {thickness} / ({arm} + {thickness}) / softer rate = {drop}",
            sprung=number(sprung_n, 0),
            thickness=figure(thickness_mm),
            arm=figure(arm, 0),
            drop=length(drop),
        ),
        say(LEVER),
    )
    sentence = say("The parked body sinks by about {drop}: measure arch heights again.", drop=length(drop))
    return changed(name, TOPIC, "mm", Change(0.0, -drop), sentence, rate[1], step)
