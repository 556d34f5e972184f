"""The card of a job: what belongs to the visit and is no reading."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from hubwright.errors import BadInput, Fault, StoreRefusal
from hubwright.language import say
from hubwright.store.fields import CARD
from hubwright.store.things import Stage
from hubwright.store.tomltext import job_of

FIELDS = (
    "@customer", "@stage", "@due", "@complaint", "@note", "@measured_by", "@released_by", "@handed_over",
)  # fmt: skip
"""The last three are names typed as signatures: who measured, who released, to whom it was handed over."""
LONGEST = 4000
PROVEN = (Stage.RELEASED, Stage.WAITING)
"""Stages that say the car went out: only readings with the disc fitted allow them."""


def fault_on_card(field: str, value: str | None) -> Fault | None:
    """What is wrong with a value for the card, if anything."""
    if field not in FIELDS:
        return Fault(field, say("one of {fields}", fields=", ".join(FIELDS)), field)
    if value is None or (value == "" and field != "@stage"):
        return None
    if len(value) > LONGEST or not readable(value):
        return Fault(field, say("text of at most {longest} characters", longest=LONGEST), repr(value[:40]))
    if field == "@stage" and value not in tuple(Stage):
        return Fault(field, say("one of {stage}", stage=", ".join(Stage)), value)
    if field == "@due" and day_in(value) is None:
        return Fault(field, say("a day such as 2026-05-04"), value)
    return None


def readable(text: str) -> bool:
    """Whether a database can keep the text: no zero, no half characters."""
    return "\0" not in text and text.encode("utf-8", "replace").decode() == text


def day_in(text: str | None) -> date | None:
    """The day written as 2026-05-04; None when it is none."""
    try:
        return date.fromisoformat(text) if text else None
    except ValueError:
        return None


def stage_of(card: Mapping[str, str]) -> Stage:
    """How far the visit has come; a job without a word about it is a draft."""
    found = card.get(f"{CARD}stage")
    return Stage(found) if found in tuple(Stage) else Stage.DRAFT


def refuse_unproven(stage: Stage, data: bytes, today: date) -> None:
    """Hold back "released" from a job that was not measured with its disc fitted.

    Raises:
        StoreRefusal: when an axle with a wish is not released by its readings, or no axle is.
    """
    if stage not in PROVEN:
        return
    from hubwright.jobs.assess import assess  # noqa: PLC0415 - slow to import, needed for this alone

    try:
        job = job_of(data)
    except BadInput as error:
        raise StoreRefusal(
            say("The stage {stage}", stage=stage),
            say("the job file has faults ({error})", error=error),
            say("Put them right first."),
        ) from None
    released = {axle.axle for axle in assess(job, today).axles if axle.released}
    open_axles = [name for name, axle in job.axles if axle.wish is not None and name not in released]
    if open_axles or not released:
        where = " and ".join(open_axles) or "any axle"
        raise StoreRefusal(
            say("The stage {stage}", stage=stage),
            say("{where}: not measured with the recommended disc fitted, both sides", where=where),
            say("Fit it, measure again with the disc fitted, enter the readings."),
        )
