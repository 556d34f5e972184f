"""What stands before every request: the name it was sent to, the person's language and units, the headers of every answer."""

from __future__ import annotations

import json
from collections.abc import Awaitable, Callable, MutableMapping
from http.cookies import CookieError, SimpleCookie
from typing import Any

from hubwright.language import say
from hubwright.quantities.text import speaking
from hubwright.web.options import Options
from hubwright.web.preferences import COOKIE, preferences_of

Scope = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[MutableMapping[str, Any]]]
Send = Callable[[MutableMapping[str, Any]], Awaitable[None]]
App = Callable[[Scope, Receive, Send], Awaitable[None]]

HEADERS = {
    "content-security-policy": (
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; connect-src 'self' blob:; "
        "font-src 'self'; manifest-src 'self'; worker-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'"
    ),
    "x-content-type-options": "nosniff",
    "referrer-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "camera=(self), geolocation=(), microphone=()",
}


class Guard:
    """ASGI middleware. A request under a foreign name is refused: it may come from a page that plays tricks with names."""

    def __init__(self, app: App, options: Options) -> None:
        self._app, self._options = app, options

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        headers = {name.decode("latin-1").lower(): value.decode("latin-1") for name, value in scope["headers"]}
        likes = preferences_of(cookies_of(headers.get("cookie", "")).get(COOKIE), headers.get("accept-language", ""))
        scope.setdefault("state", {})["likes"] = likes
        with speaking(likes.system, likes.language):
            if not self._answers_to(headers.get("host", "")):
                await _refuse(scope, send, 421, say("This server does not answer to that name."))
                return

            if "\0" in scope["path"] or b"%00" in scope["query_string"]:
                await _refuse(scope, send, 400, say("An address holds no zero character."))
                return

            async def sending(message: MutableMapping[str, Any]) -> None:
                if message["type"] == "http.response.start":
                    present = {name.lower() for name, _ in message["headers"]}
                    added = [(n.encode(), v.encode()) for n, v in HEADERS.items() if n.encode() not in present]
                    if b"cache-control" not in present:
                        added.append((b"cache-control", b"no-store"))
                    message = {**message, "headers": [*message["headers"], *added]}
                await send(message)

            await self._app(scope, receive, sending)

    def _answers_to(self, host: str) -> bool:
        if not self._options.hosts:
            return True
        name = host.rsplit(":", 1)[0] if not host.endswith("]") else host
        return name.lower() in self._options.hosts


def cookies_of(header: str) -> dict[str, str]:
    """Cookies by name; none of an odd header."""
    try:
        return {name: morsel.value for name, morsel in SimpleCookie(header).items()}
    except CookieError:
        return {}


async def _refuse(scope: Scope, send: Send, status: int, words: str) -> None:
    body, kind = f"{words}\n".encode(), b"text/plain; charset=utf-8"
    if str(scope["path"]).startswith("/api/"):
        problem = {"status": status, "title": words, "detail": "", "what_to_do": "", "faults": []}
        body, kind = json.dumps(problem).encode(), b"application/problem+json"
    plain = [(b"content-type", kind), (b"content-length", str(len(body)).encode())]
    plain += [(name.encode(), value.encode()) for name, value in HEADERS.items()]
    await send({"type": "http.response.start", "status": status, "headers": plain})
    await send({"type": "http.response.body", "body": body})
