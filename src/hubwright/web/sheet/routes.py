"""Addresses of the measuring sheet."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated, Any
from urllib.parse import urlencode

from fastapi import APIRouter, Depends, Query, Request
from fastapi.responses import FileResponse, JSONResponse, RedirectResponse, Response

from hubwright.errors import BadInput, Fault, StoreRefusal
from hubwright.language import say
from hubwright.parts.job import AxleName
from hubwright.quantities.axes import Side
from hubwright.web.desk import Desk, desk_of
from hubwright.web.fields.form import trial
from hubwright.web.fields.tree import Tree
from hubwright.web.fields.typed import number_of
from hubwright.web.forms import Posted, posted
from hubwright.web.frame import frame_of
from hubwright.web.render import STATIC, page
from hubwright.web.sheet.names import gap, name_of
from hubwright.web.sheet.resolve import title_of
from hubwright.web.sheet.take import Outcome, Permitted, anything, take
from hubwright.web.sheet.views import Sheet, SheetView, next_step, sheet_of
from hubwright.web.who import who_of

router = APIRouter(include_in_schema=False)
Form = Annotated[Posted, Depends(posted)]
AtDesk = Annotated[Desk, Depends(desk_of)]
Step = Annotated[str, Query(max_length=1500)]
Disc = Annotated[str, Query(max_length=20)]
Turned = Annotated[str, Query(max_length=3)]
Draw = Callable[..., Response]
WORKER = "js/sheet-worker.js"


@router.get("/jobs/{job_id}/measure/{axle}")
def sheet(
    request: Request,
    job_id: str,
    axle: AxleName,
    desk: AtDesk,
    step: Step = "",
    disc: Disc = "",
    turned: Turned = "",
    told: str = "",
) -> Response:
    """The sheet, at the reading named or the one worth most."""
    return _drawn(request, desk, job_id, axle, step=step, disc=disc, turned=turned, told=told)


@router.get("/jobs/{job_id}/measure/{axle}/now")
def now(request: Request, job_id: str, axle: AxleName, desk: AtDesk, disc: Disc = "", turned: Turned = "") -> Response:
    """The sheet as data, for the script that shows it."""
    address, likes = f"/jobs/{job_id}/measure/{axle}", request.state.likes
    seen = desk.seen(job_id)
    return as_data(sheet_of(desk, seen, axle, address, likes.system, disc_mm=disc_of(disc), turned=turned == "yes"))


@router.post("/jobs/{job_id}/measure/{axle}")
def reading(request: Request, job_id: str, axle: AxleName, desk: AtDesk, form: Form) -> Response:
    """One reading."""

    def draw(**more: Any) -> Response:
        return _drawn(request, desk, job_id, axle, status=422, turned=form.text("turned"), **more)

    if form.text("add") == "place":
        return _added(desk, job_id, axle, form, who_of(request).name)
    return arrived(request, desk, job_id, axle, form, who_of(request).name, f"/jobs/{job_id}/measure/{axle}", draw)


def _added(desk: Desk, job_id: str, axle: AxleName, form: Posted, author: str) -> Response:
    """A place of the shop's own; its gaps then stand on the sheet."""
    side: Side = "right" if form.text("side") == "right" else "left"
    toward = form.text("toward", "outboard")
    item = {"name": form.text("place")[:200], "room": "inside" if toward == "inboard" else "outside"}
    item |= {"kind": form.text("kind", "body")} | ({"toward": toward} if toward not in ("inboard", "outboard") else {})
    stored = desk.cupboard.job(job_id)
    entry = Tree(stored.data).entry(f"{axle}.{side}.point[+]", item)
    faults = trial(stored, [entry])
    if faults:
        raise BadInput("place", faults)
    desk.cupboard.enter(job_id, [entry], author, base=stored.revision, key=form.text("key") or None)
    step = gap(side, item["name"], "parked")
    return RedirectResponse(f"/jobs/{job_id}/measure/{axle}?{urlencode({'step': step})}", 303)


@router.get("/sheet-worker.js")
def worker() -> Response:
    """The script that shows a sheet again while the line is down; it stands here so that it may serve every sheet."""
    return FileResponse(STATIC / WORKER, media_type="text/javascript", headers={"cache-control": "no-cache"})


def arrived(
    request: Request,
    desk: Desk,
    job_id: str,
    axle: AxleName,
    form: Posted,
    author: str,
    address: str,
    draw: Draw,
    *,
    permitted: Permitted = anything,
    by: str | None = None,
    note: str = "",
) -> Response:
    """Take one posted reading and answer it.

    Args:
        request: The request; with ``accept: application/json`` the script asks.
        desk: The desk.
        job_id: The job.
        axle: Whose sheet.
        form: The reading.
        author: Written beside it.
        address: Of the sheet.
        draw: Draws the sheet again with ``step``, ``disc``, ``form`` and ``faults``.
        permitted: Which fields may be written.
        by: ``customer`` where it is not the workshop that read.
        note: For the history.

    Raises:
        StoreRefusal: when nothing could be stored.
    """
    script = "application/json" in request.headers.get("accept", "")
    usual = request.state.likes.system
    try:
        outcome = take(desk, job_id, axle, form, author, usual, permitted=permitted, by=by, note=note)
    except BadInput as error:
        if script:
            return JSONResponse({"faults": [_fault(fault) for fault in error.faults]}, 422)
        return draw(step=form.text("slot"), disc=form.text("disc"), form=form, faults=error.faults)
    except StoreRefusal as error:
        if not script or error.missing:
            raise
        return JSONResponse({"faults": [{"field": "slot", "words": f"{error.what}: {error.why}. {error.todo}"}]}, 409)
    if script:
        return JSONResponse(_receipt(outcome, job_id, by))
    return RedirectResponse(_onward(desk, job_id, axle, form, address, outcome, usual, permitted, by), 303)


def _receipt(outcome: Outcome, job_id: str, by: str | None) -> dict[str, Any]:
    aside = outcome.aside
    return {
        "revision": outcome.revision,
        "aside": None if aside is None else {"words": aside_words(outcome, by), "address": f"/jobs/{job_id}/aside"},
        "questions": [{"text": question.text, "todo": question.todo} for question in outcome.raised],
    }


def aside_words(outcome: Outcome, by: str | None = None) -> str:
    """Why a reading was kept beside the job and not in it; a customer is not told names of the workshop."""
    aside = outcome.aside
    if aside is None:
        return ""
    if aside.clashes:
        if by is not None:
            return say("Kept, but put aside: the workshop wrote another value there meanwhile.")
        clash = aside.clashes[0]
        return say("Kept, but put aside: {name} wrote another value there meanwhile.", name=clash.author)
    return say("Kept, but put aside: {why}", why="; ".join(str(fault) for fault in aside.faults))


def _fault(fault: Fault) -> dict[str, str]:
    words = say("Wanted {wanted}; given {given}.", wanted=fault.wanted, given=fault.given)
    return {"field": fault.field, "words": f"{words} {fault.todo}".strip()}


def _onward(
    desk: Desk,
    job_id: str,
    axle: AxleName,
    form: Posted,
    address: str,
    outcome: Outcome,
    usual: Any,
    permitted: Permitted,
    by: str | None,
) -> str:
    """Where a plain form goes on: to the next reading, or back to this one to be read again or looked at."""
    slot = form.text("slot")
    name = name_of(slot)
    words = title_of(name) if name is not None else slot
    told = [
        aside_words(outcome, by) or say("{what}: on the disk, revision {number}.", what=words, number=outcome.revision)
    ]
    told += [f"{question.text} {question.todo}" for question in outcome.raised]
    disc, turned = form.text("disc"), form.text("turned")
    step = slot
    if form.text("then") != "again" and not outcome.raised and outcome.aside is None:
        shown = sheet_of(
            desk,
            desk.seen(job_id),
            axle,
            address,
            usual,
            permitted=permitted,
            disc_mm=disc_of(disc),
            turned=turned == "yes",
        )
        step = next_step(shown.slots, slot)
    asked = {
        "step": step,
        "told": "\n".join(told)[:1000],
        **({"disc": disc} if disc else {}),
        **({"turned": turned} if turned else {}),
    }
    return f"{address}?{urlencode(asked)}"


def as_data(shown: Sheet) -> JSONResponse:
    """The sheet as data, for the script."""
    return JSONResponse(shown.data)


def disc_of(text: str) -> float:
    """The thickness of a disc fitted while reading, mm; 0 where none or nonsense is stated."""
    found = number_of(text)
    return found if found is not None and 0 < found <= 150 else 0.0


def _drawn(
    request: Request,
    desk: Desk,
    job_id: str,
    axle: AxleName,
    *,
    status: int = 200,
    step: str = "",
    disc: str = "",
    turned: str = "",
    told: str = "",
    form: Posted | None = None,
    faults: tuple[Fault, ...] = (),
) -> Response:
    seen = desk.seen(job_id)
    usual = request.state.likes.system
    shown = sheet_of(
        desk, seen, axle, f"/jobs/{job_id}/measure/{axle}", usual if form is None else form.system(usual),
        disc_mm=disc_of(disc), turned=turned == "yes", step=step, form=form, faults=faults, told=told[:1000],
    )  # fmt: skip
    return page(request, "sheet/page.html", SheetView(frame_of(desk, seen, "measure", axle), shown), status)
