"""Whose law on which day: what the job says, or what the address asks to look at instead."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

from starlette.datastructures import FormData, QueryParams

from hubwright.errors import Fault
from hubwright.language import say
from hubwright.parts.job import Job
from hubwright.rules.ruleset import jurisdictions


@dataclass(frozen=True)
class AskedLaw:
    """Countries and day.

    Attributes:
        countries: Codes.
        on: The day.
        typed_day: As typed.
        other: Whether it differs from what the job says.
        faults: What is wrong with it; then the job's own stand here.
    """

    countries: tuple[str, ...]
    on: date
    typed_day: str
    other: bool
    faults: tuple[Fault, ...] = ()

    def job(self, job: Job) -> Job:
        """The job as if this were its law."""
        return replace(job, date=self.on, request=replace(job.request, countries=self.countries))


def asked_law(params: QueryParams | FormData, job: Job, today: date) -> AskedLaw:
    """Fields ``country`` (again for each) and ``on``; without either what the job says."""
    own_day = job.date or today
    given = tuple(dict.fromkeys(str(code).strip() for code in params.getlist("country") if str(code).strip()))
    typed = str(params.get("on") or "").strip()
    if not given and not typed and "law" not in params:
        return AskedLaw(job.request.countries, own_day, own_day.isoformat(), other=False)
    faults = []
    known = jurisdictions()
    for code in given:
        if code not in known:
            todo = say("A country without a rule file is unknown, never a pass.")
            faults.append(Fault("country", say("one of {known}", known=", ".join(known)), code[:40], todo))
    on = day_of(typed) if typed else own_day
    if on is None:
        faults.append(Fault("on", say("a day such as 2026-05-04"), typed[:40]))
    if faults or on is None:
        return AskedLaw(job.request.countries, own_day, typed, other=False, faults=tuple(faults))
    other = (set(given), on) != (set(job.request.countries), own_day)
    return AskedLaw(given, on, on.isoformat(), other)


def day_of(text: str) -> date | None:
    """A day written as 2026-05-04; None for anything else."""
    try:
        return date.fromisoformat(text) if len(text) == 10 else None
    except ValueError:
        return None
