"""What discs change besides the fit, disc beside disc: each axle, the car as a whole, and which reading would open more."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from hubwright.checks import effects, roll
from hubwright.checks.effect import Effect
from hubwright.jobs.answer import Answer, AxleAnswer
from hubwright.jobs.shown import ASKED, CHOSEN, RECOMMENDED, Shown, shown_discs
from hubwright.parts.job import AxleName, Job


@dataclass(frozen=True)
class DiscChange:
    """One disc on one axle, the other axle as it stands: alarms first, then what is known."""

    shown: Shown
    effects: tuple[Effect, ...]


@dataclass(frozen=True)
class CarChange:
    """Discs on both axles at once.

    Attributes:
        why: recommended, asked for or chosen.
        front_mm, rear_mm: Per side; 0 = none.
        effects: What is known of them.
    """

    why: str
    front_mm: float
    rear_mm: float
    effects: tuple[Effect, ...]


@dataclass(frozen=True)
class Opening:
    """Readings nobody took, and the figures that wait for all of them."""

    readings: tuple[str, ...]
    opens: tuple[str, ...]


@dataclass(frozen=True)
class AxleChange:
    """One axle: every disc worth looking at, and what is not known of any of them."""

    axle: AxleName
    discs: tuple[DiscChange, ...]
    openings: tuple[Opening, ...]


def axle_change(job: Job, name: AxleName, answer: AxleAnswer, chosen_mm: float | None = None) -> AxleChange:
    """What each disc worth looking at changes on one axle."""
    axle = dict(job.axles)[name]
    discs: list[DiscChange] = []
    found: list[Effect] = []
    for shown in shown_discs(job, answer, chosen_mm):
        every = effects.effects_of(job, name, axle, shown.disc).effects
        discs.append(DiscChange(shown, tuple(sorted((e for e in every if e.known), key=lambda e: not e.alarm))))
        found += every
    return AxleChange(name, tuple(discs), openings(found))


def car_changes(job: Job, answer: Answer, chosen: Mapping[str, float | None]) -> tuple[CarChange, ...]:
    """The car with every recommended disc, with every disc asked for, and with the chosen ones; each pair once."""
    by_axle = {axle.axle: axle for axle in answer.axles}
    pairs = {
        RECOMMENDED: {name: axle.plan.recommended_mm for name, axle in by_axle.items()},
        ASKED: {name: axle.wish_mm for name, axle in by_axle.items()},
        CHOSEN: dict(chosen),
    }
    found: list[CarChange] = []
    for why, of in pairs.items():
        front_mm, rear_mm = of.get("front") or 0.0, of.get("rear") or 0.0
        same = any((one.front_mm, one.rear_mm) == (front_mm, rear_mm) for one in found)
        if (front_mm or rear_mm) and not same:
            known = tuple(effect for effect in roll.car_effects(job, front_mm, rear_mm) if effect.known)
            found.append(CarChange(why, front_mm, rear_mm, known))
    return tuple(found)


def openings(found: list[Effect]) -> tuple[Opening, ...]:
    """Missing readings with the figures that wait for them, those most figures wait for first."""
    waiting: dict[str, dict[str, None]] = {}
    for effect in found:
        for reading in effect.needs:
            waiting.setdefault(reading, {})[effect.name] = None
    together: dict[tuple[str, ...], list[str]] = {}
    for reading, names in waiting.items():
        together.setdefault(tuple(names), []).append(reading)
    listed = [Opening(tuple(readings), names) for names, readings in together.items()]
    return tuple(sorted(listed, key=lambda one: -len(one.opens)))
