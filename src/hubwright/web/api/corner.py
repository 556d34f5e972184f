"""Drawings to scale and the figures in them; the room around one wheel."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Annotated, Any, TypeVar

from fastapi import APIRouter, Query, Response

from hubwright.errors import StoreRefusal
from hubwright.language import say
from hubwright.parts.job import AxleName
from hubwright.parts.shop import DiscKind
from hubwright.quantities.axes import Side
from hubwright.web.api.answer import axle_answer
from hubwright.web.api.described import raw_answer
from hubwright.web.api.door import AtDesk, Axle, Corner, JobId, Revision, Spoken, Thickness
from hubwright.web.api.models import TableOut
from hubwright.web.api.told import table_out
from hubwright.web.api.waiting import MAY_WAIT
from hubwright.web.desk import Desk, sound
from hubwright.web.later import NotYet
from hubwright.web.space.corners import corner_of, room_at

if TYPE_CHECKING:
    from hubwright.drawings.section import View
    from hubwright.jobs.room_table import RoomTable

T = TypeVar("T")

router = APIRouter(tags=["drawings"], dependencies=[Spoken])
SVG, GLB = "image/svg+xml", "model/gltf-binary"
AXLE, CORNER = "/jobs/{job_id}/axles/{axle}", "/jobs/{job_id}/axles/{axle}/{side}"
Kind = Annotated[DiscKind | None, Query(description="Which disc of that thickness, where the shelf has several.")]
WithWork = Annotated[bool, Query(description="Whether the work offered at the points is reckoned as done.")]
MaybeThick = Annotated[
    float | None,
    Query(ge=0, le=150, allow_inf_nan=False, description="Of the disc, per side; missing: the one wished for."),
]
A_DRAWING: dict[str, Any] = {"response_class": Response, "responses": raw_answer(SVG, "The drawing.")}
A_LATE_DRAWING: dict[str, Any] = {
    "response_class": Response,
    "responses": {**raw_answer(SVG, "The drawing."), **MAY_WAIT},
}


@router.get(f"{AXLE}/windows.svg", **A_LATE_DRAWING)
def draw_windows(
    desk: AtDesk, job_id: JobId, axle: Axle, with_work: WithWork = False, revision: Revision = None
) -> Response:
    """Windows drawn one above the other on a scale of thickness."""
    from hubwright.drawings.windows import windows_svg  # noqa: PLC0415 - drawings import slowly

    answer = axle_answer(desk, job_id, axle, revision)
    plan = answer.plans[-1] if with_work else answer.plans[0]
    return Response(windows_svg(plan, answer.wish_mm), media_type=SVG)


@router.get(f"{AXLE}/windows", responses=MAY_WAIT)
def table_of_windows(
    desk: AtDesk, job_id: JobId, axle: Axle, with_work: WithWork = False, revision: Revision = None
) -> TableOut:
    """The figures of the windows."""
    from hubwright.drawings.windows import windows_table  # noqa: PLC0415 - drawings import slowly

    answer = axle_answer(desk, job_id, axle, revision)
    return table_out(windows_table(answer.plans[-1] if with_work else answer.plans[0]))


@router.get(f"{CORNER}/section.svg", **A_DRAWING)
def draw_section(
    desk: AtDesk, job_id: JobId, axle: Axle, side: Corner, thickness_mm: Thickness = 0.0, kind: Kind = None,
    with_work: WithWork = False, close_up: bool = False, revision: Revision = None,
) -> Response:  # fmt: skip
    """Half section through one corner, to scale; `close_up` shows the joint."""
    from hubwright.drawings.section import section_svg  # noqa: PLC0415 - drawings import slowly

    job = sound(desk.seen(job_id, revision))
    view: View = "hub" if close_up else "corner"
    drawn = section_svg(job, axle, side, thickness_mm, kind=kind, with_work=with_work, view=view)
    return Response(drawn, media_type=SVG)


@router.get(f"{CORNER}/section")
def table_of_section(
    desk: AtDesk, job_id: JobId, axle: Axle, side: Corner, thickness_mm: Thickness = 0.0, kind: Kind = None,
    with_work: WithWork = False, revision: Revision = None,
) -> TableOut:  # fmt: skip
    """The figures of the section, and how each is known."""
    from hubwright.drawings.section import section_table  # noqa: PLC0415 - drawings import slowly

    job = sound(desk.seen(job_id, revision))
    return table_out(section_table(job, axle, side, thickness_mm, kind=kind, with_work=with_work))


@router.get(f"{CORNER}/gap.svg", **A_DRAWING)
def draw_gap(
    desk: AtDesk, job_id: JobId, axle: Axle, side: Corner, thickness_mm: Thickness = 0.0, with_work: WithWork = False,
    revision: Revision = None,
) -> Response:  # fmt: skip
    """Gap against travel at every point of one corner, the pinch marked."""
    from hubwright.drawings.gapchart import gap_chart_svg  # noqa: PLC0415 - drawings import slowly

    job = sound(desk.seen(job_id, revision))
    return Response(gap_chart_svg(job, axle, side, thickness_mm, with_work=with_work), media_type=SVG)


@router.get(f"{CORNER}/gap")
def table_of_gaps(
    desk: AtDesk, job_id: JobId, axle: Axle, side: Corner, thickness_mm: Thickness = 0.0, with_work: WithWork = False,
    revision: Revision = None,
) -> TableOut:  # fmt: skip
    """Readings and pinch of every point: gap bare, with the disc, needed, left over."""
    from hubwright.drawings.gapchart import gap_table  # noqa: PLC0415 - drawings import slowly

    job = sound(desk.seen(job_id, revision))
    return table_out(gap_table(job, axle, side, thickness_mm, with_work=with_work))


@router.get(f"{CORNER}/room", tags=["room"], responses=MAY_WAIT)
def read_room(
    desk: AtDesk, job_id: JobId, axle: Axle, side: Corner, thickness_mm: MaybeThick = None, revision: Revision = None
) -> dict[str, Any]:
    """Least gaps over all travel and lock, from a scan or edges: with and without the disc, what binds next, by thickness."""
    return made_of_room(desk, job_id, axle, side, thickness_mm, revision, lambda room: room.plain())


@router.get(f"{CORNER}/map.svg", **A_LATE_DRAWING)
def draw_map(
    desk: AtDesk, job_id: JobId, axle: Axle, side: Corner, thickness_mm: MaybeThick = None, revision: Revision = None
) -> Response:
    """Section of the space the wheel sweeps, with what stands around it."""
    from hubwright.drawings.mapchart import map_svg  # noqa: PLC0415 - drawings import slowly

    return Response(made_of_room(desk, job_id, axle, side, thickness_mm, revision, map_svg), media_type=SVG)


@router.get(f"{CORNER}/above.svg", **A_LATE_DRAWING)
def draw_from_above(
    desk: AtDesk, job_id: JobId, axle: Axle, side: Corner, thickness_mm: MaybeThick = None, revision: Revision = None
) -> Response:
    """The wheel from above at lock."""
    from hubwright.drawings.plan_view import plan_svg  # noqa: PLC0415 - drawings import slowly

    return Response(made_of_room(desk, job_id, axle, side, thickness_mm, revision, plan_svg), media_type=SVG)


@router.get(
    f"{CORNER}/scene.glb", response_class=Response, responses={**raw_answer(GLB, "glTF 2.0, metres."), **MAY_WAIT}
)
def draw_scene(
    desk: AtDesk, job_id: JobId, axle: Axle, side: Corner, thickness_mm: MaybeThick = None, revision: Revision = None
) -> Response:
    """Wheel, swept space, surroundings and the places of the least gaps in three dimensions."""
    from hubwright.drawings.scene3d import scene_glb  # noqa: PLC0415 - drawings import slowly

    return Response(made_of_room(desk, job_id, axle, side, thickness_mm, revision, scene_glb), media_type=GLB)


def made_of_room(
    desk: Desk, job_id: str, axle: AxleName, side: Side, thickness_mm: float | None, revision: int | None,
    make: Callable[[RoomTable], T],
) -> T:  # fmt: skip
    """Something made of the room around a wheel; map, room and it are worked out once, the map beside the requests.

    Raises:
        NotYet: while the map is being drawn.
        StoreRefusal: when there is no scan, edge or fitted wheel to make it of, or the map cannot be drawn.
        BadInput: while the job file has faults.
    """
    seen = desk.seen(job_id, revision)
    job = sound(seen)
    if axle not in dict(job.axles):
        raise _no_room(missing=True)
    awaits = corner_of(desk, seen, job, axle, side)
    if awaits.state == "drawing":
        raise NotYet
    corner = awaits.corner
    if corner is None or corner.mapped is None:
        why = awaits.reason or " ".join(corner.faults if corner is not None else ())
        raise _no_room(why, missing=not why)
    wish = dict(job.axles)[axle].wish
    t = thickness_mm if thickness_mm is not None else (wish.thickness_mm if wish else None) or 0.0
    room = room_at(desk, seen, job, corner.mapped, axle, side, t)
    return desk.once(f"room {make.__name__} {make.__module__}", seen, lambda: make(room), axle, side, t)


def _no_room(why: str = "", *, missing: bool) -> StoreRefusal:
    todo = say("It takes a scan or an edge of this corner, and the fitted wheel and tyre.")
    what = say("The room around this wheel")
    return StoreRefusal(what, why.rstrip(".") or say("it cannot be worked out"), todo, missing=missing)
