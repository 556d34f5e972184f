"""What the page of one axle's proof shows."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from urllib.parse import urlencode

from hubwright.errors import Fault
from hubwright.jobs.answer import AxleAnswer
from hubwright.jobs.verified import Compared, compared, has_bare
from hubwright.language.place_words import place_word, work_word
from hubwright.language.words import side_word
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.quantities.axes import SIDES
from hubwright.store.card import stage_of
from hubwright.store.things import Stage
from hubwright.web.desk import Desk, Seen
from hubwright.web.frame import Frame
from hubwright.web.sheet.worth import unproven_lines, where_words

MOST_BACK = 60
"""So many revisions are looked through for bare readings that were taken out since."""


@dataclass(frozen=True)
class Missing:
    """A reading with the disc fitted that release waits for."""

    words: str
    address: str


@dataclass(frozen=True)
class WorkOffered:
    """Work on offer at a place: once done, the readings from before it hold no longer."""

    side: str
    place: str
    name: str
    field: str


@dataclass(frozen=True)
class VerifyView:
    """The page.

    Attributes:
        disc_mm: The disc looked at; 0 = none is recommended and none was fitted.
        discs: Thicknesses one may look at: recommended, wished, fitted while reading.
        rows: Readings with that disc.
        missing: What release still waits for.
        work: Work on offer; while any stands there, what was read before and after it must not be mixed.
        released: Whether the assessment releases this axle.
        decision: The answer in words.
        card: Signatures, appointment, complaint.
        faults: Why nothing was stored.
        kept: The revision just stored; 0 = none.
    """

    frame: Frame
    axle: AxleName
    disc_mm: float
    discs: tuple[float, ...]
    rows: tuple[Compared, ...]
    missing: tuple[Missing, ...]
    work: tuple[WorkOffered, ...]
    released: bool
    decision: str
    stage: Stage
    card: dict[str, str]
    today: date
    faults: tuple[Fault, ...]
    kept: int
    key: str
    base: int

    def fault(self, field: str) -> Fault | None:
        """What is wrong with one box."""
        return next((fault for fault in self.faults if fault.field == field), None)

    def state(self, row: Compared) -> str:
        """Ride height and lock of a reading in words."""
        return where_words(row.travel_mm, row.steer_deg)

    def place(self, row: Compared) -> str:
        """The place in words."""
        return place_word(row.place)

    def side(self, row: Compared) -> str:
        """Left or right in words."""
        return side_word(row.side)


def discs_of(axle: Axle, answer: AxleAnswer | None) -> tuple[float, ...]:
    """Thicknesses worth looking at: recommended first, then those fitted while reading, then the wish."""
    found = [plan.recommended_mm for plan in answer.plans] if answer is not None else []
    fitted = {r.disc_mm for side in SIDES for point in axle.corner(side).point for r in point.reading if r.disc_mm}
    wish = axle.wish.thickness_mm if axle.wish else None
    return tuple(dict.fromkeys(mm for mm in (*found, *sorted(fitted), wish) if mm))


def rows_of(desk: Desk, seen: Seen, job: Job, name: AxleName, disc_mm: float) -> tuple[Compared, ...]:
    """Predicted against measured; where the bare readings were taken out since, from the newest revision that has them."""
    rows = compared(job, name, disc_mm)
    axle = job.front if name == "front" else job.rear
    if all(has_bare(axle, row.side, row.place) for row in rows):
        return rows
    for revision in range(seen.stored.revision - 1, max(0, seen.stored.revision - MOST_BACK), -1):
        older = desk.seen(seen.stored.id, revision).job
        before = None if older is None else older.front if name == "front" else older.rear
        if all(has_bare(before, row.side, row.place) for row in rows):
            return compared(job, name, disc_mm, older)
    return rows


def missing_of(job: Job, name: AxleName, disc_mm: float, address: str) -> tuple[Missing, ...]:
    """Readings with the disc fitted that are not there yet, near the narrowest state of each place it moves towards."""
    return tuple(
        Missing(line.what, f"{address}?{urlencode({'disc': f'{disc_mm:g}', 'step': line.slots[0]})}")
        for line in unproven_lines(job, name, disc_mm)
    )


def work_of(name: AxleName, axle: Axle) -> tuple[WorkOffered, ...]:
    """Work on offer at the places of one axle."""
    return tuple(
        WorkOffered(side_word(side), place_word(point.name), work_word(work.name), f"{name}.{side}.point[{number_}]")
        for side in SIDES
        for number_, point in enumerate(axle.corner(side).point, 1)
        for work in point.work[:1]
    )


def view_of(
    desk: Desk,
    seen: Seen,
    frame: Frame,
    name: AxleName,
    *,
    disc_mm: float = 0.0,
    card: dict[str, str] | None = None,
    faults: tuple[Fault, ...] = (),
    kept: int = 0,
    key: str = "",
) -> VerifyView:
    """The page of one axle's proof.

    Args:
        desk: The desk.
        seen: The job.
        frame: Around the page.
        name: The axle.
        disc_mm: The disc to look at; 0 = the recommended one.
        card: What was typed, where it came back with faults.
        faults: Those faults.
        kept: The revision just stored.
        key: Of the next entry.
    """
    job = seen.job
    axle = None if job is None else job.front if name == "front" else job.rear
    answer = desk.worked(seen).answer.axle(name) if axle is not None else None
    discs = discs_of(axle, answer) if axle is not None else ()
    looked = disc_mm if disc_mm else discs[0] if discs else 0.0
    there = job is not None and axle is not None
    address = f"/jobs/{seen.stored.id}/measure/{name}"
    return VerifyView(
        frame, name, looked, tuple(dict.fromkeys((*discs, *((looked,) if looked else ())))),
        rows_of(desk, seen, job, name, looked) if job is not None and there else (),
        missing_of(job, name, looked, address) if job is not None and axle is not None else (),
        work_of(name, axle) if axle is not None else (), answer is not None and answer.released,
        answer.decision if answer is not None else "", stage_of(seen.stored.card), card or dict(seen.stored.card),
        desk.today(), faults, kept, key, seen.stored.revision,
    )  # fmt: skip
