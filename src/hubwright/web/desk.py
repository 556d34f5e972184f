"""What all pages work with: the cupboard, and what was worked out already for a job as it stands."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from hashlib import sha256
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING, TypeVar, cast

from fastapi import Request

from hubwright.errors import BadInput, Fault
from hubwright.jobs.held import held
from hubwright.jobs.jobfile import has_scans, has_shapes, with_full_paths
from hubwright.language import spoken
from hubwright.parts.job import Job
from hubwright.quantities.axes import SIDES
from hubwright.quantities.text import unit
from hubwright.store.cupboard import Cupboard
from hubwright.store.things import StoredJob
from hubwright.store.tomltext import job_of
from hubwright.web.later import Awaited, Later

if TYPE_CHECKING:
    from hubwright.jobs.answer import Answer
    from hubwright.web.working import Worked

T = TypeVar("T")
KEPT, KEPT_BYTES = 200, 256 * 1024 * 1024
SHORTLY_S = 0.4
"""How long a page waits for a map before it answers without: one already known comes at once."""
SHAPES_FOLDER = "shapes"
"""In the data folder: attached scans under their names, where the sums can read them. May be removed at any time."""


@dataclass(frozen=True)
class Seen:
    """A stored job as a page sees it.

    Attributes:
        stored: The bytes, the card, the revision.
        job: What they say; None while the file has faults.
        mark: Changes with every byte of the file and every scan it uses.
    """

    stored: StoredJob
    job: Job | None
    mark: str

    @property
    def faults(self) -> tuple[Fault, ...]:
        """Why there is no job."""
        return self.stored.faults


class Desk:
    """One for the whole server; safe to use from many threads."""

    def __init__(self, cupboard: Cupboard, today: Callable[[], date] = date.today) -> None:
        self.cupboard, self.today = cupboard, today
        self._kept = held(KEPT_BYTES, KEPT)
        self._making: dict[tuple[object, ...], Lock] = {}
        self._lock = Lock()
        self._later = Later()
        self.shortly_s = SHORTLY_S

    def seen(self, job_id: str, revision: int | None = None) -> Seen:
        """A job as it stands, or as it stood.

        Raises:
            StoreRefusal: when there is no such job or revision.
        """
        stored = self.cupboard.job(job_id, revision)
        if stored.faults:
            return Seen(stored, None, sha256(stored.data).hexdigest())
        job = job_of(stored.data)
        if not has_scans(job):
            return Seen(stored, job, sha256(stored.data).hexdigest())
        return self._with_scans(stored, job)

    @property
    def later(self) -> Later:
        """Where things are worked out that take many seconds."""
        return self._later

    def answer(self, seen: Seen) -> Answer:
        """The whole answer of a job, in the language and units spoken here; worked out once. Waits for its maps.

        Raises:
            BadInput: while the job file has faults.
        """
        job = sound(seen)
        if not has_shapes(job):
            return self._from_readings(seen, job).answer
        worked = self._with_maps(seen, job).within(None)
        assert worked is not None  # waited for
        return worked.answer

    def worked(self, seen: Seen) -> Worked:
        """A job worked out as far as it can be now: with its maps once they are drawn, until then from readings alone.

        Raises:
            BadInput: while the job file has faults.
        """
        job = sound(seen)
        if not has_shapes(job):
            return self._from_readings(seen, job)
        worked = self._with_maps(seen, job).within(self.shortly_s)
        return self._from_readings(seen, job, waiting=True) if worked is None else worked

    def _from_readings(self, seen: Seen, job: Job, *, waiting: bool = False) -> Worked:
        from hubwright.web.working import work_out  # noqa: PLC0415 - slow to import, not needed to start

        today = self.today()
        return self.once("worked", seen, lambda: work_out(job, today, waiting=waiting), today)

    def _with_maps(self, seen: Seen, job: Job) -> Awaited[Worked]:
        from hubwright.web.working import ask_ahead, work_out_with_maps  # noqa: PLC0415 - as above

        today = self.today()
        key = (seen.mark, spoken(), unit(), today)
        return self._later.of(key, lambda: work_out_with_maps(job, today), ask_ahead)

    def once(self, what: str, seen: Seen, make: Callable[[], T], *also: object) -> T:
        """What ``make`` gives for this very job in this language and these units: worked out once and kept a while.

        Args:
            what: Name of the thing.
            seen: The job it is made from.
            make: Works it out; called by one thread at a time for one thing.
            also: What else it depends on.
        """
        return self.once_for((what, seen.mark, spoken(), unit(), *also), make)

    def once_for(self, key: tuple[object, ...], make: Callable[[], T]) -> T:
        """What ``make`` gives, worked out once for a key and kept until much else was asked."""
        with self._lock:
            if key in self._kept:
                return cast(T, self._kept[key])
            turn = self._making.setdefault(key, Lock())
        with turn:
            with self._lock:
                if key in self._kept:
                    return cast(T, self._kept[key])
            try:
                made = make()
                with self._lock:
                    self._kept[key] = made
            finally:
                with self._lock:
                    self._making.pop(key, None)
        return made

    def _with_scans(self, stored: StoredJob, job: Job) -> Seen:
        """The job with its attached scans laid out where they can be read, by name; the newest of a name counts."""
        attached = {item.name: item for item in self.cupboard.attachments(stored.id)}
        wanted = {scan.file for _, axle in job.axles for side in SIDES for scan in axle.corner(side).scan}
        found = {name: attached[name] for name in wanted if name in attached}
        scans = sha256(repr(sorted((name, item.sha256) for name, item in found.items())).encode()).hexdigest()
        mark = sha256(stored.data + scans.encode()).hexdigest()
        if set(found) != wanted:
            return Seen(stored, job, mark)
        folder = self.cupboard.data / SHAPES_FOLDER / scans[:32]  # the same for every state of the job with these scans
        for name, item in found.items():
            if not (folder / name).is_file():
                self.cupboard.lay_out(item.id, folder / name)
        return Seen(stored, with_full_paths(job, folder), mark)

    def laid_out(self, job_id: str, name: str) -> Path | None:
        """Where an attached file of a job can be read; None where none of that name is attached. The newest counts."""
        item = {item.name: item for item in self.cupboard.attachments(job_id)}.get(name)
        if item is None:
            return None
        path = self.cupboard.data / SHAPES_FOLDER / item.sha256[:32] / name
        if not path.is_file():
            self.cupboard.lay_out(item.id, path)
        return path


def sound(seen: Seen) -> Job:
    """The job of a file without faults.

    Raises:
        BadInput: with the faults.
    """
    if seen.job is None:
        raise BadInput("job", seen.faults)
    return seen.job


def desk_of(request: Request) -> Desk:
    """The desk of the server."""
    return cast(Desk, request.app.state.desk)
