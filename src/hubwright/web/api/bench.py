"""Any disc on the bench of an axle: judged as if it lay on the shelf."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from fastapi import APIRouter, Query

from hubwright.errors import StoreRefusal
from hubwright.findings import Finding
from hubwright.jobs.answer import DiscAnswer
from hubwright.jobs.trial import DiscToTry, trial_on
from hubwright.language import say
from hubwright.parts.shop import DiscKind
from hubwright.web.api.door import AtDesk, Axle, JobId, Revision, Spoken, Thickness

router = APIRouter(tags=["bench"], dependencies=[Spoken])


@dataclass(frozen=True)
class TrialOut:
    """A disc judged.

    `kept`: whether the shelf has it; `assumed`: what was assumed of it where it has not; `waiting`: whether a clearance map is still
    being drawn, so that the answer rests on the readings alone until then; `left`, `right`: the clearance of each side by itself.
    """

    disc: DiscAnswer
    kept: bool
    assumed: str
    waiting: bool
    left: Finding
    right: Finding


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
    found = trial_on(bench, DiscToTry(axle, thickness_mm, kind, name), with_work=with_work)
    return TrialOut(found.disc, found.kept, found.assumed, worked.waiting, found.left, found.right)
