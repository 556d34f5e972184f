"""What all pages work with: the cupboard, and what was worked out already for a job as it stands."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from hashlib import sha256
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING, TypeVar, cast

from fastapi import Request

from hubwright.errors import BadInput, Fault
from hubwright.jobs.jobfile import has_scans, parse, with_full_paths
from hubwright.language import spoken
from hubwright.parts.job import Job
from hubwright.quantities.axes import SIDES
from hubwright.quantities.text import unit
from hubwright.store.cupboard import Cupboard
from hubwright.store.things import StoredJob
from hubwright.store.tomltext import text_of
from hubwright.web.later import Later

if TYPE_CHECKING:
    from hubwright.jobs.answer import Answer

T = TypeVar("T")
KEPT = 200
SHAPES_FOLDER = "shapes"
"""In the data folder: attached scans by job and hash, where the sums can read them. May be removed at any time."""


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
        self._kept: OrderedDict[tuple[object, ...], object] = OrderedDict()
        self._making: dict[tuple[object, ...], Lock] = {}
        self._lock = Lock()
        self._later = Later()

    def seen(self, job_id: str, revision: int | None = None) -> Seen:
        """A job as it stands, or as it stood.

        Raises:
            StoreRefusal: when there is no such job or revision.
        """
        stored = self.cupboard.job(job_id, revision)
        if stored.faults:
            return Seen(stored, None, sha256(stored.data).hexdigest())
        job = parse(text_of(stored.data))
        if not has_scans(job):
            return Seen(stored, job, sha256(stored.data).hexdigest())
        return self._with_scans(stored, job)

    @property
    def later(self) -> Later:
        """Where things are worked out that take many seconds."""
        return self._later

    def answer(self, seen: Seen) -> Answer:
        """The whole answer of a job, in the language and units spoken here; worked out once.

        Raises:
            BadInput: while the job file has faults.
        """
        from hubwright.jobs.assess import assess  # noqa: PLC0415 - slow to import, not needed to start

        job, day = sound(seen), self.today()
        return self.once("answer", seen, lambda: assess(job, day), day)

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
                self._kept.move_to_end(key)
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
                    while len(self._kept) > KEPT:
                        self._kept.popitem(last=False)
            finally:
                with self._lock:
                    self._making.pop(key, None)
        return made

    def _with_scans(self, stored: StoredJob, job: Job) -> Seen:
        """The job with its attached scans laid out where they can be read, by name; the newest of a name counts."""
        attached = {item.name: item for item in self.cupboard.attachments(stored.id)}
        wanted = {scan.file for _, axle in job.axles for side in SIDES for scan in axle.corner(side).scan}
        found = {name: attached[name] for name in wanted if name in attached}
        mark = sha256(stored.data)
        for name in sorted(found):
            mark.update(found[name].sha256.encode())
        if set(found) != wanted:
            return Seen(stored, job, mark.hexdigest())
        folder = self.cupboard.data / SHAPES_FOLDER / mark.hexdigest()[:32]
        for name, item in found.items():
            self._lay_out(folder / name, item.id)
        return Seen(stored, with_full_paths(job, folder), mark.hexdigest())

    def _lay_out(self, path: Path, attachment_id: str) -> None:
        if path.is_file():
            return
        path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        part = path.with_name(f"{path.name}.{attachment_id}.part")
        part.write_bytes(self.cupboard.fetch(attachment_id)[1])
        part.replace(path)


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
