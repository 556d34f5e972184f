"""``hubwright scan``: how the scans of a job lie on the car, or how large a scan file is."""

from __future__ import annotations

import json
import sys
from pathlib import Path

from hubwright.cli.commands import leave
from hubwright.cli.motion import corners_of
from hubwright.cli.work import loaded
from hubwright.errors import HubwrightError
from hubwright.jobs.placing_table import PlacedScan, placed_scans, plain_placing
from hubwright.jobs.placing_words import facts_of, questions_of, unit_word
from hubwright.jobs.scan_units import size_of
from hubwright.jobs.scans import SUFFIXES, read_shape
from hubwright.language import say, say_n
from hubwright.language.words import corner_title
from hubwright.quantities.text import System, length, number, speaking


def show_scan(path: Path, *, axle: str | None, side: str | None, as_json: bool, units: System) -> None:
    """Every scan asked for, in words or as JSON; ends with 1 where something speaks against a placing."""
    if path.suffix.lower() in SUFFIXES:
        _show_file(path, as_json=as_json, units=units)
        return
    job = loaded(path)
    try:
        found = list(placed_scans(job, corners_of(job, axle, side)))
    except HubwrightError as error:
        leave(error)
    if not found:
        leave(say("The job has no scan there. Enter one: hubwright enter JOB 'front.left.scan[+]' TABLE."))
    with speaking(units):
        if as_json:
            rows = [{"field": one.field, "name": one.scan.name, **plain_placing(one.placing)} for one in found]
            sys.stdout.write(json.dumps(rows, indent=2, ensure_ascii=False) + "\n")
        else:
            for one in found:
                _show(one)
    if any(question.grave for one in found for question in questions_of(one.placing)):
        raise SystemExit(1)


def _show(one: PlacedScan) -> None:
    lines = [
        say("{corner}: {name} ({field})", corner=corner_title(one.axle, one.side), name=one.scan.name, field=one.field)
    ]
    for question in questions_of(one.placing):
        lines.append(f"  {'!' if question.grave else '?'} {question.text} {question.todo}")
    lines += [f"  {fact}" for fact in facts_of(one.placing)]
    sys.stdout.write("\n".join(lines) + "\n\n")


def _show_file(path: Path, *, as_json: bool, units: System) -> None:
    try:
        shape = read_shape(path, 1.0)
    except HubwrightError as error:
        leave(error)
    size, count = size_of(shape.triangles_mm), len(shape.triangles_mm)
    if as_json:
        row = {"triangles_or_points": count, "is_points": shape.is_points, "length_in_own_unit": size.length,
               "unit_guessed": size.guess}  # fmt: skip
        sys.stdout.write(json.dumps(row, indent=2) + "\n")
        return
    with speaking(units):
        lines = [say_n("{count} point.", "{count} points.", count) if shape.is_points
                 else say_n("{count} triangle.", "{count} triangles.", count)]  # fmt: skip
        places = {"size": number(size.length, 2)}
        if size.guess is None:
            lines.append(say("In its own unit the scan is {size} long, which fits an arch in no unit.", **places))
        else:
            unit = {"unit": unit_word(size.guess), "length": length(size.mm(size.guess), 0)}
            lines.append(
                say("In its own unit the scan is {size} long. Most likely {unit}: {length} long.", **places, **unit)
            )
        sys.stdout.write("\n".join(lines) + "\n")
