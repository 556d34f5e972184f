"""The dated, cited limits of law the program holds."""

from __future__ import annotations

from datetime import date
from typing import Annotated

from fastapi import APIRouter, Query

from hubwright.errors import StoreRefusal
from hubwright.language import say
from hubwright.rules.model import RuleSet
from hubwright.rules.ruleset import jurisdictions, rules_for
from hubwright.web.api.door import AtDesk, Spoken, ThingId

router = APIRouter(tags=["law"], dependencies=[Spoken])
Day = Annotated[date | None, Query(description="Whose law; today when missing.")]


@router.get("/law")
def find_packs() -> list[str]:
    """Countries and regions whose law is known. One that is not listed is unknown, never a pass."""
    return list(jurisdictions())


@router.get("/law/{code}")
def read_pack(desk: AtDesk, code: ThingId, on: Day = None) -> RuleSet:
    """Limits and duties in force on a day, each with its source; what is not known stands beside them."""
    if code not in jurisdictions():
        todo = say("A country without a file is unknown, never a pass.")
        raise StoreRefusal(code[:40], say("there is no law of that name"), todo, missing=True)
    return rules_for([code], on or desk.today())
