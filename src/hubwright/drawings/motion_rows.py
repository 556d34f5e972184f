"""The figures of the motion charts as rows of text, for whoever cannot see the charts."""

from __future__ import annotations

import math

import numpy as np

from hubwright.drawings.motion_charts import per_of
from hubwright.drawings.table import Table
from hubwright.jobs.motion_table import MotionTable, column_words
from hubwright.language import say
from hubwright.language.words import corner_title
from hubwright.quantities.text import length, number, unit


def motion_rows(table: MotionTable) -> Table:
    """One row for each travel straight ahead, then one for each steer angle parked."""
    columns = tuple(dict.fromkeys([*table.by_travel, *table.by_rack]))
    rows = [
        (say("travel {travel}", travel=length(float(travel), 0)), *_cells(table.by_travel, columns, row))
        for row, travel in enumerate(table.travel_mm)
    ]
    rows += [
        (
            say("steered {angle}°, parked", angle=number(float(table.steer_deg[row]), 1)),
            *_cells(table.by_rack, columns, row),
        )
        for row in (np.argsort(table.steer_deg) if table.rack_mm.size else ())
    ]
    caption = say("{corner}: how the wheel moves", corner=corner_title(table.axle, table.side))
    return Table(caption, (say("state"), *(column_words(name, unit()) for name in columns)), tuple(rows))


def _cells(figures: dict[str, np.ndarray], columns: tuple[str, ...], row: int) -> tuple[str, ...]:
    found = (float(figures[name][row]) / per_of(name) if name in figures else math.nan for name in columns)
    return tuple(number(value, 2) if math.isfinite(value) else "–" for value in found)
