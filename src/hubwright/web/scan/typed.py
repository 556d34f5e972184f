"""The form of a scan: what was typed or picked becomes a scan as the job file has it, or every fault by its field."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, field, replace
from typing import Any

from hubwright.errors import Fault
from hubwright.language import say
from hubwright.parts.scan import UNIT_MM, LeftOut, Scan
from hubwright.quantities.text import plain, pointed
from hubwright.web.fields.typed import number_of
from hubwright.web.forms import Posted

Place = tuple[float, float, float]
MOST_PICKS, SPARE, LEAST_ROWS = 100, 2, 4
FARTHEST = 10000.0
KINDS, REGIONS, OUTLIERS = ("body", "carried", "hose"), ("outside", "inside"), ("", "yes", "no")


@dataclass(frozen=True)
class Filled:
    """Every field of the form as text, in the order of the page.

    Attributes:
        rear, front: Two places, one further back on the car, one further ahead; they give forward.
        cuts: Places and radii of balls left out.
    """

    name: str = ""
    file: str = ""
    unit: str = ""
    kind: str = "body"
    region: str = "outside"
    how: str = "picks"
    plane: tuple[str, ...] = ()
    circle: tuple[str, ...] = ()
    centre: str = ""
    rear: str = ""
    front: str = ""
    forward: str = ""
    normal: str = ""
    shift: str = ""
    axis_free: str = ""
    cuts: tuple[tuple[str, str], ...] = ()
    u_mm: str = ""
    outliers: str = ""
    sure: bool = False

    def rows(self, name: str) -> tuple[str, ...]:
        """Places of one list with empty rows behind them."""
        typed: tuple[str, ...] = getattr(self, name)
        return (*typed, *[""] * max(SPARE, LEAST_ROWS - len(typed)))

    @property
    def cut_rows(self) -> tuple[tuple[str, str], ...]:
        """Balls with one empty row behind them."""
        return (*self.cuts, ("", ""))


def typed(form: Posted, file: str) -> Filled:
    """The form as posted."""
    pairs = zip(form.texts("cut"), form.texts("cut_radius"), strict=False)
    text = form.text
    return Filled(
        text("name")[:400], file, text("unit"), text("kind", "body"), text("region", "outside"), text("how", "picks"),
        tuple(one for one in form.texts("plane") if one), tuple(one for one in form.texts("circle") if one),
        text("centre"), text("rear"), text("front"), text("forward"), text("normal"), text("shift"), text("axis_free"),
        tuple((place, radius) for place, radius in pairs if place or radius), text("u_mm"), text("outliers"),
        text("sure") == "yes",
    )  # fmt: skip


def filled(scan: Scan, file: str) -> Filled:
    """The form of a scan that stands in the job."""
    unit = UNIT_MM[scan.unit]
    placed = scan.forward is not None
    return Filled(
        scan.name, file, scan.unit, scan.kind, scan.region, "picks" if placed else "axes",
        tuple(map(place_text, scan.hub_plane)), tuple(map(place_text, scan.hub_circle)),
        place_text(scan.hub_centre), "", "", place_text(scan.forward), "" if scan.hub_plane else place_text(scan.normal),
        "" if placed or not any(scan.shift_mm) else place_text(tuple(value / unit for value in scan.shift_mm)),
        _figure(scan.axis_free_mm), tuple((place_text(ball.centre), _figure(ball.radius_mm)) for ball in scan.left_out),
        _figure(scan.u_mm), {None: "", True: "yes", False: "no"}[scan.outliers],
    )  # fmt: skip


def place_text(place: Any) -> str:
    """Three figures as they are typed; empty for None."""
    return "" if place is None else "; ".join(pointed(f"{value:.6f}".rstrip("0").rstrip(".") or "0") for value in place)


def _figure(value: float | None) -> str:
    return "" if value is None else plain(value)


@dataclass
class _Reader:
    """Collects faults while texts become values."""

    faults: list[Fault] = field(default_factory=list)

    def wrong(self, name: str, wanted: str, given: str, todo: str = "") -> None:
        self.faults.append(Fault(name, wanted, given[:60] or say("nothing"), todo))

    def place(self, name: str, text: str) -> Place | None:
        if not text:
            return None
        found = place_of(text)
        if found is None:
            todo = say("Type them with blanks or semicolons between.")
            self.wrong(name, say("three numbers such as 12.5; -3; 810"), text, todo)
        elif max(map(abs, found)) > FARTHEST:
            todo = say("Move the scan nearer to its origin and bring it again, or choose another unit for its file.")
            self.wrong(name, say("numbers from -{most} to {most}", most=plain(FARTHEST)), text, todo)
        else:
            return found
        return None

    def places(self, name: str, texts: tuple[str, ...]) -> tuple[Place, ...]:
        if len(texts) > MOST_PICKS:
            self.wrong(name, say("at most {count} points", count=MOST_PICKS), str(len(texts)))
        read = [self.place(f"{name}[{number}]", text) for number, text in enumerate(texts[:MOST_PICKS], 1)]
        return tuple(place for place in read if place is not None)

    def size(self, name: str, text: str, most: float, *, zero: bool = False) -> float | None:
        if not text:
            return None
        value = number_of(text)
        if value is None or not math.isfinite(value) or not (value >= 0.0 if zero else value > 0.0) or value > most:
            self.wrong(name, say("a number above 0 and up to {most} mm", most=plain(most)), text)
            return None
        return value

    def choice(self, name: str, text: str, choices: tuple[str, ...]) -> str:
        if text not in choices:
            self.wrong(name, say("one of the choices"), text)
            return choices[0]
        return text


def place_of(text: str) -> Place | None:
    """Three figures of one text: apart by semicolons, or by blanks, or by commas where the figures have points."""
    parts = [part for part in re.split(r"\s*;\s*", text.strip()) if part]
    if len(parts) == 1:
        parts = text.split()
    if len(parts) == 1:
        parts = text.split(",")
    values = [number_of(part.strip(" ,") if len(parts) == 3 else part) for part in parts]
    if len(values) != 3 or any(value is None or not math.isfinite(value) for value in values):
        return None
    x, y, z = (float(value) for value in values if value is not None)
    return x, y, z


def scan_of(given: Filled) -> tuple[Scan | None, tuple[Fault, ...]]:
    """The scan of a form, or every fault; what is only missing yet is a fault too."""
    read = _Reader()
    unit: Any = read.choice("unit", given.unit, tuple(UNIT_MM))
    kind: Any = read.choice("kind", given.kind, KINDS)
    region: Any = read.choice("region", given.region, REGIONS)
    outliers = {"": None, "yes": True, "no": False}[read.choice("outliers", given.outliers, OUTLIERS)]
    how = read.choice("how", given.how, ("picks", "axes"))
    if not given.name:
        read.wrong("name", say("a name for what was scanned, such as arch and liner"), "")
    common: dict[str, Any] = {
        "name": given.name or "-", "file": given.file, "unit": unit, "kind": kind, "region": region, "outliers": outliers,
        "axis_free_mm": read.size("axis_free", given.axis_free, 1000.0), "u_mm": read.size("u_mm", given.u_mm, 100.0, zero=True),
        "left_out": _balls(read, given),
    }  # fmt: skip
    scan = Scan(**common)
    if how == "picks":
        scan = _with_picks(read, given, scan)
    elif (shift := read.place("shift", given.shift)) is not None:
        x, y, z = (value * UNIT_MM[unit] for value in shift)
        if max(abs(x), abs(y), abs(z)) <= FARTHEST:
            scan = replace(scan, shift_mm=(x, y, z))
        else:
            read.wrong("shift", say("numbers from -{most} to {most}", most=plain(FARTHEST)), given.shift)
    return (None if read.faults else scan), tuple(read.faults)


def _balls(read: _Reader, given: Filled) -> tuple[LeftOut, ...]:
    balls = []
    for number, (place, radius) in enumerate(given.cuts[:MOST_PICKS], 1):
        centre, size = read.place(f"cut[{number}]", place), read.size(f"cut_radius[{number}]", radius, 2000.0)
        if not place:
            read.wrong(f"cut[{number}]", say("the middle of what is left out"), "")
        if not radius:
            read.wrong(f"cut_radius[{number}]", say("how far around it, in mm"), "")
        if centre is not None and size is not None:
            balls.append(LeftOut(centre=centre, radius_mm=size))
    return tuple(balls)


def _with_picks(read: _Reader, given: Filled, scan: Scan) -> Scan:
    plane, circle = read.places("plane", given.plane), read.places("circle", given.circle)
    centre, normal = read.place("centre", given.centre), read.place("normal", given.normal)
    forward = _forward(read, given)
    if len(given.plane) < 3 and not (normal is not None and not given.plane):
        todo = say("Pick them on the face a disc sits on, far apart.")
        read.wrong("plane", say("three points and more"), str(len(given.plane)), todo)
    if given.centre and given.circle:
        read.wrong("centre", say("either the hub centre or a circle round it"), say("both"), say("Empty one of them."))
    elif not given.centre and len(given.circle) < 3:
        todo = say("Pick them on one round edge of the hub, all the way round, or pick the centre itself.")
        read.wrong("circle", say("three points and more"), str(len(given.circle)), todo)
    if read.faults:
        return scan
    return replace(
        scan, hub_plane=plane, hub_circle=circle, hub_centre=centre, normal=None if plane else normal, forward=forward
    )


def _forward(read: _Reader, given: Filled) -> Place | None:
    """From the place further back to the one further ahead, else as typed; of length 1."""
    rear, front = read.place("rear", given.rear), read.place("front", given.front)
    if given.rear and given.front:
        if rear is None or front is None:
            return None
        direction: Place | None = (front[0] - rear[0], front[1] - rear[1], front[2] - rear[2])
    elif given.rear or given.front:
        name = "front" if given.rear else "rear"
        read.wrong(name, say("the second of the two places that give forward"), "")
        return None
    else:
        direction = read.place("forward", given.forward)
        if not given.forward:
            todo = say("Pick one place further back on the car and one further ahead, level as the car stands.")
            read.wrong("rear", say("two places that give forward"), "", todo)
    if direction is None:
        return None
    size = math.sqrt(sum(value * value for value in direction))
    if size <= 0.0:
        read.wrong("front", say("two places apart from each other"), say("the same place"))
        return None
    x, y, z = (round(value / size, 6) + 0.0 for value in direction)
    return x, y, z
