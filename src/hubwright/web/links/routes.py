"""Addresses of links and springs."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Depends, Query, Request
from fastapi.responses import RedirectResponse, Response

from hubwright.errors import BadInput, Fault
from hubwright.parts.job import AxleName
from hubwright.web.desk import Desk, desk_of
from hubwright.web.fields.form import Box, trial
from hubwright.web.fields.tree import Tree
from hubwright.web.forms import Posted, posted
from hubwright.web.frame import frame_of
from hubwright.web.links.entry import values_of
from hubwright.web.links.views import view_of
from hubwright.web.render import page
from hubwright.web.who import who_of

router = APIRouter(include_in_schema=False)
Form = Annotated[Posted, Depends(posted)]
AtDesk = Annotated[Desk, Depends(desk_of)]
Kind = Annotated[str, Query(max_length=40)]
Count = Annotated[int, Query(ge=0, le=10**9)]


@router.get("/jobs/{job_id}/links/{axle}")
def links(
    request: Request, job_id: str, axle: AxleName, desk: AtDesk, kind: Kind = "", kept: Count = 0, aside: Count = 0
) -> Response:
    """The form, filled from the job."""
    seen = desk.seen(job_id)
    box = Box(Tree(seen.stored.data), request.state.likes.system)
    frame = frame_of(desk, seen, "links", axle)
    return page(request, "links/links.html", view_of(seen, frame, axle, box, kind, kept=kept, aside=bool(aside)))


@router.post("/jobs/{job_id}/links/{axle}")
def keep(request: Request, job_id: str, axle: AxleName, desk: AtDesk, form: Form) -> Response:
    """What was changed goes into the job together, since links only hold a wheel together."""
    stored = desk.cupboard.job(job_id)
    base = min(form.whole("base", stored.revision), stored.revision)
    before = desk.cupboard.job(job_id, base)
    tree = Tree(before.data)
    values, faults = values_of(form, tree, form.system(request.state.likes.system))
    entries = [tree.entry(field, value) for field, value in values]
    found = faults or trial(before, entries)
    if found:
        return _back(request, desk, job_id, axle, form, found)
    if not entries:
        return RedirectResponse(f"/jobs/{job_id}/links/{axle}", 303)
    try:
        receipt = desk.cupboard.enter(
            job_id, entries, who_of(request).name, base=base, key=form.text("key") or None
        )  # fmt: skip
    except BadInput as error:
        return _back(request, desk, job_id, axle, form, error.faults)
    aside = "&aside=1" if receipt.aside is not None else ""
    return RedirectResponse(f"/jobs/{job_id}/links/{axle}?kept={receipt.revision}{aside}#kept", 303)


def _back(
    request: Request, desk: Desk, job_id: str, axle: AxleName, form: Posted, faults: tuple[Fault, ...]
) -> Response:
    seen = desk.seen(job_id)
    box = Box(Tree(seen.stored.data), form.system(request.state.likes.system), form, faults)
    frame = frame_of(desk, seen, "links", axle)
    kind = form.text(f"v:{axle}.hardpoints.kind")
    return page(request, "links/links.html", view_of(seen, frame, axle, box, kind, form=form, faults=faults), 422)
