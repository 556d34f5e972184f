"""Every set of rows of one axle: where it stands in the job, what it is called, which rows it has."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from hubwright.language import say
from hubwright.language.place_words import place_word
from hubwright.language.words import axle_title, corner_title
from hubwright.parts.job import AxleName
from hubwright.quantities.axes import SIDES, Side
from hubwright.web.fields.form import choice_word
from hubwright.web.fields.spec import Spec, spec_at
from hubwright.web.fields.tree import Tree
from hubwright.web.lines.kinds import BODY, CALIPER, CASES, CLOCK, DUTY, HALF, MOTION, PLACES, PROFILE, WEIGHTS, Kind

Row = tuple[Any, ...]


@dataclass(frozen=True)
class Curve:
    """One set of rows, there already or still to begin.

    Attributes:
        kind: What it is.
        path: Its item in the job file, or its list; with ``[+]`` an item that is still to begin.
        group: The corner or wheel set it belongs to, in words.
        name: What it is called.
        rows: As stored, in the units used inside; None where a figure is missing.
        side: Whose side it is on; None of the axle.
    """

    kind: Kind
    path: str
    group: str
    name: str
    rows: tuple[Row, ...] = ()
    side: Side | None = None

    @property
    def id(self) -> str:
        """As it is written in addresses."""
        return f"{self.kind.key}|{self.path.partition('.')[2]}"

    @property
    def how(self) -> str:
        """How it is read."""
        return say(self.kind.how)

    @property
    def is_new(self) -> bool:
        """Whether it is still to begin: its head and first rows go in together."""
        return self.path.endswith("[+]")

    @property
    def in_list(self) -> bool:
        """Whether it is an item of a list that can be taken out whole."""
        return bool(self.kind.add)

    @property
    def begun(self) -> bool:
        """Whether a row can be added to it by itself."""
        return len(self.rows) >= self.kind.least

    def spec(self, key: str) -> Spec:
        """What one figure of a row holds."""
        field = next(column.field for column in self.kind.columns if column.key == key)
        base = f"{self.path}[+]" if self.kind.shape == "tables" else self.path
        return spec_at(f"{base}.{field}")


def curves_of(tree: Tree, axle: AxleName) -> tuple[Curve, ...]:
    """All of one axle, those one can begin among them."""
    found = [curve for side in SIDES for curve in _of_corner(tree, axle, side)]
    for key in ("wheel_set", "package"):
        for number in range(1, tree.count(f"{axle}.{key}") + 1):
            found += _of_wheel(tree, f"{axle}.{key}[{number}]")
    group = axle_title(axle)
    found.append(_tables(tree, MOTION, f"{axle}.motion", group))
    found.append(_tables(tree, DUTY, f"{axle}.bearing.duty", group))
    if tree.at(f"{axle}.hardpoints.springs") is not None:
        found.append(_tables(tree, CASES, f"{axle}.hardpoints.springs.case", group))
    return tuple(found)


def _of_corner(tree: Tree, axle: AxleName, side: Side) -> Iterator[Curve]:
    base, group = f"{axle}.{side}", corner_title(axle, side)
    for number in range(1, tree.count(f"{base}.line") + 1):
        path = f"{base}.line[{number}]"
        kind = PLACES if tree.at(f"{path}.points_mm") else CLOCK
        yield Curve(kind, path, group, place_word(str(tree.at(f"{path}.name") or "")), _rows(tree, kind, path), side)
    yield Curve(CLOCK, f"{base}.line[+]", group, say(CLOCK.add), side=side)
    yield Curve(PLACES, f"{base}.line[+]", group, say(PLACES.add), side=side)
    yield Curve(CALIPER, f"{base}.brake", group, say(CALIPER.title), _rows(tree, CALIPER, f"{base}.brake"), side)
    yield _tables(tree, BODY, f"{base}.body_line", group, side)


def _of_wheel(tree: Tree, base: str) -> Iterator[Curve]:
    role = tree.at(f"{base}.role")
    words = [choice_word("WheelSet.role", str(role))] if role else [say("offered package")]
    words += [str(text) for key in ("name", "tyre.designation") if (text := tree.at(f"{base}.{key}"))]
    group = ", ".join(words)
    for number in range(1, tree.count(f"{base}.wheel.profile") + 1):
        path = f"{base}.wheel.profile[{number}]"
        part = str(tree.at(f"{path}.part") or "")
        name = say("{kind}: {name}", kind=say(PROFILE.title), name=choice_word("ProfileLine.part", part))
        yield Curve(PROFILE, path, group, name, _rows(tree, PROFILE, path))
    yield Curve(PROFILE, f"{base}.wheel.profile[+]", group, say(PROFILE.add))
    yield _tables(tree, HALF, f"{base}.tyre.half_width", group)
    yield _tables(tree, WEIGHTS, f"{base}.wheel.weight", group)


def _tables(tree: Tree, kind: Kind, path: str, group: str, side: Side | None = None) -> Curve:
    return Curve(kind, path, group, say(kind.title), _rows(tree, kind, path), side)


def _rows(tree: Tree, kind: Kind, path: str) -> tuple[Row, ...]:
    if kind.shape == "columns":
        lists = [tree.at(f"{path}.{column.key}") or [] for column in kind.columns]
        most = max(len(one) for one in lists)
        return tuple(tuple(one[at] if at < len(one) else None for one in lists) for at in range(most))
    items = tree.at(f"{path}.{kind.field}" if kind.shape == "points" else path)
    if kind.shape == "points":
        return tuple(tuple(item) for item in items or ())
    return tuple(tuple(item.get(column.key) for column in kind.columns) for item in items or ())
