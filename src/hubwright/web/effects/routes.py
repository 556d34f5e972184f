"""The address of the side effects."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Depends, Request
from fastapi.responses import Response

from hubwright.web.desk import Desk, desk_of
from hubwright.web.effects.views import effects_view
from hubwright.web.looked_at import looked_at, looks_again
from hubwright.web.render import page

router = APIRouter(include_in_schema=False)


@router.get("/jobs/{job_id}/effects")
def effects(request: Request, job_id: str, desk: Annotated[Desk, Depends(desk_of)]) -> Response:
    """What else changes with the recommended discs, those asked for, and any other."""
    asked = tuple(looked_at(request, field) for field in ("t", "front", "rear"))
    view = effects_view(desk, desk.seen(job_id), asked)
    return looks_again(request, page(request, "effects/effects.html", view, 422 if view.faults else 200), view.waiting)
