"""How large a request may be. What is too large is refused before it is read, and while it is read."""

from __future__ import annotations

from collections.abc import MutableMapping

from starlette.exceptions import HTTPException

from hubwright.language import say
from hubwright.web.guard import App, Receive, Scope, Send

MIB = 1024 * 1024
API = "/api/"
LARGEST_ENTRY_BYTES = 5 * MIB
"""A job file has at most 4 MiB; a list of readings much less."""
LARGEST_FILE_BYTES = 257 * MIB
"""A scan of a wheel arch, and what a form adds around it."""
LARGEST_BUNDLE_BYTES = 4096 * MIB
"""The jobs of a whole shop with their scans; they go to the disk as they come."""


def most_bytes(path: str) -> int:
    """The most bytes the body of a request to an address may have."""
    if path.endswith("/import"):
        return LARGEST_BUNDLE_BYTES
    if path.startswith(API) and not path.endswith("/attachments"):
        return LARGEST_ENTRY_BYTES
    return LARGEST_FILE_BYTES


class Limits:
    """ASGI middleware: counts the bytes of each body, whatever its header says."""

    def __init__(self, app: App) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        most, seen = most_bytes(str(scope["path"])), 0
        stated = next((value for name, value in scope["headers"] if name.lower() == b"content-length"), b"")
        declared = int(stated) if stated.isdigit() and len(stated) < 20 else 0

        async def counting() -> MutableMapping[str, object]:
            nonlocal seen
            message = await receive()
            seen += len(message.get("body", b""))
            if max(seen, declared) > most:
                words = say("The request may have at most {most} MiB.", most=most // MIB)
                raise HTTPException(413, words, {"connection": "close"})
            return message

        await self._app(scope, counting, send)
