"""What a disc does to the steering: scrub radius, pull, tie rod, turning circle."""

from __future__ import annotations

from hubwright.checks.effect import Effect, changed, missing, unknown
from hubwright.engineering.handling.steering import (
    scrub_change,
    steering_axis_moment_change_nm,
    tie_rod_force_n,
    turning_circle_change_mm,
)
from hubwright.findings import Step
from hubwright.language import marked, say
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.quantities.text import figure, length, number, plain, torque

TOPIC = "steering"
SCRUB = marked("scrub radius at the ground, positive outboard: grows by the thickness (derived)")
GILLESPIE = marked("Gillespie, Fundamentals of Vehicle Dynamics, chapter 8 (from memory)")
REIMPELL = marked("Reimpell, Stoll & Betzler, The Automotive Chassis, turning circle (from memory)")
PULL_N = 1000.0
"""One-sided force the pull is told for: so many newtons more on one wheel than on the other; a choice."""


def effects_of(job: Job, name: AxleName, axle: Axle, thickness_mm: float) -> tuple[Effect, ...]:
    """Steering figures of a steered axle; none for an axle that does not steer."""
    if not job.is_steered(name):
        return ()
    found = [_scrub(axle, thickness_mm), _pull(axle, axle.scrub_radius_mm, "braking", thickness_mm)]
    if axle.driven:
        found.append(_pull(axle, axle.steering.drive_offset_mm, "driving", thickness_mm))
    found.append(_circle(job, axle, thickness_mm))
    return tuple(found)


def _scrub(axle: Axle, thickness_mm: float) -> Effect:
    before = axle.scrub_radius_mm
    if before is None:
        return unknown(say("scrub radius"), TOPIC, "mm", say("the scrub radius"))
    change = scrub_change(before, thickness_mm)
    after = change.scrub_mm.with_disc
    places = {"before": length(before), "after": length(after)}
    if change.flips:
        sentence = say(
            "The scrub radius goes from {before} to {after} and changes its sign: braking on uneven grip pulls the other way; road test.",
            **places,
        )
    elif abs(after) > abs(before):
        sentence = say(
            "The scrub radius goes from {before} to {after}: bumps and uneven brakes tug more at the steering wheel.",
            **places,
        )
    else:
        sentence = say(
            "The scrub radius goes from {before} to {after}: bumps and uneven brakes tug less at the steering wheel.",
            **places,
        )
    step = Step(f"{figure(before)} + {figure(thickness_mm)} = {length(after)}", say(SCRUB))
    return changed(say("scrub radius"), TOPIC, "mm", change.scrub_mm, sentence, step, alarm=change.flips)


def _pull(axle: Axle, arm: float | None, when: str, thickness_mm: float) -> Effect:
    """Moment about the steering axis of a one-sided force, and what the tie rod holds against it."""
    own, name = (
        axle.steering,
        say("pull in one-sided braking") if when == "braking" else say("pull in one-sided driving"),
    )
    needs = missing(
        (arm, say("the scrub radius") if when == "braking" else say("the offset of the steering axis at axle height")),
        (own.kingpin_inclination_deg, say("the inclination of the steering axis")),
        (own.caster_deg, say("the caster")),
    )
    if arm is None or own.kingpin_inclination_deg is None or own.caster_deg is None:
        return unknown(name, TOPIC, "N·m", *needs)
    force = -PULL_N if when == "braking" else PULL_N
    change = steering_axis_moment_change_nm(force, arm, thickness_mm, own.kingpin_inclination_deg, own.caster_deg)
    flips = change.standard * change.with_disc < 0
    before = say("{moment} before", moment=torque(abs(change.standard)))
    if flips:
        before = say("{moment} before, the other way round", moment=torque(abs(change.standard)))
    words = _turn_words(when, change.with_disc > 0, torque(abs(change.with_disc)), before)
    arms = say(
        "({arm} + {thickness}) × cos {caster}° × cos {kingpin_inclination}°",
        arm=figure(arm),
        thickness=length(thickness_mm),
        caster=plain(own.caster_deg),
        kingpin_inclination=plain(own.kingpin_inclination_deg),
    )
    steps = [
        Step(
            say(
                "{force} N × {arms} = {change_with_disc} about the steering axis",
                force=number(force, 0),
                arms=arms,
                change_with_disc=torque(change.with_disc),
            ),
            say(GILLESPIE),
        )
    ]
    if own.steering_arm_mm is not None:
        rod = [tie_rod_force_n(abs(moment), own.steering_arm_mm) for moment in (change.standard, change.with_disc)]
        words = say(
            "{words}; the tie rod holds {rod} N against it ({rod2} before)",
            words=words,
            rod=number(rod[1], 0),
            rod2=number(rod[0], 0),
        )
        steps.append(
            Step(
                say(
                    "over an arm of {steering_arm}: {rod} N",
                    steering_arm=length(own.steering_arm_mm),
                    rod=number(rod[1], 0),
                ),
                say("statics (derived)"),
            )
        )
    return changed(name, TOPIC, "N·m", change, say("{words}.", words=words), *steps, alarm=flips)


def _turn_words(when: str, inwards: bool, moment: str, before: str) -> str:
    places = {"moment": moment, "before": before}
    if when == "braking" and inwards:
        return say(
            "1 kN more braking on one wheel turns it inwards with {moment} about the steering axis ({before})", **places
        )
    if when == "braking":
        return say(
            "1 kN more braking on one wheel turns it outwards with {moment} about the steering axis ({before})",
            **places,
        )
    if inwards:
        return say(
            "1 kN more driving on one wheel turns it inwards with {moment} about the steering axis ({before})", **places
        )
    return say(
        "1 kN more driving on one wheel turns it outwards with {moment} about the steering axis ({before})", **places
    )


def _circle(job: Job, axle: Axle, thickness_mm: float) -> Effect:
    lock, base, scrub = axle.steering.outer_lock_deg, job.car.wheelbase_mm, axle.scrub_radius_mm
    needs = missing(
        (base, say("the wheelbase")), (lock, say("the lock of the outer wheel")), (scrub, say("the scrub radius"))
    )
    if lock is None or base is None or scrub is None:
        return unknown(say("turning circle"), TOPIC, "mm", *needs)
    change = turning_circle_change_mm(base, lock, scrub, thickness_mm)
    before, after = number(change.standard / 1000, 2), number(change.with_disc / 1000, 2)
    sentence = say(
        "The turning circle goes from {before} to {after} m, if nothing touches before full lock.",
        before=before,
        after=after,
    )
    step = Step(
        say(
            "2 × ({base} / sin {lock}° + {scrub}) + 2 × {thickness}",
            base=figure(base, 0),
            lock=plain(lock),
            scrub=figure(scrub),
            thickness=figure(thickness_mm),
        ),
        say(REIMPELL),
    )
    return changed(say("turning circle"), TOPIC, "mm", change, sentence, step)
