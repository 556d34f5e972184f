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
    """

    name: str
    role: Role
    signed_in: bool = False

    def may(self, role: Role) -> bool:
        """Whether the role is theirs or below it."""
        return ROLES.index(self.role) >= ROLES.index(role)


def who_of(request: Request) -> Who:
    """The person behind a request."""
    found = getattr(request.state, "who", None)
    if isinstance(found, Who):
        return found
    options: Options = request.app.state.options
    return Who(unquote(request.cookies.get(NAME_COOKIE, "")).strip()[:200] or options.author, "manage")
