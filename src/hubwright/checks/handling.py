"""Every handling figure of one axle, in sentences a customer understands."""

from __future__ import annotations

from hubwright.checks.effect import Effect
from hubwright.checks.roll import car_effects
from hubwright.checks.springs import axle_effects
from hubwright.parts.job import AxleName, Job


def effects_of(job: Job, name: AxleName, thickness_mm: float) -> tuple[Effect, ...]:
    """What a disc of ``thickness_mm`` per side changes on one axle, the other axle as it stands."""
    axle = job.front if name == "front" else job.rear
    if axle is None:
        return ()
    front_mm, rear_mm = (thickness_mm, 0.0) if name == "front" else (0.0, thickness_mm)
    return (*axle_effects(axle, thickness_mm), *car_effects(job, front_mm, rear_mm, only=name))
