"""Somebody at the door with a name and a password; however they came, tries are counted the same way."""

from __future__ import annotations

from fastapi import Request

from hubwright.store.person import Person, key_of
from hubwright.web.desk import Desk
from hubwright.web.gate import address_of, pace_of
from hubwright.web.pace import SIGN_IN_ADDRESS, SIGN_IN_HERE, SIGN_IN_NAME, too_many


def knock(request: Request, desk: Desk, name: str, password: str) -> Person | None:
    """The person, when name and password belong together.

    Raises:
        HTTPException: 429 after too many tries, for the name or from the address.
    """
    pace, key, here = pace_of(request), key_of(name), address_of(request)
    tries = (
        (SIGN_IN_HERE, ("sign in", key, here)),
        (SIGN_IN_NAME, ("name", key)),
        (SIGN_IN_ADDRESS, ("address", here)),
    )
    if wait_s := max(pace.wait_s(limit, *at) for limit, at in tries):
        raise too_many(wait_s)
    for limit, at in tries:
        pace.spend(limit, *at)
    person = desk.cupboard.people.sign_in(name, password)
    if person is not None:
        for _, at in tries:
            pace.forgive(*at)
    return person
