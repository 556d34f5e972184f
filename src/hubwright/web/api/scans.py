"""Scans of a corner: how they lie, a new one taken, one that stands laid anew."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Annotated, Any

from fastapi import APIRouter, Depends, Response
from fastapi import Path as InAddress

from hubwright.errors import BadInput, Fault, StoreRefusal
from hubwright.jobs.placing_table import plain_placing
from hubwright.language import say
from hubwright.parts.scan import Scan
from hubwright.store.asking import Asked
from hubwright.store.merge import Content, settle
from hubwright.store.things import Change
from hubwright.store.tomltext import job_of, toml_of
from hubwright.web.api.door import AtDesk, Axle, Corner, JobId, Measures, Revision, Spoken, entity_tag, json_only
from hubwright.web.api.models import ReceiptOut, ScanIn, ScanOut
from hubwright.web.api.plain import fault_in, plain
from hubwright.web.api.told import faults_out, receipt_out
from hubwright.web.desk import Desk, Seen, sound
from hubwright.web.scan.entering import entries_of, table_of
from hubwright.web.scan.views import Corner as Wheel
from hubwright.web.scan.views import as_it_lies, placed

router = APIRouter(tags=["scans"], dependencies=[Spoken])
SCANS = "/jobs/{job_id}/axles/{axle}/{side}/scans"
Number = Annotated[int, InAddress(ge=1, le=1000, description="Its place among the scans of the corner, from 1.")]
Json = Depends(json_only)


@router.get(SCANS)
def read_scans(desk: AtDesk, job_id: JobId, axle: Axle, side: Corner, revision: Revision = None) -> list[ScanOut]:
    """The scans of a corner and how each lies: residuals of the picks, noise, what was thrown out, what must be asked."""
    seen = desk.seen(job_id, revision)
    wheel = Wheel(job_id, axle, side)
    return [_out(desk, seen, wheel, number, scan) for number, scan in enumerate(_scans(seen, wheel), 1)]


@router.post(f"{SCANS}/look", dependencies=[Json])
def look_at_scan(desk: AtDesk, who: Measures, job_id: JobId, axle: Axle, side: Corner, given: ScanIn) -> ScanOut:
    """How a scan would lie; nothing is entered."""
    wheel, seen = Wheel(job_id, axle, side), desk.seen(job_id, given.base)
    return _out(desk, seen, wheel, 0, _wanted(seen, wheel, given))


@router.post(SCANS, dependencies=[Json], status_code=201)
def add_scan(
    desk: AtDesk, who: Measures, job_id: JobId, axle: Axle, side: Corner, given: ScanIn, answer: Response
) -> ReceiptOut:
    """Take a scan into the job; which side of its hub plane is outboard is found from where it lies."""
    wheel, seen = Wheel(job_id, axle, side), desk.seen(job_id, given.base)
    scan = _sure(desk, seen, wheel, _wanted(seen, wheel, given), given)
    return _entered(desk, who.name, wheel, given, entries_of(_list(wheel), 0, scan, None), answer)


@router.put(SCANS + "/{number}", dependencies=[Json])
def place_scan_anew(
    desk: AtDesk, who: Measures, job_id: JobId, axle: Axle, side: Corner, number: Number, given: ScanIn, answer: Response
) -> ReceiptOut:  # fmt: skip
    """Lay a scan that stands in the job anew: only the fields that change are entered."""
    wheel, seen = Wheel(job_id, axle, side), desk.seen(job_id, given.base)
    stands = _scans(seen, wheel)
    if number > len(stands):
        todo = say("Look at the scans of this corner.")
        raise StoreRefusal(say("Scan {number}", number=number), say("there is none of that number"), todo, missing=True)
    scan = _sure(desk, seen, wheel, _wanted(seen, wheel, given), given)
    return _entered(desk, who.name, wheel, given, entries_of(_list(wheel), number, scan, stands[number - 1]), answer)


def _list(wheel: Wheel) -> str:
    return f"{wheel.axle}.{wheel.side}.scan"


def _scans(seen: Seen, wheel: Wheel) -> list[Scan]:
    axle = dict(sound(seen).axles).get(wheel.axle)
    return [] if axle is None else [_bare(scan) for scan in axle.corner(wheel.side).scan]


def _bare(scan: Scan) -> Scan:
    """A scan with the name of its file as the job has it, not the place it was laid out at."""
    return replace(scan, file=Path(scan.file).name)


def _wanted(seen: Seen, wheel: Wheel, given: ScanIn) -> Scan:
    """The scan of a request, read by the job file's own door.

    Raises:
        BadInput: with every fault, each at its field.
    """
    sound(seen)
    odd = fault_in(given.scan)
    if odd is not None:
        raise BadInput("scan", (Fault("scan", odd, toml_of(plain(given.scan))[:60]),))
    stored = seen.stored
    outcome = settle(Content(stored.data, stored.card), (), (Change(f"{_list(wheel)}[+]", toml_of(given.scan)),))
    if outcome.faults:
        raise BadInput("scan", outcome.faults)
    return dict(job_of(outcome.content.data).axles)[wheel.axle].corner(wheel.side).scan[-1]


def _sure(desk: Desk, seen: Seen, wheel: Wheel, scan: Scan, given: ScanIn) -> Scan:
    """The scan as it goes in.

    Raises:
        BadInput: it cannot be placed, or something speaks against it and nobody said to be sure.
    """
    placing, scan = placed(desk, sound(seen), wheel, scan)
    asked = [question for question in plain_placing(placing)["questions"] if question["grave"]]
    if asked and not given.sure:
        wanted = say("true where the scan is to be taken as it lies")
        raise BadInput("scan", tuple(Fault("sure", wanted, one["text"], one["what_to_do"]) for one in asked))
    return scan


def _entered(
    desk: Desk, author: str, wheel: Wheel, given: ScanIn, entries: list[Asked], answer: Response
) -> ReceiptOut:
    if not entries:
        return ReceiptOut(wheel.job_id, desk.cupboard.job(wheel.job_id).revision, [], None, merged=False)
    receipt = desk.cupboard.enter(wheel.job_id, entries, author, base=given.base, note=given.note, key=given.key)
    answer.headers["etag"] = entity_tag(receipt.revision)
    return receipt_out(receipt)


def _out(desk: Desk, seen: Seen, wheel: Wheel, number: int, scan: Scan) -> ScanOut:
    field = f"{_list(wheel)}[{number or '+'}]"
    there = desk.laid_out(wheel.job_id, scan.file) is not None
    placing: dict[str, Any] | None = None
    faults: list[Any] = []
    try:
        made, scan = (
            placed(desk, sound(seen), wheel, scan) if not number else (as_it_lies(desk, sound(seen), wheel, scan), scan)
        )
        placing = plain_placing(made)
    except BadInput as error:
        faults = faults_out(error.faults)
    return ScanOut(number, field, plain(table_of(scan)), there, placing, faults)
