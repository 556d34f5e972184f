"""What went wrong, as a page and as JSON."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

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
        """For programs: the same, field by field."""
        faults = [
            {"field": f.field, "wanted": f.wanted, "given": f.given, "what_to_do": f.todo, "line": f.line}
            for f in self.faults
        ]
        return {"title": self.title, "detail": self.words, "what_to_do": self.todo, "faults": faults}


def trouble_of(error: Exception) -> Trouble:
    """What to tell of an error raised on purpose."""
    if isinstance(error, BadInput):
        return Trouble(
            422, say("This cannot be used as it is"), "", say("Put it right and send it again."), error.faults
        )
    if isinstance(error, StoreRefusal):
        status = 404 if error.missing else 409
        return Trouble(status, say("The store refused"), f"{error.what}: {error.why}.", error.todo)
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
