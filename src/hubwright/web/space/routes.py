"""Addresses of the space around the wheels."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

from fastapi import APIRouter, Depends, HTTPException, Request
from fastapi.responses import JSONResponse, Response

from hubwright.errors import BadInput
from hubwright.parts.job import AxleName
from hubwright.quantities.axes import Side
from hubwright.web.desk import Desk, desk_of, sound
from hubwright.web.later import NotYet
from hubwright.web.looked_at import looked_at, looks_again
from hubwright.web.render import page
from hubwright.web.space.corners import corner_of, states_at
from hubwright.web.space.views import space_view

if TYPE_CHECKING:
    from hubwright.jobs.mapping import MappedCorner
    from hubwright.jobs.scene_states import SceneStates

router = APIRouter(include_in_schema=False)
AtDesk = Annotated[Desk, Depends(desk_of)]


@router.get("/jobs/{job_id}/space/{axle}")
def space(request: Request, job_id: str, axle: AxleName, desk: AtDesk) -> Response:
    """What stands around the wheels of one axle, with one disc."""
    view = space_view(desk, desk.seen(job_id), axle, looked_at(request, or_none=True))
    return looks_again(request, page(request, "space/space.html", view, 422 if view.faults else 200), view.drawing)


@router.get("/jobs/{job_id}/space/{axle}/{side}/scene.glb")
def scene(request: Request, job_id: str, axle: AxleName, side: Side, desk: AtDesk) -> Response:
    """The 3-D scene of one wheel as a binary glTF file."""
    from hubwright.drawings.moving_scene import moving_glb  # noqa: PLC0415 - compiled sums load slowly

    mapped, states = _asked(request, desk, job_id, axle, side)
    data = desk.once("scene", desk.seen(job_id), lambda: moving_glb(mapped, states), axle, side, states.thickness_mm)
    return Response(data, media_type="model/gltf-binary")


@router.get("/jobs/{job_id}/space/{axle}/{side}/states.json")
def states(request: Request, job_id: str, axle: AxleName, side: Side, desk: AtDesk) -> Response:
    """Every state the viewer steps through."""
    from hubwright.drawings.moving_scene import scene_json  # noqa: PLC0415 - compiled sums load slowly

    return JSONResponse(scene_json(*_asked(request, desk, job_id, axle, side)))


def _asked(request: Request, desk: Desk, job_id: str, axle: AxleName, side: Side) -> tuple[MappedCorner, SceneStates]:
    """The map and its states.

    Raises:
        NotYet: while it is being drawn.
        HTTPException: 404 where there is none.
    """
    seen, looked = desk.seen(job_id), looked_at(request, or_none=True)
    if looked.faults:
        raise BadInput("scene", looked.faults)
    job = sound(seen)
    if axle not in dict(job.axles):
        raise HTTPException(404)
    awaits = corner_of(desk, seen, job, axle, side)
    if awaits.state == "drawing":
        raise NotYet
    if awaits.corner is None or awaits.corner.mapped is None:
        raise HTTPException(404)
    mapped = awaits.corner.mapped
    return mapped, states_at(desk, seen, job, mapped, axle, side, looked.thickness_mm or 0.0)
