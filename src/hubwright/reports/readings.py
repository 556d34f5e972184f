"""Every reading of an axle as rows to fill or to read: what, how, left, right. Left and right apart, always."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from hubwright.language import say
from hubwright.language.part_words import method_word
from hubwright.language.place_words import place_word
from hubwright.language.words import seat_word
from hubwright.parts.corner import Corner
from hubwright.parts.hub import Fastener, Hub
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.quantities.axes import SIDES
from hubwright.quantities.reading import Reading
from hubwright.quantities.text import length, number


@dataclass(frozen=True)
class Line:
    """One row: its letter in the sketch, what is read, how, and the figures; empty = not read."""

    mark: str
    what: str
    how: str
    left: str = ""
    right: str = ""

    @property
    def cells(self) -> tuple[str, ...]:
        """The row of a table."""
        return (self.mark, self.what, self.how, self.left, self.right)


def said(reading: Reading | None, unit: str = "mm") -> str:
    """A reading with the doubt somebody stated or its repeats show, its method, and whether a customer took it."""
    if reading is None:
        return ""
    value = length(reading.value) if unit == "mm" else f"{number(reading.value, 2)}{unit}"
    words = [value]
    if reading.u is not None or len(reading.values) > 1:
        doubt = reading.doubt
        words.append(f"± {length(doubt) if unit == 'mm' else number(doubt, 2) + unit}")
    if reading.by == "customer":
        words.append(say("(customer)"))
    elif reading.method:
        words.append(f"({method_word(reading.method)})")
    return " ".join(words)


def corner_lines(job: Job, name: AxleName, axle: Axle | None) -> tuple[Line, ...]:
    """What is read at each corner besides the gaps."""
    both: list[tuple[str, str, str, Callable[[Corner], str]]] = [
        ("A", say("Ride height"), say("wheel centre straight up to the arch edge"),
         lambda corner: said(corner.ride_height_mm)),
        ("B", say("Arch edge beyond the tread, at the top"), say("plumb line; negative where the tread stands out"),
         lambda corner: said(corner.cover_mm)),
        ("", say("Camber, parked"), say("negative: top inboard"), lambda corner: said(corner.camber_deg, "°")),
        ("C", say("Spoke to caliper, along the axle"), say("modelling clay"),
         lambda corner: said(corner.brake.axial_gap_mm)),
        ("D", say("Barrel to caliper"), say("modelling clay or feeler"),
         lambda corner: said(corner.brake.radial_gap_mm)),
    ]  # fmt: skip
    return tuple(
        Line(mark, what, how, *(find(axle.corner(side)) if axle else "" for side in SIDES))
        for mark, what, how, find in both
    )


def hub_lines(axle: Axle | None) -> tuple[Line, ...]:
    """What is read at the hub, brake disc fitted."""
    rows: list[tuple[str, str, str, Callable[[Hub], str]]] = [
        ("", say("Holes and circle"), say("count the holes; chord between two neighbours"), lambda hub: hub.bolt_circle or ""),
        ("E", say("Spigot, diameter"), say("calliper"), lambda hub: said(hub.spigot_diameter_mm)),
        ("F", say("Spigot, useful length"), say("from the face, without its chamfer"), lambda hub: said(hub.spigot_length_mm)),
        ("G", say("Axle end beyond the spigot"), say("length; 0 where there is none"), lambda hub: said(hub.nose_length_mm)),
        ("", say("Axle end, diameter"), say("calliper"), lambda hub: said(hub.nose_diameter_mm)),
        ("H", say("Flange, thread length"), say("bolts: through the flange"), lambda hub: said(hub.flange_thickness_mm)),
        ("I", say("Air behind the flange"), say("bolts: up to the first part"), lambda hub: said(hub.free_behind_mm)),
        ("K", say("Stud beyond the face"), say("studs: brake disc fitted"), lambda hub: said(hub.stud_proud_mm)),
    ]  # fmt: skip
    return tuple(
        Line(mark, what, how, *(find(axle.hub_at(side)) if axle else "" for side in SIDES))
        for mark, what, how, find in rows
    )


def set_lines(axle: Axle | None) -> Iterator[tuple[str, tuple[tuple[str, str], ...]]]:
    """Each wheel set with what is read on it; one empty set where the job names none."""
    sets = axle.wheel_set if axle else ()
    if not sets:
        yield say("Fitted wheels"), tuple((name, "") for name, _ in _of_set(axle, 0))
    for number_, wheel_set in enumerate(sets):
        yield wheel_set.title, tuple(_of_set(axle, number_))


def _of_set(axle: Axle | None, number_: int) -> Iterator[tuple[str, str]]:
    one = axle.wheel_set[number_] if axle and axle.wheel_set else None
    wheel, tyre = (one.wheel, one.tyre) if one else (None, None)
    fastener = (
        one.fastener if one and one.fastener else axle.fastener if axle and one and one.role == "fitted" else None
    )
    yield say("Tyre"), (tyre.designation or "") if tyre else ""
    yield say("Rim"), (wheel.rim or "") if wheel else ""
    yield say("Inset"), said(wheel.inset_mm) if wheel else ""
    yield say("Bore"), said(wheel.bore_mm) if wheel else ""
    yield say("Chamfer of the bore"), said(wheel.bore_chamfer_mm) if wheel else ""
    yield say("Section width, inflated"), said(tyre.section_width_mm) if tyre else ""
    yield say("Thread"), (fastener.thread or "") if fastener else ""
    yield say("Seat"), seat_word(fastener.seat) if fastener and fastener.seat else ""
    yield say("Length of the bolt"), said(fastener.length_mm) if fastener else ""
    yield say("Engaged now"), _engaged(fastener) if fastener else ""


def _engaged(fastener: Fastener) -> str:
    turns = fastener.engagement_turns
    if fastener.engagement_mm is not None:
        return said(fastener.engagement_mm)
    return "" if turns is None else say("{turns} turns", turns=number(turns.value, 1))


def gap_lines(job: Job, name: AxleName, axle: Axle | None) -> tuple[tuple[str, str, str, str], ...]:
    """Every gap that was read, left beside right in the same state; else the states in which one is wanted."""
    if axle is None or not any(axle.corner(side).point for side in SIDES):
        return _empty_gaps(steered=job.is_steered(name))
    rows: dict[tuple[str, float, float, float], dict[str, str]] = {}
    for side in SIDES:
        for point in axle.corner(side).point:
            for reading in point.reading:
                key = (place_word(point.name), reading.steer_deg, reading.travel_mm, reading.disc_mm)
                found = rows.setdefault(key, {})
                text = said(point.gap(reading))
                found[side] = f"{found[side]}\n{text}" if side in found else text
    return tuple(
        (name_, _state(travel, steer, disc), found.get("left", ""), found.get("right", ""))
        for (name_, steer, travel, disc), found in rows.items()
    )


def _state(travel_mm: float, steer_deg: float, disc_mm: float) -> str:
    if abs(travel_mm) < 0.5:
        words = [say("parked")]
    elif travel_mm > 0:
        words = [say("bump {travel}", travel=length(travel_mm, 0))]
    else:
        words = [say("droop {travel}", travel=length(-travel_mm, 0))]
    if abs(steer_deg) >= 0.5:
        angle = number(abs(steer_deg), 0)
        words.append(
            say("steered {angle}° left", angle=angle) if steer_deg > 0 else say("steered {angle}° right", angle=angle)
        )
    if disc_mm:
        words.append(say("with {disc} disc", disc=length(disc_mm, 0)))
    return ", ".join(words)


def _empty_gaps(*, steered: bool) -> tuple[tuple[str, str, str, str], ...]:
    lip, inside = say("Arch lip, inner edge"), say("Inside: strut, arm or hose")
    rows = [
        (lip, say("parked")),
        (lip, say("bump, spring out: 20 mm above parked")),
        (lip, say("bump, spring out: 40 mm above parked")),
        (lip, say("full bump, spring out")),
        (lip, say("droop, wheel hanging")),
        (inside, say("parked")),
        (inside, say("full bump, spring out")),
    ]
    if steered:
        rows += [
            (say("Liner, behind the wheel"), say("full lock")),
            (say("Bumper corner, before the wheel"), say("full lock")),
            (lip, say("full lock, full bump")),
        ]
    return tuple((point, state, "", "") for point, state in (*rows, ("", ""), ("", "")))
