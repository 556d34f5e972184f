"""One posted row, head or removal becomes fields of the job file, or everything wrong with it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from hubwright.errors import BadInput, Fault
from hubwright.language import say
from hubwright.quantities.text import System
from hubwright.web.fields.form import asked
from hubwright.web.fields.spec import Spec
from hubwright.web.fields.tree import Tree, parts_of_reading, reading_value
from hubwright.web.fields.typed import NotThat, read
from hubwright.web.forms import Posted
from hubwright.web.lines.curves import Curve, Row

Values = list[tuple[str, Any]]
LISTS = {"numbers": "number", "texts": "text"}


def cell(number: int, key: str) -> str:
    """Name of one box: which of the rows of the form, which figure."""
    return f"c{number}:{key}"


def one_figure(spec: Spec) -> Spec:
    """Of a list of figures: a single one of them."""
    return replace(spec, kind=LISTS.get(spec.kind, spec.kind), most=None)  # type: ignore[arg-type]  # both are kinds


def values_of(curve: Curve, form: Posted, tree: Tree, system: System) -> Values:
    """What a form changes.

    Raises:
        BadInput: with everything wrong with it.
    """
    what = form.text("what")
    if what == "out":
        return [(curve.path if curve.in_list else _list_of(curve), None)]
    if what == "head":
        found = asked(form, tree, system)
        if found.faults:
            raise BadInput("line", found.faults)
        return list(found.values)
    at = form.whole("row", 0)
    if what == "drop":
        return _without(curve, at)
    if what == "row" and (curve.is_new or not curve.begun):
        return _begun(curve, form, tree, system)
    if what != "row":
        raise BadInput("line", (Fault("what", say("one of the buttons"), what[:60] or say("nothing")),))
    row = _row(curve, form, 0, system, curve.rows[at - 1] if 1 <= at <= len(curve.rows) else None)
    return _with(curve, row, at, form.whole("place", 0))


def _begun(curve: Curve, form: Posted, tree: Tree, system: System) -> Values:
    """The head and the first rows, together, since the file cannot hold less."""
    found = asked(form, tree, system) if curve.is_new else None
    faults = list(found.faults) if found else []
    head: dict[str, Any] = dict(found.values[0][1]) if found and found.values else {}
    rows: list[Row] = []
    if not head.get("file"):
        for number in range(curve.kind.least):
            try:
                rows.append(_row(curve, form, number, system, None))
            except BadInput as error:
                faults += error.faults
    if faults:
        raise BadInput("line", tuple(faults))
    kind = curve.kind
    if not curve.is_new:
        return _with(curve, rows[0], 0, 0) if kind.least == 1 else [(_list_of(curve), [list(row) for row in rows])]
    if rows and kind.shape == "columns":
        head |= {column.key: [row[n] for row in rows] for n, column in enumerate(kind.columns)}
    elif rows:
        head[kind.field] = [list(row) for row in rows]
    return [(curve.path, head)]


def _row(curve: Curve, form: Posted, number: int, system: System, before: Row | None) -> Row:
    faults: list[Fault] = []
    found: list[Any] = []
    for n, column in enumerate(curve.kind.columns):
        name, spec = cell(number, column.key), one_figure(curve.spec(column.key))
        value = read(spec, form.text(name), system)
        if isinstance(value, NotThat):
            faults.append(Fault(name, value.wanted, value.given))
        elif value is None and column.needed:
            faults.append(Fault(name, say("a figure") if spec.kind != "text" else say("a name"), say("nothing")))
        elif spec.kind == "reading" and value is not None:
            _, method, u, by = parts_of_reading(before[n] if before else None)
            value = reading_value(value, method, u, by)
        found.append(value)
    if faults:
        raise BadInput("line", tuple(faults))
    return tuple(found)


def _list_of(curve: Curve) -> str:
    return f"{curve.path}.{curve.kind.field}" if curve.kind.shape == "points" else curve.path


def _with(curve: Curve, row: Row, at: int, place: int) -> Values:
    """With a row more, at its place (0 = the end), or with another row in its stead."""
    columns = curve.kind.columns
    replaces = 1 <= at <= len(curve.rows)
    if curve.kind.shape == "tables":
        keys = [column.key for column in columns]
        if not replaces:
            return [(f"{curve.path}[+]", {key: it for key, it in zip(keys, row, strict=True) if it is not None})]
        stood = curve.rows[at - 1]
        return [(f"{curve.path}[{at}].{key}", it) for key, it, was in zip(keys, row, stood, strict=True) if it != was]
    rows = list(curve.rows)
    if replaces:
        rows[at - 1] = row
    else:
        rows.insert(place - 1 if 1 <= place <= len(rows) else len(rows), row)
    return _lists(curve, rows)


def _without(curve: Curve, at: int) -> Values:
    if not 1 <= at <= len(curve.rows):
        raise BadInput("line", (Fault("row", say("a row that is there"), str(at)),))
    if curve.kind.shape == "tables":
        return [(f"{curve.path}[{at}]", None)]
    rows = [row for number, row in enumerate(curve.rows, 1) if number != at]
    if len(rows) < curve.kind.least:
        return [(curve.path if curve.in_list else _list_of(curve), None)]
    return _lists(curve, rows)


def _lists(curve: Curve, rows: list[Row]) -> Values:
    if curve.kind.shape == "points":
        return [(_list_of(curve), [list(row) for row in rows])]
    return [(f"{curve.path}.{column.key}", [row[n] for row in rows]) for n, column in enumerate(curve.kind.columns)]
