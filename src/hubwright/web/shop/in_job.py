"""In what a job's own ``[shop]`` table differs from the shop of today, and the way to bring it up to date."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from fastapi import APIRouter, Depends, Request
from fastapi.responses import RedirectResponse, Response

from hubwright.language import say
from hubwright.store.shop_in_job import differences_from_shop
from hubwright.store.things import Change
from hubwright.web.desk import Desk, desk_of
from hubwright.web.fields.spec import spec_at
from hubwright.web.forms import Posted, posted
from hubwright.web.frame import Frame, frame_of
from hubwright.web.render import page
from hubwright.web.who import who_of

router = APIRouter(include_in_schema=False)
Form = Annotated[Posted, Depends(posted)]
AtDesk = Annotated[Desk, Depends(desk_of)]


@dataclass(frozen=True)
class Compared:
    """A job beside the shop of today; of each change `before` stands in the job and `value` in the shop."""

    frame: Frame
    changes: tuple[Change, ...]
    settled: bool

    def words(self, change: Change) -> str:
        """What people call the place of a change."""
        whole = {
            "shop": say("everything of the shop"), "shop.disc": say("Discs on the shelf"),
            "shop.fastener": say("Fasteners on the shelf"), "shop.policy": say("House rules"),
            "shop.assumptions": say("Engineering assumptions"), "shop.name": say("Name of the shop"),
        }  # fmt: skip
        try:
            return whole.get(change.field) or spec_at(change.field).label
        except (KeyError, IndexError):
            return change.field


@router.get("/jobs/{job_id}/shop")
def compare(request: Request, job_id: str, desk: AtDesk) -> Response:
    """The differences."""
    stored = desk.cupboard.shop.now()
    frame = frame_of(desk, desk.seen(job_id), "files")
    changes = _changes(desk, job_id) if stored.revision else ()
    return page(request, "shop/in_job.html", Compared(frame, changes, stored.revision > 0))


@router.post("/jobs/{job_id}/shop")
def bring_up_to_date(request: Request, job_id: str, desk: AtDesk, form: Form) -> Response:
    """The job takes over what the shop settled since."""
    base = form.whole("base", desk.cupboard.job(job_id).revision)
    asked = [(change.field, change.value) for change in _changes(desk, job_id)]
    if asked:
        desk.cupboard.enter(job_id, asked, who_of(request).name, base=base, key=form.text("key") or None)
    return RedirectResponse(f"/jobs/{job_id}/shop", 303)


def _changes(desk: Desk, job_id: str) -> tuple[Change, ...]:
    return differences_from_shop(desk.cupboard.job(job_id).data, desk.cupboard.shop.now().data)
