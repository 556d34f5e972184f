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

from hubwright.cli.commands import leave
from hubwright.errors import BadInput, HubwrightError
from hubwright.jobs.compare import Comparison, Side, compare_packages
from hubwright.jobs.tyre_sheet import TyreReadings, TyreSheet, pairs_of, tyre_sheet
from hubwright.quantities.text import System, change_of, figure, length, number, percent, speaking, unit


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
    console.print(f"[bold]{escape(sheet.tyre)}[/] on [bold]{escape(sheet.rim)}[/]")
    e = sheet.envelope
    table = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0))
    for column in (f"in {unit()}", "as it stands", "design", "smallest new", "largest new"):
        table.add_column(column, no_wrap=True, justify="left" if column.startswith("in ") else "right")
    widths = (sheet.section_width_mm, sheet.design_width_mm, e.width_least_mm, e.width_most_mm)
    table.add_row("section width", *(figure(v) for v in widths))
    diameters = (2 * sheet.free_radius_mm, sheet.design_diameter_mm, e.diameter_least_mm, e.diameter_most_mm)
    table.add_row("overall diameter", *(figure(v) for v in diameters))
    table.add_row("free radius", *(figure(v / 2) for v in diameters))
    console.print(Padding(table, (0, 0, 0, 2)))
    lines = [
        f"widest at radius {length(sheet.widest_radius_mm)}; tread {length(sheet.tread_width_mm)} wide",
        f"rolls {length(sheet.circumference_mm, 0)} per turn",
        f"measured by its standard on a rim {number(sheet.measuring_rim_width_mm / 25.4, 1)} in wide",
    ]
    if sheet.worn_diameter_mm is not None:
        lines.append(f"worn to {length(1.6)} of tread: diameter {length(sheet.worn_diameter_mm)}")
    carries = [f"carries {number(sheet.load_kg, 0)} kg" if sheet.load_kg is not None else "load index not written"]
    carries.append(
        f"up to {number(sheet.speed_kmh, 0)} km/h" if sheet.speed_kmh is not None else "speed symbol not written"
    )
    lines.append(", ".join(carries))
    if sheet.loaded is not None:
        u = sheet.loaded
        lines.append(
            f"under {number(u.load_kg, 0)} kg ({number(u.stiffness_n_mm, 0)} N/mm): sinks {length(u.deflection_mm)}, axle "
            f"{length(u.loaded_radius_mm)} over the ground, bulges {length(u.bulge_mm)} per side at the ground"
        )
    lines.append(
        f"run without air: axle about {length(sheet.flat_axle_height_mm)} over the ground, folded sidewall at most "
        f"{length(sheet.flat_half_width_mm)} from the middle (estimates)"
    )
    for text in lines:
        console.print(Padding(escape(text), (0, 0, 0, 2)))
    console.print(Padding(_half_widths(sheet), (1, 0, 0, 2)))
    console.print(Padding(f"not measured: {escape(_words(sheet.estimated))}", (1, 0, 0, 2)))
    console.print(Padding(f"envelope: {escape(e.source)}", (0, 0, 0, 2)))


def _half_widths(sheet: TyreSheet) -> Table:
    table = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0))
    for column in ("radius", "half width", "smallest", "largest"):
        table.add_column(column, no_wrap=True, justify="right")
    for row in sheet.half_widths:
        cells = ("–" if v is None else figure(v) for v in (row.half_width_mm, row.smallest_mm, row.largest_mm))
        table.add_row(figure(row.radius_mm), *cells)
    return table


def _words(names: tuple[str, ...]) -> str:
    return ", ".join(name.removesuffix("_mm").replace("_", " ") for name in names) or "nothing"


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
        leave(f"--svg {svg}: wanted a file that can be written; {error.strerror or error}.")
    except BadInput as error:
        leave(error)


def _print_comparison(found: Comparison) -> None:
    console = Console(highlight=False)
    change = found.change
    table = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0))
    for column in (f"in {unit()}", "now", "then", "change"):
        table.add_column(column, no_wrap=True, justify="left" if column.startswith("in ") else "right")
    old, new = found.old, found.new
    rows = (
        ("outer edge from the hub face", old.edges.outer_mm, new.edges.outer_mm, change.outward_mm),
        ("inner edge from the hub face", old.edges.inner_mm, new.edges.inner_mm, change.inward_mm),
        ("rim centre plane", _plane(old), _plane(new), change.centre_plane_mm),
        ("widest section", old.figures.width_mm, new.figures.width_mm, new.figures.width_mm - old.figures.width_mm),
        ("diameter", old.figures.overall_diameter_mm, new.figures.overall_diameter_mm, change.diameter_mm),
    )
    for name, before, after, by in rows:
        table.add_row(name, figure(before), figure(after), change_of(by))
    console.print(f"now:  [bold]{escape(old.text)}[/]{_disc(old)}")
    console.print(f"then: [bold]{escape(new.text)}[/]{_disc(new)}")
    console.print(Padding(table, (0, 0, 0, 2)))
    for text in _sentences(found):
        console.print(Padding(escape(text), (0, 0, 0, 2)))
    console.print(Padding(f"not measured: {escape(_words(new.estimated))}", (0, 0, 0, 2)))


def _plane(side: Side) -> float:
    return side.thickness_mm - side.figures.inset_mm


def _disc(side: Side) -> str:
    return f" on a {length(side.thickness_mm)} disc per side" if side.thickness_mm else ""


def _sentences(found: Comparison) -> list[str]:
    change, low_high = found.change, found.speedometer_lead_percent
    lines = [
        f"diameter and circumference {percent(change.diameter_percent / 100)}: {change_of(change.circumference_mm)} {unit()} per turn",
        f"free radius {change_of(change.radius_mm)} {unit()}: the car stands by that much higher",
        f"a true {number(change.true_speed_at_100_kmh, 1)} km/h where the speedometer showed what was 100",
        f"speedometer: lawful where it now shows {number(low_high[0], 1)} to {number(low_high[1], 1)} % too much (UN R39, at 40, 80 and 120 km/h)",
    ]
    if found.indicated_at_100_kmh is not None:
        least, most = found.indicated_limits_kmh
        shown = number(found.indicated_at_100_kmh, 1)
        lines.append(f"at a true 100 it will show {shown} ({least:g} to {most:g} allowed)")
    loads = (found.old.figures.load_capacity_kg, found.new.figures.load_capacity_kg)
    if None not in loads:
        lines.append(f"load capacity per tyre {loads[0]:g} to {loads[1]:g} kg")
    inset = number(found.same_outer_inset_mm, 1)
    same = f"a disc of {length(found.same_outer_disc_mm)}" if found.same_outer_disc_mm >= 0 else "no disc does it"
    lines.append(f"same outer position as now: {same}; an inset of {inset} mm would")
    if found.same_track_disc_mm >= 0:
        lines.append(f"same track as now: a disc of {length(found.same_track_disc_mm)}")
    for name, side in (("now", found.old), ("then", found.new)):
        if side.poke_mm is not None:
            by = "" if side.standing == "flush" else f"{length(abs(side.poke_mm))} "
            lines.append(f"{name}: {by}{side.standing} against the body line ({side.outermost} outermost)")
    return lines
