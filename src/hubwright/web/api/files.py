"""Photographs, scans and papers of a job."""

from __future__ import annotations

import tempfile
from collections.abc import AsyncIterator
from typing import Annotated, BinaryIO, cast
from urllib.parse import quote

from fastapi import APIRouter, Depends, Query, Request, Response

from hubwright.errors import StoreRefusal
from hubwright.language import say
from hubwright.web.api.described import raw_answer, raw_body
from hubwright.web.api.door import BYTES, AtDesk, Decides, JobId, Key, Measures, Note, ThingId, refuse_kind
from hubwright.web.api.models import AttachmentOut
from hubwright.web.api.told import attachment_out

router = APIRouter(tags=["attachments"])
IN_MEMORY_BYTES = 4 * 1024 * 1024


async def spooled(request: Request) -> AsyncIterator[BinaryIO]:
    """Dependency: the bytes of the body as an open file, on the disk where they are many.

    Raises:
        HTTPException: 415 for a body of another kind.
    """
    refuse_kind(request, BYTES)
    with tempfile.SpooledTemporaryFile(IN_MEMORY_BYTES) as file:
        async for piece in request.stream():
            file.write(piece)
        file.seek(0)
        yield cast(BinaryIO, file)


@router.get("/jobs/{job_id}/attachments")
def find_attachments(desk: AtDesk, job_id: JobId, also_removed: bool = False) -> list[AttachmentOut]:
    """What is attached to a job, oldest first."""
    desk.cupboard.job(job_id)
    return [attachment_out(item) for item in desk.cupboard.attachments(job_id, also_removed=also_removed)]


@router.post(
    "/jobs/{job_id}/attachments",
    status_code=201,
    openapi_extra=raw_body(BYTES, "The file; its kind is found by its bytes."),
)
def add_attachment(
    desk: AtDesk,
    who: Measures,
    job_id: JobId,
    source: Annotated[BinaryIO, Depends(spooled)],
    name: Annotated[str, Query(min_length=1, max_length=400, description="File name; folders are taken off.")],
    note: Note = "",
    key: Key = None,
) -> AttachmentOut:
    """Keep a photograph, scan or paper with a job."""
    return attachment_out(desk.cupboard.attach(job_id, source, name, who.name, note=note, key=key))


@router.get(
    "/jobs/{job_id}/attachments/{attachment_id}",
    response_class=Response,
    responses=raw_answer(BYTES, "The bytes, for saving; their hash was checked."),
)
def read_attachment(desk: AtDesk, job_id: JobId, attachment_id: ThingId) -> Response:
    """The bytes of an attachment."""
    item, data = desk.cupboard.fetch(attachment_id)
    if item.job_id != job_id:
        raise StoreRefusal(attachment_id[:40], say("it does not belong to this job"), "", missing=True)
    named = f"attachment; filename*=UTF-8''{quote(item.name, safe='')}"
    return Response(data, media_type=BYTES, headers={"content-disposition": named, "etag": f'"{item.sha256}"'})


@router.delete("/jobs/{job_id}/attachments/{attachment_id}", status_code=204)
def remove_attachment(desk: AtDesk, who: Decides, job_id: JobId, attachment_id: ThingId) -> None:
    """Take an attachment off a job; its bytes stay in the store."""
    if all(item.id != attachment_id for item in desk.cupboard.attachments(job_id, also_removed=True)):
        raise StoreRefusal(attachment_id[:40], say("it does not belong to this job"), "", missing=True)
    desk.cupboard.detach(attachment_id, who.name)
