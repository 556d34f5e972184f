"""What the common pages of a job show."""

from __future__ import annotations

from dataclasses import dataclass

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
