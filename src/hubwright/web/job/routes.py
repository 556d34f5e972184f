"""Addresses every job has."""

from __future__ import annotations

from typing import Annotated
from urllib.parse import quote

from fastapi import APIRouter, Depends, Request
from fastapi.responses import RedirectResponse, Response

from hubwright.errors import BadInput, Fault
from hubwright.language import say
from hubwright.store.blobs import SHOWN
from hubwright.web.desk import Desk, desk_of
from hubwright.web.forms import Posted, posted
from hubwright.web.frame import STEPS, frame_of
from hubwright.web.job.views import AsideView, FilesView, HistoryView
from hubwright.web.render import page
from hubwright.web.who import who_of

router = APIRouter(include_in_schema=False)
Form = Annotated[Posted, Depends(posted)]
AtDesk = Annotated[Desk, Depends(desk_of)]


@router.get("/jobs/{job_id}")
def opened(request: Request, job_id: str, desk: AtDesk) -> Response:
    """Where a job opens: at its first page, or at its faults."""
    desk.cupboard.job(job_id)
    first = STEPS[0]
    return RedirectResponse(f"/jobs/{job_id}/{first.key}" + ("/rear" if first.per_axle else ""), 303)


@router.get("/jobs/{job_id}/history")
def history(request: Request, job_id: str, desk: AtDesk) -> Response:
    """Who, when, what."""
    revisions = tuple(reversed(desk.cupboard.history(job_id)))
    return page(request, "job/history.html", HistoryView(frame_of(desk, desk.seen(job_id), "history"), revisions))


@router.post("/jobs/{job_id}/undo")
def undo(request: Request, job_id: str, desk: AtDesk, form: Form) -> Response:
    """One revision taken back by a new one."""
    number = form.whole("revision", 0)
    desk.cupboard.undo(job_id, who_of(request).name, revision=number or None, key=form.text("key") or None)
    return RedirectResponse(f"/jobs/{job_id}/history", 303)


@router.get("/jobs/{job_id}/aside")
def aside(request: Request, job_id: str, desk: AtDesk) -> Response:
    """Entries put aside, with both values."""
    frame = frame_of(desk, desk.seen(job_id), "aside")
    return page(request, "job/aside.html", AsideView(frame, frame.asides))


@router.post("/jobs/{job_id}/aside/{aside_id}")
def settle(request: Request, job_id: str, aside_id: str, desk: AtDesk, form: Form) -> Response:
    """Taken or dropped; it stays in the history either way."""
    take = form.text("decision") == "take"
    if form.text("decision") not in ("take", "drop"):
        raise BadInput("entry", (Fault("decision", "take, drop", form.text("decision") or say("nothing")),))
    base = form.whole("base", desk.cupboard.job(job_id).revision)
    desk.cupboard.settle(aside_id, who_of(request).name, take=take, base=base)
    return RedirectResponse(f"/jobs/{job_id}/aside", 303)


@router.get("/jobs/{job_id}/files")
def files(request: Request, job_id: str, desk: AtDesk) -> Response:
    """Attachments and the job file."""
    view = FilesView(frame_of(desk, desk.seen(job_id), "files"), desk.cupboard.attachments(job_id))
    return page(request, "job/files.html", view)


@router.post("/jobs/{job_id}/files")
def attach(request: Request, job_id: str, desk: AtDesk, form: Form) -> Response:
    """A photograph, scan or paper."""
    file = form.file("file")
    if file is None:
        raise BadInput("files", (Fault("file", say("a file"), say("nothing")),))
    desk.cupboard.attach(
        job_id, file.file, file.filename or "file", who_of(request).name, note=form.text("note"),
        key=form.text("key") or None,
    )  # fmt: skip
    return RedirectResponse(f"/jobs/{job_id}/files", 303)


@router.post("/jobs/{job_id}/files/{attachment_id}/remove")
def detach(request: Request, job_id: str, attachment_id: str, desk: AtDesk, form: Form) -> Response:
    """Taken off the job; its bytes stay."""
    desk.cupboard.detach(attachment_id, who_of(request).name)
    return RedirectResponse(f"/jobs/{job_id}/files", 303)


@router.get("/files/{attachment_id}")
def fetch(request: Request, attachment_id: str, desk: AtDesk) -> Response:
    """The bytes of an attachment: pictures are shown, everything else is handed out for saving."""
    item, data = desk.cupboard.fetch(attachment_id)
    shown = item.kind in SHOWN
    kind = item.kind if shown else "application/octet-stream"
    return Response(data, media_type=kind, headers=_named(item.name, "inline" if shown else "attachment"))


@router.get("/jobs/{job_id}/job.toml")
def job_file(request: Request, job_id: str, desk: AtDesk) -> Response:
    """The job file, byte for byte."""
    stored = desk.cupboard.job(job_id)
    headers = {**_named(f"{job_id}-{stored.revision}.toml", "attachment"), "etag": f'"{stored.revision}"'}
    return Response(stored.data, media_type="application/toml", headers=headers)


@router.post("/jobs/{job_id}/job.toml")
def put_back(request: Request, job_id: str, desk: AtDesk, form: Form) -> Response:
    """An edited job file back in, made from the revision named."""
    file = form.file("file")
    base = form.whole("base", 0)
    if file is None or base < 1:
        faults = [Fault("file", say("a file"), say("nothing"))] if file is None else []
        faults += [Fault("base", say("the revision it was made from"), form.text("base"))] if base < 1 else []
        raise BadInput("job", tuple(faults))
    desk.cupboard.take(job_id, file.file.read(), who_of(request).name, base=base, key=form.text("key") or None)
    return RedirectResponse(f"/jobs/{job_id}/history", 303)


def _named(name: str, how: str) -> dict[str, str]:
    """The header that names a download (RFC 6266)."""
    return {"content-disposition": f"{how}; filename*=UTF-8''{quote(name, safe='')}"}
