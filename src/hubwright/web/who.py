"""Who is at work. On loopback nobody signs in: the name is the one chosen on the settings page."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal
from urllib.parse import unquote

from fastapi import Request

from hubwright.web.options import Options

Role = Literal["measure", "decide", "manage"]
ROLES: tuple[Role, ...] = ("measure", "decide", "manage")
"""Each may do all that those before it may."""
NAME_COOKIE = "hw_name"


@dataclass(frozen=True)
class Who:
    """A person at work.

    Attributes:
        name: Written beside what they enter.
        role: What they may do.
        signed_in: Whether they proved who they are.
        known: False for somebody at the gate of a server on a network who has not signed in; they may nothing.
    """

    name: str
    role: Role
    signed_in: bool = False
    known: bool = True

    def may(self, role: Role) -> bool:
        """Whether the role is theirs or below it."""
        return self.known and ROLES.index(self.role) >= ROLES.index(role)


NOBODY = Who("", "measure", known=False)


def who_of(request: Request) -> Who:
    """The person behind a request."""
    found = getattr(request.state, "who", None)
    if isinstance(found, Who):
        return found
    options: Options = request.app.state.options
    if options.network:
        return NOBODY
    return Who(unquote(request.cookies.get(NAME_COOKIE, "")).strip()[:200] or options.author, "manage")
