"""Addresses of the paper."""

from __future__ import annotations

from typing import Annotated
from urllib.parse import quote

from fastapi import APIRouter, Depends, HTTPException, Request
from fastapi.responses import Response

from hubwright.errors import BadInput, Fault
from hubwright.language import say
from hubwright.reports import Printed, kinds_for, print_sheet, print_together
from hubwright.reports.kinds import KINDS
from hubwright.web.desk import Desk, desk_of
from hubwright.web.frame import frame_of
from hubwright.web.law.asked import day_of
from hubwright.web.options import Options as ServerOptions
from hubwright.web.paper.asked import NAMES, options_asked
from hubwright.web.paper.views import DayView, PaperView, sheet_of
from hubwright.web.paper.work import jobs_of, orders
from hubwright.web.render import page

router = APIRouter(include_in_schema=False)
AtDesk = Annotated[Desk, Depends(desk_of)]
TOGETHER = "all"


@router.get("/jobs/{job_id}/paper")
def paper(request: Request, job_id: str, desk: AtDesk) -> Response:
    """Every sheet the job has something for."""
    seen = desk.seen(job_id)
    asked = {name: request.query_params.get(name, "") for name in NAMES}
    answer = desk.worked(seen).answer if seen.job is not None else None  # the list need not wait for maps
    sheets = tuple(sheet_of(name, answer) for name in kinds_for(answer)) if answer is not None else ()
    return page(request, "paper/paper.html", PaperView(frame_of(desk, seen, "paper"), sheets, asked))


@router.get("/jobs/{job_id}/paper/{name}.{ending}")
def sheet(request: Request, job_id: str, name: str, ending: str, desk: AtDesk) -> Response:
    """One sheet, or all of them in one file."""
    if (name, ending) != (TOGETHER, "pdf") and (name not in KINDS or ending not in KINDS[name].formats):
        raise HTTPException(404)
    seen = desk.seen(job_id)
    options = options_asked({**request.query_params, "format": ending})
    if name == TOGETHER:
        names = kinds_for(desk.answer(seen)) if seen.job is not None else ()
        return _sent(print_together(orders(desk, seen, names, options, _address(request)), options), job_id)
    order = orders(desk, seen, (name,), options, _address(request))[0]
    return _sent(print_sheet(name, order.job, order.answer, order.identity, options), job_id)


@router.get("/paper")
def day(request: Request, desk: AtDesk, on: str = "") -> Response:
    """The jobs of a day, for printing their sheets together."""
    asked = day_of(on.strip()) if on.strip() else desk.today()
    titles = tuple((seen.stored.id, seen.job.title) for seen in jobs_of(desk, asked or desk.today()) if seen.job)
    kinds = tuple((name, say(kind.title)) for name, kind in KINDS.items())
    faults = () if asked else (Fault("on", say("a day such as 2026-05-04"), on[:40]),)
    view = DayView(asked or desk.today(), titles, kinds, faults)
    return page(request, "paper/day.html", view, 422 if faults else 200)


@router.get("/paper/day.pdf")
def day_sheets(request: Request, desk: AtDesk, on: str) -> Response:
    """The ticked sheets of the ticked jobs of a day in one file, each job with what it has something for."""
    asked = day_of(on.strip())
    if asked is None:
        raise BadInput("paper", (Fault("on", say("a day such as 2026-05-04"), on[:40]),))
    options = options_asked(request.query_params)
    kinds = request.query_params.getlist("sheet") or ["job-card"]
    jobs = request.query_params.getlist("job")
    chosen = [seen for seen in jobs_of(desk, asked) if not jobs or seen.stored.id in jobs]
    made = []
    for seen in chosen:
        fitting = tuple(name for name in kinds_for(desk.answer(seen)) if name in kinds)
        made += orders(desk, seen, fitting, options, _address(request)) if fitting else []
    return _sent(print_together(made, options), asked.isoformat())


def _sent(printed: Printed, beginning: str) -> Response:
    """PDF opens in the browser; everything else is saved."""
    how = "inline" if printed.media_type == "application/pdf" else "attachment"
    name = quote(f"{beginning}-{printed.name}", safe="")
    return Response(
        printed.data, media_type=printed.media_type, headers={"content-disposition": f"{how}; filename*=UTF-8''{name}"}
    )


def _address(request: Request) -> str:
    """Where others reach the program: as settled at the start, else as this request came in, but never a loopback name."""
    options: ServerOptions = request.app.state.options
    if options.base_address or not options.network:
        return options.base_address
    return f"{request.url.scheme}://{request.url.netloc}"
