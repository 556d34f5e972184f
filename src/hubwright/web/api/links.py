"""Links by which customers fill in the measuring sheet of their own car."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Annotated

from fastapi import APIRouter, Depends, Request
from pydantic import BaseModel, Field

from hubwright.errors import StoreRefusal
from hubwright.language import say
from hubwright.store.link import EVERYTHING, USUAL_DAYS, Link
from hubwright.web.api.door import AtDesk, Decides, JobId, ThingId, json_only
from hubwright.web.api.models import STRICT
from hubwright.web.mail.code import address_of

router = APIRouter(tags=["links"])


@dataclass(frozen=True)
class LinkOut:
    """A link as the shop sees it; its address is told once, when it is made."""

    id: str
    job_id: str
    areas: list[str]
    customer: str
    made_at: datetime
    made_by: str
    expires_at: datetime
    revoked_at: datetime | None
    revoked_by: str | None
    uses: int
    used_at: datetime | None
    address: str | None


class LinkIn(BaseModel):
    """Where a customer may write, and how long."""

    model_config = STRICT
    areas: Annotated[list[Annotated[str, Field(max_length=100)]], Field(max_length=100)] = list(EVERYTHING)
    customer: Annotated[str, Field(max_length=400)] = ""
    days: Annotated[int, Field(ge=0, le=10_000)] = USUAL_DAYS


def _told(link: Link, address: str | None = None) -> LinkOut:
    return LinkOut(**{**vars(link), "areas": list(link.areas)}, address=address)


@router.get("/jobs/{job_id}/links")
def find_links(desk: AtDesk, who: Decides, job_id: JobId) -> list[LinkOut]:
    """Links of a job, those that ended too."""
    desk.cupboard.job(job_id)
    return [_told(link) for link in desk.cupboard.links.of(job_id)]


@router.post("/jobs/{job_id}/links", status_code=201, dependencies=[Depends(json_only)])
def make_link(request: Request, desk: AtDesk, who: Decides, job_id: JobId, asked: LinkIn) -> LinkOut:
    """A new link, with the address to send; only its fingerprint is stored."""
    made = desk.cupboard.links.make(job_id, who.name, areas=asked.areas, customer=asked.customer, days=asked.days)
    token, link = made
    return _told(link, address_of(request, token))


@router.delete("/jobs/{job_id}/links/{link_id}")
def revoke_link(desk: AtDesk, who: Decides, job_id: JobId, link_id: ThingId) -> LinkOut:
    """The link leads nowhere from now on."""
    if link_id not in {link.id for link in desk.cupboard.links.of(job_id)}:
        raise StoreRefusal(link_id[:40], say("there is no such link"), say("Look at the job again."), missing=True)
    return _told(desk.cupboard.links.revoke(link_id, who.name))
