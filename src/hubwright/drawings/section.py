"""To-scale section through one corner in the vertical plane through its spin axis, seen from behind."""

from __future__ import annotations

from typing import Literal

from hubwright.checks.clearance import room_of
from hubwright.checks.house import house_of
from hubwright.drawings.corner import axle_of, checked_thickness, disc_of, empty_scene
from hubwright.drawings.cornerview import corner_scene
from hubwright.drawings.figures import Figure, Standing, figure_word, read
from hubwright.drawings.frame import SCREEN, Layout, Setting
from hubwright.drawings.hubparts import figures_of
from hubwright.drawings.hubview import hub_scene
from hubwright.drawings.outline import Outline, outline_of
from hubwright.drawings.places import Place, places_of
from hubwright.drawings.scene import Scene
from hubwright.drawings.svg import svg_of
from hubwright.drawings.table import Table
from hubwright.errors import OutsideValidity
from hubwright.language import say
from hubwright.language.words import axle_word, corner_title, kind_word, side_word
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.parts.shop import DiscKind
from hubwright.parts.wheel import Wheel
from hubwright.quantities.axes import Side
from hubwright.quantities.text import length, thickness
from hubwright.selection.plans import work_offered

View = Literal["corner", "hub"]


def section_svg(
    job: Job,
    axle_name: AxleName,
    side: Side,
    thickness_mm: float,
    *,
    kind: DiscKind | None = None,
    with_work: bool = False,
    view: View = "corner",
    title: str = "",
) -> str:
    """Half section above the spin axis through one corner, to scale, user units mm.

    Seen from behind: a left wheel has its outboard side on the left, so left and right side by side look like the
    car. Solid = read or by its marking, dashed = assumed or schematic; what is not measured is named so. Bodywork is
    drawn parked and at its pinch, both as seen from the wheel, each with its gap with the disc fitted.

    Args:
        job: The job; anything in it may be missing.
        axle_name: Which axle.
        side: Which side.
        thickness_mm: Per side; 0 = no disc.
        kind: Which disc of that thickness, where the shelf has several.
        with_work: Whether the work offered at the points is reckoned as done.
        view: ``corner`` for all of it, ``hub`` for the joint close up.
        title: Heading; made from axle and side where empty.

    Raises:
        OutsideValidity: for a thickness that is not from 0 to 150 mm.
    """
    return svg_of(section_scene(job, axle_name, side, thickness_mm, kind=kind, with_work=with_work, view=view, title=title))  # fmt: skip


def section_scene(
    job: Job,
    axle_name: AxleName,
    side: Side,
    thickness_mm: float,
    *,
    kind: DiscKind | None = None,
    with_work: bool = False,
    view: View = "corner",
    title: str = "",
    layout: Layout = SCREEN,
) -> Scene:
    """The same as a scene, for other formats and sizes of paper. Arguments and errors as `section_svg`."""
    checked_thickness(thickness_mm)
    heading = title or corner_title(axle_name, side)
    if view == "hub" and not title:
        heading = say("{corner}, joint close up", corner=heading)
    axle = axle_of(job, axle_name)
    if axle is None:
        return empty_scene(
            "section", heading, say("The job says nothing about the {axle} axle.", axle=axle_word(axle_name))
        )
    setting = _setting(job, axle, side, thickness_mm, kind)
    subtitle = _subtitle(setting, axle, with_work)
    if view == "hub":
        return hub_scene(setting, heading, subtitle, layout)
    places, left_out = _places(job, axle_name, axle, setting, with_work)
    return corner_scene(setting, outline_of(axle.fitted), places, left_out, heading, subtitle, layout)


def section_table(
    job: Job,
    axle_name: AxleName,
    side: Side,
    thickness_mm: float,
    *,
    kind: DiscKind | None = None,
    with_work: bool = False,
) -> Table:
    """The figures of the section as text: what, value, how it is known. Errors as `section_svg`."""
    checked_thickness(thickness_mm)
    axle = axle_of(job, axle_name)
    caption = say("Section {axle} {side}", axle=axle_word(axle_name), side=side_word(side))
    if axle is None:
        return Table(caption, _columns(), ())
    setting = _setting(job, axle, side, thickness_mm, kind)
    places, left_out = _places(job, axle_name, axle, setting, with_work)
    return section_rows(setting, outline_of(axle.fitted), places, left_out, caption)


def section_rows(
    setting: Setting, outline: Outline, places: tuple[Place, ...], left_out: tuple[str, ...], caption: str
) -> Table:
    """The same of a corner with one disc."""
    joint = figures_of(setting.hub, setting.wheel, setting.disc, setting.thickness_mm)
    camber = read(say("camber"), setting.axle.corner(setting.side).camber_deg, unit="°")
    missing = [Figure(what, 0.0, Standing.MISSING) for what in (say("section width"), say("free radius"))]
    figures = [
        camber, outline.inset, outline.section or missing[0], outline.radius or missing[1], joint.circle,
        joint.spigot_diameter, joint.spigot_length, joint.nose, joint.flange, joint.hat, joint.bore, joint.chamfer,
    ]  # fmt: skip
    rows = [(say("disc, per side"), thickness(setting.thickness_mm), say("chosen"))]
    rows += [(figure.what, figure.words, figure_word(figure.standing)) for figure in figures]
    if joint.pilot_mm is not None:
        rows.append((say("pilot left in the wheel"), length(joint.pilot_mm), say("spigot − disc − chamfer")))
    rows += [
        (
            say("gap, {place}, {state}", place=place.name, state=place.state),
            length(place.gap_mm),
            say("{need} needed", need=length(place.need_mm)),
        )
        for place in places
    ]
    rows += [(say("not drawn"), text, "") for text in left_out]
    return Table(caption, _columns(), tuple(rows))


def _columns() -> tuple[str, ...]:
    return (say("what"), say("value"), say("how it is known"))


def _setting(job: Job, axle: Axle, side: Side, thickness_mm: float, kind: DiscKind | None) -> Setting:
    wheel = axle.fitted.wheel if axle.fitted else Wheel()
    return Setting(side, axle, axle.hub_at(side), wheel, disc_of(job, thickness_mm, kind), thickness_mm)


def _places(
    job: Job, axle_name: AxleName, axle: Axle, setting: Setting, with_work: bool
) -> tuple[tuple[Place, ...], tuple[str, ...]]:
    steered = job.is_steered(axle_name)
    try:
        room = room_of(axle, setting.side, house_of(job), steered=steered, with_work=with_work)
    except OutsideValidity as error:
        return (), (str(error),)
    return places_of(axle, room, outline_of(axle.fitted), setting.thickness_mm)


def _subtitle(setting: Setting, axle: Axle, with_work: bool) -> str:
    disc = say("no disc")
    if setting.thickness_mm and setting.disc:
        kind = kind_word(setting.disc.kind)
        disc = say("{thickness} {kind} disc", thickness=thickness(setting.thickness_mm), kind=kind)
    elif setting.thickness_mm:
        disc = say("{thickness} disc", thickness=thickness(setting.thickness_mm))
    work = ", ".join(work_offered(axle)) if with_work else ""
    if work:
        return say(
            "Half section through the spin axis, seen from behind; {disc}, work done: {work}.", disc=disc, work=work
        )
    return say("Half section through the spin axis, seen from behind; {disc}.", disc=disc)
