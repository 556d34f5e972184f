"""``hubwright paper``: sheets of one or several jobs, from files or from the store."""

from __future__ import annotations

import hashlib
import sys
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, Any

from hubwright.cli.commands import leave
from hubwright.errors import BadInput, Fault, HubwrightError
from hubwright.jobs.answer import Answer
from hubwright.jobs.jobfile import parse, with_full_paths
from hubwright.language import say
from hubwright.parts.job import Job
from hubwright.quantities.axes import SIDES
from hubwright.quantities.text import System
from hubwright.reports import (
    Identity,
    Options,
    Order,
    Photograph,
    answered,
    axles_to_draw,
    formats_of,
    identity_of,
    kinds_for,
    print_sheet,
    print_together,
)

if TYPE_CHECKING:
    from hubwright.store.cupboard import Cupboard

DISC = "disc-drawing"
PICTURES = ("image/jpeg", "image/png")


@dataclass(frozen=True)
class Asked:
    """What was asked for on the command line."""

    sheets: tuple[str, ...]
    output: Path | None
    folder: Path | None
    paper: str
    units: System
    language: str
    axle: str | None
    disc_mm: float | None
    kind: str | None
    address: str


@dataclass(frozen=True)
class Found:
    """One job with its answer, and how its files are called."""

    stem: str
    job: Job
    answer: Answer
    identity: Identity


def print_paper(names: list[str], asked: Asked, *, only_list: bool) -> None:
    """Print what was asked for; every fault on the error stream, exit code 2."""
    try:
        options = _options(asked)
        with TemporaryDirectory() as scans:
            found = [_found(name, options, asked.address, Path(scans)) for name in names]
            if only_list:
                for one in found:
                    sys.stdout.write(f"{one.stem}: {', '.join(kinds_for(one.answer))}\n")
            elif asked.folder is not None:
                _all(found, options, asked)
            else:
                _one_file(found, options, asked)
    except HubwrightError as error:
        leave(error)
    except OSError as error:
        leave(
            say(
                "{file}: wanted a place that can be written; {error}.",
                file=error.filename,
                error=error.strerror or error,
            )
        )


def _options(asked: Asked) -> Options:
    faults = []
    if asked.axle not in (None, "front", "rear"):
        faults.append(Fault("--axle", say("front or rear"), str(asked.axle)))
    if asked.kind not in (None, "plain", "lipped"):
        faults.append(Fault("--kind", say("plain or lipped"), str(asked.kind)))
    if asked.folder is not None and (asked.output is not None or asked.sheets):
        faults.append(Fault("--all", say("a folder and neither --sheet nor --output"), say("both")))
    ending = asked.output.suffix.removeprefix(".").lower() if asked.output is not None else "pdf"
    if faults:
        raise BadInput("paper", tuple(faults))
    words: dict[str, Any] = {"paper": asked.paper, "format": ending, "axle": asked.axle, "disc_kind": asked.kind}
    return Options(units=asked.units, language=asked.language, thickness_mm=asked.disc_mm, **words)


def _found(name: str, options: Options, address: str, scans: Path) -> Found:
    path = Path(name)
    if path.suffix == ".toml" or path.exists():
        try:
            data = path.read_bytes()
        except OSError as error:
            given = error.strerror or str(error)
            raise BadInput(path.name, (Fault(say("the file"), say("a job file that can be read"), given),)) from None
        text = data.decode("utf-8-sig", "replace")
        job = parse(text, path.name, path.parent)
        return Found(path.stem, job, answered(job, options), replace(identity_of(data), address=address))
    return _stored(name, options, address, scans)


def _stored(name: str, options: Options, address: str, scans: Path) -> Found:
    from hubwright.cli.store_work import opened  # noqa: PLC0415 - files need no database

    with opened() as (cupboard, _):
        job_id = cupboard.name(name)
        stored = cupboard.job(job_id)
        if stored.faults:
            raise BadInput(f"job {job_id}", stored.faults)
        workshop = cupboard.shop.now().letterhead
        photographs = tuple(
            Photograph(item.name, item.sha256, item.note, cupboard.fetch(item.id)[1] if item.kind in PICTURES else None)
            for item in cupboard.attachments(job_id)
        )
        job = _with_scans(cupboard, job_id, parse(stored.text, f"job {job_id}"), scans / job_id)
    card = stored.card
    identity = Identity(
        hashlib.sha256(stored.data).hexdigest(),
        job_id,
        stored.revision,
        address,
        card.get("@customer", ""),
        date.fromisoformat(card["@due"]) if card.get("@due") else None,
        photographs,
        workshop,
    )
    return Found(job_id, job, answered(job, options), identity)


def _with_scans(cupboard: Cupboard, job_id: str, job: Job, folder: Path) -> Job:
    """The job with its attached scans where the sums can read them; as it is where one is not attached."""
    wanted = {scan.file for _, axle in job.axles for side in SIDES for scan in axle.corner(side).scan}
    attached = {item.name: item.id for item in cupboard.attachments(job_id)}
    if not wanted or not wanted <= set(attached):
        return job
    folder.mkdir()
    for name in wanted:
        (folder / name).write_bytes(cupboard.fetch(attached[name])[1])
    return with_full_paths(job, folder)


def _one_file(found: list[Found], options: Options, asked: Asked) -> None:
    if asked.output is None:
        fault = Fault("--output", say("a file to write, or --all with a folder"), say("nothing"))
        raise BadInput("paper", (fault,))
    orders = [
        Order(kind, one.job, one.answer, one.identity)
        for one in found
        for kind in asked.sheets or kinds_for(one.answer)
    ]
    if len(orders) == 1:
        order = orders[0]
        made = print_sheet(order.kind, order.job, order.answer, order.identity, options)
    elif options.format != "pdf":
        raise BadInput(
            "paper", (Fault("--output", say("a name that ends with .pdf for several sheets"), asked.output.name),)
        )
    else:
        made = print_together(orders, options)
    _write(asked.output, made.data)


def _all(found: list[Found], options: Options, asked: Asked) -> None:
    folder = asked.folder or Path()
    folder.mkdir(parents=True, exist_ok=True)
    stems: dict[str, int] = {}
    for one in found:
        stems[one.stem] = stems.get(one.stem, 0) + 1
        stem = one.stem if stems[one.stem] == 1 else f"{one.stem}-{stems[one.stem]}"
        for kind in kinds_for(one.answer):
            try:
                _every_format(one, kind, options, folder / stem)
            except BadInput as error:
                if kind != DISC:
                    raise
                said = say("{stem}, {kind}: not drawn. {fault}", stem=stem, kind=kind, fault=error)
                sys.stderr.write(f"{said}\n")


def _every_format(one: Found, kind: str, options: Options, start: Path) -> None:
    """One sheet in all its formats; drawings of discs for other programs are one file for each axle."""
    for ending in formats_of(kind):
        axles: list[Any] = [None]
        if kind == DISC and ending != "pdf":
            axles = list(axles_to_draw(one.answer))
        for axle in axles:
            words: dict[str, Any] = {"format": ending, "axle": axle or options.axle}
            made = print_sheet(kind, one.job, one.answer, one.identity, replace(options, **words))
            name = made.name if axle is None else f"{kind}-{axle}.{ending}"
            _write(start.with_name(f"{start.name}-{name}"), made.data)


def _write(path: Path, data: bytes) -> None:
    path.write_bytes(data)
    sys.stdout.write(f"{say('{file} written.', file=path)}\n")
