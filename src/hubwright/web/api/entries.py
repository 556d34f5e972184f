"""Readings entered, revisions taken back, entries put aside settled."""

from __future__ import annotations

import json
from collections.abc import Sequence

from fastapi import APIRouter, Depends, Response

from hubwright.errors import BadInput, Fault, StoreRefusal
from hubwright.language import say
from hubwright.store.asking import Asked
from hubwright.store.fields import CARD
from hubwright.store.tomltext import toml_of
from hubwright.web.api.door import AtDesk, Decides, JobId, Measures, ThingId, entity_tag, json_only
from hubwright.web.api.models import AsideOut, EntryIn, ReadingIn, ReceiptOut, SettleIn, UndoIn
from hubwright.web.api.plain import fault_in
from hubwright.web.api.told import aside_out, receipt_out
from hubwright.web.decisions import refuse_undecided

router = APIRouter(tags=["entries"])
Json = Depends(json_only)


def asked_of(readings: Sequence[ReadingIn]) -> list[Asked]:
    """Fields and TOML values of an entry.

    Raises:
        BadInput: with every fault.
    """
    asked: list[Asked] = []
    faults: list[Fault] = []
    for number, reading in enumerate(readings, 1):
        place = f"readings[{number}]"
        stated = reading.model_fields_set & {"value", "toml"}
        if len(stated) != 1:
            given = say("both") if stated else say("neither")
            faults.append(Fault(place, say("either value or toml"), given, say("Null takes the field out.")))
            continue
        value = reading.toml if "toml" in stated else reading.value
        if "toml" in stated or value is None or (reading.field.startswith(CARD) and isinstance(value, str)):
            asked.append((reading.field, value))
        elif reading.field.startswith(CARD):
            faults.append(Fault(f"{place}.value", say("a text"), _shown(value)))
        elif (wanted := fault_in(value)) is not None:
            faults.append(Fault(f"{place}.value", wanted, _shown(value)))
        else:
            asked.append((reading.field, toml_of(value)))
    if faults:
        raise BadInput("entry", tuple(faults))
    return asked


@router.post("/jobs/{job_id}/entries", dependencies=[Json])
def enter_readings(desk: AtDesk, who: Measures, job_id: JobId, entry: EntryIn, answer: Response) -> ReceiptOut:
    """Enter readings, or fields of the card.

    What somebody else changed since `base` to something else, and what would make the job faulty, is not lost: it is put aside
    whole until somebody settles it; the rest goes in.
    """
    asked = asked_of(entry.readings)
    refuse_undecided(who, asked)
    receipt = desk.cupboard.enter(job_id, asked, who.name, base=entry.base, note=entry.note, key=entry.key)
    answer.headers["etag"] = entity_tag(receipt.revision)
    return receipt_out(receipt)


@router.post("/jobs/{job_id}/undo", dependencies=[Json])
def undo_revision(desk: AtDesk, who: Decides, job_id: JobId, undo: UndoIn) -> ReceiptOut:
    """Take one revision back by a new one; nothing leaves the history."""
    return receipt_out(desk.cupboard.undo(job_id, who.name, revision=undo.revision, note=undo.note, key=undo.key))


@router.get("/asides")
def find_asides(desk: AtDesk) -> list[AsideOut]:
    """Entries of all jobs that wait for a decision, oldest first."""
    return [aside_out(aside) for aside in desk.cupboard.asides()]


@router.get("/jobs/{job_id}/asides")
def read_asides(desk: AtDesk, job_id: JobId, also_settled: bool = False) -> list[AsideOut]:
    """Entries put aside of one job, oldest first."""
    desk.cupboard.job(job_id)
    return [aside_out(aside) for aside in desk.cupboard.asides(job_id, also_settled=also_settled)]


@router.post("/jobs/{job_id}/asides/{aside_id}", dependencies=[Json])
def settle_aside(desk: AtDesk, who: Decides, job_id: JobId, aside_id: ThingId, settled: SettleIn) -> ReceiptOut:
    """End an entry put aside: take it into the job as it stands now, or drop it."""
    known = {aside.id for aside in desk.cupboard.asides(job_id, also_settled=True)}
    if aside_id not in known:
        todo = say("Look at the entries of this job.")
        raise StoreRefusal(aside_id[:40], say("there is no entry of that name"), todo, missing=True)
    take = settled.decision == "take"
    return receipt_out(desk.cupboard.settle(aside_id, who.name, take=take, base=settled.base, note=settled.note))


def _shown(value: object) -> str:
    return json.dumps(value)[:60]
