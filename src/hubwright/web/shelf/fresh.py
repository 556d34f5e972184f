"""The job file of a new job: what the form holds and nothing else."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from hubwright.errors import Fault
from hubwright.language import say
from hubwright.rules.ruleset import jurisdictions
from hubwright.store.tomltext import toml_of

USES = ("street", "laden", "track", "off-road")


def faults_of(typed: Mapping[str, str], countries: tuple[str, ...]) -> tuple[Fault, ...]:
    """What is wrong with the form, all at once."""
    faults = []
    if not typed.get("title") and not typed.get("description") and not typed.get("plate"):
        todo = say("Any of the three will do; the others can follow.")
        faults.append(Fault("title", say("a title, a plate or what the car is"), say("nothing"), todo))
    for name in ("title", "description", "plate", "customer", "reason"):
        if len(typed.get(name, "")) > 400:
            faults.append(Fault(name, say("at most 400 letters"), say("{count} letters", count=len(typed[name]))))
    if typed.get("use") not in USES:
        faults.append(Fault("use", say("how the car is used"), typed.get("use") or say("nothing")))
    for country in countries:
        if country not in jurisdictions():
            faults.append(Fault("countries", say("one of {known}", known=", ".join(jurisdictions())), country))
    return tuple(faults)


def job_text(typed: Mapping[str, str], countries: tuple[str, ...], today: date, shop: str = "") -> str:
    """The text of a sound job file.

    Args:
        typed: Fields of the form, already found without fault.
        countries: Whose law is asked.
        today: Day of the visit.
        shop: The shop's own tables, as TOML; empty = none.
    """
    title = typed.get("title") or " · ".join(typed[key] for key in ("description", "plate") if typed.get(key))
    lines = ["hubwright_job = 1", f"title = {toml_of(title[:400])}", f"date = {today.isoformat()}", "", "[car]"]
    lines += [f"{key} = {toml_of(typed[key])}" for key in ("description", "plate") if typed.get(key)]
    lines += ["", "[request]", f"use = {toml_of(typed['use'])}", f"countries = {toml_of(list(countries))}"]
    lines += [f"reason = {toml_of(typed['reason'])}"] if typed.get("reason") else []
    return "\n".join(lines) + "\n" + (f"\n{shop}" if shop else "")
