"""Addresses of the bench."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Depends, HTTPException, Request
from fastapi.responses import RedirectResponse, Response

from hubwright.web.bench.asked import asked_of
from hubwright.web.bench.views import bench_view, live_view
from hubwright.web.desk import Desk, desk_of
from hubwright.web.frame import AXLES
from hubwright.web.render import page

router = APIRouter(include_in_schema=False)
AtDesk = Annotated[Desk, Depends(desk_of)]
BESIDE, WAITING = "beside", "waiting"
PARTS = {"live": "bench/live.html", BESIDE: "bench/beside.html"}
"""Parts of the page a script asks for by name."""


@router.get("/jobs/{job_id}/bench")
def some_axle(job_id: str, desk: AtDesk) -> Response:
    """The axle somebody asked something of, else the front one."""
    job = desk.seen(job_id).job
    there = job.axles if job is not None else ()
    wished = [name for name, axle in there if axle.wish is not None]
    name = next(iter(wished or [name for name, _ in there]), "front")
    return RedirectResponse(f"/jobs/{job_id}/bench/{name}", 303)


@router.get("/jobs/{job_id}/bench/{axle}")
def bench(request: Request, job_id: str, axle: str, desk: AtDesk) -> Response:
    """One axle with the disc the address names on the bench."""
    name = next((known for known in AXLES if known == axle), None)
    if name is None:
        raise HTTPException(404)
    asked, seen, part = asked_of(request.query_params), desk.seen(job_id), request.headers.get("hw-part", "")
    status = 422 if asked.faults else 200
    if part in PARTS:
        live = live_view(desk, seen, name, asked, beside=part == BESIDE)
        if live is not None:
            return page(request, PARTS[part], live, status)
    view = bench_view(desk, seen, name, asked)
    if part != WAITING:
        return page(request, "bench/bench.html", view, status)
    answer = page(request, "bench/waiting.html", view, status)
    if not view.waiting:
        answer.headers["HX-Refresh"] = "true"
    return answer
