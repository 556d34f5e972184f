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
from hubwright.parts.job import Axle
from hubwright.quantities.text import figure, length, number, percent, torque

TOPIC = "handling"
BOOK = "Barton & Fieldhouse, Automotive Chassis Engineering, p. 174"
LEVER = "lever L/(L + t) (derived)"


def axle_effects(axle: Axle, thickness_mm: float) -> tuple[Effect, ...]:
    """What one axle feels by itself with a disc of ``thickness_mm`` per side."""
    return (_track(axle, thickness_mm), *_springs(axle, thickness_mm))


def _track(axle: Axle, thickness_mm: float) -> Effect:
    if axle.track_mm is None:
        return unknown("track", TOPIC, "mm", "the track")
    change = track_change_mm(axle.track_mm, thickness_mm, thickness_mm)
    share = percent(change.fraction or 0.0)
    sentence = f"The track grows by {length(change.difference, 0)} to {length(change.with_disc, 0)} ({share})."
    return changed(
        "track",
        TOPIC,
        "mm",
        change,
        sentence,
        Step(f"{figure(axle.track_mm, 0)} + 2 × {figure(thickness_mm)}", "geometry (derived)"),
    )


def rate_of(axle: Axle) -> tuple[float, Step] | None:
    """Wheel rate as stated, else spring rate times motion ratio squared."""
    own = axle.suspension
    if own.wheel_rate_n_per_mm is not None:
        return own.wheel_rate_n_per_mm, Step(
            f"wheel rate {number(own.wheel_rate_n_per_mm, 1)} N/mm", "stated in the job"
        )
    if own.spring_rate_n_per_mm is None or own.motion_ratio is None:
        return None
    rate = wheel_rate_n_per_mm(own.spring_rate_n_per_mm, own.motion_ratio)
    return rate, Step(
        f"{own.spring_rate_n_per_mm:g} × {own.motion_ratio:g}² = {number(rate, 1)} N/mm at the wheel", BOOK
    )


def arm_known(axle: Axle) -> tuple[bool, float | None]:
    """Whether the lever of the disc is known, and its length; None for a solid axle, which has none."""
    own = axle.suspension
    return (True, None) if own.kind == "solid" else (own.arm_mm is not None and own.kind is not None, own.arm_mm)


def _springs(axle: Axle, thickness_mm: float) -> tuple[Effect, ...]:
    known, arm = arm_known(axle)
    if not known:
        need = missing(
            (axle.suspension.kind, "whether the axle is independent or solid"),
            (arm, "the front-view instant centre arm L"),
        )
        return tuple(
            unknown(name, TOPIC, unit, *need)
            for name, unit in (("wheel rate", "N/mm"), ("roll stiffness", "N·m/°"), ("parked height", "mm"))
        )
    return (_rate(axle, arm, thickness_mm), _stiffness(axle, arm, thickness_mm), _height(axle, arm, thickness_mm))


def _rate(axle: Axle, arm: float | None, thickness_mm: float) -> Effect:
    if arm is None:
        sentence = "A solid axle does not feel its wheels move out: the springs stay as stiff as they are."
        return Effect("wheel rate", TOPIC, "N/mm", sentence, working=(Step("L/(L + t) = 1 for a solid axle", LEVER),))
    factor, rate = lever_factor(arm, thickness_mm) ** 2, rate_of(axle)
    step = Step(f"({figure(arm, 0)} / ({figure(arm, 0)} + {figure(thickness_mm)}))² = {number(factor, 4)}", LEVER)
    words = f"The longer lever makes the springs {percent(1 - factor).lstrip('+')} softer at the wheel"
    if rate is None:
        return Effect(
            "wheel rate",
            TOPIC,
            "N/mm",
            f"{words}; the rate itself is not known.",
            working=(step,),
            needs=("the wheel rate",),
        )
    change = wheel_rate_change(rate[0], arm, thickness_mm)
    sentence = f"{words}: {number(change.standard, 1)} to {number(change.with_disc, 1)} N/mm."
    return changed("wheel rate", TOPIC, "N/mm", change, sentence, rate[1], step)


def _stiffness(axle: Axle, arm: float | None, thickness_mm: float) -> Effect:
    name, unit, stiff, track = "roll stiffness", "N·m/°", axle.suspension.roll_stiffness_nm_per_deg, axle.track_mm
    if track is None:
        return unknown(name, TOPIC, unit, "the track")
    factor = 1.0 if arm is None else (lever_factor(arm, thickness_mm) * track_change_factor(track, thickness_mm)) ** 2
    step = Step(
        f"lever² × track² = {number(factor, 4)}" if arm is not None else "a solid axle keeps its roll stiffness",
        f"{LEVER}; K = k T²/2, {BOOK}",
    )
    words = (
        f"The axle's hold against roll changes by {percent(factor - 1)}"
        if arm is not None
        else "The axle holds against roll as before"
    )
    if stiff is None:
        return Effect(
            name,
            TOPIC,
            unit,
            f"{words}; the figure itself is not known.",
            working=(step,),
            needs=("the roll stiffness",),
        )
    change = roll_stiffness_change(stiff, track, arm, thickness_mm)
    sentence = f"{words}: {torque(change.standard)} to {torque(change.with_disc)} per degree of lean."
    return changed(name, TOPIC, unit, change, sentence, step)


def _height(axle: Axle, arm: float | None, thickness_mm: float) -> Effect:
    name = "parked height"
    if arm is None:
        return changed(
            name, TOPIC, "mm", Change(0.0, 0.0), "The body stands as high as before.", Step("solid axle", LEVER)
        )
    rate, load = rate_of(axle), axle.parked_load_kg
    needs = missing(
        (rate, "the wheel rate"),
        (load, "the axle's load parked"),
        (axle.suspension.unsprung_mass_kg, "the unsprung mass"),
    )
    if rate is None or load is None or axle.suspension.unsprung_mass_kg is None:
        return unknown(name, TOPIC, "mm", *needs)
    sprung_n = max(0.0, load - axle.suspension.unsprung_mass_kg) / 2 * GRAVITY_M_S2
    drop = parked_drop_mm(sprung_n, rate[0], arm, thickness_mm)
    step = Step(
        f"{number(sprung_n, 0)} N × {figure(thickness_mm)} / ({figure(arm, 0)} + {figure(thickness_mm)}) / softer rate = {length(drop)}",
        LEVER,
    )
    sentence = f"The parked body sinks by about {length(drop)}: measure arch heights again."
    return changed(name, TOPIC, "mm", Change(0.0, -drop), sentence, rate[1], step)
