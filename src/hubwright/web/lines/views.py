"""What the page of edges, outlines and curves shows."""

from __future__ import annotations

import secrets
from dataclasses import dataclass

from hubwright.drawings.row_sketch import row_sketch
from hubwright.errors import Fault
from hubwright.language import say
from hubwright.parts.job import AxleName
from hubwright.quantities.text import System
from hubwright.web.car.views import field_name
from hubwright.web.desk import Seen
from hubwright.web.drawn import Drawn, drawn
from hubwright.web.fields.form import Box, Filled
from hubwright.web.fields.shown import words_of
from hubwright.web.fields.spec import Spec
from hubwright.web.fields.tree import Tree, parts_of_reading
from hubwright.web.fields.typed import unit_word
from hubwright.web.forms import Posted
from hubwright.web.frame import Frame
from hubwright.web.lines.curves import Curve, curves_of
from hubwright.web.lines.take import cell, one_figure
from hubwright.web.sheet.sketches import known_of
from hubwright.web.sheet.slots import Ask


@dataclass(frozen=True)
class Cell:
    """One box of a row.

    Attributes:
        name: In the form.
        label: In the language spoken.
        unit: Beside it.
        text: In it.
        number: Whether it takes a figure.
        fault: What is wrong with it.
    """

    name: str
    label: str
    unit: str
    text: str
    number: bool
    needed: bool
    fault: Fault | None = None


@dataclass(frozen=True)
class LinesView:
    """The page.

    Attributes:
        curves: All of the axle.
        curve: The one before the person; None = the list alone.
        head, more: Its own fields.
        rows: Its rows as shown.
        boxes: The boxes of the row form; of one that is still to begin those of its first rows.
        row: The row that is changed; 0 = one more.
        place: Where a row that is one more goes; 0 = the end.
        sketch: To scale, from the rows there are.
        kept: The revision just stored; 0 = none.
        aside: Whether it was put aside.
    """

    frame: Frame
    axle: AxleName
    curves: tuple[Curve, ...]
    curve: Curve | None
    head: tuple[Filled, ...]
    more: tuple[Filled, ...]
    rows: tuple[tuple[str, ...], ...]
    boxes: tuple[tuple[Cell, ...], ...]
    row: int
    place: int
    sketch: Drawn | None
    faults: tuple[Fault, ...]
    kept: int
    aside: bool
    key: str
    base: int
    system: System

    @property
    def groups(self) -> tuple[tuple[str, tuple[Curve, ...]], ...]:
        """Curves by the corner or wheel set they belong to."""
        found: dict[str, list[Curve]] = {}
        for curve in self.curves:
            found.setdefault(curve.group, []).append(curve)
        return tuple((title, tuple(group)) for title, group in found.items())

    @property
    def titles(self) -> tuple[tuple[str, str], ...]:
        """Labels and units of a row."""
        return tuple((box.label, box.unit) for box in self.boxes[0]) if self.boxes else ()

    def named(self, field: str) -> str:
        """What people call the place of a fault."""
        found = next((box.label for boxes in self.boxes for box in boxes if box.name == field), "")
        return found or field_name(field)


def curve_at(tree: Tree, axle: AxleName, name: str) -> Curve | None:
    """The curve of a name; None when there is none."""
    return next((curve for curve in curves_of(tree, axle) if curve.id == name), None)


def view_of(
    seen: Seen,
    frame: Frame,
    axle: AxleName,
    system: System,
    at: str,
    *,
    row: int = 0,
    place: int = 0,
    form: Posted | None = None,
    faults: tuple[Fault, ...] = (),
    kept: int = 0,
    aside: bool = False,
    files: tuple[tuple[str, str], ...] = (),
) -> LinesView:
    """The page, with the curve named, if there is one.

    Args:
        seen: The job.
        frame: Around the page.
        axle: Which axle.
        system: Units.
        at: Name of the curve.
        row: The row to change.
        place: Where a further row goes.
        form: What came back with faults.
        faults: Those.
        kept: The revision just stored.
        aside: Whether it was put aside.
        files: Attached files a line can be read from.
    """
    tree = Tree(seen.stored.data)
    curves = curves_of(tree, axle)
    curve = next((one for one in curves if one.id == at), None)
    box = Box(tree, system, form, faults)
    row = row if curve is not None and 1 <= row <= len(curve.rows) else 0
    return LinesView(
        frame, axle, curves, curve,
        tuple(box(f"{curve.path}.{key}") for key in curve.kind.head) if curve else (),
        tuple(box(f"{curve.path}.{key}", (("", "–"), *files) if key == "file" else ()) for key in curve.kind.more)
        if curve and curve.is_new
        else (),
        _shown(curve, system) if curve else (),
        _boxes(curve, system, row, form, faults) if curve else (), row, place,
        _sketch(curve, tree, axle, system) if curve else None, faults, kept, aside,
        (form.text("key") if form is not None else "") or secrets.token_hex(16), seen.stored.revision, system,
    )  # fmt: skip


def _figure(spec: Spec, value: object, system: System) -> str:
    return words_of(spec, value, system)


def _shown(curve: Curve, system: System) -> tuple[tuple[str, ...], ...]:
    specs = [one_figure(curve.spec(column.key)) for column in curve.kind.columns]
    return tuple(tuple(_figure(spec, it, system) for spec, it in zip(specs, row, strict=True)) for row in curve.rows)


def _boxes(
    curve: Curve, system: System, row: int, form: Posted | None, faults: tuple[Fault, ...]
) -> tuple[tuple[Cell, ...], ...]:
    wrong = {fault.field: fault for fault in faults}
    count = 1 if curve.begun and not curve.is_new else curve.kind.least
    found = []
    for number in range(count):
        cells = []
        for n, column in enumerate(curve.kind.columns):
            spec, name = one_figure(curve.spec(column.key)), cell(number, column.key)
            text = _figure(spec, curve.rows[row - 1][n], system) if row else ""
            text = form.text(name) if form is not None and name in form.fields else text
            cells.append(
                Cell(
                    name,
                    say(column.label),
                    unit_word(spec, system),
                    text,
                    spec.kind != "text",
                    column.needed,
                    wrong.get(name),
                )
            )
        found.append(tuple(cells))
    return tuple(found)


def _sketch(curve: Curve, tree: Tree, axle: AxleName, system: System) -> Drawn | None:
    if not curve.kind.view:
        return None
    rows = tuple(tuple(_plain(it) for it in row) for row in curve.rows)
    known = known_of(Ask(tree, axle, False, system))
    return drawn(row_sketch(curve.kind.view, rows, known, curve.name, curve.side))


def _plain(value: object) -> float | None:
    repeats = [item for item in parts_of_reading(value)[0] if isinstance(item, int | float)]
    return sum(repeats) / len(repeats) if repeats else None
