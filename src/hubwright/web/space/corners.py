"""What is worked out beside the requests for the space of one wheel: its clearance map and how it moves."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from hubwright.errors import HubwrightError
from hubwright.jobs.held import weight_of
from hubwright.jobs.mapping import has_shapes
from hubwright.language import say, spoken
from hubwright.parts.job import AxleName, Job
from hubwright.quantities.axes import Side
from hubwright.quantities.text import unit
from hubwright.web.desk import Desk, Seen

if TYPE_CHECKING:
    from hubwright.jobs.mapping import MappedCorner
    from hubwright.jobs.motion_table import MotionTable
    from hubwright.jobs.room_table import RoomTable
    from hubwright.jobs.scene_states import SceneStates

AT_ONCE_S = 0.4
"""How long a page waits: what is quick, or known already, comes with it."""
State = Literal["none", "drawing", "ready", "failed"]


@dataclass(frozen=True, eq=False)
class Corner:
    """One wheel, worked out.

    Attributes:
        mapped: Its map; None without shapes, or where wheel and tyre are not known.
        motion: How it moves; None where it cannot be told.
        faults: Why not, of either.
    """

    mapped: MappedCorner | None
    motion: MotionTable | None
    faults: tuple[str, ...]

    @property
    def held_bytes(self) -> int:
        """What its map takes in memory."""
        return weight_of(self.mapped)


@dataclass(frozen=True, eq=False)
class Awaits:
    """How far it has come: nothing to draw, being drawn, ready, or why it failed."""

    state: State
    corner: Corner | None = None
    reason: str = ""


def corner_of(desk: Desk, seen: Seen, job: Job, axle: AxleName, side: Side, wait_s: float | None = AT_ONCE_S) -> Awaits:
    """One wheel; begun in the background where nobody asked before."""
    own = dict(job.axles)[axle]
    if not has_shapes(own, side) and own.hardpoints is None:  # nothing to wait for
        return Awaits("ready", desk.once("space corner", seen, lambda: _worked(job, axle, side), axle, side))
    key = ("space", seen.mark, spoken(), unit(), axle, side)
    awaited = desk.later.of(key, lambda: _worked(job, axle, side), lambda _: None)
    try:
        corner = awaited.within(wait_s)
    except HubwrightError as error:
        return Awaits("failed", reason=str(error))
    except Exception:  # noqa: BLE001 - a picture that cannot be drawn must not take the page with it
        return Awaits("failed", reason=say("Something went wrong while it was drawn; the program's log says more."))
    if corner is None:
        return Awaits("drawing")
    return Awaits("ready", corner)


def _worked(job: Job, axle: AxleName, side: Side) -> Corner:
    from hubwright.checks.house import house_of  # noqa: PLC0415 - compiled sums load slowly
    from hubwright.jobs.mapping import map_of_corner  # noqa: PLC0415
    from hubwright.jobs.motion_table import motion_table  # noqa: PLC0415
    from hubwright.jobs.room_table import table_of  # noqa: PLC0415

    faults: list[str] = []
    mapped: MappedCorner | None = None
    motion: MotionTable | None = None
    try:
        motion = motion_table(job, axle, side)
        mapped = map_of_corner(job, axle, side, house_of(job))
        if mapped is not None:
            table_of(job, axle, side, mapped)  # asks the map ahead what the page will ask
    except HubwrightError as error:
        faults.append(str(error))
    return Corner(mapped, motion, tuple(faults))


def room_at(desk: Desk, seen: Seen, job: Job, mapped: MappedCorner, axle: AxleName, side: Side, t: float) -> RoomTable:
    """The room of a finished map with one disc."""
    from hubwright.jobs.room_table import table_of  # noqa: PLC0415 - compiled sums load slowly

    return desk.once("room", seen, lambda: table_of(job, axle, side, mapped, t), axle, side, t)


def states_at(
    desk: Desk, seen: Seen, job: Job, mapped: MappedCorner, axle: AxleName, side: Side, t: float
) -> SceneStates:
    """The states of a finished map with one disc, for the viewer."""
    from hubwright.checks.house import house_of  # noqa: PLC0415 - compiled sums load slowly
    from hubwright.jobs.scene_states import scene_states  # noqa: PLC0415

    house = house_of(job)
    return desk.once("states", seen, lambda: scene_states(mapped, house, t), axle, side, t)
