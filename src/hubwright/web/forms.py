"""A posted form: read once, proven to come from a page of ours, its fields by name."""

from __future__ import annotations

import secrets
from collections.abc import AsyncIterator, Iterator
from dataclasses import dataclass
from hmac import compare_digest

from fastapi import Request
from starlette.datastructures import FormData, UploadFile
from starlette.formparsers import MultiPartException

from hubwright.quantities.text import System

TOKEN_FIELD, TOKEN_HEADER, TOKEN_COOKIE = "form_token", "x-form-token", "hw_form"
MOST_FIELDS, MOST_FILES = 2000, 20


class NotOurForm(Exception):  # noqa: N818 - it names what happened
    """A form without the token of this browser: an old page, or one of somebody else."""


class BrokenForm(Exception):  # noqa: N818 - it names what happened
    """A body that is no form."""


@dataclass(frozen=True)
class Posted:
    """The fields of a form."""

    fields: FormData

    def text(self, name: str, default: str = "") -> str:
        """A text without blanks around it; ``default`` where it is missing."""
        value = self.fields.get(name, default)
        return value.strip() if isinstance(value, str) else default

    def texts(self, name: str) -> tuple[str, ...]:
        """Every text of that name, in order."""
        return tuple(value.strip() for value in self.fields.getlist(name) if isinstance(value, str))

    def whole(self, name: str, default: int) -> int:
        """A whole number; ``default`` where it is none."""
        text = self.text(name)
        return int(text) if text.isascii() and text.isdigit() and len(text) < 10 else default

    def system(self, usual: System) -> System:
        """The units a form was shown and typed in (field ``system``)."""
        return {"metric": "metric", "inch": "inch"}.get(self.text("system"), usual)  # type: ignore[return-value]  # both are systems

    def file(self, name: str) -> UploadFile | None:
        """A file handed in; None where none was chosen."""
        value = self.fields.get(name)
        return value if isinstance(value, UploadFile) and value.filename else None

    def beginning(self, prefix: str) -> Iterator[tuple[str, str]]:
        """Texts whose name begins so, without the beginning, each name once, in order."""
        for name in dict.fromkeys(self.fields.keys()):
            if name.startswith(prefix):
                yield name.removeprefix(prefix), self.text(name)


def token_of(request: Request) -> str:
    """The token of this browser for its forms; made on first use and set as a cookie when the page is sent."""
    found = getattr(request.state, "form_token", None) or request.cookies.get(TOKEN_COOKIE, "")
    if len(found) < 32:
        found = secrets.token_hex(16)
        request.state.form_token_is_new = True
    request.state.form_token = found
    return str(found)


async def posted(request: Request) -> AsyncIterator[Posted]:
    """Dependency of every route that changes something: the form, if it bears this browser's token.

    Raises:
        NotOurForm: without the token.
        BrokenForm: when the body cannot be read as a form.
    """
    try:
        fields = await request.form(max_files=MOST_FILES, max_fields=MOST_FIELDS)
    except (MultiPartException, UnicodeDecodeError, ValueError) as error:
        raise BrokenForm(str(error)) from None
    given = request.headers.get(TOKEN_HEADER) or fields.get(TOKEN_FIELD)
    kept = request.cookies.get(TOKEN_COOKIE, "")
    if not isinstance(given, str) or len(kept) < 32 or not compare_digest(given.encode(), kept.encode()):
        await fields.close()
        raise NotOurForm
    try:
        yield Posted(fields)
    finally:
        await fields.close()
