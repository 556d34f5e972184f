"""Addresses of the law."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Depends, HTTPException, Request
from fastapi.responses import RedirectResponse, Response

from hubwright.errors import BadInput, Fault
from hubwright.language import say
from hubwright.rules.ruleset import jurisdictions
from hubwright.store.tomltext import toml_of
from hubwright.web.desk import Desk, desk_of, sound
from hubwright.web.forms import Posted, posted
from hubwright.web.law.asked import asked_law, day_of
from hubwright.web.law.views import law_view, packs_view
from hubwright.web.looked_at import looked_at, looks_again
from hubwright.web.render import page
from hubwright.web.who import who_of

router = APIRouter(include_in_schema=False)
Form = Annotated[Posted, Depends(posted)]
AtDesk = Annotated[Desk, Depends(desk_of)]


@router.get("/jobs/{job_id}/law")
def law(request: Request, job_id: str, desk: AtDesk) -> Response:
    """Each limit against its measure, by the job's own law or by any other."""
    seen = desk.seen(job_id)
    asked = None if seen.job is None else asked_law(request.query_params, seen.job, desk.today())
    view = law_view(desk, seen, asked, looked_at(request))
    return looks_again(request, page(request, "law/law.html", view, 422 if view.faults else 200), view.waiting)


@router.post("/jobs/{job_id}/law")
def keep(request: Request, job_id: str, desk: AtDesk, form: Form) -> Response:
    """Countries and day kept in the job."""
    seen = desk.seen(job_id)
    asked = asked_law(form.fields, sound(seen), desk.today())
    if asked.faults:
        raise BadInput("law", asked.faults)
    if asked.other:
        edits = [("request.countries", toml_of(list(asked.countries))), ("date", toml_of(asked.on))]
        base = form.whole("base", seen.stored.revision)
        desk.cupboard.enter(job_id, edits, who_of(request).name, base=base, key=form.text("key") or None)
    return RedirectResponse(f"/jobs/{job_id}/law", 303)


@router.get("/law")
def packs(request: Request, desk: AtDesk, on: str = "") -> Response:
    """Every pack of rules the program holds."""
    return _packs(request, desk, on, None, "law/packs.html")


@router.get("/law/{code}")
def pack(request: Request, code: str, desk: AtDesk, on: str = "") -> Response:
    """One pack: limits in force, ended and to come, and duties."""
    if code not in jurisdictions():
        raise HTTPException(404)
    return _packs(request, desk, on, code, "law/pack.html")


def _packs(request: Request, desk: Desk, on: str, code: str | None, template: str) -> Response:
    typed = on.strip()
    found = day_of(typed) if typed else desk.today()
    faults = () if found is not None else (Fault("on", say("a day such as 2026-05-04"), typed[:40]),)
    view = packs_view(found or desk.today(), typed, code, faults)
    return page(request, template, view, 422 if faults else 200)
