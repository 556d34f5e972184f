"""The job file: out and in, byte for byte."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Depends, Header, Response

from hubwright.web.api.described import raw_answer, raw_body
from hubwright.web.api.door import TOML, AtDesk, Decides, JobId, Key, Note, Revision, Wanted, body_of, entity_tag
from hubwright.web.api.models import ReceiptOut
from hubwright.web.api.told import receipt_out

router = APIRouter(tags=["job file"])
ADDRESS = "/jobs/{job_id}/job.toml"


@router.get(
    ADDRESS,
    response_class=Response,
    responses={**raw_answer(TOML, "The file; its ETag is the revision."), 304: {"description": "As you have it."}},
)
def read_job_file(
    desk: AtDesk,
    job_id: JobId,
    revision: Revision = None,
    if_none_match: Annotated[str | None, Header(max_length=400)] = None,
) -> Response:
    """The job file, byte for byte."""
    stored = desk.cupboard.job(job_id, revision)
    tag = entity_tag(stored.revision)
    known = [part.strip().removeprefix("W/") for part in (if_none_match or "").split(",")]
    headers = {"etag": tag, "cache-control": "no-cache"}
    if tag in known:
        return Response(None, 304, headers)
    return Response(stored.data, media_type=TOML, headers=headers)


@router.put(ADDRESS, openapi_extra=raw_body(TOML, "The whole edited file."))
def put_job_file(
    desk: AtDesk,
    who: Decides,
    job_id: JobId,
    base: Wanted,
    answer: Response,
    data: Annotated[bytes, Depends(body_of(TOML))],
    merge: bool = False,
    note: Note = "",
    key: Key = None,
) -> ReceiptOut:
    """Take a whole edited file back.

    When somebody has changed the job since the revision named by If-Match, nothing is stored (412); with `merge` what does not
    clash goes in and the rest is put aside.
    """
    receipt = desk.cupboard.take(job_id, data, who.name, base=base, note=note, key=key, merge=merge)
    answer.headers["etag"] = entity_tag(receipt.revision)
    return receipt_out(receipt)
