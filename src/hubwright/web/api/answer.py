"""The answer of a job by its published schema, whole or in parts."""

from __future__ import annotations

from fastapi import APIRouter, Response

from hubwright.checks.effect import DiscEffects
from hubwright.checks.torque import TorqueAnswer
from hubwright.errors import StoreRefusal
from hubwright.findings import Finding, Wanted
from hubwright.jobs.answer import Answer, AxleAnswer, LawNote, OrderLine, PlanAnswer
from hubwright.jobs.schema import answer_adapter
from hubwright.language import say
from hubwright.web.api.door import JSON, AtDesk, Axle, JobId, Revision, Spoken
from hubwright.web.api.waiting import MAY_WAIT, answer_of
from hubwright.web.desk import Desk

router = APIRouter(tags=["answer"], dependencies=[Spoken], responses=MAY_WAIT)


def axle_answer(desk: Desk, job_id: str, axle: str, revision: int | None) -> AxleAnswer:
    """The answer of one axle.

    Raises:
        StoreRefusal: when the job says nothing about it.
        BadInput: while the job file has faults.
        NotYet: while its maps are being drawn.
    """
    found = answer_of(desk, desk.seen(job_id, revision))
    for answer in found.axles:
        if answer.axle == axle:
            return answer
    raise StoreRefusal(job_id, say("the job says nothing about this axle"), say("Enter a reading of it."), missing=True)


@router.get("/jobs/{job_id}/answer", response_model=Answer)
def read_answer(desk: AtDesk, job_id: JobId, revision: Revision = None) -> Response:
    """Everything hubwright says about a job: every disc of the shelf on every axle, with reasons."""
    seen = desk.seen(job_id, revision)
    answer = answer_of(desk, seen)
    text = desk.once("answer as JSON", seen, lambda: answer_adapter().dump_json(answer), desk.today())
    return Response(text, media_type=JSON)


@router.get("/jobs/{job_id}/axles/{axle}/plans")
def read_plans(desk: AtDesk, job_id: JobId, axle: Axle, revision: Revision = None) -> list[PlanAnswer]:
    """Windows, every disc and the recommendation: as the car stands, then with the work offered done."""
    return list(axle_answer(desk, job_id, axle, revision).plans)


@router.get("/jobs/{job_id}/axles/{axle}/torque")
def read_torque(desk: AtDesk, job_id: JobId, axle: Axle, revision: Revision = None) -> TorqueAnswer:
    """What is on record for the tightening; never anything computed."""
    return axle_answer(desk, job_id, axle, revision).torque


@router.get("/jobs/{job_id}/axles/{axle}/effects")
def read_effects(desk: AtDesk, job_id: JobId, axle: Axle, revision: Revision = None) -> list[DiscEffects]:
    """What else changes with the recommended and with the wished disc."""
    return list(axle_answer(desk, job_id, axle, revision).effects)


@router.get("/jobs/{job_id}/axles/{axle}/load")
def read_load(desk: AtDesk, job_id: JobId, axle: Axle, revision: Revision = None) -> list[Finding]:
    """Tyres, wheels and speed symbols against plate, trailer and greatest speed."""
    return list(axle_answer(desk, job_id, axle, revision).load)


@router.get("/jobs/{job_id}/axles/{axle}/law")
def read_law(desk: AtDesk, job_id: JobId, axle: Axle, revision: Revision = None) -> list[Finding]:
    """Every rule asked of the recommended disc, else of the one asked for: measure against limit, source and date."""
    from hubwright.drawings.sheet import shown_disc  # noqa: PLC0415 - drawings import slowly

    disc = shown_disc(axle_answer(desk, job_id, axle, revision))
    return [] if disc is None else [finding for finding in disc.every if finding.question == "law"]


@router.get("/jobs/{job_id}/axles/{axle}/order")
def read_order(desk: AtDesk, job_id: JobId, axle: Axle, revision: Revision = None) -> list[OrderLine]:
    """What the recommended disc needs, with counts."""
    return list(axle_answer(desk, job_id, axle, revision).plan.order)


@router.get("/jobs/{job_id}/axles/{axle}/wanted")
def read_wanted(desk: AtDesk, job_id: JobId, axle: Axle, revision: Revision = None) -> list[Wanted]:
    """Readings worth taking next, best first."""
    return list(axle_answer(desk, job_id, axle, revision).wanted)


@router.get("/jobs/{job_id}/law")
def read_duties(desk: AtDesk, job_id: JobId, revision: Revision = None) -> list[LawNote]:
    """Duties that stay open for the inspector."""
    return list(answer_of(desk, desk.seen(job_id, revision)).law_notes)
