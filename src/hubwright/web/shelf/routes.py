"""Addresses of the shelf."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Depends, Query, Request
from fastapi.responses import RedirectResponse, Response

from hubwright.errors import BadInput, Fault
from hubwright.web.desk import Desk, desk_of
from hubwright.web.forms import Posted, posted
from hubwright.web.render import page
from hubwright.web.shelf.demo_shop import fill
from hubwright.web.shelf.fresh import faults_of, job_text
from hubwright.web.shelf.from_shop import offered, tables_for_jobs, usual_for_jobs
from hubwright.web.shelf.views import NewJob, shelf_of, use_words
from hubwright.web.who import who_of

router = APIRouter(include_in_schema=False)
FIELDS = ("words", "plate", "customer", "axle", "stage", "since", "until")
LARGEST_JOB_BYTES = 4 * 1024 * 1024
Form = Annotated[Posted, Depends(posted)]
AtDesk = Annotated[Desk, Depends(desk_of)]


@router.get("/")
def shelf(request: Request, desk: AtDesk, skip: Annotated[int, Query(ge=0, le=1_000_000)] = 0) -> Response:
    """All jobs, or those looked for."""
    asked = {name: request.query_params.get(name, "").strip() for name in FIELDS}
    return page(request, "shelf/shelf.html", shelf_of(desk.cupboard, asked, skip, desk.today()))


@router.get("/new")
def new(request: Request, desk: AtDesk) -> Response:
    """The form for a new job."""
    return page(request, "shelf/new.html", _empty(desk), uses=use_words())


@router.post("/new")
def add(request: Request, desk: AtDesk, form: Form) -> Response:
    """A new job; without faults it opens."""
    typed = {name: form.text(name) for name in ("title", "description", "plate", "customer", "reason", "use")}
    countries = form.texts("countries")
    faults = faults_of(typed, countries)
    if faults:
        view = NewJob({**typed, "countries": " ".join(countries)}, faults, offered(desk.cupboard.shop.now()))
        return page(request, "shelf/new.html", view, 422, uses=use_words())
    text = job_text(typed, countries, desk.today(), tables_for_jobs(desk.cupboard.shop.now()))
    card = {"@customer": typed["customer"]}
    receipt = desk.cupboard.add(text, who_of(request).name, card=card, key=form.text("key") or None)
    return RedirectResponse(f"/jobs/{receipt.job_id}", 303)


@router.post("/bring")
def bring(request: Request, desk: AtDesk, form: Form) -> Response:
    """A job file from elsewhere becomes a job here; the file stays as it is."""
    file = form.file("file")
    data = file.file.read(LARGEST_JOB_BYTES + 1) if file is not None else b""
    name = (file.filename or "file") if file is not None else "file"
    try:
        receipt = desk.cupboard.add(data, who_of(request).name, name=name, key=form.text("key") or None)
    except BadInput as error:
        return page(request, "shelf/new.html", _empty(desk, error.faults), 422, uses=use_words())
    return RedirectResponse(f"/jobs/{receipt.job_id}", 303)


def _empty(desk: Desk, faults: tuple[Fault, ...] = ()) -> NewJob:
    """The form as the shop's settings fill it."""
    stored = desk.cupboard.shop.now()
    return NewJob(usual_for_jobs(stored), faults, offered(stored))


@router.post("/demo-shop")
def demo_shop(request: Request, desk: AtDesk, form: Form) -> Response:
    """The demo cars on an empty shelf."""
    fill(desk.cupboard)
    return RedirectResponse("/", 303)
