"""What stands around every page of one job: what it is, how far it has come, and the way to its other pages."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.errors import Fault
from hubwright.language import marked, say
from hubwright.parts.job import AxleName
from hubwright.store.card import stage_of
from hubwright.store.things import Aside, Stage
from hubwright.web.desk import Desk, Seen

AXLES: tuple[AxleName, ...] = ("front", "rear")


@dataclass(frozen=True)
class Step:
    """One kind of page of a job.

    Attributes:
        key: Its name in addresses.
        label: In English, spoken when shown.
        per_axle: Whether each axle has its own: ``/jobs/ID/KEY/rear``.
    """

    key: str
    label: str
    per_axle: bool = False


STEPS: tuple[Step, ...] = (
    Step("car", marked("Car and request")),
    Step("measure", marked("Measure"), per_axle=True),
    Step("lines", marked("Edges"), per_axle=True),
    Step("links", marked("Links"), per_axle=True),
    Step("bench", marked("Bench"), per_axle=True),
    Step("space", marked("Space"), per_axle=True),
    Step("fasteners", marked("Fasteners"), per_axle=True),
    Step("effects", marked("Effects")),
    Step("law", marked("Law")),
    Step("verify", marked("Verify"), per_axle=True),
    Step("paper", marked("Paper")),
    Step("customer", marked("By mail")),
    Step("files", marked("Files")),
    Step("history", marked("History")),
)
"""In the order of the work. A page that is built adds itself here; the templates draw what stands here."""


@dataclass(frozen=True)
class Link:
    """One way out of the page; ``current`` where it leads here."""

    label: str
    address: str
    current: bool


@dataclass(frozen=True)
class Frame:
    """Around a page of a job."""

    job_id: str
    title: str
    plate: str
    customer: str
    stage: Stage
    revision: int
    axles: tuple[AxleName, ...]
    steps: tuple[Link, ...]
    axle_links: tuple[Link, ...]
    faults: tuple[Fault, ...]
    asides: tuple[Aside, ...]


def frame_of(desk: Desk, seen: Seen, key: str, axle: AxleName | None = None) -> Frame:
    """The frame of one page.

    Args:
        desk: The desk.
        seen: The job.
        key: Which step the page is.
        axle: Which axle it shows, where each has its own.
    """
    job, stored = seen.job, seen.stored
    there = tuple(name for name, _ in job.axles) if job is not None else ()
    default = axle if axle is not None else "rear" if there == ("rear",) else "front"
    steps = tuple(Link(say(step.label), _address(stored.id, step, default), step.key == key) for step in STEPS)
    here = next((step for step in STEPS if step.key == key), None)
    axle_links: tuple[Link, ...] = ()
    if here is not None and here.per_axle:
        axle_links = tuple(Link(axle_words(name), _address(stored.id, here, name), name == axle) for name in AXLES)
    return Frame(
        stored.id,
        job.title if job is not None else say("Job with faults"),
        (job.car.plate or "") if job is not None else "",
        stored.card.get("@customer", ""),
        stage_of(stored.card),
        stored.revision,
        there,
        steps,
        axle_links,
        seen.faults,
        desk.cupboard.asides(stored.id),
    )


def axle_words(name: AxleName) -> str:
    """The axle in words."""
    return say("Front axle") if name == "front" else say("Rear axle")


def _address(job_id: str, step: Step, axle: AxleName) -> str:
    return f"/jobs/{job_id}/{step.key}/{axle}" if step.per_axle else f"/jobs/{job_id}/{step.key}"
