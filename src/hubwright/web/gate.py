"""The gate: who is behind a request, and whether they may. On loopback everybody may everything.

`Doorkeeper` finds the person by the cookie of their session, before anything else is done; `admitted` compares the address with
the table in `hubwright.web.roles`.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import cast
from urllib.parse import quote

from fastapi import Request
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.responses import Response

from hubwright.errors import StoreRefusal
from hubwright.language import say
from hubwright.store.sessions import LONGEST
from hubwright.web.desk import Desk
from hubwright.web.guard import App, Receive, Scope, Send, cookies_of
from hubwright.web.options import Options
from hubwright.web.pace import API, Pace, too_many
from hubwright.web.roles import role_for
from hubwright.web.who import NOBODY, Who, who_of

SESSION_COOKIE = "hw_session"
LONGEST_TOKEN = 200


class NotSignedIn(Exception):  # noqa: N818 - it names what happened
    """Somebody has to sign in first."""


class Doorkeeper:
    """ASGI middleware: puts the person into the request where the server is open to a network."""

    def __init__(self, app: App, options: Options, desk: Desk) -> None:
        self._app, self._options, self._desk = app, options, desk

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        if scope["type"] == "http" and self._options.network and not str(scope["path"]).startswith("/static/"):
            headers = {name.decode("latin-1").lower(): value.decode("latin-1") for name, value in scope["headers"]}
            token = cookies_of(headers.get("cookie", "")).get(SESSION_COOKIE, "") or bearer_in(headers)
            scope.setdefault("state", {})["who"] = await run_in_threadpool(self._who, token)
        await self._app(scope, receive, send)

    def _who(self, token: str) -> Who | StoreRefusal:
        try:
            person = self._desk.cupboard.sessions.who(token) if 0 < len(token) <= LONGEST_TOKEN else None
        except StoreRefusal as refusal:
            return refusal  # told by the page that asks
        return NOBODY if person is None else Who(person.name, person.role.value, signed_in=True)


async def admitted(request: Request) -> None:
    """Dependency of every route: the person may do this.

    Raises:
        NotSignedIn: when nobody is signed in and somebody has to be.
        HTTPException: 403 when their role does not cover it, 429 when a program asks too often.
        StoreRefusal: when the store could not say who it is.
    """
    options: Options = request.app.state.options
    if not options.network:
        return
    if isinstance(refusal := getattr(request.state, "who", None), StoreRefusal):
        raise refusal
    who, path = who_of(request), str(request.scope["path"])
    if path.startswith("/api/"):
        _keep_pace(request, who)
    needed = role_for(request.method, path)
    if needed is None or who.may(needed):
        return
    if not who.known:
        raise NotSignedIn
    words = say("{name} may not do this: it needs the role “{role}”.", name=who.name, role=needed)
    raise HTTPException(403, words)


def _keep_pace(request: Request, who: Who) -> None:
    pace, key = pace_of(request), ("api", who.name or address_of(request))
    if wait_s := pace.wait_s(API, *key):
        raise too_many(wait_s)
    pace.spend(API, *key)


def sign_in_address(request: Request) -> str:
    """The sign-in page, which leads back to where somebody wanted to go."""
    wanted = request.url.path if request.method in ("GET", "HEAD") else "/"
    return "/sign-in" if wanted == "/" else f"/sign-in?to={quote(wanted, safe='/')}"


def let_in(answer: Response, token: str, options: Options) -> None:
    """Hand out the cookie of a session."""
    answer.set_cookie(
        SESSION_COOKIE,
        token,
        int(LONGEST.total_seconds()),
        path="/",
        httponly=True,
        samesite="lax",
        secure=options.secure,
    )


def token_in(request: Request) -> str:
    """The token of the session this browser or program holds; empty without one."""
    return (request.cookies.get(SESSION_COOKIE, "") or bearer_in(request.headers))[:LONGEST_TOKEN]


def bearer_in(headers: Mapping[str, str]) -> str:
    """The token a program sends along (RFC 6750, 2.1); empty without one."""
    kind, _, token = headers.get("authorization", "").partition(" ")
    return token.strip() if kind.lower() == "bearer" else ""


def pace_of(request: Request) -> Pace:
    """How often people tried."""
    return cast(Pace, request.app.state.pace)


def address_of(request: Request) -> str:
    """The machine a request came from."""
    return request.client.host if request.client is not None else "unknown"
