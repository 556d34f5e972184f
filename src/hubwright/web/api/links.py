"""Links through which customers fill the measuring sheet of one job."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Annotated, Literal

from fastapi import APIRouter, Depends, Request
from pydantic import BaseModel, Field

from hubwright.errors import StoreRefusal
from hubwright.language import say
from hubwright.store.link import EVERYTHING, MOST_DAYS, USUAL_DAYS, Link, came_through
from hubwright.web.api.door import AtDesk, Decides, JobId, ThingId, json_only
from hubwright.web.api.models import STRICT
from hubwright.web.mail.code import address_of

router = APIRouter(tags=["links"])
Json = Depends(json_only)
Area = Annotated[str, Field(max_length=60)]


@dataclass(frozen=True)
class LinkOut:
    """A link as it stands; `revisions` of the job came through it."""

    id: str
    state: Literal["open", "expired", "revoked"]
    areas: list[str]
    customer: str
    made_at: datetime
    made_by: str
    expires_at: datetime
    uses: int
    used_at: datetime | None
    revisions: list[int]


@dataclass(frozen=True)
class MadeLinkOut:
    """A new link. Its address is told this once: only a fingerprint of it is stored."""

    address: str
    link: LinkOut


class LinkIn(BaseModel):
    """What the customer may fill in: readings inside these places, such as ``rear``, ``front.left`` or ``rear.hub``."""

    model_config = STRICT
    areas: Annotated[list[Area], Field(min_length=1, max_length=40)] = list(EVERYTHING)
    customer: Annotated[str, Field(max_length=400)] = ""
    days: Annotated[int, Field(ge=1, le=MOST_DAYS)] = USUAL_DAYS


def _told(desk: AtDesk, link: Link) -> LinkOut:
    why_not = link.why_not(desk.cupboard.links.moment())
    through = came_through(link, desk.cupboard.history(link.job_id))
    state: Literal["open", "expired", "revoked"] = "open" if why_not is None else "revoked"
    if why_not is not None and link.revoked_at is None:
        state = "expired"
    return LinkOut(
        link.id, state, list(link.areas), link.customer, link.made_at, link.made_by, link.expires_at, link.uses,
        link.used_at, [step.number for step in through],
    )  # fmt: skip


@router.get("/jobs/{job_id}/links")
def find_links(desk: AtDesk, who: Decides, job_id: JobId) -> list[LinkOut]:
    """The links of a job, the newest first, those that lead nowhere any more too."""
    desk.cupboard.job(job_id)
    return [_told(desk, link) for link in desk.cupboard.links.of(job_id)]


@router.post("/jobs/{job_id}/links", status_code=201, dependencies=[Json])
def make_link(request: Request, desk: AtDesk, who: Decides, job_id: JobId, asked: LinkIn) -> MadeLinkOut:
    """A new link for the customer of a job."""
    token, link = desk.cupboard.links.make(
        job_id, who.name, areas=asked.areas, customer=asked.customer, days=asked.days
    )
    return MadeLinkOut(address_of(request, token), _told(desk, link))


@router.delete("/jobs/{job_id}/links/{link_id}")
def revoke_link(desk: AtDesk, who: Decides, job_id: JobId, link_id: ThingId) -> LinkOut:
    """Let a link lead nowhere from now on; it stays in the list."""
    if link_id not in {link.id for link in desk.cupboard.links.of(job_id)}:
        raise StoreRefusal(link_id[:40], say("there is no such link"), say("Look at the job again."), missing=True)
    return _told(desk, desk.cupboard.links.revoke(link_id, who.name))
