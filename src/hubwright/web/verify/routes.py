"""Addresses of the proof."""

from __future__ import annotations

import secrets
from typing import Annotated

from fastapi import APIRouter, Depends, Query, Request
from fastapi.responses import RedirectResponse, Response

from hubwright.errors import BadInput, Fault, StoreRefusal
from hubwright.language import say
from hubwright.parts.job import AxleName
from hubwright.store.card import fault_on_card
from hubwright.store.things import Stage
from hubwright.web.desk import Desk, desk_of
from hubwright.web.fields.tree import Tree
from hubwright.web.forms import Posted, posted
from hubwright.web.frame import frame_of
from hubwright.web.render import page
from hubwright.web.sheet.routes import disc_of
from hubwright.web.verify.views import view_of
from hubwright.web.who import who_of

router = APIRouter(include_in_schema=False)
Form = Annotated[Posted, Depends(posted)]
AtDesk = Annotated[Desk, Depends(desk_of)]
Entries = list[tuple[str, str | None]]
SIGNED = ("@measured_by", "@released_by", "@handed_over", "@due", "@complaint")


@router.get("/jobs/{job_id}/verify/{axle}")
def verify(
    request: Request,
    job_id: str,
    axle: AxleName,
    desk: AtDesk,
    disc: Annotated[str, Query(max_length=20)] = "",
    kept: Annotated[int, Query(ge=0, le=10**9)] = 0,
) -> Response:
    """Predicted against measured, what is missing, signatures."""
    seen = desk.seen(job_id)
    frame = frame_of(desk, seen, "verify", axle)
    view = view_of(desk, seen, frame, axle, disc_mm=disc_of(disc), kept=kept, key=secrets.token_hex(16))
    return page(request, "verify/verify.html", view)


@router.post("/jobs/{job_id}/verify/{axle}")
def decide(request: Request, job_id: str, axle: AxleName, desk: AtDesk, form: Form) -> Response:
    """Release, appointment, complaint, or work that was done."""
    stored = desk.cupboard.job(job_id)
    what = form.text("what")
    try:
        done = what == "work"
        entries = _work_done(Tree(stored.data), axle, form.text("field")) if done else _signed(what, form)
        base = form.whole("base", stored.revision)
        receipt = desk.cupboard.enter(job_id, entries, who_of(request).name, base=base, key=form.text("key") or None)
    except BadInput as error:
        return _back(request, desk, job_id, axle, form, error.faults)
    except StoreRefusal as error:
        if error.missing:
            raise
        return _back(request, desk, job_id, axle, form, (Fault("@stage", error.todo, error.why),))
    return RedirectResponse(f"/jobs/{job_id}/verify/{axle}?kept={receipt.revision}#kept", 303)


def _signed(what: str, form: Posted) -> Entries:
    """Fields of the card for one of the buttons, with everything wrong told at once."""
    wanted = {name: form.text(name) for name in SIGNED if name in form.fields}
    stage = {
        "release": Stage.RELEASED,
        "appointment": Stage.WAITING,
        "returned": Stage.RETURNED,
        "closed": Stage.CLOSED,
    }
    if what not in stage:
        raise BadInput("verify", (Fault("what", say("one of the buttons"), what[:60] or say("nothing")),))
    needed = {
        "release": (("@measured_by", say("who measured")), ("@released_by", say("who releases"))),
        "appointment": (("@due", say("the day to check the tightening again")),),
        "returned": (("@complaint", say("what the customer came back with")),),
        "closed": (),
    }[what]
    faults = [Fault(name, words, say("nothing")) for name, words in needed if not wanted.get(name)]
    faults += [fault for name, text in wanted.items() if (fault := fault_on_card(name, text))]
    if faults:
        raise BadInput("verify", tuple(faults))
    return [*((name, text or None) for name, text in wanted.items()), ("@stage", stage[what].value)]


def _work_done(tree: Tree, axle: AxleName, field: str) -> Entries:
    """Work done at a place: it is on offer no longer, and the bare gaps from before it are taken out."""
    point = tree.at(field) if field.startswith(f"{axle}.") and ".point[" in field else None
    if not isinstance(point, dict) or not point.get("work"):
        raise BadInput("verify", (Fault("field", say("a place with work on offer"), field[:60] or say("nothing")),))
    kept = [one for one in point.get("reading") or [] if one.get("disc_mm")]
    return [tree.entry(f"{field}.work", None), tree.entry(f"{field}.reading", kept or None)]


def _back(
    request: Request, desk: Desk, job_id: str, axle: AxleName, form: Posted, faults: tuple[Fault, ...]
) -> Response:
    seen = desk.seen(job_id)
    typed = {**seen.stored.card, **{name: form.text(name) for name in SIGNED if name in form.fields}}
    frame = frame_of(desk, seen, "verify", axle)
    disc = disc_of(form.text("disc"))
    key = form.text("key") or secrets.token_hex(16)
    view = view_of(desk, seen, frame, axle, disc_mm=disc, card=typed, faults=faults, key=key)
    return page(request, "verify/verify.html", view, 422)
