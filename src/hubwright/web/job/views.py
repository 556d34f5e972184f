"""What the common pages of a job show."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.jobs.scans import SUFFIXES
from hubwright.language import say
from hubwright.language.words import corner_title
from hubwright.quantities.axes import SIDES
from hubwright.store.blobs import SHOWN
from hubwright.store.things import Aside, Attachment, Revision
from hubwright.web.frame import Frame


@dataclass(frozen=True)
class HistoryView:
    """Every revision, the newest first."""

    frame: Frame
    revisions: tuple[Revision, ...]


@dataclass(frozen=True)
class AsideView:
    """Entries that wait for a decision."""

    frame: Frame
    asides: tuple[Aside, ...]


@dataclass(frozen=True)
class FilesView:
    """Photographs, scans and papers of a job, and the job file itself."""

    frame: Frame
    files: tuple[Attachment, ...]

    def is_picture(self, item: Attachment) -> bool:
        """Whether a page may show it by itself."""
        return item.kind in SHOWN

    def is_scan(self, item: Attachment) -> bool:
        """Whether it may be a scan, to be placed at a wheel."""
        return item.name.lower().endswith(SUFFIXES) and not self.frame.faults

    @property
    def wheels(self) -> tuple[tuple[str, str], ...]:
        """Words and addresses of the wheels a scan can be placed at."""
        return tuple(
            (
                say("Place as scan: {corner}", corner=corner_title(axle, side)),
                f"/jobs/{self.frame.job_id}/space/{axle}/{side}/scan",
            )
            for axle in self.frame.axles
            for side in SIDES
        )
