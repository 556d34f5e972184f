"""Addresses of edges, outlines and curves."""

from __future__ import annotations

from typing import Annotated
from urllib.parse import urlencode

from fastapi import APIRouter, Depends, Query, Request
from fastapi.responses import JSONResponse, RedirectResponse, Response

from hubwright.errors import BadInput, Fault
from hubwright.language import say
from hubwright.parts.job import AxleName
from hubwright.web.decisions import refuse_undecided
from hubwright.web.desk import Desk, desk_of
from hubwright.web.fields.form import as_posted, trial
from hubwright.web.fields.tree import Tree
from hubwright.web.forms import Posted, posted
from hubwright.web.frame import frame_of
from hubwright.web.lines.attached import tables_of, with_points
from hubwright.web.lines.curves import Curve
from hubwright.web.lines.take import values_of
from hubwright.web.lines.views import curve_at, view_of
from hubwright.web.render import page
from hubwright.web.who import who_of

router = APIRouter(include_in_schema=False)
Form = Annotated[Posted, Depends(posted)]
AtDesk = Annotated[Desk, Depends(desk_of)]
At = Annotated[str, Query(max_length=200)]
Count = Annotated[int, Query(ge=0, le=10**9)]


@router.get("/jobs/{job_id}/lines/{axle}")
def lines(
    request: Request, job_id: str, axle: AxleName, desk: AtDesk, at: At = "", row: Count = 0, place: Count = 0,
    kept: Count = 0, aside: Count = 0,
) -> Response:  # fmt: skip
    """Every curve of the axle, and the rows of the one named."""
    seen = desk.seen(job_id)
    view = view_of(
        seen, frame_of(desk, seen, "lines", axle), axle, request.state.likes.system, at, row=row, place=place, kept=kept,
        files=tables_of(desk, job_id),
        aside=bool(aside),
    )  # fmt: skip
    return page(request, "lines/lines.html", view)


@router.post("/jobs/{job_id}/lines/{axle}")
def keep(request: Request, job_id: str, axle: AxleName, desk: AtDesk, form: Form) -> Response:
    """One row, a head, or something taken out."""
    script = "application/json" in request.headers.get("accept", "")
    stored = desk.cupboard.job(job_id)
    at, system = form.text("at"), form.system(request.state.likes.system)
    # A row more is added to what stands there now: two people who add to one edge do not meet.
    adds = form.text("what") == "row" and not form.whole("row", 0)
    base = stored.revision if adds else min(form.whole("base", stored.revision), stored.revision)
    tree = Tree(desk.cupboard.job(job_id, base).data)
    curve = curve_at(tree, axle, at)
    try:
        if curve is None:
            raise BadInput("line", (Fault("at", say("an edge, outline or curve of this axle"), at[:60]),))
        found = [(field, with_points(desk, job_id, field, it)) for field, it in values_of(curve, form, tree, system)]
        entries = [tree.entry(field, value) for field, value in found]
        faults = tuple(as_posted(fault, tree) for fault in trial(desk.cupboard.job(job_id, base), entries))
        if faults:
            raise BadInput("line", faults)
    except BadInput as error:
        if script:
            return JSONResponse({"faults": [_words(fault) for fault in error.faults]}, 422)
        seen = desk.seen(job_id)
        frame = frame_of(desk, seen, "lines", axle)
        row, place = form.whole("row", 0), form.whole("place", 0)
        view = view_of(
            seen,
            frame,
            axle,
            system,
            at,
            row=row,
            place=place,
            form=form,
            faults=error.faults,
            files=tables_of(desk, job_id),
        )
        return page(request, "lines/lines.html", view, 422)
    refuse_undecided(who_of(request), entries)  # an offered package is a decision, not a reading
    if not entries:
        return RedirectResponse(_address(job_id, axle, at), 303)
    key = form.text("key") or None
    receipt = desk.cupboard.enter(job_id, entries, who_of(request).name, base=base, key=key)
    if script:
        told = None if receipt.aside is None else _aside(job_id)
        return JSONResponse({"revision": receipt.revision, "aside": told, "questions": []})
    after = _after(curve, Tree(desk.cupboard.job(job_id).data), axle)
    more = {"kept": receipt.revision, **({"aside": 1} if receipt.aside is not None else {})}
    return RedirectResponse(f"{_address(job_id, axle, after, **more)}#rows", 303)


def _after(curve: Curve | None, now: Tree, axle: AxleName) -> str:
    """The curve to show next: the same one; of one just begun the last of its list."""
    if curve is None:
        return ""
    if not curve.is_new:
        return curve.id
    start = curve.path.removesuffix("[+]")
    return f"{curve.kind.key}|{start.partition('.')[2]}[{now.count(start)}]"


def _address(job_id: str, axle: AxleName, at: str, **more: int) -> str:
    return f"/jobs/{job_id}/lines/{axle}?{urlencode({'at': at, **more})}"


def _words(fault: Fault) -> dict[str, str]:
    words = say("Wanted {wanted}; given {given}.", wanted=fault.wanted, given=fault.given)
    return {"field": fault.field, "words": f"{words} {fault.todo}".strip()}


def _aside(job_id: str) -> dict[str, str]:
    words = say("Part of it was put aside: somebody else changed the same field meanwhile.")
    return {"words": words, "address": f"/jobs/{job_id}/aside"}
