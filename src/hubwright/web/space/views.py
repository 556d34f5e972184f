"""What the page of the space around the wheels shows."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.errors import Fault
from hubwright.findings import Verdict
from hubwright.jobs.mapping import at_hand, has_shapes
from hubwright.language import say
from hubwright.language.place_words import place_word
from hubwright.language.words import corner_title
from hubwright.parts.job import AxleName, Job
from hubwright.quantities.axes import SIDES, Side
from hubwright.quantities.text import left_over, length
from hubwright.web.desk import Desk, Seen
from hubwright.web.drawn import Drawn, drawn
from hubwright.web.frame import Frame, frame_of
from hubwright.web.looked_at import LookedAt, Pill, pills
from hubwright.web.space.corners import Awaits, Corner, corner_of, room_at


@dataclass(frozen=True)
class NearLine:
    """One obstacle of a map in words: gap with the disc, what is wanted, and where and when."""

    obstacle: str
    gap: str
    wanted: str
    left: str
    fits: bool
    state: str


@dataclass(frozen=True)
class SidePart:
    """One wheel.

    Attributes:
        side: Which.
        title: In words.
        state: none, drawing, ready or failed.
        reason: Why there is nothing, or why it failed.
        near: Every obstacle of the map, the tightest first.
        plan, map, gaps: Pictures from the map.
        motion: Charts; ``grade`` says what they rest on.
        viewer: Whether there is a 3-D view.
    """

    side: Side
    title: str
    state: str
    reason: str = ""
    faults: tuple[str, ...] = ()
    near: tuple[NearLine, ...] = ()
    notes: tuple[str, ...] = ()
    package: str = ""
    grade: str = ""
    plan: Drawn | None = None
    map: Drawn | None = None
    gaps: Drawn | None = None
    motion: Drawn | None = None
    motion_grade: str = ""
    viewer: bool = False


@dataclass(frozen=True)
class SpaceView:
    """The whole page.

    Attributes:
        thickness_mm: The disc looked at; 0 = none.
        locks: Views from above from readings at lock.
        lock_rows: The same, one line for each point.
        steered: Whether the axle steers.
    """

    frame: Frame
    axle: AxleName
    looked: LookedAt
    there: bool = False
    thickness_mm: float = 0.0
    why: str = ""
    pills: tuple[Pill, ...] = ()
    sides: tuple[SidePart, ...] = ()
    locks: tuple[Drawn, ...] = ()
    lock_rows: tuple[NearLine, ...] = ()
    steered: bool = False
    readings_at_lock: bool = False

    @property
    def faults(self) -> tuple[Fault, ...]:
        """Everything wrong with the address."""
        return self.looked.faults

    @property
    def drawing(self) -> bool:
        """Whether anything is still being drawn."""
        return any(part.state == "drawing" for part in self.sides)

    @property
    def mapped(self) -> bool:
        """Whether any wheel has a map."""
        return any(part.viewer for part in self.sides)

    def fault(self, field: str) -> Fault | None:
        """What is wrong with one field."""
        return next((fault for fault in self.faults if fault.field == field), None)

    def address(self, part: SidePart, name: str) -> str:
        """Where a viewer finds its scene and states."""
        return f"/jobs/{self.frame.job_id}/space/{self.axle}/{part.side}/{name}?t={self.thickness_mm:g}"


def space_view(desk: Desk, seen: Seen, axle: AxleName, looked: LookedAt) -> SpaceView:
    """The page for the disc the address asks for."""
    frame, job = frame_of(desk, seen, "space", axle), seen.job
    if job is None or axle not in dict(job.axles):
        return SpaceView(frame, axle, looked)
    t, why = _thickness(job, axle, looked)
    locks, rows = _locks(desk, seen, job, axle, t)
    return SpaceView(
        frame, axle, looked, True, t, why, pills(job, f"/jobs/{frame.job_id}/space/{axle}", t, or_none=True),
        tuple(_side(desk, seen, job, axle, side, t) for side in SIDES), locks, rows, job.is_steered(axle), bool(rows),
    )  # fmt: skip


def _thickness(job: Job, axle: AxleName, looked: LookedAt) -> tuple[float, str]:
    """The chosen disc, else the one asked for, else none."""
    if looked.thickness_mm is not None:
        return looked.thickness_mm, ""
    wish = dict(job.axles)[axle].wish
    if wish is not None and wish.thickness_mm:
        return wish.thickness_mm, say("the one asked for")
    return 0.0, say("none was asked for")


def _side(desk: Desk, seen: Seen, job: Job, axle: AxleName, side: Side, t: float) -> SidePart:
    title, own = corner_title(axle, side), dict(job.axles)[axle]
    awaits = corner_of(desk, seen, job, axle, side)
    if awaits.state != "ready" or awaits.corner is None:
        return SidePart(side, title, awaits.state, awaits.reason)
    corner = awaits.corner
    if corner.mapped is None:
        reason = ""
        if not at_hand(own, side):
            reason = say("The job names a scan, but its file is not attached.")
        elif has_shapes(own, side) and not corner.faults:
            reason = say("There is a shape, but size of tyre and rim of the fitted wheels are not known.")
        part = SidePart(side, title, "failed" if corner.faults else "none", reason, corner.faults)
    else:
        part = desk.once("space side", seen, lambda: _mapped(desk, seen, job, axle, side, t, awaits), axle, side, t)
    motion, grade = desk.once("motion charts", seen, lambda: _motion(corner), axle, side)
    return SidePart(**{**vars(part), "motion": motion, "motion_grade": grade})


def _mapped(desk: Desk, seen: Seen, job: Job, axle: AxleName, side: Side, t: float, awaits: Awaits) -> SidePart:
    from hubwright.checks.states import state_words  # noqa: PLC0415 - drawings import slowly
    from hubwright.drawings.mapchart import map_svg  # noqa: PLC0415
    from hubwright.drawings.plan_view import plan_svg  # noqa: PLC0415
    from hubwright.drawings.thickness_chart import thickness_svg, thickness_table  # noqa: PLC0415

    assert awaits.corner is not None and awaits.corner.mapped is not None
    room = room_at(desk, seen, job, awaits.corner.mapped, axle, side, t)
    near = tuple(
        NearLine(
            place_word(row.obstacle), length(row.gap_mm), length(row.owed_mm), left_over(row.left_mm), row.left_mm >= -1e-9,
            say("any state") if row.travel_mm is None or row.steer_deg is None
            else state_words(row.travel_mm, row.steer_deg, 0.5),
        )
        for row in room.with_disc
    )  # fmt: skip
    return SidePart(
        side, corner_title(axle, side), "ready", "", awaits.corner.faults, near, (*room.notes, *room.doubts),
        room.package, room.grade, drawn(plan_svg(room)), drawn(map_svg(room)),
        drawn(thickness_svg(room, t), thickness_table(room)), viewer=True,
    )  # fmt: skip


def _motion(corner: Corner) -> tuple[Drawn | None, str]:
    from hubwright.drawings.motion_charts import motion_svg  # noqa: PLC0415 - drawings import slowly
    from hubwright.drawings.motion_rows import motion_rows  # noqa: PLC0415

    if corner.motion is None:
        return None, ""
    return drawn(motion_svg(corner.motion), motion_rows(corner.motion)), corner.motion.grade


def _locks(
    desk: Desk, seen: Seen, job: Job, axle: AxleName, t: float
) -> tuple[tuple[Drawn, ...], tuple[NearLine, ...]]:
    from hubwright.checks.states import state_words  # noqa: PLC0415 - drawings import slowly
    from hubwright.drawings.lock_view import lock_svg  # noqa: PLC0415
    from hubwright.jobs.from_above import seen_from_above  # noqa: PLC0415
    from hubwright.jobs.lock_table import lock_views  # noqa: PLC0415

    views = desk.once("locks", seen, lambda: lock_views(job, axle, t), axle, t)
    rows = tuple(
        NearLine(
            say("{corner}, {point}", corner=corner_title(axle, gap.side), point=gap.point), length(gap.gap_mm),
            length(gap.wanted_mm), left_over(gap.left_mm), gap.verdict is Verdict.PASS,
            say("{state}; {bare} without a disc", state=state_words(gap.travel_mm, gap.steer_deg, 0.5), bare=length(gap.bare_mm)),
        )
        for view in views for gap in view.gaps
    )  # fmt: skip
    fitted = dict(job.axles)[axle].fitted
    section = None if fitted is None else seen_from_above(fitted)
    if section is None:
        return (), rows
    return tuple(drawn(lock_svg(axle, view, section, t)) for view in views), rows
