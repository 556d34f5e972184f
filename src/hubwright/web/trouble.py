"""What went wrong, as a page and as JSON."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException

from hubwright.errors import BadInput, Fault, StoreRefusal
from hubwright.language import say
from hubwright.web.forms import BrokenForm, NotOurForm
from hubwright.web.gate import NotSignedIn


@dataclass(frozen=True)
class Trouble:
    """Why there is no answer, and what to do.

    Attributes:
        status: HTTP status.
        title: In a few words.
        words: One sentence; empty where the faults say it all.
        todo: What to do now.
        faults: Everything wrong with what was handed in.
    """

    status: int
    title: str
    words: str
    todo: str = ""
    faults: tuple[Fault, ...] = ()

    @property
    def as_json(self) -> dict[str, Any]:
        """For programs: the same, field by field (`hubwright.web.api.models.Problem`)."""
        texts = {"title": self.title, "detail": self.words, "what_to_do": self.todo}
        faults = [
            {**{name: _whole(text) for name, text in _texts_of(fault)}, "line": fault.line} for fault in self.faults
        ]
        return {"status": self.status, **{name: _whole(text) for name, text in texts.items()}, "faults": faults}


def _texts_of(fault: Fault) -> tuple[tuple[str, str], ...]:
    return ("field", fault.field), ("wanted", fault.wanted), ("given", fault.given), ("what_to_do", fault.todo)


def _whole(text: str) -> str:
    """The text without half characters, which no answer can carry."""
    return text.encode("utf-8", "replace").decode()


def _unreadable(error: RequestValidationError) -> Trouble:
    """A request that is not made as its address wants it."""
    found = error.errors()
    faults = tuple(
        Fault(
            ".".join(str(step) for step in item["loc"][1:]) or str(item["loc"][0]),
            str(item["msg"]).removeprefix("Input should be "),
            repr(item.get("input"))[:60],
        )
        for item in found
    )
    broken = any(item["type"] == "json_invalid" for item in found)
    todo = say("Put it right and send it again.")
    return Trouble(400 if broken else 422, say("This cannot be used as it is"), "", todo, faults)


def trouble_of(error: Exception) -> Trouble:
    """What to tell of an error raised on purpose."""
    if isinstance(error, BadInput):
        return Trouble(
            422, say("This cannot be used as it is"), "", say("Put it right and send it again."), error.faults
        )
    if isinstance(error, StoreRefusal):
        status = 404 if error.missing else 412 if error.stale else 409
        return Trouble(status, say("The store refused"), f"{error.what}: {error.why}.", error.todo)
    if isinstance(error, RequestValidationError):
        return _unreadable(error)
    if isinstance(error, NotOurForm):
        words = say("The form did not come from a page that is open in this browser, or that page is old.")
        return Trouble(
            403, say("Nothing was stored"), words, say("Go back, load the page again and send it once more.")
        )
    if isinstance(error, NotSignedIn):
        words = say("Nobody is signed in here any more, and nothing was stored.")
        todo = say("Sign in in another window, then go back and send it once more.")
        return Trouble(401, say("Please sign in"), words, todo)
    if isinstance(error, BrokenForm):
        return Trouble(400, say("Nothing was stored"), say("What was sent is no form."), say("Go back and try again."))
    if isinstance(error, HTTPException):
        if error.status_code == 404:
            return Trouble(404, say("There is no such page"), say("Nothing stands at this address."), "")
        if error.status_code == 429:
            return Trouble(429, say("Too often"), str(error.detail), "")
        return Trouble(error.status_code, say("This is not possible"), str(error.detail), "")
    return Trouble(422, say("There is no answer"), str(error), "")
