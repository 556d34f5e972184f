"""``hubwright tyre`` and ``hubwright compare``: figures of one tyre on one rim, and of one package in place of another."""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence
from dataclasses import asdict
from pathlib import Path

from rich.console import Console
from rich.markup import escape
from rich.padding import Padding
from rich.table import Table

from hubwright.checks.standing import standing_words
from hubwright.cli.commands import leave
from hubwright.errors import BadInput, HubwrightError
from hubwright.jobs.compare import Comparison, Side, compare_packages
from hubwright.jobs.tyre_sheet import TyreReadings, TyreSheet, pairs_of, tyre_sheet
from hubwright.language import say
from hubwright.language.part_words import estimate_word, part_word
from hubwright.quantities.text import System, change_of, figure, length, number, percent, plain, speaking, unit


def show_tyre(
    tyre: str, rim: str, readings: TyreReadings, half_widths: Sequence[str], *, snow: bool, units: System, as_json: bool
) -> None:
    """Print the sheet of one tyre on one rim."""
    try:
        points = pairs_of(half_widths)
        sheet = tyre_sheet(tyre, rim, TyreReadings(**{**asdict(readings), "half_widths": points}), snow=snow)
    except HubwrightError as error:
        leave(error)
    if as_json:
        sys.stdout.write(json.dumps(asdict(sheet), indent=2, ensure_ascii=False) + "\n")
        return
    with speaking(units):
        _print_sheet(sheet)


def _print_sheet(sheet: TyreSheet) -> None:
    console = Console(highlight=False)
    console.print(say("{tyre} on {rim}", tyre=f"[bold]{escape(sheet.tyre)}[/]", rim=f"[bold]{escape(sheet.rim)}[/]"))
    e = sheet.envelope
    table = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0))
    table.add_column(say("in {unit}", unit=unit()), no_wrap=True)
    for column in (say("as it stands"), say("design"), say("smallest new"), say("largest new")):
        table.add_column(column, no_wrap=True, justify="right")
    widths = (sheet.section_width_mm, sheet.design_width_mm, e.width_least_mm, e.width_most_mm)
    table.add_row(say("section width"), *(figure(v) for v in widths))
    diameters = (2 * sheet.free_radius_mm, sheet.design_diameter_mm, e.diameter_least_mm, e.diameter_most_mm)
    table.add_row(say("overall diameter"), *(figure(v) for v in diameters))
    table.add_row(say("free radius"), *(figure(v / 2) for v in diameters))
    console.print(Padding(table, (0, 0, 0, 2)))
    lines = [
        say(
            "widest at radius {widest_radius}; tread {tread_width} wide",
            widest_radius=length(sheet.widest_radius_mm),
            tread_width=length(sheet.tread_width_mm),
        ),
        say("rolls {circumference} per turn", circumference=length(sheet.circumference_mm, 0)),
        say(
            "measured by its standard on a rim {measuring_rim_width} in wide",
            measuring_rim_width=number(sheet.measuring_rim_width_mm / 25.4, 1),
        ),
    ]
    if sheet.worn_diameter_mm is not None:
        lines.append(
            say(
                "worn to {depth} of tread: diameter {diameter}",
                depth=length(1.6),
                diameter=length(sheet.worn_diameter_mm),
            )
        )
    carries = [
        say("carries {load} kg", load=number(sheet.load_kg, 0))
        if sheet.load_kg is not None
        else say("load index not written")
    ]
    carries.append(
        say("up to {speed} km/h", speed=number(sheet.speed_kmh, 0))
        if sheet.speed_kmh is not None
        else say("speed symbol not written")
    )
    lines.append(", ".join(carries))
    if sheet.loaded is not None:
        u = sheet.loaded
        lines.append(
            say(
                "under {load} kg ({stiffness} N/mm): sinks {deflection}, axle {loaded_radius} over the ground, bulges {bulge} "
                "per side at the ground",
                load=number(u.load_kg, 0),
                stiffness=number(u.stiffness_n_mm, 0),
                deflection=length(u.deflection_mm),
                loaded_radius=length(u.loaded_radius_mm),
                bulge=length(u.bulge_mm),
            )
        )
    lines.append(
        say(
            "run without air: axle about {height} over the ground, folded sidewall at most {half_width} from the middle "
            "(estimates)",
            height=length(sheet.flat_axle_height_mm),
            half_width=length(sheet.flat_half_width_mm),
        )
    )
    for text in lines:
        console.print(Padding(escape(text), (0, 0, 0, 2)))
    console.print(Padding(_half_widths(sheet), (1, 0, 0, 2)))
    console.print(Padding(say("not measured: {estimated}", estimated=escape(_words(sheet.estimated))), (1, 0, 0, 2)))
    console.print(Padding(say("envelope: {source}", source=escape(say(e.source))), (0, 0, 0, 2)))


def _half_widths(sheet: TyreSheet) -> Table:
    table = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0))
    for column in (say("radius"), say("half width"), say("smallest"), say("largest")):
        table.add_column(column, no_wrap=True, justify="right")
    for row in sheet.half_widths:
        cells = ("–" if v is None else figure(v) for v in (row.half_width_mm, row.smallest_mm, row.largest_mm))
        table.add_row(figure(row.radius_mm), *cells)
    return table


def _words(names: tuple[str, ...]) -> str:
    return ", ".join(estimate_word(name) for name in names) or say("nothing")


def show_comparison(
    old: str,
    new: str,
    *,
    old_disc_mm: float,
    disc_mm: float,
    lead_percent: float | None,
    body_line_mm: float | None,
    svg: Path | None,
    units: System,
    as_json: bool,
) -> None:
    """Print what changes, and draw it where a file is named."""
    try:
        found = compare_packages(
            old, new, old_disc_mm=old_disc_mm, disc_mm=disc_mm, lead_percent=lead_percent, body_line_mm=body_line_mm
        )
    except HubwrightError as error:
        leave(error)
    with speaking(units):
        if svg is not None:
            _draw(old, new, old_disc_mm, disc_mm, body_line_mm, svg)
        if as_json:
            sys.stdout.write(json.dumps(asdict(found), indent=2, ensure_ascii=False) + "\n")
        else:
            _print_comparison(found)


def _draw(old: str, new: str, old_disc_mm: float, disc_mm: float, body_line_mm: float | None, svg: Path) -> None:
    from hubwright.drawings.compare import compare_svg  # noqa: PLC0415 - only where a drawing is asked for

    try:
        svg.write_text(compare_svg(old, new, old_disc_mm, disc_mm, body_line_mm), encoding="utf-8")
    except OSError as error:
        leave(
            say(
                "{option} {file}: wanted a file that can be written; {error}.",
                option="--svg",
                file=svg,
                error=error.strerror or error,
            )
        )
    except BadInput as error:
        leave(error)


def _print_comparison(found: Comparison) -> None:
    console = Console(highlight=False)
    change = found.change
    table = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0))
    table.add_column(say("in {unit}", unit=unit()), no_wrap=True)
    for column in (say("now"), say("then"), say("change")):
        table.add_column(column, no_wrap=True, justify="right")
    old, new = found.old, found.new
    rows = (
        (say("outer edge from the hub face"), old.edges.outer_mm, new.edges.outer_mm, change.outward_mm),
        (say("inner edge from the hub face"), old.edges.inner_mm, new.edges.inner_mm, change.inward_mm),
        (say("rim centre plane"), _plane(old), _plane(new), change.centre_plane_mm),
        (
            say("widest section"),
            old.figures.width_mm,
            new.figures.width_mm,
            new.figures.width_mm - old.figures.width_mm,
        ),
        (say("diameter"), old.figures.overall_diameter_mm, new.figures.overall_diameter_mm, change.diameter_mm),
    )
    for name, before, after, by in rows:
        table.add_row(name, figure(before), figure(after), change_of(by))
    console.print(f"{say('now: ')} {_on_disc(old)}")
    console.print(f"{say('then:')} {_on_disc(new)}")
    console.print(Padding(table, (0, 0, 0, 2)))
    for text in _sentences(found):
        console.print(Padding(escape(text), (0, 0, 0, 2)))
    console.print(Padding(say("not measured: {estimated}", estimated=escape(_words(new.estimated))), (0, 0, 0, 2)))


def _plane(side: Side) -> float:
    return side.thickness_mm - side.figures.inset_mm


def _on_disc(side: Side) -> str:
    package = f"[bold]{escape(side.text)}[/]"
    if not side.thickness_mm:
        return package
    return say("{package} on a {thickness} disc per side", package=package, thickness=length(side.thickness_mm))


def _sentences(found: Comparison) -> list[str]:
    change, low_high = found.change, found.speedometer_lead_percent
    lines = [
        say(
            "diameter and circumference {diameter}: {circumference} {unit} per turn",
            diameter=percent(change.diameter_percent / 100),
            circumference=change_of(change.circumference_mm),
            unit=unit(),
        ),
        say(
            "free radius {radius} {unit}: the car stands by that much higher",
            radius=change_of(change.radius_mm),
            unit=unit(),
        ),
        say(
            "a true {speed} km/h where the speedometer showed what was 100",
            speed=number(change.true_speed_at_100_kmh, 1),
        ),
        say(
            "speedometer: lawful where it now shows {low} to {high} % too much (UN R39, at 40, 80 and 120 km/h)",
            low=number(low_high[0], 1),
            high=number(low_high[1], 1),
        ),
    ]
    if found.indicated_at_100_kmh is not None:
        least, most = found.indicated_limits_kmh
        shown = number(found.indicated_at_100_kmh, 1)
        lines.append(
            say(
                "at a true 100 it will show {shown} ({least} to {most} allowed)",
                shown=shown,
                least=plain(least),
                most=plain(most),
            )
        )
    loads = (found.old.figures.load_capacity_kg, found.new.figures.load_capacity_kg)
    if None not in loads:
        lines.append(
            say(
                "load capacity per tyre {before} to {after} kg", before=plain(loads[0] or 0), after=plain(loads[1] or 0)
            )
        )
    inset = number(found.same_outer_inset_mm, 1)
    if found.same_outer_disc_mm >= 0:
        disc = length(found.same_outer_disc_mm)
        lines.append(
            say("same outer position as now: a disc of {disc}; an inset of {inset} mm would", disc=disc, inset=inset)
        )
    else:
        lines.append(say("same outer position as now: no disc does it; an inset of {inset} mm would", inset=inset))
    if found.same_track_disc_mm >= 0:
        lines.append(say("same track as now: a disc of {disc}", disc=length(found.same_track_disc_mm)))
    for name, side in ((say("now"), found.old), (say("then"), found.new)):
        if side.poke_mm is not None:
            lines.append(
                say(
                    "{name}: {stands} against the body line ({part} outermost)",
                    name=name,
                    stands=standing_words(side.poke_mm, flush=side.standing == "flush"),
                    part=part_word(side.outermost or ""),
                )
            )
    return lines
