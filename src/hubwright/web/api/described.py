"""The OpenAPI description: what FastAPI finds, and what it cannot know: troubles, raw bodies, the two ways to be let in."""

from __future__ import annotations

from typing import Any

from fastapi import FastAPI
from fastapi.openapi.utils import get_openapi
from pydantic import TypeAdapter

from hubwright.web.api.models import Problem

PREFIX = "/api/v1"
PROBLEM_KIND = "application/problem+json"
REF = "#/components/schemas/{model}"
TROUBLES = {
    400: "What was sent cannot be read.",
    401: "Nobody is signed in.",
    403: "Not allowed, or sent without the header that proves it is meant.",
    404: "There is none of that name.",
    409: "The store refused; nothing that was confirmed before is touched.",
    421: "This server does not answer to that name.",
    422: "Faults, each with its field.",
    429: "Too many requests for now.",
}
CHANGING = {
    412: "The job is not as it was when the file was made.",
    413: "Larger than it may be.",
    415: "Another kind of body is wanted.",
    428: "If-Match is missing.",
}
WAYS_IN = {
    "token": {
        "type": "http",
        "scheme": "bearer",
        "description": "From sign-in, where the server is open to a network.",
    },
    "ownHeader": {"type": "apiKey", "in": "header", "name": "X-Hubwright", "description": "1: this request is meant."},
}


def describe(app: FastAPI) -> dict[str, Any]:
    """The description of everything under ``/api/v1``; made once."""
    if app.openapi_schema:
        return app.openapi_schema
    made: dict[str, Any] = get_openapi(
        title="hubwright", version=app.version, routes=app.routes, summary="Wheel fitment jobs, readings, answers, drawings, papers",
        description=(
            "Decision support for trained people; the vehicle maker's instructions, local law and a licensed inspector overrule it. "
            "Torque is shown as it stands on record and never computed. Lengths are in mm, torques in N·m, angles in degrees, masses "
            "in kg; the unit is the last word of a name. Requests that change something bear the header `X-Hubwright: 1`."
        ),
    )  # fmt: skip
    parts = made.setdefault("components", {}).setdefault("schemas", {})
    for name in ("HTTPValidationError", "ValidationError"):
        parts.pop(name, None)
    problem = TypeAdapter(Problem).json_schema(ref_template=REF)
    parts.update(problem.pop("$defs", {}))
    parts["Problem"] = problem
    made["components"]["securitySchemes"] = WAYS_IN
    for path, operations in made["paths"].items():
        for method, operation in operations.items():
            _with_troubles(operation, method, path)
    app.openapi_schema = made
    return made


def _with_troubles(operation: dict[str, Any], method: str, path: str) -> None:
    troubles = TROUBLES if method == "get" else {**TROUBLES, **CHANGING}
    content = {PROBLEM_KIND: {"schema": {"$ref": REF.format(model="Problem")}}}
    for status, words in troubles.items():
        operation["responses"][str(status)] = {"description": words, "content": content}
    if method != "get":
        operation["security"] = [{"ownHeader": []}, {"ownHeader": [], "token": []}]
    else:
        operation["security"] = [{}, {"token": []}]


def raw_body(kind: str, words: str) -> dict[str, Any]:
    """For `openapi_extra`: a body that is no JSON."""
    content = {kind: {"schema": {"type": "string", "format": "binary"}}}
    return {"requestBody": {"required": True, "description": words, "content": content}}


def raw_answer(kind: str, words: str, status: int = 200) -> dict[int | str, dict[str, Any]]:
    """For `responses`: an answer that is no JSON."""
    return {status: {"description": words, "content": {kind: {"schema": {"type": "string", "format": "binary"}}}}}
