"""``hubwright motion``: how the wheels move, as tables and charts."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from hubwright.cli.commands import leave
from hubwright.cli.work import axle_refused, folder_refused, loaded
from hubwright.errors import HubwrightError
from hubwright.jobs.motion_table import MotionTable, column_words, motion_table
from hubwright.language import say
from hubwright.language.part_words import grade_word
from hubwright.language.words import corner_title, side_word
from hubwright.parts.job import AxleName, Job
from hubwright.quantities.axes import SIDES, Side
from hubwright.quantities.text import MINUS, joined, pointed

if TYPE_CHECKING:
    from rich.console import Console

ROWS = 7
FAR = 9_999.0
"""A swing arm longer than 10 m is said to be far: its wheel moves straight, and its length means nothing more."""


def corners_of(job: Job, axle: str | None, side: str | None) -> list[tuple[AxleName, Side]]:
    """The corners asked for; leaves with a sentence where there are none."""
    known = [name for name, _ in job.axles]
    if axle is not None and axle not in known:
        leave(axle_refused(known, axle))
    if side is not None and side not in SIDES:
        leave(say("--side: wanted left or right; given {side}.", side=side))
    return [(name, s) for name in known for s in SIDES if axle in (None, name) and side in (None, s)]


def show_motion(path: Path, *, axle: str | None, side: str | None, as_json: bool, drawings: Path | None) -> None:
    """Tables of every corner asked for, and charts."""
    job = loaded(path)
    try:
        tables = [motion_table(job, name, one) for name, one in corners_of(job, axle, side) if _told(job, name, one)]
    except HubwrightError as error:
        leave(error)
    if not tables:
        leave(say("The job says nothing about how a wheel moves: no hard points, no motion readings."))
    if drawings is not None:
        from hubwright.drawings.motion_charts import motion_svg  # noqa: PLC0415

        try:
            drawings.mkdir(parents=True, exist_ok=True)
            for table in tables:
                (drawings / f"{table.axle}-{table.side}-motion.svg").write_text(motion_svg(table), encoding="utf-8")
        except OSError as error:
            leave(folder_refused("--drawings", drawings, error))
    if as_json:
        sys.stdout.write(json.dumps([table.plain() for table in tables], indent=2, ensure_ascii=False) + "\n")
        return
    from rich.console import Console  # noqa: PLC0415

    console = Console(highlight=False)
    for table in tables:
        _show(console, table)


def _told(job: Job, name: AxleName, side: Side) -> bool:
    axle = dict(job.axles)[name]
    return axle.hardpoints is not None or bool(axle.motion or axle.corner(side).motion)


def _show(console: Console, table: MotionTable) -> None:
    head = say("from {grade}; {reach}", grade=grade_word(table.grade), reach=table.reach)
    console.print(f"[bold]{corner_title(table.axle, table.side)}[/], {head}")
    _grid(console, say("travel, mm"), table.travel_mm, table.by_travel, table.doubt)
    if table.rack_mm.size:
        columns = {"steer_deg": table.steer_deg, **table.by_rack}
        _grid(console, say("rack, mm (parked)"), table.rack_mm, columns, {})
    for case in table.cases:
        held = [
            side_word(side) for side, flag in (("left", case.left_at_limit), ("right", case.right_at_limit)) if flag
        ]
        left, right = (f"{travel:+.0f}".replace("-", MINUS) for travel in (case.left_mm, case.right_mm))
        places = {"case": case.name, "left": left, "right": right}
        text = say("{case}: left {left} mm, right {right} mm", **places)
        if held:
            text = say(
                "{case}: left {left} mm, right {right} mm; {held} stopped by the limit read",
                held=joined(held),
                **places,
            )
        console.print(f"  {text}")
    for text in table.unsolved:
        console.print(f"  {say('not solved: {text}', text=text)}")
    for text in table.notes:
        console.print(f"  {say('note: {text}', text=text)}")
    console.print()


def _grid(
    console: Console, first: str, at: np.ndarray, columns: dict[str, np.ndarray], doubt: dict[str, np.ndarray]
) -> None:
    """Figures of a few states side by side: one row per quantity, so that a narrow terminal holds them."""
    from rich.table import Table  # noqa: PLC0415

    zero = int(np.abs(at).argmin())
    picked = sorted({*np.linspace(0, len(at) - 1, min(ROWS, len(at))).round().astype(int).tolist(), zero})
    grid = Table(box=None, pad_edge=False, padding=(0, 1, 0, 0))
    grid.add_column(f"  {first}", no_wrap=True)
    for number in picked:
        grid.add_column(_figure(float(at[number]), 0), justify="right", no_wrap=True)
    for name, values in columns.items():
        words = say("steer, °") if name == "steer_deg" else column_words(name)
        digits = 2 if name.endswith("_deg") or name == "motion_ratio" else 0 if name.endswith("_arm_mm") else 1
        grid.add_row(f"  {words}", *(_figure(float(values[number]), digits) for number in picked))
        if name in doubt:
            grid.add_row("    ± (1 u)", *(_figure(float(doubt[name][number]), digits) for number in picked))
    console.print(grid)


def _figure(value: float, digits: int) -> str:
    if not np.isfinite(value):
        return "–"
    if abs(value) > FAR:
        return say("far")
    text = f"{value:.{digits}f}"
    return pointed((text.lstrip("-") if float(text) == 0 else text).replace("-", MINUS))
