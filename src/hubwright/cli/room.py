"""``hubwright room``: the room around each wheel over all travel and lock."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from hubwright.checks.mapped import state_words
from hubwright.cli.commands import leave
from hubwright.cli.motion import corners_of
from hubwright.cli.work import loaded
from hubwright.errors import HubwrightError
from hubwright.jobs.room_table import GapRow, RoomTable, room_table
from hubwright.language import say
from hubwright.language.part_words import grade_word
from hubwright.language.place_words import place_word
from hubwright.language.words import corner_title
from hubwright.quantities.text import System, figure, left_over, length, plain, speaking, thickness, unit

if TYPE_CHECKING:
    from rich.console import Console


def show_room(
    path: Path, *, axle: str | None, side: str | None, disc_mm: float | None, as_json: bool, drawings: Path | None,
    scene: Path | None, units: System,
) -> None:  # fmt: skip
    """Table of every corner asked for, pictures and the 3-D scene."""
    if disc_mm is not None and not 0.0 <= disc_mm <= 150.0:
        leave(say("--disc: wanted 0 to 150 mm; given {given}.", given=plain(disc_mm)))
    job = loaded(path)
    try:
        found = [room_table(job, name, one, disc_mm) for name, one in corners_of(job, axle, side)]
        rooms = [room for room in found if room is not None]
    except HubwrightError as error:
        leave(error)
    if not rooms:
        leave(say("No room can be shown: it takes a scan or an edge of a corner, and the fitted wheel and tyre."))
    try:
        _write(rooms, drawings, scene)
    except OSError as error:
        leave(say("The pictures could not be written: {error}.", error=error.strerror or error))
    if as_json:
        sys.stdout.write(json.dumps([room.plain() for room in rooms], indent=2, ensure_ascii=False) + "\n")
        return
    from rich.console import Console  # noqa: PLC0415

    console = Console(highlight=False)
    with speaking(units):
        for room in rooms:
            _show(console, room)


def _write(rooms: list[RoomTable], drawings: Path | None, scene: Path | None) -> None:
    if drawings is not None:
        from hubwright.drawings.mapchart import map_svg  # noqa: PLC0415
        from hubwright.drawings.plan_view import plan_svg  # noqa: PLC0415

        drawings.mkdir(parents=True, exist_ok=True)
        for room in rooms:
            (drawings / f"{room.axle}-{room.side}-map.svg").write_text(map_svg(room), encoding="utf-8")
            (drawings / f"{room.axle}-{room.side}-above.svg").write_text(plan_svg(room), encoding="utf-8")
    if scene is not None:
        from hubwright.drawings.scene3d import scene_glb  # noqa: PLC0415

        for room in rooms:
            target = scene if len(rooms) == 1 else scene.with_stem(f"{scene.stem}-{room.axle}-{room.side}")
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(scene_glb(room))


def _show(console: Console, room: RoomTable) -> None:
    from rich.padding import Padding  # noqa: PLC0415
    from rich.table import Table  # noqa: PLC0415

    head = say("{package}; motion from {grade}", package=room.package, grade=grade_word(room.grade))
    console.print(f"[bold]{corner_title(room.axle, room.side)}[/]: {head}")
    solved = say("map of {states} states; gaps settled between them", states=room.states)
    if room.unsolved:
        solved = say(
            "map of {states} states, {unsolved} could not be solved; gaps settled between them",
            states=room.states,
            unsolved=room.unsolved,
        )
    console.print(f"  {solved}")
    for row in room.bare[:1]:
        console.print(Padding(say("as it stands: {words}", words=_words(row)), (0, 0, 0, 2)))
    if room.with_disc[0].thickness_mm > 0:
        console.print(
            Padding(
                say(
                    "with {disc}: {words}",
                    disc=thickness(room.with_disc[0].thickness_mm),
                    words=_words(room.with_disc[0]),
                ),
                (0, 0, 0, 2),
            )
        )
    for t, gap in room.parked_mm.items():
        console.print(
            Padding(say("parked, straight ahead, with {disc}: {gap}", disc=thickness(t), gap=length(gap)), (0, 0, 0, 2))
        )
    for t, gap in room.straight_mm.items():
        console.print(
            Padding(
                say("straight ahead, any height, with {disc}: {gap}", disc=thickness(t), gap=length(gap)), (0, 0, 0, 2)
            )
        )
    for row in room.with_disc[1:2]:
        console.print(Padding(say("binds next: {words}", words=_words(row)), (0, 0, 0, 2)))
    for bound in room.bounds:
        at = thickness(round(bound.at_mm - 0.05, 1)) if bound.at_mm > 0 else say("none")
        places = {"item": bound.case.item, "at": at, "state": bound.case.state}
        if bound.kind == "most":
            text = say("thickest disc for {item}: {at} ({state})", **places)
        else:
            text = say("thinnest disc for {item}: {at} ({state})", **places)
        console.print(Padding(text, (0, 0, 0, 2)))
    table = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0))
    titles = (f"  {say('per side')}", say("gap, {unit}", unit=unit()), say("left, {unit}", unit=unit()))
    for title in titles:
        table.add_column(title, no_wrap=True)
    table.add_column(say("where"))
    table.add_column(say("when"))
    for row in room.by_thickness:
        shown = f"{'≥ ' if row.at_least else ''}{figure(row.gap_mm)}"
        table.add_row(
            f"  {thickness(row.thickness_mm)}", shown, left_over(row.left_mm), place_word(row.obstacle), _when(row)
        )
    console.print(table)
    for text in (*room.doubts, *room.notes):
        console.print(Padding(text, (0, 0, 0, 2)))
    console.print()


def _when(row: GapRow) -> str:
    if row.travel_mm is None or row.steer_deg is None:
        return say("any state")
    return state_words(row.travel_mm, row.steer_deg)


def _words(row: GapRow) -> str:
    places = {
        "gap": length(abs(row.gap_mm)), "obstacle": place_word(row.obstacle), "when": _when(row), "wanted": length(row.owed_mm),
    }  # fmt: skip
    if row.gap_mm < 0:
        words = say("an overlap of at least {gap} to {obstacle}, {when}, {wanted} wanted", **places)
    elif row.at_least:
        words = say("at least {gap} of air to {obstacle}, {when}, {wanted} wanted", **places)
    else:
        words = say("{gap} of air to {obstacle}, {when}, {wanted} wanted", **places)
    if row.place_mm is None:
        return words
    x, o, z = row.place_mm
    at = {"x": figure(x, 0), "o": figure(o, 0), "z": length(z, 0)}
    if row.kind == "carried":
        where = say("at forward {x}, outboard {o}, up {z} from the hub face it moves with", **at)
    else:
        where = say("at forward {x}, outboard {o}, up {z}", **at)
    return f"{words}; {where}"
