"""The gap of a clearance map against travel: straight ahead, and the least over all lock, for one disc."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from hubwright.checks.house import House
from hubwright.checks.mapped import gap_to
from hubwright.jobs.mapping import MappedCorner

Floats = np.ndarray[Any, np.dtype[np.float64]]
Whole = np.ndarray[Any, np.dtype[np.int64]]
STRAIGHT_DEG = 3.0
"""A state steered less than this stands for straight ahead; a wheel with toe is never quite straight."""


@dataclass(frozen=True, eq=False)
class ByTravel:
    """One obstacle with one disc.

    Attributes:
        obstacle: Its name.
        owed_mm: What must be left.
        travel_mm: Of the states of the map, ascending (k,).
        least_mm: The least gap over all lock at each travel (k,); at the states of the map, not between them.
        steer_deg: Where it is, left positive (k,).
        straight_mm: Straight ahead (k,); NaN where no state is.
        pinch_mm, pinch_travel_mm, pinch_steer_deg: The least of all, settled between the states, as the verdict has it;
            the last two None where the obstacle is carried by the knuckle.
    """

    obstacle: str
    owed_mm: float
    travel_mm: Floats
    least_mm: Floats
    steer_deg: Floats
    straight_mm: Floats
    pinch_mm: float
    pinch_travel_mm: float | None
    pinch_steer_deg: float | None


def by_travel(mapped: MappedCorner, house: House, thickness_mm: float) -> tuple[ByTravel, ...]:
    """Every obstacle that is fixed to the body, the one with least left over first."""
    from hubwright.engineering.envelope.poses import Poses  # noqa: PLC0415 - compiled sums
    from hubwright.engineering.envelope.sweep import gap_at_every_state, smallest_gap  # noqa: PLC0415

    found: list[tuple[float, ByTravel]] = []
    travel, inverse = np.unique(mapped.travel_mm, return_inverse=True)
    outline = mapped.outline.slid(thickness_mm)
    rows = [np.flatnonzero(inverse == row) for row in range(len(travel))]
    ahead = np.array([states[int(np.abs(mapped.steer_deg[states]).argmin())] for states in rows])

    def at(states: Whole) -> Poses:
        return Poses(mapped.poses.origin_mm[states], mapped.poses.axis[states])

    for one in mapped.obstacles:
        if one.carried:
            continue
        # the least of a row costs far less than every gap of it
        pinches = [smallest_gap(outline, one, at(states)) for states in rows]
        least = [int(states[pinch.state if pinch else 0]) for states, pinch in zip(rows, pinches, strict=True)]
        gaps = np.array([pinch.gap_mm if pinch else np.inf for pinch in pinches])
        straight = gap_at_every_state(outline, one, at(ahead)).gap_mm
        straight = np.where(np.abs(mapped.steer_deg[ahead]) < STRAIGHT_DEG, straight, np.nan)
        told = gap_to(mapped.room, house, one.name, thickness_mm)
        owed = told.margin_mm + told.guard_mm + told.give_mm
        row = ByTravel(
            one.name, owed, travel, gaps, mapped.steer_deg[least], straight, told.air_mm, told.air.travel_mm,
            told.air.steer_deg,
        )  # fmt: skip
        found.append((told.slack_mm, row))
    return tuple(row for _, row in sorted(found, key=lambda pair: pair[0]))
