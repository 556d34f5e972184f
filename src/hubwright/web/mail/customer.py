"""The customer's own pages: their measuring sheet and nothing else of the shop."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Any

from fastapi import APIRouter, Depends, Query, Request
from fastapi.responses import JSONResponse, RedirectResponse, Response

from hubwright.errors import BadInput, Fault
from hubwright.language import say
from hubwright.parts.base import READERS
from hubwright.parts.job import AxleName
from hubwright.store.link import Link, WhyNot
from hubwright.web.desk import Desk, Seen, desk_of
from hubwright.web.forms import Posted, posted
from hubwright.web.frame import AXLES, axle_words
from hubwright.web.gate import LONGEST_TOKEN, address_of, pace_of
from hubwright.web.mail.own import writable
from hubwright.web.pace import LINK_READINGS, WRONG_LINK, too_many
from hubwright.web.render import page
from hubwright.web.sheet.routes import arrived, as_data
from hubwright.web.sheet.views import Sheet, sheet_of

router = APIRouter(include_in_schema=False)
Form = Annotated[Posted, Depends(posted)]
AtDesk = Annotated[Desk, Depends(desk_of)]
Step = Annotated[str, Query(max_length=1500)]


@dataclass(frozen=True)
class Around:
    """What stands around every page of a customer.

    Attributes:
        shop: Name of the shop; may be empty.
        car: What car it is, in the words of the job; may be empty.
        axles: Address and words of each axle the link leads to, and whether it is the one shown.
    """

    shop: str
    car: str
    link: Link
    axles: tuple[tuple[str, str, bool], ...]


@dataclass(frozen=True)
class Welcome:
    """The first page."""

    around: Around
    faulty: bool


@dataclass(frozen=True)
class OwnSheet:
    """The sheet of one axle."""

    around: Around
    sheet: Sheet


@dataclass(frozen=True)
class Over:
    """Why there is nothing to fill in."""

    why: WhyNot


@router.get("/m/{token}")
def welcome(request: Request, token: str, desk: AtDesk) -> Response:
    """In plain words what is asked, and the way to each axle."""
    link = _link(request, desk, token)
    if isinstance(link, Response):
        return link
    desk.cupboard.links.count_use(link.id)
    seen = desk.seen(link.job_id)
    return page(
        request, "mail/welcome.html", Welcome(_around(desk, seen, token, link), seen.job is None), stranger=True
    )


@router.get("/m/{token}/{axle}")
def sheet(request: Request, token: str, axle: AxleName, desk: AtDesk, step: Step = "", told: str = "") -> Response:
    """The measuring sheet of one axle."""
    link = _link(request, desk, token, axle)
    return link if isinstance(link, Response) else _drawn(request, desk, token, link, axle, step=step, told=told)


@router.get("/m/{token}/{axle}/now")
def now(request: Request, token: str, axle: AxleName, desk: AtDesk) -> Response:
    """The sheet as data, for the script that shows it."""
    link = _link(request, desk, token, axle)
    return link if isinstance(link, Response) else as_data(_sheet(request, desk, token, link, axle))


@router.post("/m/{token}/{axle}")
def reading(request: Request, token: str, axle: AxleName, desk: AtDesk, form: Form) -> Response:
    """One reading, written into the job as the customer's."""
    link = _link(request, desk, token, axle)
    if isinstance(link, Response):
        return link

    pace, sent = pace_of(request), ("readings", link.id)
    if wait_s := pace.wait_s(LINK_READINGS, *sent):
        raise too_many(wait_s)
    pace.spend(LINK_READINGS, *sent)

    def draw(**more: Any) -> Response:
        return _drawn(request, desk, token, link, axle, status=422, **more)

    return arrived(
        request, desk, link.job_id, axle, form, link.author, f"/m/{token}/{axle}", draw,
        permitted=writable(desk, link, form.whole("base", 0) or None), by=READERS[1], note=link.note,
    )  # fmt: skip


def _link(request: Request, desk: Desk, token: str, axle: AxleName | None = None) -> Link | Response:
    """The link of a token, or the page that says why there is none. Whoever tries many is slowed down.

    Raises:
        HTTPException: 429 after too many addresses nobody made.
    """
    pace, here = pace_of(request), ("link", address_of(request))
    if wait_s := pace.wait_s(WRONG_LINK, *here):
        raise too_many(wait_s)
    found = desk.cupboard.links.look_up(token[:LONGEST_TOKEN])
    if isinstance(found, WhyNot):
        if found is WhyNot.UNKNOWN:
            pace.spend(WRONG_LINK, *here)
        return _over(request, found)
    if axle is not None and axle not in axles_of(found):
        return RedirectResponse(f"/m/{token}", 303)
    return found


def _over(request: Request, why: WhyNot) -> Response:
    """Politely: nothing to fill in here. The script is told to stop, so that what waits in the browser is kept."""
    if "application/json" in request.headers.get("accept", ""):
        return JSONResponse({"faults": [{"field": "slot", "words": say("This link leads nowhere any more.")}]}, 403)
    return page(request, "mail/over.html", Over(why), 404 if why is WhyNot.UNKNOWN else 410, stranger=True)


def axles_of(link: Link) -> tuple[AxleName, ...]:
    """Axles a link leads to. The car itself is filled in beside whichever axle is measured."""
    return tuple(axle for axle in AXLES if any(area.split(".")[0] == axle for area in link.areas))


def _around(desk: Desk, seen: Seen, token: str, link: Link, shown: AxleName | None = None) -> Around:
    try:
        shop = desk.cupboard.shop.now().settings.name or ""
    except BadInput:
        shop = ""
    car = seen.job.car if seen.job is not None else None
    words = " · ".join(text for text in (car.description, car.plate) if text) if car is not None else ""
    axles = tuple((f"/m/{token}/{axle}", axle_words(axle), axle == shown) for axle in axles_of(link))
    return Around(shop, words, link, axles)


def _sheet(request: Request, desk: Desk, token: str, link: Link, axle: AxleName, **more: Any) -> Sheet:
    usual = request.state.likes.system
    form = more.get("form")
    return sheet_of(
        desk, desk.seen(link.job_id), axle, f"/m/{token}/{axle}", usual if form is None else form.system(usual),
        permitted=writable(desk, link), customer=True, **more,
    )  # fmt: skip


def _drawn(
    request: Request,
    desk: Desk,
    token: str,
    link: Link,
    axle: AxleName,
    *,
    status: int = 200,
    step: str = "",
    disc: str = "",
    told: str = "",
    form: Posted | None = None,
    faults: tuple[Fault, ...] = (),
) -> Response:
    shown = _sheet(request, desk, token, link, axle, step=step, told=told[:1000], form=form, faults=faults)
    around = _around(desk, desk.seen(link.job_id), token, link, axle)
    return page(request, "mail/sheet.html", OwnSheet(around, shown), status, stranger=True)
