"""What the API is: a page for people, the schemas of job file and answer, and who asks."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal

from fastapi import APIRouter, Request
from fastapi.responses import Response

from hubwright import __version__
from hubwright.language import LANGUAGES
from hubwright.web.api.described import PREFIX, describe
from hubwright.web.api.door import AtDesk
from hubwright.web.api.models import ServerOut
from hubwright.web.render import page
from hubwright.web.who import who_of

router = APIRouter(tags=["about"])


@dataclass(frozen=True)
class Operation:
    """One thing the API does."""

    method: str
    path: str
    words: str
    wants: tuple[str, ...]
    takes: str


@dataclass(frozen=True)
class ApiView:
    """The page about the API: operations by subject."""

    groups: tuple[tuple[str, tuple[Operation, ...]], ...]
    prefix: str = PREFIX


def view_of(described: dict[str, Any]) -> ApiView:
    """Operations by subject, in the order of their addresses' writing."""
    groups: dict[str, list[Operation]] = {}
    for path, operations in described["paths"].items():
        for method, operation in operations.items():
            wants = [parameter["name"] for parameter in operation.get("parameters", ()) if parameter["in"] != "path"]
            takes = next(iter(operation.get("requestBody", {}).get("content", {})), "")
            words = operation.get("description") or operation.get("summary", "")
            found = Operation(method.upper(), path, words, tuple(wants), takes)
            groups.setdefault(operation["tags"][0], []).append(found)
    return ApiView(tuple((name, tuple(items)) for name, items in groups.items()))


@router.get("/api", include_in_schema=False)
def about_api(request: Request) -> Response:
    """The API for people."""
    return page(request, "api/about.html", view_of(describe(request.app)))


@router.get(f"{PREFIX}/about")
def read_about(request: Request, desk: AtDesk) -> ServerOut:
    """What answers here, and who asks."""
    who = who_of(request)
    return ServerOut("hubwright", __version__, who.name, who.role, list(LANGUAGES), desk.today())


@router.get(f"{PREFIX}/schemas/{{of}}")
def read_schema(of: Literal["job", "answer"]) -> dict[str, Any]:
    """The JSON Schema of the job file that comes in, or of the answer that goes out."""
    from hubwright.jobs.schema import answer_schema, job_schema  # noqa: PLC0415 - slow to build

    return job_schema() if of == "job" else answer_schema()
