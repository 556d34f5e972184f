"""Addresses of the scans of one wheel."""

from __future__ import annotations

import dataclasses
import secrets
from pathlib import Path
from typing import Annotated

from fastapi import APIRouter, Depends, HTTPException, Query, Request
from fastapi.responses import RedirectResponse, Response

from hubwright.errors import BadInput, Fault
from hubwright.language import say
from hubwright.parts.job import AxleName
from hubwright.parts.scan import UNIT_MM, Scan
from hubwright.quantities.axes import Side
from hubwright.web.desk import Desk, Seen, desk_of, sound
from hubwright.web.fields.form import trial
from hubwright.web.forms import Posted, posted
from hubwright.web.frame import frame_of
from hubwright.web.render import page
from hubwright.web.scan.attached import attached_scans, keep_scan, shape_of
from hubwright.web.scan.entering import entries_of
from hubwright.web.scan.typed import Filled, filled, place_text, scan_of, typed
from hubwright.web.scan.views import (
    BringView,
    Corner,
    Outcome,
    PlaceView,
    middle_words,
    outcome_of,
    placed,
    sized,
    standing_of,
    units_of,
)
from hubwright.web.who import who_of

router = APIRouter(include_in_schema=False)
Form = Annotated[Posted, Depends(posted)]
AtDesk = Annotated[Desk, Depends(desk_of)]
File = Annotated[str, Query(max_length=400)]
Kept = Annotated[int, Query(ge=0, le=10**9)]
SCANS = "/jobs/{job_id}/space/{axle}/{side}/scan"
GLB, A_DAY = "model/gltf-binary", "private, max-age=86400"


def corner(job_id: str, axle: AxleName, side: Side) -> Corner:
    """Dependency: which wheel an address speaks of."""
    return Corner(job_id, axle, side)


At = Annotated[Corner, Depends(corner)]


@router.get(SCANS)
def scans(request: Request, at: At, desk: AtDesk, kept: Kept = 0, aside: Kept = 0) -> Response:
    """The scans of one wheel, and how to bring another."""
    return _bring(request, desk, at, (), kept=kept, aside=bool(aside))


@router.post(SCANS)
def bring(request: Request, at: At, desk: AtDesk, form: Form) -> Response:
    """A file handed in; on to placing it."""
    sound(desk.seen(at.job_id))
    file = form.file("file")
    try:
        if file is None:
            raise BadInput("scan", (Fault("file", say("a scan file"), say("nothing"), say("Choose one.")),))
        name = keep_scan(
            desk, at.job_id, file.file, file.filename or "scan", who_of(request).name, form.text("key") or None
        )
    except BadInput as error:
        return _bring(request, desk, at, error.faults)
    return RedirectResponse(Corner(at.job_id, at.axle, at.side).address + f"/new?{_query(name)}", 303)


@router.get(SCANS + ".glb")
def scan_scene(at: At, desk: AtDesk, file: File = "") -> Response:
    """The scan itself for the viewer, about its middle, in metres of whatever its unit is: 1 of it is 1 m."""
    from hubwright.drawings.scan_scene import scan_glb  # noqa: PLC0415 - drawings import slowly

    shape = shape_of(desk, at.job_id, file)
    data = desk.once_for(("scan scene", shape.fingerprint), lambda: scan_glb(shape))
    return Response(data, media_type=GLB, headers={"cache-control": A_DAY})


@router.get(SCANS + "-wheel.glb")
def wheel_scene(at: At, desk: AtDesk) -> Response:
    """The parked wheel for the viewer."""
    from hubwright.drawings.scan_scene import wheel_glb  # noqa: PLC0415 - drawings import slowly
    from hubwright.jobs.placing import package_of, parked_hub  # noqa: PLC0415

    seen = desk.seen(at.job_id)
    job = sound(seen)
    hub, axis, _ = parked_hub(job, at.axle, at.side)
    outline = package_of(job, at.axle)
    data = desk.once("scan wheel", seen, lambda: wheel_glb(outline, hub, axis, at.side), at.axle, at.side)
    return Response(data, media_type=GLB)


@router.get(SCANS + "/new")
def new(request: Request, at: At, desk: AtDesk, file: File = "") -> Response:
    """A file that is not in the job yet, to be placed."""
    seen = desk.seen(at.job_id)
    sound(seen)
    try:
        _, size = sized(desk, at.job_id, file)
    except BadInput as error:
        return _bring(request, desk, at, error.faults)
    given = Filled(name=say("arch and liner"), file=file, unit=size.guess or "")
    return page(request, "scan/place.html", _view(desk, seen, at, 0, given, asked=False))


@router.post(SCANS + "/new")
def take(request: Request, at: At, desk: AtDesk, form: Form, file: File = "") -> Response:
    """Show how a new scan lies, or take it into the job."""
    return _posted(request, desk, at, form, 0, file)


@router.get(SCANS + "/{number:int}")
def one(request: Request, at: At, desk: AtDesk, number: int, kept: Kept = 0, aside: Kept = 0) -> Response:
    """A scan that stands in the job."""
    seen = desk.seen(at.job_id)
    scan = _standing(seen, at, number)
    file = scan.file
    view = _view(desk, seen, at, number, filled(scan, file), asked=True, stands=scan, kept=kept, aside=bool(aside))
    return page(request, "scan/place.html", view, 200 if view.size else 422)


@router.post(SCANS + "/{number:int}")
def change(request: Request, at: At, desk: AtDesk, form: Form, number: int) -> Response:
    """Show how it would lie, change it, or take it out of the job."""
    seen = desk.seen(at.job_id)
    file = _standing(seen, at, number, form.whole("base", 0) or None, desk).file
    if form.text("do") == "out":
        return _enter(request, desk, at, form, [(f"{at.axle}.{at.side}.scan[{number}]", None)], 0)
    return _posted(request, desk, at, form, number, file)


def _posted(request: Request, desk: Desk, at: Corner, form: Posted, number: int, file: str) -> Response:
    seen, given, do = desk.seen(at.job_id), typed(form, file), form.text("do", "look")
    sound(seen)
    if do == "turn":
        given = _turned(given)
    scan, faults = scan_of(given)
    if do != "keep" or scan is None:
        live = request.headers.get("hw-part") == "outcome"
        view = _view(desk, seen, at, number, given, form=form, faults=() if live else faults, asked=True)
        return page(request, "scan/place.html", view, 200 if live or not view.faults else 422)
    view = _view(desk, seen, at, number, given, form=form, asked=True)
    if not view.outcome.there:
        return page(request, "scan/place.html", dataclasses.replace(view, faults=view.outcome.missing), 422)
    if view.outcome.grave and not given.sure:
        wanted = say("an answer to what is asked below, or the tick that it is right as it lies")
        fault = Fault("sure", wanted, say("neither"))
        return page(request, "scan/place.html", dataclasses.replace(view, faults=(fault,)), 422)
    _, scan = placed(desk, sound(seen), at, scan)
    base = form.whole("base", seen.stored.revision)
    before = _standing(desk.seen(at.job_id, base), at, number) if number else None
    entries = entries_of(f"{at.axle}.{at.side}.scan", number, scan, before)
    wrong = trial(desk.cupboard.job(at.job_id, base), entries)
    if wrong:
        return page(request, "scan/place.html", dataclasses.replace(view, faults=wrong), 422)
    return _enter(request, desk, at, form, entries, number)


def _enter(
    request: Request, desk: Desk, at: Corner, form: Posted, entries: list[tuple[str, str | None]], number: int
) -> Response:
    if not entries:
        return RedirectResponse(f"{at.address}/{number}", 303)
    base = form.whole("base", desk.cupboard.job(at.job_id).revision)
    receipt = desk.cupboard.enter(at.job_id, entries, who_of(request).name, base=base, key=form.text("key") or None)
    told = f"kept={receipt.revision}" + ("&aside=1" if receipt.aside else "")
    if number == 0 or receipt.aside:
        return RedirectResponse(f"{at.address}?{told}#kept", 303)
    return RedirectResponse(f"{at.address}/{number}?{told}#kept", 303)


def _turned(given: Filled) -> Filled:
    """The same form with forward pointing the other way."""
    from hubwright.web.scan.typed import place_of  # noqa: PLC0415

    if given.rear or given.front:
        return dataclasses.replace(given, rear=given.front, front=given.rear)
    ahead = place_of(given.forward)
    return given if ahead is None else dataclasses.replace(given, forward=place_text(tuple(-v + 0.0 for v in ahead)))


def _standing(seen: Seen, at: Corner, number: int, base: int | None = None, desk: Desk | None = None) -> Scan:
    """A scan of the job, as it stands or stood.

    Raises:
        HTTPException: 404 where there is none of that number.
    """
    if base is not None and desk is not None:
        seen = desk.seen(at.job_id, base)
    axle = dict(sound(seen).axles).get(at.axle)
    scans_ = () if axle is None else axle.corner(at.side).scan
    if not 1 <= number <= len(scans_):
        raise HTTPException(404)
    scan = scans_[number - 1]
    return dataclasses.replace(scan, file=Path(scan.file).name)


def _bring(
    request: Request, desk: Desk, at: Corner, faults: tuple[Fault, ...], *, kept: int = 0, aside: bool = False
) -> Response:
    seen = desk.seen(at.job_id)
    view = BringView(
        frame_of(desk, seen, "space", at.axle), at, standing_of(seen.job, desk, at), attached_scans(desk, at.job_id),
        faults, kept, aside,
    )  # fmt: skip
    return page(request, "scan/bring.html", view, 422 if faults else 200)


def _view(
    desk: Desk, seen: Seen, at: Corner, number: int, given: Filled, *, asked: bool, form: Posted | None = None,
    stands: Scan | None = None,
    faults: tuple[Fault, ...] = (), kept: int = 0, aside: bool = False,
) -> PlaceView:  # fmt: skip
    frame = frame_of(desk, seen, "space", at.axle)
    base = form.whole("base", frame.revision) if form is not None else frame.revision
    key = (form.text("key") if form is not None else "") or secrets.token_hex(16)
    try:
        shape, size = sized(desk, at.job_id, given.file)
    except BadInput as error:
        return PlaceView(
            frame, at, number, given, (), None, "", "", Outcome(), (*faults, *error.faults), kept, aside, base, key
        )
    outcome = outcome_of(desk, seen, at, given, stands) if asked and given.unit in UNIT_MM else Outcome()
    return PlaceView(
        frame, at, number, given, units_of(size), size, middle_words(shape), shape.fingerprint[:12], outcome, faults,
        kept, aside, base, key,
    )  # fmt: skip


def _query(name: str) -> str:
    from urllib.parse import urlencode  # noqa: PLC0415

    return urlencode({"file": name})
