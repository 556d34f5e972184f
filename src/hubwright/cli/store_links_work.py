"""What the commands of ``hubwright store link`` do."""

from __future__ import annotations

from datetime import datetime

from hubwright.cli.commands import leave
from hubwright.cli.store_work import opened, say_line
from hubwright.language import say
from hubwright.quantities.text import day
from hubwright.store.link import EVERYTHING, Link

PATH = "/m/"
"""Where the server takes a link's token."""


def make(job: str, areas: list[str], customer: str, days: int, address: str, by: str | None) -> None:
    """A new link; its address goes to the screen and nowhere else."""
    with opened() as (cupboard, settings):
        name = cupboard.name(job)
        token, link = cupboard.links.make(
            name, by or settings.author, areas=areas or EVERYTHING, customer=customer, days=days
        )
        line = _line(link, cupboard.links.moment())
    say_line(f"{address.rstrip('/')}{PATH}{token}")
    say_line(line)


def show(job: str) -> None:
    """Every link of a job."""
    with opened() as (cupboard, _):
        found, moment = cupboard.links.of(cupboard.name(job)), cupboard.links.moment()
    for link in found:
        say_line(_line(link, moment))
    if not found:
        say_line(say("No link was made for this job."))


def revoke(job: str, link_id: str, by: str | None) -> None:
    """A link ended."""
    with opened() as (cupboard, settings):
        name = cupboard.name(job)
        if link_id not in {link.id for link in cupboard.links.of(name)}:
            leave(
                say("{link}: wanted a link of this job; see hubwright store link list {job}.", link=link_id, job=name)
            )
        line = _line(cupboard.links.revoke(link_id, by or settings.author), cupboard.links.moment())
    say_line(line)


def _line(link: Link, moment: datetime) -> str:
    facts = {
        "id": link.id, "areas": ", ".join(link.areas), "by": link.made_by, "until": day(link.expires_at), "uses": link.uses,
    }  # fmt: skip
    if link.revoked_at is not None:
        facts |= {"who": link.revoked_by or "", "when": day(link.revoked_at)}
        text = say("{id}  {areas}, made by {by}, opened {uses} times, revoked by {who} on {when}", **facts)
    elif link.why_not(moment) is not None:
        text = say("{id}  {areas}, made by {by}, opened {uses} times, ended on {until}", **facts)
    else:
        text = say("{id}  {areas}, made by {by}, opened {uses} times, leads there until {until}", **facts)
    return f"{text}  {link.customer}".rstrip()
