"""Jobs and the whole shop on their way elsewhere: export, import, backup, and a look through everything."""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Annotated, BinaryIO

from fastapi import APIRouter, Depends
from fastapi.responses import FileResponse, Response
from starlette.background import BackgroundTask

from hubwright.web.api.described import raw_answer, raw_body
from hubwright.web.api.door import BYTES, AtDesk, Decides, JobId, Manages
from hubwright.web.api.files import spooled
from hubwright.web.api.models import AuditOut, BroughtOut

router = APIRouter(tags=["moving"])
ZIP = "application/zip"


def archive_answer(write: Callable[[Path], object], name: str) -> Response:
    """An archive written into a folder of its own and removed once it is sent."""
    folder = tempfile.TemporaryDirectory(prefix="hubwright-")
    try:
        target = Path(folder.name) / name
        write(target)
    except BaseException:
        folder.cleanup()
        raise
    return FileResponse(target, media_type=ZIP, filename=name, background=BackgroundTask(folder.cleanup))


@router.get(
    "/jobs/{job_id}/export", response_class=Response, responses=raw_answer(ZIP, "File, history and attachments.")
)
def export_job(desk: AtDesk, who: Decides, job_id: JobId) -> Response:
    """One job with its history, entries put aside and attachments in one file."""
    return archive_answer(lambda target: desk.cupboard.export(target, who.name, [job_id]), "job.zip")


@router.get("/export", response_class=Response, responses=raw_answer(ZIP, "All jobs."))
def export_shop(desk: AtDesk, who: Manages) -> Response:
    """All jobs with history and attachments in one file."""
    return archive_answer(lambda target: desk.cupboard.export(target, who.name), "shop.zip")


def laid_down(source: Annotated[BinaryIO, Depends(spooled)]) -> Iterator[Path]:
    """Dependency: the body as a file with a name."""
    with tempfile.TemporaryDirectory(prefix="hubwright-") as folder:
        path = Path(folder) / "import.zip"
        with path.open("wb") as file:
            while piece := source.read(1024 * 1024):
                file.write(piece)
        yield path


@router.post("/import", openapi_extra=raw_body(BYTES, "A file that an export has written."))
def import_jobs(desk: AtDesk, who: Manages, path: Annotated[Path, Depends(laid_down)]) -> BroughtOut:
    """Take the jobs of an export in; nothing here is overwritten, and taken in twice everything is there once."""
    brought = desk.cupboard.bring(path, who.name)
    return BroughtOut(list(brought.new), list(brought.longer), list(brought.same), dict(brought.copies))


@router.get("/backup", response_class=Response, responses=raw_answer(ZIP, "The whole store."))
def back_up(desk: AtDesk, who: Manages) -> Response:
    """The whole store in one file, taken while others work; `hubwright store restore` takes it back."""
    return archive_answer(desk.cupboard.backup, "backup.zip")


@router.get("/check")
def check_store(desk: AtDesk, who: Manages) -> AuditOut:
    """Check the database, every history link by link, and every attachment's bytes."""
    audit = desk.cupboard.check()
    return AuditOut(audit.jobs, audit.revisions, audit.attachments, list(audit.problems), audit.orphans)
