"""The room around one wheel as an answer: least gaps with and without a disc, what binds next, gap by thickness."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from hubwright.checks.house import house_of
from hubwright.checks.mapped import MapGap, bounds, gaps
from hubwright.findings import Bound
from hubwright.jobs.mapping import FINE, MappedCorner, map_of_corner
from hubwright.language.place_words import place_word
from hubwright.parts.job import AxleName, Job
from hubwright.quantities.axes import Side

STEPS_MM = (0.0, 3.0, 5.0, 8.0, 10.0, 12.0, 15.0, 18.0, 20.0, 25.0, 30.0, 40.0)


@dataclass(frozen=True)
class GapRow:
    """One obstacle with one disc; the least gap over all states, what it needs, where and when."""

    thickness_mm: float
    obstacle: str
    kind: str
    gap_mm: float
    error_mm: float
    owed_mm: float
    left_mm: float
    travel_mm: float | None
    steer_deg: float | None
    place_mm: tuple[float, float, float] | None
    at_least: bool


@dataclass(frozen=True, eq=False)
class RoomTable:
    """One corner.

    Attributes:
        axle, side: Which.
        package: The wheel and tyre it was asked for.
        grade: What the motion rests on.
        states: States of the map; ``unsolved`` could not be.
        bare: Every obstacle without a disc, the tightest first.
        with_disc: The same with the disc asked for; the second is what binds next.
        straight_mm: Least gap straight ahead over all travel, by thickness, where the wheel steers.
        parked_mm: Least gap to the bodywork as it stands, wheels straight, by thickness.
        by_thickness: The tightest obstacle for each thickness.
        bounds: Thickest (and thinnest) disc by obstacle.
        notes: To be said beside it.
        mapped: The map itself, for pictures.
    """

    axle: AxleName
    side: Side
    package: str
    grade: str
    states: int
    unsolved: int
    from_cache: bool
    bare: tuple[GapRow, ...]
    with_disc: tuple[GapRow, ...]
    straight_mm: dict[float, float]
    parked_mm: dict[float, float]
    by_thickness: tuple[GapRow, ...]
    bounds: tuple[Bound, ...]
    notes: tuple[str, ...]
    doubts: tuple[str, ...]
    mapped: MappedCorner

    @property
    def held_bytes(self) -> int:
        """What it takes in memory."""
        return self.mapped.held_bytes

    def plain(self) -> dict[str, Any]:
        """As JSON takes it."""
        from dataclasses import asdict  # noqa: PLC0415

        rows = {name: [asdict(row) for row in getattr(self, name)] for name in ("bare", "with_disc", "by_thickness")}
        return {
            "axle": self.axle, "side": self.side, "package": self.package, "grade": self.grade, "states": self.states,
            "unsolved": self.unsolved, **rows, "straight_ahead_mm": {f"{t:g}": g for t, g in self.straight_mm.items()},
            "parked_mm": {f"{t:g}": g for t, g in self.parked_mm.items()},
            "bounds": [{"kind": b.kind, "at_mm": b.at_mm, "case": str(b.case)} for b in self.bounds],
            "notes": list(self.notes), "doubts": list(self.doubts),
        }  # fmt: skip


def room_table(
    job: Job, name: AxleName, side: Side, thickness_mm: float | None = None, *, counts: tuple[int, int] = FINE
) -> RoomTable | None:
    """The room around one wheel; None without shapes, wheels or tyre.

    Args:
        job: As `hubwright.load` gives it.
        name: Axle.
        side: Side.
        thickness_mm: The disc to look at; the one wished for when missing.
        counts: States of the map.

    Raises:
        BadInput: hard points or picks that cannot be.
    """
    mapped = map_of_corner(job, name, side, house_of(job), counts=counts)
    return None if mapped is None else table_of(job, name, side, mapped, thickness_mm)


def table_of(
    job: Job, name: AxleName, side: Side, mapped: MappedCorner, thickness_mm: float | None = None
) -> RoomTable:
    """The same from a map that is there already; what it was asked before it need not be asked again."""
    house, axle = house_of(job), dict(job.axles)[name]
    wished = axle.wish.thickness_mm if axle.wish else None
    disc = thickness_mm if thickness_mm is not None else wished or 0.0
    room = mapped.room
    shelf = sorted({*STEPS_MM, disc, *(one.thickness_mm for one in job.shop.disc)})
    tightest = tuple(_row(t, gaps(room, house, t)[0]) for t in shelf)
    doubts = tuple(f"{place_word(about.name)}: {about.words}" for about in room.neighbours.values())
    parked = {t: at[0] for t in sorted({0.0, disc}) if (at := room.gap_at(t, 0.0, 0.0)) is not None}
    return RoomTable(
        name, side, mapped.package, room.grade, len(mapped.travel_mm), mapped.unsolved, mapped.from_cache,
        tuple(_row(0.0, gap) for gap in gaps(room, house, 0.0)), tuple(_row(disc, gap) for gap in gaps(room, house, disc)),
        straight_ahead(mapped, sorted({0.0, disc})),
        parked, tightest, bounds(room, house), room.notes, doubts, mapped,
    )  # fmt: skip


def straight_ahead(mapped: MappedCorner, thicknesses: list[float]) -> dict[float, float]:
    """Least gap with the rack in the middle, over the travels of the map, by thickness; empty without a rack."""
    if mapped.motion.second != "rack" or mapped.motion.second_range == (0.0, 0.0):
        return {}
    from hubwright.engineering.envelope.poses import Poses  # noqa: PLC0415 - compiled sums
    from hubwright.engineering.envelope.sweep import smallest_gap  # noqa: PLC0415

    travel = np.linspace(mapped.motion.reach.low_mm, mapped.motion.reach.high_mm, 65)
    centre, axis, good = mapped.motion.solve(travel, np.zeros_like(travel))
    inset = float((mapped.hub_mm - mapped.motion.parked()[0]) @ mapped.motion.parked()[1])
    poses = Poses((centre + inset * axis)[good], axis[good])
    found = {}
    for t in thicknesses:
        pinches = [smallest_gap(mapped.outline.slid(t), one, poses) for one in mapped.obstacles if not one.carried]
        found[t] = min((pinch.gap_mm for pinch in pinches if pinch is not None), default=float("nan"))
    return found


def _row(thickness_mm: float, gap: MapGap) -> GapRow:
    air = gap.air
    return GapRow(
        thickness_mm, gap.neighbour.name, gap.neighbour.kind, air.gap_mm, air.error_mm,
        gap.margin_mm + gap.guard_mm + gap.give_mm, gap.slack_mm, air.travel_mm, air.steer_deg, air.place_mm,
        air.at_least,
    )  # fmt: skip
