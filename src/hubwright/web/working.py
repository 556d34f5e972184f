"""A job worked out, as pages use it: every axle as a bench, and the answer."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from hubwright.checks.house import house_of
from hubwright.checks.mapped import gaps
from hubwright.jobs.answer import Answer
from hubwright.jobs.assess import answer_on, day_of
from hubwright.jobs.bench import JobBench, benches_of
from hubwright.jobs.held import weight_of
from hubwright.jobs.mapping import MappedCorner
from hubwright.jobs.maps import NO_MAPS, draw_maps
from hubwright.parts.job import AxleName, Job
from hubwright.quantities.axes import Side

STEP_MM = 0.5
"""Step of the thickness slider: what a map is asked ahead of the hand that moves it."""
AHEAD_MM = 40.0
SHORT_MM = 1.0
"""What is short by more than this at the states of a map is never settled, so nothing beyond needs asking ahead."""


@dataclass(frozen=True, eq=False)
class Worked:
    """A job worked out.

    Attributes:
        benches: Every axle, ready for any disc.
        answer: The answer.
        waiting: Whether maps are still being drawn, so that all of it rests on readings alone.
    """

    benches: JobBench
    answer: Answer
    waiting: bool

    @property
    def held_bytes(self) -> int:
        """What its maps take in memory; drawn by now, or taken from their answers until somebody looks at one."""
        return 0 if self.waiting else sum(weight_of(corner()) for corner in self.benches.maps.corners.values())


def mapped_corners(worked: Worked, name: AxleName) -> dict[Side, MappedCorner | None]:
    """The clearance maps of one axle, for pictures."""
    return {side: corner() for (axle, side), corner in worked.benches.maps.corners.items() if axle == name}


def work_out(job: Job, today: date, *, waiting: bool = False) -> Worked:
    """A job worked out from its readings alone."""
    benches = benches_of(job, day_of(job, today), NO_MAPS)
    return Worked(benches, answer_on(benches), waiting)


def work_out_with_maps(job: Job, today: date) -> Worked:
    """A job worked out with its clearance maps, which may take many seconds where they have to be drawn.

    Raises:
        BadInput: hard points, picks or shapes that cannot be.
    """
    maps = draw_maps(job, house_of(job))
    benches = benches_of(job, day_of(job, today), maps)
    worked = Worked(benches, answer_on(benches), waiting=False)
    maps.keep()
    for corner in maps.corners.values():
        corner()  # so that pictures need not wait for it
    return worked


def ask_ahead(worked: Worked) -> None:
    """Ask every map for the steps of the slider that still have room, so that moving it need not wait; keep the answers."""
    maps, house = worked.benches.maps, worked.benches.house
    for rooms in maps.rooms.values():
        for room in rooms.values():
            for step in range(int(AHEAD_MM / STEP_MM) + 1):
                found = gaps(room, house, step * STEP_MM)
                if found and found[0].slack_mm < -SHORT_MM:
                    break
    maps.keep()
