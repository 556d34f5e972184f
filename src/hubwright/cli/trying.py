"""``hubwright try``: discs of any thickness on the axles of a job."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path

from rich.console import Console
from rich.markup import escape
from rich.padding import Padding

from hubwright.cli.commands import leave
from hubwright.cli.show import print_finding
from hubwright.cli.work import loaded
from hubwright.errors import BadInput, Fault, HubwrightError
from hubwright.jobs.assess import CAUTIONS
from hubwright.jobs.trial import DiscToTry, Trial, trials_adapter, try_discs
from hubwright.jobs.trying import KINDS, thickness_from
from hubwright.language import say
from hubwright.language.words import axle_title, kind_word, question_word, status_word, verdict_word
from hubwright.parts.job import AxleName, Job
from hubwright.quantities.text import System, joined, speaking, thickness

AXLES: tuple[AxleName, ...] = ("front", "rear")


def try_out(path: Path, discs: Sequence[str], *, with_work: bool, explain: bool, as_json: bool, units: System) -> None:
    """Judge the discs named and print what became of each."""
    job = loaded(path)
    try:
        asked = discs_from(discs, job)
        with speaking(units):
            found = try_discs(job, asked, with_work=with_work)
    except HubwrightError as error:
        leave(error)
    if as_json:
        sys.stdout.write(trials_adapter().dump_json(found, indent=2).decode() + "\n")
        return
    console = Console(highlight=False)
    with speaking(units):
        for trial in found:
            _show(console, trial, explain)
        for caution in CAUTIONS[:2]:
            console.print(f"! {escape(say(caution))}")


def discs_from(texts: Sequence[str], job: Job) -> tuple[DiscToTry, ...]:
    """Discs as they are named on the command line: ``rear=7.5``, ``rear=15:lipped``.

    Raises:
        BadInput: with every fault.
    """
    known: list[str] = [name for name, _ in job.axles]
    found: list[DiscToTry] = []
    faults: list[Fault] = []
    for text in texts:
        name, equals, rest = text.partition("=")
        size, colon, kind_text = rest.partition(":")
        axle = next((one for one in AXLES if one == name.strip()), None)
        kind = next((one for one in KINDS if one == kind_text.strip()), None)
        if not equals or not size.strip():
            wanted = say("axle and thickness per side in mm, such as rear=7.5 or rear=15:lipped")
            faults.append(Fault("DISC", wanted, text))
            continue
        if axle is None or axle not in known:
            there = joined(known, "or") if known else say("none: the job says nothing about any axle")
            faults.append(Fault(text, there, name))
        if colon and kind is None:
            faults.append(Fault(text, joined(list(KINDS), "or"), kind_text))
        value, bad = thickness_from(size, text)
        faults += bad
        if axle is not None and value is not None:
            found.append(DiscToTry(axle, value, kind))
    if faults:
        raise BadInput("try", tuple(faults))
    return tuple(found)


def _show(console: Console, trial: Trial, explain: bool) -> None:
    """One disc: what becomes of it, each question, each side, what holds the wheel."""
    disc = trial.disc
    title = say("no disc")
    if disc.thickness_mm:
        title = say("{size} {kind} disc, per side", size=thickness(disc.thickness_mm), kind=kind_word(disc.kind))
    head = f"[bold]{axle_title(trial.axle)}[/], {escape(title)}: [bold]{status_word(disc.status)}[/]"
    console.print(head)
    if trial.work:
        console.print(Padding(escape(say("With work done: {work}", work=joined(trial.work))), (0, 0, 0, 2)))
    if trial.assumed:
        console.print(Padding(escape(trial.assumed), (0, 0, 0, 2)))
    if explain:
        for finding in disc.every:
            print_finding(console, finding)
    else:
        for finding in disc.findings:
            asked = f"{question_word(finding.question)}, {verdict_word(finding.verdict)}"
            console.print(Padding(f"{asked}: {escape(finding.sentence)}", (0, 0, 0, 4)))
        other = next((one for one in (trial.left, trial.right) if one.sentence != disc.findings[0].sentence), None)
        if other is not None:
            told = say("the other side, {verdict}: {text}", verdict=verdict_word(other.verdict), text=other.sentence)
            console.print(Padding(escape(told), (0, 0, 0, 4)))
    for choice in disc.fasteners:
        console.print(Padding(escape(say("fasteners: {choice}", choice=choice.title)), (0, 0, 0, 4)))
    console.print()
