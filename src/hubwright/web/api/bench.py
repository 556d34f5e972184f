"""Any disc on the bench of an axle: judged as if it lay on the shelf."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from fastapi import APIRouter, Query

from hubwright.errors import StoreRefusal
from hubwright.jobs.answer import DiscAnswer
from hubwright.jobs.bench import judged, judged_bare
from hubwright.jobs.trying import tried
from hubwright.language import say
from hubwright.parts.shop import DiscKind
from hubwright.web.api.door import AtDesk, Axle, JobId, Revision, Spoken, Thickness

router = APIRouter(tags=["bench"], dependencies=[Spoken])


@dataclass(frozen=True)
class TrialOut:
    """A disc judged.

    `kept`: whether the shelf has it; `assumed`: what was assumed of it where it has not; `waiting`: whether a clearance map is still
    being drawn, so that the answer rests on the readings alone until then.
    """

    disc: DiscAnswer
    kept: bool
    assumed: str
    waiting: bool


@router.get("/jobs/{job_id}/axles/{axle}/bench")
def try_disc(
    desk: AtDesk,
    job_id: JobId,
    axle: Axle,
    thickness_mm: Thickness,
    kind: DiscKind | None = None,
    name: Annotated[str | None, Query(max_length=400, description="The shop's own name, where it has several.")] = None,
    with_work: bool = False,
    revision: Revision = None,
) -> TrialOut:
    """One disc of any thickness, put to every question; 0 = the axle without a disc."""
    worked = desk.worked(desk.seen(job_id, revision))
    bench = worked.benches.axles.get(axle)
    if bench is None:
        raise StoreRefusal(
            job_id, say("the job says nothing about this axle"), say("Enter a reading of it."), missing=True
        )
    under = bench.under(with_work)
    if thickness_mm == 0:
        return TrialOut(judged_bare(under), True, "", worked.waiting)
    one = tried(under.bench.job, thickness_mm, kind, name)
    return TrialOut(judged(under, one.disc), one.kept, one.assumed, worked.waiting)
