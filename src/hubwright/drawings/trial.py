"""Pictures of one axle for a disc being tried: drawn again for every thickness, so all that does not change is made once.

The scenes are those of `section`, `gapchart` and `windows`; only their layout is the page's own: narrow, so that letters
stay readable on a phone, and with the same edges for every disc, so that the wheel is seen to move.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from hubwright.checks.clearance import Room
from hubwright.drawings import gapchart, windows
from hubwright.drawings.corner import empty_scene
from hubwright.drawings.cornerview import corner_notes, corner_scene, edges_of
from hubwright.drawings.figures import read
from hubwright.drawings.frame import Layout, Setting
from hubwright.drawings.hubparts import figures_of
from hubwright.drawings.hubview import hub_notes, hub_scene
from hubwright.drawings.outline import Outline, outline_of
from hubwright.drawings.places import places_of
from hubwright.drawings.section import section_rows
from hubwright.drawings.svg import svg_of
from hubwright.drawings.table import Table
from hubwright.jobs.answer import PlanAnswer
from hubwright.jobs.bench import PlanBench
from hubwright.language import say
from hubwright.language.words import corner_title
from hubwright.parts.shop import StockDisc
from hubwright.parts.wheel import Wheel
from hubwright.quantities.text import thickness

NARROW_PX = 350.0
"""On the narrowest phones a nominal pixel is then about one of the screen."""


@dataclass(frozen=True, eq=False)
class Corner:
    """One corner under one plan, ready to be drawn with any disc."""

    room: Room
    title: str
    bare: Setting
    outline: Outline
    layout: Layout
    chart: gapchart.Look


@dataclass(frozen=True)
class Picture:
    """A picture, what stands beside it in sentences, and its figures."""

    svg: str
    notes: tuple[str, ...]
    table: Table


def corners_of(at: PlanBench, thickest_mm: float) -> tuple[Corner, ...]:
    """Both corners of an axle, left first.

    Args:
        at: The axle under one plan.
        thickest_mm: End of the scale on which discs are tried.
    """
    outline = outline_of(at.bench.axle.fitted)
    return tuple(_corner(at, room, outline, thickest_mm) for room in at.bench.rooms)


def _corner(at: PlanBench, room: Room, outline: Outline, thickest_mm: float) -> Corner:
    axle = at.bench.axle
    wheel = axle.fitted.wheel if axle.fitted else Wheel()
    bare = Setting(room.side, axle, axle.hub_at(room.side), wheel, None, 0.0)
    ends = []
    for end_mm in (0.0, thickest_mm):
        places, _ = places_of(axle, room, outline, end_mm)
        ends.append(edges_of(replace(bare, thickness_mm=end_mm), outline, places))
    first, last = ends
    edges = (min(first[0], last[0]), min(first[1], last[1]), max(first[2], last[2]), max(first[3], last[3]))
    layout = Layout(notes=False, width_px=NARROW_PX, at_least=edges)
    chart = gapchart.Look(NARROW_PX, notes=False, up_to_mm=thickest_mm)
    return Corner(room, corner_title(at.bench.name, room.side), bare, outline, layout, chart)


def section_of(corner: Corner, disc: StockDisc | None) -> Picture:
    """The half section through one corner with a disc; None = without one."""
    setting = _with(corner, disc)
    places, left_out = places_of(setting.axle, corner.room, corner.outline, setting.thickness_mm)
    subtitle = _subtitle(disc)
    scene = corner_scene(setting, corner.outline, places, left_out, corner.title, subtitle, corner.layout)
    camber = read("camber", setting.axle.corner(setting.side).camber_deg, unit="°")
    notes = corner_notes(setting, corner.outline, camber, places, left_out)
    return Picture(svg_of(scene), tuple(notes), section_rows(setting, corner.outline, places, left_out, corner.title))


def joint_of(corner: Corner, disc: StockDisc | None) -> Picture:
    """Hub, disc and wheel pad close up."""
    setting = _with(corner, disc)
    title = say("{corner}, joint close up", corner=corner.title)
    layout = replace(corner.layout, at_least=None)
    notes = hub_notes(figures_of(setting.hub, setting.wheel, setting.disc, setting.thickness_mm), setting)
    table = section_rows(setting, corner.outline, (), (), title)
    return Picture(svg_of(hub_scene(setting, title, _subtitle(disc), layout)), tuple(notes), table)


def gaps_of(corner: Corner, thickness_mm: float) -> Picture:
    """Gap against travel at one corner."""
    title = say("{corner}: gap against travel", corner=corner.title)
    table = gapchart.gap_rows(corner.room, thickness_mm, title)
    if not corner.room.swept:
        why = say("No gap was read here.")
        return Picture(svg_of(empty_scene("gaps", title, why)), (why,), table)
    scene = gapchart.gap_scene(corner.room, thickness_mm, title, corner.chart)
    return Picture(svg_of(scene), tuple(gapchart.gap_sentences(corner.room, thickness_mm)), table)


def windows_at(plan: PlanAnswer, wish_mm: float | None, thickness_mm: float, title: str) -> str:
    """Every window on one scale with the thickness being tried marked."""
    look = windows.Look(NARROW_PX, present_mm=thickness_mm, discs=False)
    return svg_of(windows.windows_scene(plan, wish_mm, title, look))


def _with(corner: Corner, disc: StockDisc | None) -> Setting:
    return replace(corner.bare, disc=disc, thickness_mm=disc.thickness_mm if disc is not None else 0.0)


def _subtitle(disc: StockDisc | None) -> str:
    if disc is None:
        return say("Seen from behind, no disc.")
    return say("Seen from behind, {size} per side.", size=thickness(disc.thickness_mm))
