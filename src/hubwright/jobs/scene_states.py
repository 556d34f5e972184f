"""The wheel in states over its travel and lock, each with its nearest place: what a viewer steps through."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from hubwright.checks.house import House
from hubwright.checks.mapped import Air, MapGap, gaps, owing
from hubwright.checks.states import state_words
from hubwright.errors import BadInput, Fault
from hubwright.jobs.asked import steer_of
from hubwright.jobs.mapping import MappedCorner
from hubwright.language import say

Floats = np.ndarray[Any, np.dtype[np.float64]]
Spot = tuple[float, float, float]

TRAVELS, LOCKS = 9, 9
STRAIGHT_DEG = 0.5
FAR_MM = 300.0
"""What is farther away is not near."""
AGREES_MM = 0.1
"""A gap of the map and the same straight from the triangles may differ by this."""


@dataclass(frozen=True)
class SceneState:
    """One state with one disc, in corner axes (x forward, o outboard, z up), mm.

    Attributes:
        travel_mm, steer_deg: Bump and left turn positive.
        words: The state in words.
        origin_mm, axis: Centre of the face the disc sits on, and the spin axis.
        gap_mm: To the nearest obstacle; negative = overlap. None where nothing is near.
        obstacle: Which.
        place_mm: Its nearest place; wheel_mm: the place on wheel or tyre that is nearest to it.
        wanted_mm: Margin, doubt and give wanted there.
        left_mm: What is left over that; negative = short.
    """

    travel_mm: float
    steer_deg: float
    words: str
    origin_mm: Spot
    axis: Spot
    gap_mm: float | None
    obstacle: str
    place_mm: Spot | None
    wheel_mm: Spot | None
    wanted_mm: float | None
    left_mm: float | None


@dataclass(frozen=True)
class SceneStates:
    """Every state of one corner.

    Attributes:
        thickness_mm: The disc.
        travels_mm: Ascending; 0 = parked is among them.
        locks: Number of steps from lock to lock; 1 where the wheel does not steer.
        states: For each travel every lock from right to left; None where it cannot be.
        least: The state of the least gap of all, settled between the steps.
    """

    thickness_mm: float
    travels_mm: tuple[float, ...]
    locks: int
    states: tuple[tuple[SceneState | None, ...], ...]
    least: SceneState


def scene_states(mapped: MappedCorner, house: House, thickness_mm: float) -> SceneStates:
    """States over travel and lock, and the one of the least gap."""
    reach = mapped.motion.reach
    travels = _through_zero(reach.low_mm, reach.high_mm, TRAVELS)
    steers = mapped.motion.second == "rack" and mapped.motion.second_range != (0.0, 0.0)
    seconds = _through_zero(*mapped.motion.second_range, LOCKS) if steers else np.zeros(1)
    grid_travel, grid_second = np.meshgrid(travels, seconds, indexing="ij")
    found = _states(mapped, house, thickness_mm, grid_travel.ravel(), grid_second.ravel())
    rows = [found[i * len(seconds) : (i + 1) * len(seconds)] for i in range(len(travels))]
    ordered = tuple(tuple(sorted(row, key=_by_steer)) for row in rows)
    return SceneStates(
        thickness_mm, tuple(map(float, travels)), len(seconds), ordered, _least(mapped, house, thickness_mm, found)
    )


def _by_steer(state: SceneState | None) -> float:
    return 90.0 if state is None else state.steer_deg


def _least(mapped: MappedCorner, house: House, thickness_mm: float, found: list[SceneState | None]) -> SceneState:
    """The state that leaves least over what is wanted, settled between the steps; no step may show less."""
    gap = gaps(mapped.room, house, thickness_mm)[0]
    air = gap.air
    travel = air.travel_mm or 0.0
    second = _second_at(mapped, travel, air.steer_deg or 0.0)
    settled: Sequence[SceneState | None]
    settled = _states(mapped, house, thickness_mm, np.array([travel]), np.array([second]))
    near = settled[0]
    if near is None or near.gap_mm is None or abs(near.gap_mm - air.gap_mm) > AGREES_MM:
        poses = mapped.poses  # a map may name the neighbour of its tightest state: look at each of them
        settled = _at(mapped, house, thickness_mm, mapped.travel_mm, poses.origin_mm, poses.axis)
    elif air.place_mm is not None and near.obstacle == gap.neighbour.name:
        owed = gap.margin_mm + gap.guard_mm + gap.give_mm
        settled = [replace(near, gap_mm=air.gap_mm, wanted_mm=owed, left_mm=gap.slack_mm)]
    there: list[SceneState] = [state for state in (*settled, *found) if state is not None]
    if not there:
        raise BadInput("motion", (Fault("hardpoints", say("a wheel that can stand as it is parked"), say("none")),))
    return min(there, key=lambda state: np.inf if state.left_mm is None else state.left_mm)


def _second_at(mapped: MappedCorner, travel_mm: float, steer_deg: float) -> float:
    """The rack at which the wheel is steered so at a travel; 0 without a rack."""
    if mapped.motion.second != "rack" or mapped.motion.second_range == (0.0, 0.0):
        return 0.0
    seconds = np.linspace(*mapped.motion.second_range, 201)
    _, axis, good = mapped.motion.solve(np.full_like(seconds, travel_mm), seconds)
    if not good.any():
        return 0.0
    steer, seconds = steer_of(axis[good], mapped.room.side), seconds[good]
    order = np.argsort(steer)
    return float(np.interp(steer_deg, steer[order], seconds[order]))


def _states(
    mapped: MappedCorner, house: House, thickness_mm: float, travel: Floats, second: Floats
) -> list[SceneState | None]:
    """States by travel and rack; None for those that cannot be."""
    centre, axis, good = mapped.motion.solve(travel, second)
    parked = mapped.motion.parked()
    origin = centre + float((mapped.hub_mm - parked[0]) @ parked[1]) * axis
    there = iter(_at(mapped, house, thickness_mm, travel[good], origin[good], axis[good]) if good.any() else ())
    return [next(there) if one else None for one in good]


def _at(
    mapped: MappedCorner, house: House, thickness_mm: float, travel: Floats, origin: Floats, axis: Floats
) -> list[SceneState]:
    """States by pose, each with its nearest place."""
    from hubwright.engineering.envelope.poses import Poses, hub_at_rest  # noqa: PLC0415 - compiled sums
    from hubwright.engineering.envelope.sweep import gap_at_every_state, nearest_place  # noqa: PLC0415

    outline = mapped.outline.slid(thickness_mm)
    steer = steer_of(axis, mapped.room.side)
    best: list[tuple[MapGap, Floats] | None] = [None] * len(travel)
    poses = Poses(origin, axis)
    for one in mapped.obstacles:
        used = hub_at_rest() if one.carried else poses
        swept = gap_at_every_state(outline, one, poses, cap_mm=FAR_MM)
        for state in range(len(travel)):
            index = 0 if one.carried else state
            triangle = int(swept.triangle[index])
            if triangle < 0:
                continue
            place, _ = nearest_place(outline, one.triangles_mm[triangle], used.origin_mm[index], used.axis[index])
            if one.carried:
                place = _out_of_hub(place, origin[state], axis[state])
            air = Air(
                float(swept.gap_mm[index]), 0.0, float(travel[state]), float(steer[state]), _spot(place),
                float(place[2] - origin[state, 2]), at_least=False, states=1,
            )  # fmt: skip
            gap = owing(mapped.room, house, mapped.room.neighbours[one.name], air)
            nearest = best[state]
            if nearest is None or gap.slack_mm < nearest[0].slack_mm:
                best[state] = (gap, place)
    return [
        _state(mapped, thickness_mm, float(travel[n]), float(steer[n]), origin[n], axis[n], best[n])
        for n in range(len(travel))
    ]


def _state(
    mapped: MappedCorner, thickness_mm: float, travel: float, steer: float, origin: Floats, axis: Floats,
    nearest: tuple[MapGap, Floats] | None,
) -> SceneState:  # fmt: skip
    words = state_words(travel, steer, STRAIGHT_DEG)
    if nearest is None:
        return SceneState(travel, steer, words, _spot(origin), _spot(axis), None, "", None, None, None, None)
    gap, place = nearest
    owed = gap.margin_mm + gap.guard_mm + gap.give_mm
    wheel = _on_wheel(mapped, place, origin, axis, thickness_mm)
    return SceneState(
        travel, steer, words, _spot(origin), _spot(axis), gap.air.gap_mm, gap.neighbour.name, _spot(place), _spot(wheel),
        owed, gap.slack_mm,
    )  # fmt: skip


def _on_wheel(mapped: MappedCorner, place: Floats, origin: Floats, axis: Floats, thickness_mm: float) -> Floats:
    """The point of the package nearest to a place: it lies in the half-plane of that place through the spin axis."""
    away = place - origin
    y = float(away @ axis)
    radial = away - y * axis
    rho = float(np.linalg.norm(radial))
    outline = mapped.outline
    a = np.column_stack([outline.rho_mm, outline.y_mm + thickness_mm])
    step = np.roll(a, -1, axis=0) - a
    length = np.maximum((step**2).sum(axis=1), 1e-12)
    share = np.clip(((np.array([rho, y]) - a) * step).sum(axis=1) / length, 0.0, 1.0)
    spots = a + share[:, None] * step
    best = spots[int(np.hypot(spots[:, 0] - rho, spots[:, 1] - y).argmin())]
    unit = radial / rho if rho > 1e-9 else np.zeros(3)
    return np.asarray(origin + best[0] * unit + best[1] * axis)


def _out_of_hub(place: Floats, origin: Floats, axis: Floats) -> Floats:
    """A place in hub axes, in corner axes."""
    from hubwright.jobs.scans import hub_axes  # noqa: PLC0415 - compiled sums

    return np.asarray(origin + place @ hub_axes(axis))


def _through_zero(low: float, high: float, count: int) -> Floats:
    """Evenly from low to high, with 0 among them in place of the step nearest to it."""
    if high <= low:
        return np.array([low])
    steps = np.linspace(low, high, count)
    if low <= 0.0 <= high:
        steps[int(np.abs(steps).argmin())] = 0.0
    return np.unique(steps)


def _spot(point: Floats) -> Spot:
    x, o, z = (float(value) for value in point)
    return x, o, z
