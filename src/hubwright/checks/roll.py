"""The car as a whole: load transfer, lean and balance in a bend, and its static stability factor."""

from __future__ import annotations

import math

from hubwright.checks import assumed
from hubwright.checks.effect import Effect, changed, missing, unknown
from hubwright.checks.rolling import radius_of
from hubwright.checks.springs import BOOK, TOPIC, arm_known
from hubwright.engineering.handling import cornering
from hubwright.engineering.handling.change import Change
from hubwright.engineering.handling.suspension import track_change_factor
from hubwright.engineering.handling.track import star_band, static_stability_factor
from hubwright.errors import OutsideValidity
from hubwright.findings import Step
from hubwright.language import marked, say
from hubwright.language.part_words import seen_word
from hubwright.language.words import axle_word
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.quantities.text import figure, number, percent

NHTSA = marked("NHTSA rollover resistance rating, SSF = T/2h")


def car_effects(job: Job, front_mm: float, rear_mm: float, only: AxleName | None = None) -> tuple[Effect, ...]:
    """What the car as a whole does in a bend with discs on both axles, and its stability factor."""
    return (*_bend(job, front_mm, rear_mm, only), _stability(job, front_mm, rear_mm))


def _bend(job: Job, front_mm: float, rear_mm: float, only: AxleName | None) -> tuple[Effect, ...]:
    car, side_g = rolling_car(job), assumed.side_g(job.shop.assumptions)
    if isinstance(car, tuple):
        bare = () if only is None else (_transfer_by_track(job, only, front_mm + rear_mm),)
        return (*bare, unknown(say("balance"), TOPIC, "share", *car))
    guesses = (side_g.words,) if side_g.guessed else ()
    try:
        found = cornering.cornering_changes(car, front_mm, rear_mm, side_g.band.nominal)
    except OutsideValidity as error:
        return (Effect(say("balance"), TOPIC, "share", say("Balance: unknown: {error}", error=error), known=False),)
    effects = []
    for end, change in (("front", found.front_transfer_n), ("rear", found.rear_transfer_n)):
        if only in (None, end):
            places = {
                "g": number(side_g.band.nominal, 1),
                "before": number(change.standard / 1000, 2),
                "after": number(change.with_disc / 1000, 2),
                "share": percent(change.fraction or 0.0),
            }
            if end == "front":
                sentence = say(
                    "In a bend of {g} g the front outer wheel takes {before} to {after} kN over from the inner one ({share}).",
                    **places,
                )
            else:
                sentence = say(
                    "In a bend of {g} g the rear outer wheel takes {before} to {after} kN over from the inner one ({share}).",
                    **places,
                )
            step = Step(say("geometric m a h_rc/T + unsprung + elastic K φ/T"), say(BOOK))
            effects.append(
                changed(
                    say("load transfer, {axle}", axle=axle_word(end)),
                    TOPIC,
                    "N",
                    change,
                    sentence,
                    side_g.step,
                    step,
                    guesses=guesses,
                )
            )
    roll = found.roll_deg
    sentence = say(
        "The body leans {roll_standard}° to {roll_with_disc}° in that bend.",
        roll_standard=number(roll.standard, 2),
        roll_with_disc=number(roll.with_disc, 2),
    )
    effects.append(
        changed(
            say("body roll"),
            TOPIC,
            "°",
            roll,
            sentence,
            side_g.step,
            Step("φ = m a d / (K - m g d)", say(BOOK)),
            guesses=guesses,
        )
    )
    share = found.front_share
    effects.append(
        changed(
            say("balance"),
            TOPIC,
            "share",
            share,
            _balance(share),
            Step(say("front transfer over both"), say(BOOK)),
            guesses=guesses,
        )
    )
    return tuple(effects)


def _balance(share: Change) -> str:
    if abs(share.difference) < 0.0005:
        return say("The balance between understeer and oversteer stays as it is.")
    before, after = (percent(value, 1).lstrip("+") for value in (share.standard, share.with_disc))
    if share.difference > 0:
        return say(
            "The car tends to run wide at the front earlier (understeer): the front carries {before} to {after} of the load "
            "transfer.",
            before=before,
            after=after,
        )
    return say(
        "The car tends to swing its tail earlier (oversteer): the front carries {before} to {after} of the load transfer.",
        before=before,
        after=after,
    )


def _transfer_by_track(job: Job, name: AxleName, thickness_mm: float) -> Effect:
    """Without springs and roll centres: what the track alone does to the transfer of this axle."""
    axle = job.front if name == "front" else job.rear
    if axle is None or axle.track_mm is None:
        return unknown(say("load transfer, {axle}", axle=axle_word(name)), TOPIC, "N", say("the track"))
    share = 1 / track_change_factor(axle.track_mm, thickness_mm) - 1
    sentence = say(
        "By the wider track alone the load transfer of the axle changes by {share}; springs and roll centres are not known.",
        share=percent(share),
    )
    return Effect(
        say("load transfer, {axle}", axle=axle_word(name)),
        TOPIC,
        "N",
        sentence,
        working=(Step("T / (T + 2 t) − 1", "m a h / T, " + say(BOOK)),),
        needs=(say("springs and roll centres"),),
    )


def rolling_car(job: Job) -> cornering.Car | tuple[str, ...]:
    """The car for `cornering_changes`, or what is missing."""
    axles, needs = [], list(missing((job.car.cg_height_mm, say("the height of the centre of gravity"))))
    for name, axle in (("front", job.front), ("rear", job.rear)):
        if axle is None:
            needs.append(say("the {axle} axle", axle=axle_word(name)))
            continue
        own, (known, arm) = axle.suspension, arm_known(axle)
        lacking = missing(
            (axle.track_mm, say("track")),
            (axle.parked_load_kg, say("load parked")),
            (own.roll_centre_height_mm, say("roll centre height")),
            (own.roll_stiffness_nm_per_deg, say("roll stiffness")),
            (own.unsprung_mass_kg, say("unsprung mass")),
            (True if known else None, say("kind of axle and its arm L")),
        )
        needs += [say("{what}, {axle}", what=item, axle=axle_word(name)) for item in lacking]
        if (
            axle.track_mm is None
            or axle.parked_load_kg is None
            or own.roll_centre_height_mm is None
            or own.roll_stiffness_nm_per_deg is None
        ):
            continue
        if own.unsprung_mass_kg is None or own.unsprung_mass_kg >= axle.parked_load_kg:
            continue
        height = _hub_height_mm(axle)
        if height is None:
            needs.append(say("{what}, {axle}", what=say("size of the tyre"), axle=axle_word(name)))
            continue
        axles.append(
            cornering.Axle(
                axle.track_mm,
                axle.parked_load_kg - own.unsprung_mass_kg,
                own.roll_centre_height_mm,
                math.degrees(own.roll_stiffness_nm_per_deg),
                own.unsprung_mass_kg,
                height,
                arm,
            )
        )
    if needs or len(axles) != 2 or job.car.cg_height_mm is None:
        return tuple(needs) or (say("loads larger than the unsprung masses"),)
    front, rear = axles
    sprung, unsprung = front.sprung_mass_kg + rear.sprung_mass_kg, front.unsprung_mass_kg + rear.unsprung_mass_kg
    low = front.unsprung_mass_kg * front.unsprung_height_mm + rear.unsprung_mass_kg * rear.unsprung_height_mm
    return cornering.Car(front, rear, (job.car.cg_height_mm * (sprung + unsprung) - low) / sprung)


def _hub_height_mm(axle: Axle) -> float | None:
    found = None if axle.fitted is None else radius_of(axle.fitted.tyre)
    return None if found is None else found[0]


def _stability(job: Job, front_mm: float, rear_mm: float) -> Effect:
    name, height = say("static stability factor"), job.car.cg_height_mm
    tracks = [axle.track_mm if axle else None for axle in (job.front, job.rear)]
    needs = missing(
        (tracks[0], say("the front track")),
        (tracks[1], say("the rear track")),
        (height, say("the height of the centre of gravity")),
    )
    if tracks[0] is None or tracks[1] is None or height is None:
        return unknown(name, TOPIC, "g", *needs)
    mean = (tracks[0] + tracks[1]) / 2
    change = Change(static_stability_factor(mean, height), static_stability_factor(mean + front_mm + rear_mm, height))
    band = star_band(change.with_disc)
    sentence = say(
        "As a stiff body the car would tip in a bend of {change_standard} g before and {change_with_disc} g after ({it}).",
        change_standard=number(change.standard, 3),
        change_with_disc=number(change.with_disc, 3),
        it=percent(change.fraction or 0.0),
    )
    step = Step(
        say(
            "({mean} + {front} + {rear}) / (2 × {height}): {stars} stars of 5",
            mean=figure(mean, 0),
            front=figure(front_mm),
            rear=figure(rear_mm),
            height=figure(height, 0),
            stars=band.stars,
        ),
        f"{say(NHTSA)} ({seen_word(band.how_seen)})",
    )
    return changed(name, TOPIC, "g", change, sentence, step)
