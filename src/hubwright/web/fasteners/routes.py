"""The address of the fasteners."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Depends, Request
from fastapi.responses import Response

from hubwright.parts.job import AxleName
from hubwright.web.desk import Desk, desk_of
from hubwright.web.fasteners.views import fasteners_view
from hubwright.web.looked_at import looked_at, looks_again
from hubwright.web.render import page

router = APIRouter(include_in_schema=False)


@router.get("/jobs/{job_id}/fasteners/{axle}")
def fasteners(request: Request, job_id: str, axle: AxleName, desk: Annotated[Desk, Depends(desk_of)]) -> Response:
    """The fasteners of one axle with one disc; ``length`` of the one to draw."""
    view = fasteners_view(desk, desk.seen(job_id), axle, looked_at(request), looked_at(request, "length"))
    answer = page(request, "fasteners/fasteners.html", view, 422 if view.faults else 200)
    return looks_again(request, answer, view.waiting)
