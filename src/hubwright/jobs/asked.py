"""What a finished map is asked: gaps settled between its states, and the gap at one single state."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any, TypeVar, cast

import numpy as np

from hubwright.checks.mapped import Air, Neighbour
from hubwright.quantities.axes import Side

if TYPE_CHECKING:
    from hubwright.engineering.envelope.obstacles import Obstacle
    from hubwright.engineering.envelope.outline import Outline
    from hubwright.engineering.envelope.query import Contact, ReadyMap
    from hubwright.engineering.envelope.settle import Solver, StateField

Floats = np.ndarray[Any, np.dtype[np.float64]]
T = TypeVar("T")
FAR_MM = 60.0
"""Gaps above it are only known to be so."""
WITHIN_MM = 0.05
MOST_SAID = 5000
STEER_WITHIN_DEG, STRAIGHT_DEG = 3.0, 0.2


def steer_of(axis: Floats, side: Side) -> Floats:
    """Steer of the wheel, left positive, deg, from spin axes (n, 3) in corner axes."""
    toe = np.degrees(np.arctan2(axis[:, 0], axis[:, 1]))
    return -toe if side == "left" else toe


@dataclass(frozen=True, eq=False)
class Asked:
    """One corner's map and the motion and shapes behind it.

    ``steers`` says whether the second variable of the motion is a rack; else it is the other wheel of the axle. What it said
    is remembered.
    """

    side: Side
    hubs: Solver
    field: StateField
    obstacles: tuple[Obstacle, ...]
    neighbours: dict[str, Neighbour]
    outline: Outline
    ready: ReadyMap
    steers: bool

    @cached_property
    def _said(self) -> dict[tuple[object, ...], Any]:
        return {}

    @property
    def held_bytes(self) -> int:
        """What it takes in memory."""
        return sum(one.held_bytes for one in self.obstacles)

    @cached_property
    def _bare(self) -> dict[str, Floats]:
        """Gaps at the nodes without a disc: with one of t they are at most t less."""
        from hubwright.engineering.envelope.settle import gaps_at_nodes  # noqa: PLC0415

        return {
            one.name: gaps_at_nodes(self.outline, one, self.field, FAR_MM) for one in self.obstacles if not one.carried
        }

    def settle(self, name: str, thickness_mm: float, enough_mm: float) -> Air:
        """The least gap to one obstacle over all states, settled to 0.05 mm between those of the map.

        Not settled where a state of the map already shows less than ``enough_mm``.
        """
        key = ("settle", name, thickness_mm, enough_mm)
        return self._once(key, lambda: self._settle(name, thickness_mm, enough_mm))

    def _once(self, key: tuple[object, ...], work_out: Callable[[], T]) -> T:
        if key not in self._said:
            if len(self._said) >= MOST_SAID:
                self._said.clear()
            self._said[key] = work_out()
        return cast(T, self._said[key])

    def _settle(self, name: str, thickness_mm: float, enough_mm: float) -> Air:
        from hubwright.engineering.envelope.query import contacts  # noqa: PLC0415
        from hubwright.engineering.envelope.settle import settled_gap  # noqa: PLC0415

        obstacle = next(one for one in self.obstacles if one.name == name)
        at_states = next(one for one in contacts(self.ready, self.outline, thickness_mm) if one.obstacle == name)
        if obstacle.carried:
            return self._carried(at_states)
        if at_states.gap_mm < enough_mm and at_states.triangle >= 0:
            return self._at_state(at_states, obstacle, thickness_mm)
        found = settled_gap(
            self.outline.slid(thickness_mm), obstacle, self.hubs, self.field,
            floor_mm=self._bare[name] - abs(thickness_mm), within_mm=WITHIN_MM, cap_mm=FAR_MM,
        )  # fmt: skip
        origin, axis, _ = self.hubs(np.array([found.travel_mm]), np.array([found.second_mm]))
        place = None if found.at_cap else found.place_mm
        return Air(
            found.gap_mm, found.error_mm, found.travel_mm, float(steer_of(axis, self.side)[0]), place,
            0.0 if place is None else place[2] - float(origin[0, 2]), found.at_cap, found.states,
        )  # fmt: skip

    def rough(self, name: str, thickness_mm: float) -> float:
        """The least gap to one obstacle at the states of the map alone."""
        from hubwright.engineering.envelope.query import contacts  # noqa: PLC0415

        return next(
            float(one.gap_mm) for one in contacts(self.ready, self.outline, thickness_mm) if one.obstacle == name
        )

    def _carried(self, found: Contact) -> Air:
        """What the knuckle carries stands still beside the wheel: the map alone is exact."""
        gap = found.gap_mm if np.isfinite(found.gap_mm) else -FAR_MM
        place = found.place_mm if found.triangle >= 0 else None
        return Air(gap, found.error_mm, None, None, place, 0.0, found.at_edge, 1)

    def _at_state(self, found: Contact, obstacle: Obstacle, thickness_mm: float) -> Air:
        """The gap of the map, with state and place of the tightest of its states.

        The map itself keeps only one of the states that lie nearly as close.
        """
        from hubwright.engineering.envelope.poses import Poses  # noqa: PLC0415
        from hubwright.engineering.envelope.sweep import smallest_gap  # noqa: PLC0415

        good = self.field.good
        travel = np.broadcast_to(self.field.travel_mm[:, None], good.shape)[good]
        origin, axis = self.field.origin_mm[good], self.field.axis[good]
        outline, poses = self.outline.slid(thickness_mm), Poses(origin, axis)
        pinch = smallest_gap(outline, obstacle, poses)
        state, place = (found.state, found.place_mm) if pinch is None else (pinch.state, pinch.place_mm)
        steer = float(steer_of(axis[state : state + 1], self.side)[0])
        above = place[2] - float(origin[state, 2])
        return Air(
            found.gap_mm, found.error_mm, float(travel[state]), steer, place, above, False, len(travel), settled=False
        )

    def gap_at(self, thickness_mm: float, travel_mm: float, steer_deg: float) -> tuple[float, float] | None:
        """Straight from the triangles at one state: least gap to the bodywork outside, and its standard doubt."""
        key = ("gap", thickness_mm, travel_mm, steer_deg)
        return self._once(key, lambda: self._gap_at(thickness_mm, travel_mm, steer_deg))

    def _gap_at(self, thickness_mm: float, travel_mm: float, steer_deg: float) -> tuple[float, float] | None:
        from hubwright.engineering.envelope.poses import Poses  # noqa: PLC0415
        from hubwright.engineering.envelope.sweep import gap_at_every_state  # noqa: PLC0415

        second = self._second_at(travel_mm, steer_deg)
        if second is None:
            return None
        origin, axis, good = self.hubs(np.array([travel_mm]), np.array([second]))
        if not good[0]:
            return None
        best: tuple[float, float] | None = None
        for one in self.obstacles:
            about = self.neighbours[one.name]
            if about.kind == "body" and about.region == "outside":
                outline = self.outline.slid(thickness_mm)
                gap = float(gap_at_every_state(outline, one, Poses(origin, axis)).gap_mm[0])
                if best is None or gap < best[0]:
                    best = (gap, about.doubt_mm)
        return best

    def second_near(self, travel_mm: float, steer_deg: float) -> float:
        """The rack (or the other wheel's travel) nearest to a steer angle at a travel; 0 where there is none."""
        if self.field.second_mm.size < 2:
            return float(self.field.second_mm[0]) if self.field.second_mm.size else 0.0
        if abs(steer_deg) < STRAIGHT_DEG:
            return 0.0
        return self._second_at(travel_mm, steer_deg) or 0.0

    def _second_at(self, travel_mm: float, steer_deg: float) -> float | None:
        """The rack that gives a steer angle at the nearest travel of the grid; None outside it."""
        travel = self.field.travel_mm
        if not travel.min() - 0.5 <= travel_mm <= travel.max() + 0.5:
            return None
        if not self.steers:  # the other wheel stands as it was parked; toe that travel brings is no lock
            return 0.0 if abs(steer_deg) < STEER_WITHIN_DEG else None
        row = int(np.abs(travel - travel_mm).argmin())
        axis = self.field.axis[row]
        good = np.isfinite(axis[:, 0])
        if abs(steer_deg) < STEER_WITHIN_DEG and not np.any(np.abs(self.field.second_mm) > 0):
            return 0.0
        steer, second = steer_of(axis[good], self.side), self.field.second_mm[good]
        order = np.argsort(steer)
        if not steer.min() - STEER_WITHIN_DEG <= steer_deg <= steer.max() + STEER_WITHIN_DEG:
            return None
        return float(np.interp(steer_deg, steer[order], second[order]))
