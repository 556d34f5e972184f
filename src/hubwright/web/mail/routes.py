"""Addresses where the shop makes, looks at and revokes its customers' links."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Depends, Request
from fastapi.responses import RedirectResponse, Response

from hubwright.errors import BadInput, Fault, StoreRefusal
from hubwright.language import say
from hubwright.store.link import Link
from hubwright.web.desk import Desk, desk_of
from hubwright.web.forms import Posted, posted
from hubwright.web.frame import frame_of
from hubwright.web.mail.code import address_of, code_of, only_here
from hubwright.web.mail.views import USUAL, CustomerView, Made, areas_for, lines_of
from hubwright.web.render import page
from hubwright.web.who import who_of

router = APIRouter(include_in_schema=False)
Form = Annotated[Posted, Depends(posted)]
AtDesk = Annotated[Desk, Depends(desk_of)]


@router.get("/jobs/{job_id}/customer")
def links(request: Request, job_id: str, desk: AtDesk) -> Response:
    """The links of a job, what came through them, and the form for a new one."""
    return page(request, "mail/customer.html", _view(desk, job_id))


@router.post("/jobs/{job_id}/customer")
def make(request: Request, job_id: str, desk: AtDesk, form: Form) -> Response:
    """A new link. The answer shows its address, which is stored nowhere: so it is no redirect.

    Sent again with the same key it is the same link, as long as the server remembers.
    """
    desk.cupboard.job(job_id)
    areas, customer, days = form.texts("areas"), form.text("customer"), form.text("days", USUAL)
    by = who_of(request).name

    def work() -> tuple[str, Link]:
        return desk.cupboard.links.make(job_id, by, areas=areas, customer=customer, days=form.whole("days", -1))

    try:
        if not days.isdigit():
            raise BadInput("link", (Fault("days", say("a whole number of days"), days[:20] or say("nothing")),))
        key = form.text("key")
        token, link = desk.once_for(("link", job_id, key), work) if key else work()
    except BadInput as error:
        view = _view(desk, job_id, areas=areas, customer=customer, days=days, faults=error.faults)
        return page(request, "mail/customer.html", view, 422)
    address = address_of(request, token)
    made = Made(link, address, code_of(address), only_here(address))
    return page(request, "mail/customer.html", _view(desk, job_id, made=made))


@router.post("/jobs/{job_id}/customer/{link_id}/revoke")
def revoke(request: Request, job_id: str, link_id: str, desk: AtDesk, form: Form) -> Response:
    """The link leads nowhere from now on."""
    if link_id not in {link.id for link in desk.cupboard.links.of(job_id)}:
        raise StoreRefusal(link_id[:40], say("there is no such link"), say("Look at the job again."), missing=True)
    desk.cupboard.links.revoke(link_id, who_of(request).name)
    return RedirectResponse(f"/jobs/{job_id}/customer", 303)


def _view(
    desk: Desk,
    job_id: str,
    *,
    made: Made | None = None,
    areas: tuple[str, ...] | None = None,
    customer: str | None = None,
    days: str = USUAL,
    faults: tuple[Fault, ...] = (),
) -> CustomerView:
    frame = frame_of(desk, desk.seen(job_id), "customer")
    cupboard = desk.cupboard
    asides = cupboard.asides(job_id, also_settled=True)
    lines = lines_of(cupboard.links.of(job_id), cupboard.history(job_id), asides, cupboard.links.moment())
    chosen = areas if areas is not None else ("car", *(frame.axles or ("front", "rear")))
    name = frame.customer if customer is None else customer
    return CustomerView(frame, lines, areas_for(chosen), name, days, made, faults)
