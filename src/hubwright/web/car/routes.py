"""Addresses of car and request."""

from __future__ import annotations

import secrets
from typing import Annotated

from fastapi import APIRouter, Depends, Query, Request
from fastapi.responses import RedirectResponse, Response

from hubwright.errors import BadInput, Fault, StoreRefusal
from hubwright.store.card import fault_on_card
from hubwright.web.car import groups
from hubwright.web.car.entry import Wanted, wanted_of
from hubwright.web.car.views import CARD, CarView, axle_part, countries_of, stages
from hubwright.web.desk import Desk, Seen, desk_of
from hubwright.web.fields.form import Box, as_posted, trial
from hubwright.web.fields.tree import Tree
from hubwright.web.forms import Posted, posted
from hubwright.web.frame import AXLES, frame_of
from hubwright.web.render import page
from hubwright.web.who import who_of

router = APIRouter(include_in_schema=False)
Form = Annotated[Posted, Depends(posted)]
AtDesk = Annotated[Desk, Depends(desk_of)]


@router.get("/jobs/{job_id}/car")
def car(
    request: Request,
    job_id: str,
    desk: AtDesk,
    kept: Annotated[int, Query(ge=0, le=10**9)] = 0,
    aside: Annotated[int, Query(ge=0, le=1)] = 0,
) -> Response:
    """The form, filled from the job as it stands."""
    view = _view(request, desk, desk.seen(job_id), kept=kept, aside=bool(aside))
    return page(request, "car/car.html", view)


@router.post("/jobs/{job_id}/car")
def keep(request: Request, job_id: str, desk: AtDesk, form: Form) -> Response:
    """What was changed goes into the job; with faults nothing does, and the form comes back with all of them."""
    stored = desk.cupboard.job(job_id)
    base = form.whole("base", stored.revision)
    before = desk.cupboard.job(job_id, base)
    wanted = wanted_of(form, before)
    faults = [*wanted.faults, *filter(None, (fault_on_card(name, value) for name, value in wanted.card))]
    if not faults:
        tree = Tree(before.data)
        faults = [as_posted(fault, tree) for fault in trial(before, wanted.entries)]
    if faults:
        return _back(request, desk, job_id, form, tuple(faults))
    if not wanted.entries and not wanted.card:
        return RedirectResponse(f"/jobs/{job_id}/car", 303)
    try:
        receipt = _enter(desk, job_id, wanted, who_of(request).name, base, form.text("key"))
    except StoreRefusal as error:
        if error.missing or not any(name == "@stage" for name, _ in wanted.card):
            raise
        fault = Fault("@stage", error.todo, error.why)
        return _back(request, desk, job_id, form, (fault,))
    except BadInput as error:
        return _back(request, desk, job_id, form, error.faults)
    return RedirectResponse(f"/jobs/{job_id}/car?kept={receipt[0]}{'&aside=1' if receipt[1] else ''}#kept", 303)


def _enter(desk: Desk, job_id: str, wanted: Wanted, author: str, base: int, key: str) -> tuple[int, bool]:
    receipt = desk.cupboard.enter(job_id, [*wanted.entries, *wanted.card], author, base=base, key=key or None)
    return receipt.revision, receipt.aside is not None


def _back(request: Request, desk: Desk, job_id: str, form: Posted, faults: tuple[Fault, ...]) -> Response:
    return page(request, "car/car.html", _view(request, desk, desk.seen(job_id), form, faults), 422)


def _view(
    request: Request,
    desk: Desk,
    seen: Seen,
    form: Posted | None = None,
    faults: tuple[Fault, ...] = (),
    *,
    kept: int = 0,
    aside: bool = False,
) -> CarView:
    likes = request.state.likes
    stored = seen.stored
    system = form.system(likes.system) if form is not None else likes.system
    box = Box(Tree(stored.data), system, form, faults)
    asked = form.texts("v:request.countries") if form is not None else box.tree.at("request.countries") or ()
    card = {name: form.text(name) if form is not None else stored.card.get(name, "") for name in CARD}
    meshes = tuple(
        (item.name, item.name)
        for item in desk.cupboard.attachments(stored.id)
        if item.name.lower().endswith(groups.MESHES)
    )
    car_boxes = tuple(box(path) for path in groups.CAR)
    return CarView(
        frame_of(desk, seen, "car"),
        tuple(box(path) for path in groups.FIRST),
        tuple(box(path) for path in groups.STANDING),
        car_boxes,
        any(field.fault for field in car_boxes),
        countries_of(code for code in asked if code),
        card,
        stages(),
        tuple(axle_part(box, name, tuple(dict.fromkeys(meshes))) for name in AXLES),
        faults,
        kept,
        aside,
        (form.text("key") if form is not None else "") or secrets.token_hex(16),
        form.whole("base", stored.revision) if form is not None else stored.revision,
        system,
    )
