"""Paper: every sheet a job has something for, as PDF, and where it fits as a table or a drawing."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Any, Literal

from fastapi import APIRouter, Query, Request, Response

from hubwright.errors import StoreRefusal
from hubwright.language import say
from hubwright.parts.job import AxleName
from hubwright.reports import Options, kinds_for, print_sheet, print_together
from hubwright.reports.kinds import KINDS
from hubwright.reports.options import Format, Paper
from hubwright.web.api.door import AtDesk, Decides, JobId, Revision, Spoken, ThingId
from hubwright.web.api.waiting import MAY_WAIT, answer_of
from hubwright.web.desk import Desk, Seen
from hubwright.web.options import Options as ServerOptions
from hubwright.web.paper.asked import options_asked
from hubwright.web.paper.work import orders

router = APIRouter(tags=["paper"], dependencies=[Spoken])
MEDIA = (
    "application/pdf", "text/csv", "image/svg+xml", "image/vnd.dxf",
    "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
)  # fmt: skip
BINARY = {"schema": {"type": "string", "format": "binary"}}
A_SHEET: dict[int | str, dict[str, Any]] = {200: {"description": "The sheet.", "content": dict.fromkeys(MEDIA, BINARY)}}
OnPaper = Annotated[Paper, Query(description="Size of the paper.")]


@dataclass(frozen=True)
class PaperOut:
    """One sheet that can be had, and in which formats."""

    name: str
    title: str
    formats: list[str]


@router.get("/jobs/{job_id}/papers", responses=MAY_WAIT)
def find_papers(desk: AtDesk, who: Decides, job_id: JobId, revision: Revision = None) -> list[PaperOut]:
    """Sheets the job has something for, in the order in which they are needed."""
    names = kinds_for(answer_of(desk, desk.seen(job_id, revision)))
    return [PaperOut(name, say(KINDS[name].title), list(KINDS[name].formats)) for name in names]


@router.get("/jobs/{job_id}/papers.pdf", response_class=Response, responses={**A_SHEET, **MAY_WAIT})
def print_all(
    request: Request, desk: AtDesk, who: Decides, job_id: JobId, paper: OnPaper = "a4", revision: Revision = None
) -> Response:
    """All sheets of the job in one PDF with bookmarks."""
    seen, options = desk.seen(job_id, revision), options_asked({"paper": paper})
    names = kinds_for(answer_of(desk, seen))
    printed = print_together(orders(desk, seen, names, options, _address(request)), options)
    return Response(printed.data, media_type=printed.media_type)


@router.get("/jobs/{job_id}/papers/{name}", response_class=Response, responses=A_SHEET)
def print_one(
    request: Request,
    desk: AtDesk,
    who: Decides,
    job_id: JobId,
    name: ThingId,
    format: Format = "pdf",  # noqa: A002 - the name of the parameter in addresses
    paper: OnPaper = "a4",
    axle: Annotated[AxleName | None, Query(description="Drawing of a disc: which axle.")] = None,
    thickness_mm: Annotated[float | None, Query(gt=0, le=150, allow_inf_nan=False)] = None,
    kind: Annotated[Literal["plain", "lipped"] | None, Query(description="Drawing of a disc: which kind.")] = None,
    revision: Revision = None,
) -> Response:
    """One sheet."""
    if name not in KINDS or format not in KINDS[name].formats:
        todo = say("See the sheets of the job and their formats.")
        raise StoreRefusal(name[:40], say("there is no such sheet in this format"), todo, missing=True)
    stated = {"format": format, "paper": paper, "axle": axle, "kind": kind, "t": thickness_mm}
    options = options_asked({key: str(value) for key, value in stated.items() if value is not None})
    order = _order(desk, desk.seen(job_id, revision), name, options, _address(request))
    printed = print_sheet(name, order.job, order.answer, order.identity, options)
    return Response(printed.data, media_type=printed.media_type)


def _order(desk: Desk, seen: Seen, name: str, options: Options, address: str) -> Any:
    return orders(desk, seen, (name,), options, address)[0]


def _address(request: Request) -> str:
    settled: ServerOptions = request.app.state.options
    return settled.base_address
