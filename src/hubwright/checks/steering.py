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
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.quantities.text import figure, length, number, torque

TOPIC = "steering"
SCRUB = "scrub radius at the ground, positive outboard: grows by the thickness (derived)"
GILLESPIE = "Gillespie, Fundamentals of Vehicle Dynamics, chapter 8 (from memory)"
REIMPELL = "Reimpell, Stoll & Betzler, The Automotive Chassis, turning circle (from memory)"
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
        return unknown("scrub radius", TOPIC, "mm", "the scrub radius")
    change = scrub_change(before, thickness_mm)
    after = change.scrub_mm.with_disc
    words = f"scrub radius goes from {length(before)} to {length(after)}"
    if change.flips:
        sentence = f"The {words} and changes its sign: braking on uneven grip pulls the other way; road test."
    else:
        more = "more" if abs(after) > abs(before) else "less"
        sentence = f"The {words}: bumps and uneven brakes tug {more} at the steering wheel."
    step = Step(f"{figure(before)} + {figure(thickness_mm)} = {length(after)}", SCRUB)
    return changed("scrub radius", TOPIC, "mm", change.scrub_mm, sentence, step, alarm=change.flips)


def _pull(axle: Axle, arm: float | None, when: str, thickness_mm: float) -> Effect:
    """Moment about the steering axis of a one-sided force, and what the tie rod holds against it."""
    own, name = axle.steering, f"pull in one-sided {when}"
    needs = missing(
        (arm, "the scrub radius" if when == "braking" else "the offset of the steering axis at axle height"),
        (own.kingpin_inclination_deg, "the inclination of the steering axis"),
        (own.caster_deg, "the caster"),
    )
    if arm is None or own.kingpin_inclination_deg is None or own.caster_deg is None:
        return unknown(name, TOPIC, "N·m", *needs)
    force = -PULL_N if when == "braking" else PULL_N
    change = steering_axis_moment_change_nm(force, arm, thickness_mm, own.kingpin_inclination_deg, own.caster_deg)
    turns_in = "inwards" if change.with_disc > 0 else "outwards"
    flips = change.standard * change.with_disc < 0
    before = f"{torque(abs(change.standard))} before{', the other way round' if flips else ''}"
    words = (
        f"1 kN more {when} on one wheel turns it {turns_in} with {torque(abs(change.with_disc))}"
        f" about the steering axis ({before})"
    )
    arms = f"({figure(arm)} + {length(thickness_mm)}) × cos {own.caster_deg:g}° × cos {own.kingpin_inclination_deg:g}°"
    steps = [Step(f"{number(force, 0)} N × {arms} = {torque(change.with_disc)} about the steering axis", GILLESPIE)]
    if own.steering_arm_mm is not None:
        rod = [tie_rod_force_n(abs(moment), own.steering_arm_mm) for moment in (change.standard, change.with_disc)]
        words = f"{words}; the tie rod holds {number(rod[1], 0)} N against it ({number(rod[0], 0)} before)"
        steps.append(Step(f"over an arm of {length(own.steering_arm_mm)}: {number(rod[1], 0)} N", "statics (derived)"))
    return changed(name, TOPIC, "N·m", change, f"{words}.", *steps, alarm=flips)


def _circle(job: Job, axle: Axle, thickness_mm: float) -> Effect:
    lock, base, scrub = axle.steering.outer_lock_deg, job.car.wheelbase_mm, axle.scrub_radius_mm
    needs = missing((base, "the wheelbase"), (lock, "the lock of the outer wheel"), (scrub, "the scrub radius"))
    if lock is None or base is None or scrub is None:
        return unknown("turning circle", TOPIC, "mm", *needs)
    change = turning_circle_change_mm(base, lock, scrub, thickness_mm)
    before, after = number(change.standard / 1000, 2), number(change.with_disc / 1000, 2)
    sentence = f"The turning circle goes from {before} to {after} m, if nothing touches before full lock."
    step = Step(f"2 × ({figure(base, 0)} / sin {lock:g}° + {figure(scrub)}) + 2 × {figure(thickness_mm)}", REIMPELL)
    return changed("turning circle", TOPIC, "mm", change, sentence, step)
