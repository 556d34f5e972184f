"""What an address of the API answers while a map is being drawn beside the requests: 202, and when to ask again."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from fastapi import Request
from fastapi.responses import JSONResponse, Response

from hubwright.jobs.answer import Answer
from hubwright.language import say
from hubwright.web.desk import Desk, Seen
from hubwright.web.later import NotYet

AGAIN_S = 3


@dataclass(frozen=True)
class LaterOut:
    """Being worked out: ask `again` in so many seconds."""

    detail: str
    again: str
    seconds: int


MAY_WAIT: dict[int | str, dict[str, Any]] = {
    202: {
        "model": LaterOut,
        "description": "A clearance map is being drawn; ask the same address again after Retry-After.",
        "headers": {
            "Retry-After": {"description": "Seconds.", "schema": {"type": "integer"}},
            "Location": {"description": "Where to ask again.", "schema": {"type": "string"}},
        },
    }
}
"""For `responses` of every address that may have to wait for a map."""


def not_yet(request: Request, error: Exception) -> Response:
    """The answer to a request that need not hold a worker until the map is there."""
    again = request.url.path + (f"?{request.url.query}" if request.url.query else "")
    told = {"detail": say("It is being drawn; ask again in a few seconds."), "again": again, "seconds": AGAIN_S}
    return JSONResponse(told, 202, {"retry-after": str(AGAIN_S), "location": again, "cache-control": "no-store"})


def answer_of(desk: Desk, seen: Seen) -> Answer:
    """The whole answer of a job, with its maps.

    Raises:
        NotYet: while they are being drawn.
        BadInput: while the job file has faults.
    """
    worked = desk.worked(seen)
    if worked.waiting:
        raise NotYet
    return worked.answer
