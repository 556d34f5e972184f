"""Jobs: found, taken in, looked at, and their history."""

from __future__ import annotations

from datetime import date
from typing import Annotated

from fastapi import APIRouter, Depends, Query, Response

from hubwright.parts.job import AxleName
from hubwright.store import things
from hubwright.store.shop_in_job import differences_from_shop
from hubwright.web.api.described import PREFIX, raw_body
from hubwright.web.api.door import TOML, AtDesk, Decides, JobId, Key, Note, Revision, body_of, entity_tag, json_only
from hubwright.web.api.models import ChangeOut, JobList, JobOut, ReceiptOut, RevisionOut, TakeOverIn
from hubwright.web.api.told import changes_out, job_out, line_out, receipt_out, revision_out
from hubwright.web.desk import Desk

router = APIRouter(tags=["jobs"])
Short = Annotated[str, Query(max_length=200)]


@router.get("/jobs")
def find_jobs(
    desk: AtDesk,
    words: Annotated[str, Query(max_length=200, description="Each must occur somewhere in the job.")] = "",
    title: Short = "",
    plate: Annotated[str, Query(max_length=40, description="Part of it; blanks and dashes do not matter.")] = "",
    customer: Short = "",
    axle: AxleName | None = None,
    stage: things.Stage | None = None,
    since: date | None = None,
    until: date | None = None,
    due_by: date | None = None,
    only_open_asides: bool = False,
    limit: Annotated[int, Query(ge=1, le=200)] = 50,
    skip: Annotated[int, Query(ge=0, le=1_000_000)] = 0,
) -> JobList:
    """Jobs for which everything stated holds, the one changed last first."""
    asked = things.Query(
        words, title, plate, customer, axle, stage, since, until, due_by, only_open_asides, limit + 1, skip
    )
    lines = desk.cupboard.find(asked)
    return JobList([line_out(line) for line in lines[:limit]], skip, len(lines) > limit)


@router.post("/jobs", status_code=201, openapi_extra=raw_body(TOML, "The job file; it is kept byte for byte."))
def add_job(
    desk: AtDesk,
    who: Decides,
    answer: Response,
    data: Annotated[bytes, Depends(body_of(TOML))],
    customer: Annotated[str, Query(max_length=4000)] = "",
    note: Note = "",
    key: Key = None,
) -> ReceiptOut:
    """Take a job file in as a new job."""
    receipt = desk.cupboard.add(data, who.name, card={"@customer": customer}, note=note, key=key)
    answer.headers["location"] = f"{PREFIX}/jobs/{receipt.job_id}"
    answer.headers["etag"] = entity_tag(receipt.revision)
    return receipt_out(receipt)


@router.get("/jobs/{job_id}")
def read_job(desk: AtDesk, job_id: JobId, answer: Response, revision: Revision = None) -> JobOut:
    """A job with the tables of its file, its card and its faults."""
    stored = desk.cupboard.job(job_id, revision)
    answer.headers["etag"] = entity_tag(stored.revision)
    return job_out(stored)


@router.get("/jobs/{job_id}/shop")
def compare_with_shop(desk: AtDesk, who: Decides, job_id: JobId) -> list[ChangeOut]:
    """In what the job differs from what the shop has settled since: `before` stands in the job, `value` in the shop."""
    return changes_out(_behind(desk, job_id))


@router.post("/jobs/{job_id}/shop", dependencies=[Depends(json_only)])
def take_over_shop(desk: AtDesk, who: Decides, job_id: JobId, asked: TakeOverIn, answer: Response) -> ReceiptOut:
    """Let the job take over what the shop has settled since it began."""
    entry = [(change.field, change.value) for change in _behind(desk, job_id)]
    receipt = desk.cupboard.enter(job_id, entry, who.name, base=asked.base, note=asked.note, key=asked.key)
    answer.headers["etag"] = entity_tag(receipt.revision)
    return receipt_out(receipt)


def _behind(desk: Desk, job_id: str) -> tuple[things.Change, ...]:
    shop, stored = desk.cupboard.shop.now(), desk.cupboard.job(job_id)
    return differences_from_shop(stored.data, shop.data) if shop.revision else ()


@router.get("/jobs/{job_id}/history")
def read_history(desk: AtDesk, job_id: JobId) -> list[RevisionOut]:
    """Every revision, oldest first: who, when, what."""
    return [revision_out(revision) for revision in desk.cupboard.history(job_id)]
