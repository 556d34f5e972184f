"""What every address of the API leans on: whose request it is, its body, its language, the revision it speaks of."""

from __future__ import annotations

import re
from collections.abc import AsyncIterator, Callable
from hmac import compare_digest
from typing import Annotated, Literal

from fastapi import Depends, Header, Path, Query, Request
from starlette.exceptions import HTTPException

from hubwright.language import say, spoken
from hubwright.parts.job import AxleName
from hubwright.quantities.axes import Side
from hubwright.quantities.text import System, speaking
from hubwright.web.desk import Desk, desk_of
from hubwright.web.forms import TOKEN_COOKIE, TOKEN_HEADER
from hubwright.web.preferences import Preferences
from hubwright.web.who import Role, Who, who_of

OWN_HEADER = "x-hubwright"
TOML, BYTES, JSON = "application/toml", "application/octet-stream", "application/json"
Language = Literal["en", "de"]

AtDesk = Annotated[Desk, Depends(desk_of)]
JobId = Annotated[str, Path(description="Name of the job: twelve letters and digits.", max_length=64)]
ThingId = Annotated[str, Path(description="Name of the thing, as another answer gave it.", max_length=64)]
Axle = Annotated[AxleName, Path(description="Which axle.")]
Corner = Annotated[Side, Path(description="Which side.")]
Revision = Annotated[
    int | None, Query(ge=1, le=2**31 - 1, description="The job as it stood then; missing: as it stands.")
]
Key = Annotated[
    str | None,
    Query(
        pattern=r"^[0-9A-Za-z_-]{1,64}$",
        description="Made up by the sender: sent again with the same key, it is there once.",
    ),
]
Note = Annotated[str, Query(max_length=4000, description="Why, for the history.")]
Thickness = Annotated[float, Query(ge=0, le=150, allow_inf_nan=False, description="Of the disc, per side; 0 = none.")]


def asked_by(role: Role) -> Callable[[Request], Who]:
    """Dependency of an address that changes something or is not for everybody: the person, if they may.

    A page of somebody else can make a browser send forms and simple requests, but no header of its own choosing without
    asking first, which is never allowed here. So one of two headers is asked for.

    Raises:
        HTTPException: 403 without either header, or when the person may not.
    """

    def who(request: Request) -> Who:
        if request.method not in ("GET", "HEAD"):
            refuse_foreign(request)
        found = who_of(request)
        if not found.may(role):
            raise HTTPException(
                403, say("{name} may not do this: it needs the role “{role}”.", name=found.name, role=role)
            )
        return found

    return who


Measures = Annotated[Who, Depends(asked_by("measure"))]
Decides = Annotated[Who, Depends(asked_by("decide"))]
Manages = Annotated[Who, Depends(asked_by("manage"))]


def refuse_foreign(request: Request) -> None:
    """Hold back what a page of somebody else could have made a browser send.

    Raises:
        HTTPException: 403.
    """
    token, kept = request.headers.get(TOKEN_HEADER, ""), request.cookies.get(TOKEN_COOKIE, "")
    ours = len(kept) >= 32 and compare_digest(token.encode("utf-8", "replace"), kept.encode("utf-8", "replace"))
    if not ours and request.headers.get(OWN_HEADER) != "1":
        raise HTTPException(
            403, say("What changes something must bear the header “{header}: 1”.", header="X-Hubwright")
        )


async def spoken_here(
    request: Request,
    units: Annotated[System | None, Query(description="Units of the sentences; numbers by name stay as named.")] = None,
    language: Annotated[Language | None, Query(description="Of the sentences.")] = None,
) -> AsyncIterator[None]:
    """Dependency of answers with sentences: units and language by name, else as the person likes them."""
    likes: Preferences = request.state.likes
    with speaking(units or likes.system, language or spoken()):
        yield


Spoken = Depends(spoken_here)


def body_of(kind: str) -> Callable[[Request], object]:
    """Dependency: the bytes of a body of one kind.

    Raises:
        HTTPException: 415 for another kind.
    """

    async def read(request: Request) -> bytes:
        refuse_kind(request, kind)
        return await request.body()

    return read


def refuse_kind(request: Request, kind: str) -> None:
    """Hold back a body of another kind.

    Raises:
        HTTPException: 415.
    """
    given = request.headers.get("content-type", "").partition(";")[0].strip().lower()
    if given != kind:
        words = say("wanted a body of the kind {kind}; given {given}.", kind=kind, given=given or say("nothing"))
        raise HTTPException(415, words, {"accept": kind})


def json_only(request: Request) -> None:
    """Dependency of addresses that take JSON: no other kind."""
    refuse_kind(request, JSON)


def entity_tag(revision: int) -> str:
    """A revision as the tag of a job file."""
    return f'"{revision}"'


def wanted_revision(
    if_match: Annotated[str | None, Header(max_length=200, description='The revision it was made from: "3".')] = None,
) -> int:
    """Dependency: the revision the sender had before them.

    Raises:
        HTTPException: 428 without it, 412 when it is written in another way.
    """
    if if_match is None:
        raise HTTPException(
            428, say("Send the header If-Match with the revision the file was made from, such as {tag}.", tag='"3"')
        )
    match = re.fullmatch(r'\s*"(0|[1-9][0-9]{0,8})"\s*', if_match)
    if match is None:
        raise HTTPException(
            412, say("wanted the tag of one revision, such as {tag}; given {given}.", tag='"3"', given=if_match[:40])
        )
    return int(match[1])


Wanted = Annotated[int, Depends(wanted_revision)]
