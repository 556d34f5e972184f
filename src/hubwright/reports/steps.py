"""What is done at the car, in the order in which it is done: clean, fit, tighten, check, prove.

The steps are those of the trade (common practice, no source) where nothing else is said; what a record says rules.
"""

from __future__ import annotations

import math

from hubwright.language import say
from hubwright.parts.job import Job
from hubwright.quantities.text import length, number
from hubwright.reports.content import Block, Checklist, Step
from hubwright.reports.fits import Fit
from hubwright.reports.words import corner_mark


def columns_of(fits: tuple[Fit, ...]) -> tuple[str, ...]:
    """One box for each wheel that is touched."""
    return tuple(corner_mark(*corner) for fit in fits for corner in fit.corners)


def step_blocks(job: Job, fits: tuple[Fit, ...]) -> tuple[Block, ...]:
    """Every group of steps under its heading."""
    columns = columns_of(fits)
    groups = (
        (say("1 Before the wheels come off"), _first(fits)),
        (say("2 Clean hub and wheel faces"), _clean(fits)),
        (say("3 Fit discs and wheels"), _fit(fits)),
        (say("4 Before lowering"), _before_lowering(job, fits)),
        (say("5 On its wheels"), _on_wheels(job, fits)),
    )
    return tuple(Checklist(title, columns, steps) for title, steps in groups)


def _kinds(fits: tuple[Fit, ...]) -> set[str]:
    return {fit.disc.kind for fit in fits}


def _first(fits: tuple[Fit, ...]) -> tuple[Step, ...]:
    work = tuple(
        Step(say("Done first: {work}.", work=item), say("The thickness holds only with this work done."))
        for item in dict.fromkeys(item for fit in fits for item in fit.plan.work)
    )
    return (
        *work,
        Step(say("Car on a lift or on stands."), say("Never work under a car held only by a jack.")),
        Step(say("Threads whole and dry, no rust, no damage; damaged fasteners replaced.")),
    )


def _clean(fits: tuple[Fit, ...]) -> tuple[Step, ...]:
    return (
        Step(say("Hub face and spigot: rust and scale off with a wire brush or a synthetic disc, to bare metal.")),
        Step(say("Wheel and disc faces: wiped clean. No abrasive on them.")),
        Step(
            say("A thin film against rust on the centring collar, and nowhere else."),
            say("Faces, seats and threads stay dry unless the record says otherwise."),
        ),
        Step(
            say("Retaining screw of the brake disc seated below the face; clips off the studs."),
            say("Nothing may stand between two faces."),
        ),
    )


def _fit(fits: tuple[Fit, ...]) -> tuple[Step, ...]:
    kinds, steps = _kinds(fits), list[Step]()
    if "plain" in kinds:
        steps.append(
            Step(
                say("Plain disc: the chamfer of its bore towards the hub, so that it clears the fillet of the spigot."),
                say("One disc per hub, never stacked. It lies flat and does not rock."),
            )
        )
    if "lipped" in kinds:
        steps.append(
            Step(
                say("Lipped disc: lip outwards, into the wheel; chamfered side of the bore towards the hub."),
                say("One disc per hub, never stacked. It lies flat and does not rock."),
            )
        )
    if "bolted" in kinds:
        steps.append(
            Step(
                say("Adapter on the hub, its own fasteners tightened first, by the record of the inner joint."),
                say("Initial it on the torque sheet before the wheel hides it. One adapter per hub; no stud is cut."),
            )
        )
    for fit in fits:
        steps += _by_hand(fit)
    steps.append(
        Step(
            say("Tightened in the order drawn, in the stages of the record, with the torque wrench."),
            say("An impact wrench only runs fasteners on. Each fastener is initialled on the torque sheet."),
        )
    )
    return tuple(steps)


def _by_hand(fit: Fit) -> tuple[Step, ...]:
    choice = fit.choice
    if choice is None:
        return (Step(say("Every fastener started by hand.")),)
    turns = number(math.floor(choice.engagement_turns + 1e-9), 0)
    text = (
        say("{axle}: every bolt started by hand; it takes {turns} full turns before its seat touches.",
            axle=_mark(fit), turns=turns)
        if choice.kind == "bolt"
        else say("{axle}: every nut started by hand; it takes {turns} full turns before its seat touches.",
                 axle=_mark(fit), turns=turns)
    )  # fmt: skip
    note = say(
        "Count them on one of each wheel. {title}, {engaged} in use.",
        title=choice.title,
        engaged=length(choice.engagement_mm),
    )
    return (Step(text, note),)


def _mark(fit: Fit) -> str:
    return " ".join(corner_mark(*corner) for corner in fit.corners)


def _before_lowering(job: Job, fits: tuple[Fit, ...]) -> tuple[Step, ...]:
    steps = [
        Step(say("Wheel flat on its face all round: no light, no feeler between the faces.")),
        Step(say("Wheel sits on its pilot before the fasteners are tight, and does not hang on them.")),
        Step(say("Wheel turns freely by hand; spokes, barrel and weights clear the caliper.")),
    ]
    if any(fit.choice is not None and fit.choice.kind == "bolt" for fit in fits):
        clear = length(job.shop.policy.tip_clearance_mm)
        steps.append(Step(say("Bolt tips stand at least {clear} clear of everything behind the flange.", clear=clear)))
    if any(fit.choice is not None and fit.choice.kind == "nut" for fit in fits):
        steps.append(Step(say("No nut bottoms on its stud: the wheel is clamped, not the end of the nut.")))
    if any(job.is_steered(fit.name) for fit in fits):
        steps.append(
            Step(
                say("Lock to lock, wheels hanging: nothing touches liner, strut, arm or hose."),
                say("Brake hoses and cables neither pull nor rub."),
            )
        )
    return tuple(steps)


def _on_wheels(job: Job, fits: tuple[Fit, ...]) -> tuple[Step, ...]:
    steps = [Step(say("Straight ahead, car loaded as it is driven: arch, liner and bumper clear all round."))]
    if any(job.is_steered(fit.name) for fit in fits):
        steps.append(Step(say("Full lock to the left and to the right, on the ground: clear all round.")))
    if job.request.use == "off-road":
        steps.append(Step(say("Axle crossed up under load, both ways: clear all round.")))
    steps += [
        Step(
            say("Settled, then measured again with the discs fitted: the table of proof readings."),
            say("Only these readings release the car."),
        ),
        Step(say("Road test, slow at first: no noise, no shake, no pull, brakes even.")),
    ]
    return tuple(steps)
