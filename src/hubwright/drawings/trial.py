"""Pictures of one axle for a disc being tried: drawn again for every thickness, so all that does not change is made once.

The scenes are those of `section`, `gapchart` and `windows`; only their layout is the page's own: narrow, so that letters
stay readable on a phone, and with the same edges for every disc, so that the wheel is seen to move.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

from hubwright.checks.clearance import Room
from hubwright.drawings import gapchart, windows
from hubwright.drawings.corner import empty_scene
from hubwright.drawings.cornerview import WHEEL, corner_notes, corner_scene, edges_of, moved_by, nearby_notes
from hubwright.drawings.figures import read
from hubwright.drawings.frame import Layout, Setting
from hubwright.drawings.hubparts import figures_of
from hubwright.drawings.hubview import hub_notes, hub_scene
from hubwright.drawings.mapgap import map_gap_rows, map_gap_scene, map_gap_sentences
from hubwright.drawings.nearby import Line, lines_of, nearest_of
from hubwright.drawings.outline import Outline, outline_of
from hubwright.drawings.places import places_of
from hubwright.drawings.scene import Scene, layers
from hubwright.drawings.section import section_rows
from hubwright.drawings.svg import svg_of
from hubwright.drawings.table import Table
from hubwright.drawings.travelplot import Look
from hubwright.jobs.answer import PlanAnswer
from hubwright.jobs.bench import PlanBench
from hubwright.jobs.mapping import MappedCorner
from hubwright.jobs.room_by_travel import by_travel
from hubwright.language import say
from hubwright.language.words import corner_title
from hubwright.parts.shop import StockDisc
from hubwright.parts.wheel import Wheel
from hubwright.quantities.axes import Side
from hubwright.quantities.text import thickness

NARROW_PX = 350.0
"""On the narrowest phones a nominal pixel is then about one of the screen."""


DECIMALS = 1
NO_MAP: Mapping[Side, MappedCorner | None] = MappingProxyType({})
EVERY_MM = 2.5
"""Discs looked at to find how much room the pictures of all of them need."""


@dataclass(frozen=True, eq=False)
class Corner:
    """One corner under one plan, ready to be drawn with any disc.

    Attributes:
        room: The room around the wheel.
        title: Such as ``Rear left``.
        bare: The corner without a disc.
        outline: Wheel and tyre.
        layout: Of its section.
        chart: Of its gap chart.
        moved: How far the wheel moves on paper for each mm of disc, x to the right and y up, mm.
        mapped: The clearance map of this corner, where there is one.
        lines: What it knows around the wheel.
    """

    room: Room
    title: str
    bare: Setting
    outline: Outline
    layout: Layout
    chart: Look
    moved: tuple[float, float]
    mapped: MappedCorner | None
    lines: tuple[Line, ...]


@dataclass(frozen=True)
class Picture:
    """A picture in two layers: what stays (``under``) and what changes with the disc (``over``).

    Attributes:
        under, over: SVG; ``under`` empty where the picture has but one layer.
        notes: What stands beside it in sentences.
    """

    under: str
    over: str
    notes: tuple[str, ...] = ()


def corners_of(
    at: PlanBench, thickest_mm: float, mapped: Mapping[Side, MappedCorner | None] = NO_MAP
) -> tuple[Corner, ...]:
    """Both corners of an axle, left first.

    Args:
        at: The axle under one plan.
        thickest_mm: End of the scale on which discs are tried.
        mapped: The clearance map of each corner that has one.
    """
    outline = outline_of(at.bench.axle.fitted)
    return tuple(_corner(at, room, outline, thickest_mm, mapped.get(room.side)) for room in at.bench.rooms)


def _corner(at: PlanBench, room: Room, outline: Outline, thickest_mm: float, mapped: MappedCorner | None) -> Corner:
    lines = () if mapped is None else lines_of(mapped, thickest_mm)
    axle = at.bench.axle
    wheel = axle.fitted.wheel if axle.fitted else Wheel()
    bare = Setting(room.side, axle, axle.hub_at(room.side), wheel, None, 0.0)
    ends = []
    for step in range(int(thickest_mm / EVERY_MM) + 2):
        t = min(step * EVERY_MM, thickest_mm)
        places, _ = places_of(axle, room, outline, t)
        ends.append(edges_of(replace(bare, thickness_mm=t), outline, places, lines))
    left, bottom, right, top = zip(*ends, strict=True)
    edges = (min(left), min(bottom), max(right), max(top))
    layout = Layout(notes=False, width_px=NARROW_PX, edges=edges)
    chart = Look(NARROW_PX, notes=False, up_to_mm=thickest_mm)
    title = corner_title(at.bench.name, room.side)
    return Corner(room, title, bare, outline, layout, chart, moved_by(bare), mapped, lines)


def section_of(corner: Corner, disc: StockDisc | None, *, under: bool) -> Picture:
    """The half section through one corner with a disc; None = without one.

    Args:
        corner: The corner.
        disc: The disc.
        under: Whether what does not change with the disc is drawn too.
    """
    setting = _with(corner, disc)
    places, left_out = places_of(setting.axle, corner.room, corner.outline, setting.thickness_mm)
    subtitle = say("Half section seen from behind.")
    nearest = None
    if corner.mapped is not None and corner.room.house is not None:
        nearest = nearest_of(corner.mapped, corner.room.house, setting.thickness_mm)
    nearby = (corner.lines, nearest)
    layout = corner.layout if under else replace(corner.layout, only=("trial",))
    scene = corner_scene(setting, corner.outline, places, left_out, corner.title, subtitle, layout, nearby)
    camber = read(say("camber"), setting.axle.corner(setting.side).camber_deg, unit="°")
    notes = corner_notes(setting, corner.outline, camber, places, left_out)
    return _layered(scene, under, (*notes, *nearby_notes(*nearby)))


def section_table_of(corner: Corner, disc: StockDisc | None) -> Table:
    """The figures of the section as text."""
    setting = _with(corner, disc)
    places, left_out = places_of(setting.axle, corner.room, corner.outline, setting.thickness_mm)
    return section_rows(setting, corner.outline, places, left_out, corner.title)


def joint_of(corner: Corner, disc: StockDisc | None) -> Picture:
    """Hub, disc and wheel pad close up."""
    setting = _with(corner, disc)
    title = say("{corner}, joint close up", corner=corner.title)
    layout = replace(corner.layout, edges=None)
    notes = hub_notes(figures_of(setting.hub, setting.wheel, setting.disc, setting.thickness_mm), setting)
    return Picture("", svg_of(hub_scene(setting, title, _subtitle(disc), layout), decimals=2), tuple(notes))


def gaps_of(corner: Corner, thickness_mm: float, *, under: bool) -> Picture:
    """Gap against travel at one corner. Arguments as `section_of`."""
    title = say("{corner}: gap against travel", corner=corner.title)
    if not corner.room.swept:
        why = say("No gap was read here.")
        return Picture("", svg_of(empty_scene("gaps", title, why)), (why,))
    scene = gapchart.gap_scene(corner.room, thickness_mm, title, corner.chart)
    return _layered(scene, under, tuple(gapchart.gap_sentences(corner.room, thickness_mm)))


def gap_table_of(corner: Corner, thickness_mm: float) -> Table:
    """The figures of the chart as text."""
    return gapchart.gap_rows(corner.room, thickness_mm, say("{corner}: gap against travel", corner=corner.title))


def map_gaps_of(corner: Corner, thickness_mm: float) -> tuple[Picture, Table] | None:
    """Gap against travel by the clearance map, with its figures; None where there is no map."""
    if corner.mapped is None or corner.room.house is None:
        return None
    rows = by_travel(corner.mapped, corner.room.house, thickness_mm)
    if not rows:
        return None
    title = say("{corner}: gap by the map", corner=corner.title)
    scene = map_gap_scene(rows, thickness_mm, title, replace(corner.chart, up_to_mm=None))
    words = tuple(map_gap_sentences(rows, thickness_mm))
    return Picture("", svg_of(scene, decimals=DECIMALS), words), map_gap_rows(rows, title)


def windows_at(plan: PlanAnswer, wish_mm: float | None, thickness_mm: float, title: str) -> str:
    """Every window on one scale with the thickness being tried marked."""
    look = windows.Look(NARROW_PX, present_mm=thickness_mm, discs=False)
    return svg_of(windows.windows_scene(plan, wish_mm, title, look), decimals=DECIMALS)


def px_per_mm(plan: PlanAnswer, wish_mm: float | None) -> float:
    """How far the mark of the thickness moves in that picture for each mm."""
    return (NARROW_PX - windows.EDGE_PX - windows.LEFT_PX) / windows.top_mm(plan, wish_mm)


def _layered(scene: Scene, under: bool, notes: tuple[str, ...]) -> Picture:
    below = svg_of(layers(scene, "still", WHEEL), decimals=DECIMALS, layer="under") if under else ""
    return Picture(below, svg_of(layers(scene, "trial"), decimals=DECIMALS, layer="over"), notes)


def _with(corner: Corner, disc: StockDisc | None) -> Setting:
    return replace(corner.bare, disc=disc, thickness_mm=disc.thickness_mm if disc is not None else 0.0)


def _subtitle(disc: StockDisc | None) -> str:
    if disc is None:
        return say("Seen from behind, no disc.")
    return say("Seen from behind, {size} per side.", size=thickness(disc.thickness_mm))
