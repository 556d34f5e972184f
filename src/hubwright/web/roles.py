"""Who may do what: one table over all addresses. It counts where the server is open to a network.

`measure` enters readings and attaches files; `decide` settles wishes, work, verdicts and stages, prints papers and makes links for
customers; `manage` settles the shop and its people and moves data in and out. An address no line fits needs `manage`.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from hubwright.web.who import Role

CHANGING = ("POST", "PUT", "PATCH", "DELETE")
READING = ("GET", "HEAD")


@dataclass(frozen=True)
class Rule:
    """One line of the table.

    Attributes:
        methods: Of the request.
        path: Pattern of the address: ``{name}`` for one part of it, ``*`` for all that may follow.
        role: The least role; None = nobody needs to be signed in.
    """

    methods: tuple[str, ...]
    path: str
    role: Role | None


ANY = (*READING, *CHANGING)
TABLE: tuple[Rule, ...] = (
    Rule(ANY, "/sign-in", None),
    Rule(ANY, "/settings", None),  # language and units of a browser
    Rule(ANY, "/m/{token}*", None),  # customers, by their link
    Rule(READING, "/sheet-worker.js", None),  # holds nothing of the shop
    Rule(ANY, "/sign-out", "measure"),
    Rule(ANY, "/password", "measure"),
    Rule(ANY, "/people*", "manage"),
    Rule(ANY, "/shop*", "manage"),
    Rule(ANY, "/demo-shop", "manage"),
    Rule(READING, "/", "measure"),
    Rule(ANY, "/new", "measure"),
    Rule(CHANGING, "/bring", "decide"),
    Rule(READING, "/files/*", "measure"),
    Rule(CHANGING, "/jobs/{job_id}/measure*", "measure"),
    Rule(CHANGING, "/jobs/{job_id}/lines*", "measure"),
    Rule(CHANGING, "/jobs/{job_id}/links*", "measure"),
    Rule(CHANGING, "/jobs/{job_id}/files*", "measure"),
    Rule(CHANGING, "/jobs/{job_id}/space/*", "measure"),  # a scan and where it lies are readings
    Rule(ANY, "/jobs/{job_id}/customer*", "decide"),
    Rule(READING, "/jobs/{job_id}/paper/measuring*", "measure"),
    Rule(READING, "/jobs/{job_id}/paper/*", "decide"),
    Rule(READING, "/paper*", "decide"),
    Rule(READING, "/jobs/*", "measure"),
    Rule(CHANGING, "/jobs/*", "decide"),
    Rule(READING, "/law*", "measure"),
    Rule(ANY, "/range*", "decide"),
    Rule(READING, "/api", "measure"),
    Rule(CHANGING, "/api/v1/sign-in", None),
    Rule(READING, "/api/v1/export", "manage"),
    Rule(READING, "/api/v1/backup", "manage"),
    Rule(READING, "/api/v1/check", "manage"),
    Rule(ANY, "/api/v1/shop*", "manage"),
    Rule(ANY, "/api/v1/people*", "manage"),
    Rule(READING, "/api/v1/jobs/{job_id}/papers*", "decide"),
    Rule(READING, "/api/v1/jobs/{job_id}/links", "decide"),
    Rule(READING, "/api/*", "measure"),
    Rule(CHANGING, "/api/v1/import", "manage"),
    Rule(CHANGING, "/api/*", "measure"),  # each address of the API names the role it needs besides
)
"""The first line that fits counts."""


def role_for(method: str, path: str) -> Role | None:
    """The least role for an address; None where nobody needs to be signed in.

    Args:
        method: Of the request.
        path: The address asked for, by which the route was found as well.
    """
    found = line_for(method, path)
    return "manage" if found is None else found.role


def line_for(method: str, path: str) -> Rule | None:
    """The line of the table that counts."""
    return next((rule for rule in TABLE if method in rule.methods and _pattern(rule.path).fullmatch(path)), None)


@cache
def _pattern(path: str) -> re.Pattern[str]:
    parts = re.split(r"(\{\w+\}|\*)", path)
    return re.compile(
        "".join(".*" if part == "*" else "[^/]+" if part[:1] == "{" else re.escape(part) for part in parts), re.S
    )
