"""Every reading of one axle's sheet, in the order one walks round the car."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from typing import Any

from hubwright.language import say
from hubwright.language.place_words import place_word
from hubwright.language.words import corner_title, side_word
from hubwright.parts.job import AxleName
from hubwright.quantities.axes import SIDES, Side
from hubwright.quantities.text import System
from hubwright.web.fields.form import choice_word
from hubwright.web.fields.shown import number_words, words_of
from hubwright.web.fields.spec import Spec, spec_at
from hubwright.web.fields.tree import Tree, parts_of_reading
from hubwright.web.fields.typed import limit_words, unit_word
from hubwright.web.sheet import names
from hubwright.web.sheet.catalogue import HALF_WIDTHS, OF_AXLE, OF_CORNER, OF_FITTED, OF_HUB, Entry
from hubwright.web.sheet.places import Place, State, places_of, state_of, state_words, states_for


@dataclass(frozen=True)
class Extra:
    """A second figure that belongs to a reading: where the wheel stood, at which radius.

    Attributes:
        name: In the form.
        text: What stands in its box.
        fixed: Whether it is settled already and only shown.
    """

    name: str
    label: str
    unit: str
    text: str = ""
    fixed: bool = False
    needed: bool = True


@dataclass(frozen=True)
class Slot:
    """One reading: taken, or still to take.

    Attributes:
        id: Its name (`hubwright.web.sheet.names`).
        group: Heading it stands under.
        label: What is read.
        where: Side and state, in words; empty for one of the axle.
        hint: Where and how.
        kind: number, choice, text or yesno.
        unit: Beside the number.
        spec: Its field.
        view, what: Of the sketch (`hubwright.drawings.reading_sketch`).
        values: Repeats as they are shown; empty = not taken.
        method, doubt: As stated, shown.
        choices: Codes with their words.
        extras: Further figures.
        disc_mm: Thickness of the disc fitted while reading; 0 = bare.
        place: Of a gap: what a new place must say.
        other: The same reading on the other side.
        apart: Left and right further apart than this, in the person's units, are questioned; empty = never.
        limits: What is allowed, in words.
        worth_mm: Doubt it would remove; 0 where nothing is waiting for it.
        needed: Whether there is no answer without it.
        another: A blank one for one more of a kind of which there is one already: nothing waits for it.
        figures: For the sketch: figures that differ from the job's.
    """

    id: str
    group: str
    label: str
    where: str
    hint: str
    kind: str
    unit: str
    spec: Spec
    view: str
    what: str
    values: tuple[str, ...] = ()
    method: str = ""
    doubt: str = ""
    choices: tuple[tuple[str, str], ...] = ()
    extras: tuple[Extra, ...] = ()
    disc_mm: float = 0.0
    place: Place | None = None
    side: Side | None = None
    other: str = ""
    apart: str = ""
    limits: str = ""
    worth_mm: float = 0.0
    needed: bool = False
    another: bool = False
    figures: tuple[tuple[str, float], ...] = field(default=())

    @property
    def taken(self) -> bool:
        """Whether it is there already."""
        return bool(self.values)

    @property
    def title(self) -> str:
        """What is read, with side and state."""
        return f"{self.label}, {self.where}" if self.where else self.label


@dataclass(frozen=True)
class Awaited:
    """A gap that is waited for at a height and lock of its own."""

    side: Side
    place: str
    state: State


@dataclass(frozen=True)
class Ask:
    """Whose sheet, and how the car stands while it is read.

    Attributes:
        tree: The job's plain values.
        axle: The axle.
        steered: Whether it steers.
        system: Units.
        disc_mm: Thickness of the disc fitted while reading; 0 = bare.
        turned: Whether the car was turned round on the same floor for this round of readings.
        waited: With a disc fitted: gaps release still waits for, in the state they are waited for in.
    """

    tree: Tree
    axle: AxleName
    steered: bool
    system: System
    disc_mm: float = 0.0
    turned: bool = False
    waited: tuple[Awaited, ...] = ()

    def number(self, path: str) -> float | None:
        """The mean of a reading, or a plain figure."""
        value = self.tree.at(f"{self.axle}.{path}")
        repeats = [item for item in parts_of_reading(value)[0] if isinstance(item, int | float)]
        return sum(repeats) / len(repeats) if repeats else None


def slots_of(ask: Ask) -> tuple[Slot, ...]:
    """The whole sheet of one axle; with a disc fitted, or the car turned, only the gaps: the rest is read once, bare."""
    if ask.disc_mm or ask.turned:
        return tuple(slot for side in SIDES for slot in gap_slots(ask, side))
    found = [slot for entry in OF_CORNER if entry.first for side in SIDES for slot in _corner(ask, entry, side)]
    found += _fitted(ask)
    found += [slot for entry in OF_AXLE for slot in _axle(ask, entry)]
    found += [slot for side in SIDES for slot in _own_hub(ask, side)]
    found += [slot for entry in OF_CORNER if not entry.first for side in SIDES for slot in _corner(ask, entry, side)]
    for side in SIDES:
        found += gap_slots(ask, side)
    for side in SIDES:
        found += _motion(ask, side)
    return tuple(found)


def fitted_index(tree: Tree, axle: AxleName) -> int | None:
    """Number of the fitted wheel set in its list, from 1; None when the job names none."""
    sets = tree.at(f"{axle}.wheel_set") or []
    return next((n for n, one in enumerate(sets, 1) if isinstance(one, dict) and one.get("role") == "fitted"), None)


def _fitted(ask: Ask) -> Iterator[Slot]:
    number = fitted_index(ask.tree, ask.axle)
    base = f"{ask.axle}.wheel_set[{number or '+'}]"
    for entry in OF_FITTED:
        yield _single(ask, entry, f"{base}.{entry.key}", names.fitted_field(entry.key), None)
    yield from _half_widths(ask, base)


def _half_widths(ask: Ask, base: str) -> Iterator[Slot]:
    spec = spec_at(f"{base}.tyre.half_width[+].half_width_mm")
    radius = spec_at(f"{base}.tyre.half_width[+].radius_mm")
    had = (ask.tree.at(f"{base}.tyre.half_width") or []) if "[+]" not in base else []
    for item in had:
        at = words_of(radius, item.get("radius_mm"), ask.system)
        extra = Extra("radius", radius.label, unit_word(radius, ask.system), at, fixed=True)
        key = f"at {item.get('radius_mm'):g}"
        yield _half(ask, spec, key, say("at the radius {radius}", radius=f"{at} {extra.unit}"), extra, item)
    for key, words in HALF_WIDTHS[min(len(had), len(HALF_WIDTHS) - 1) :]:
        extra = Extra("radius", radius.label, unit_word(radius, ask.system))
        yield replace(_half(ask, spec, key, say(words), extra, None), another=len(had) >= len(HALF_WIDTHS))


def _half(ask: Ask, spec: Spec, key: str, where: str, extra: Extra, item: dict[str, float] | None) -> Slot:
    hint = say("Straight edge against the sidewall, square to the axis, to the rim centre plane; radius from the axis.")
    values = () if item is None else (words_of(spec, item.get("half_width_mm"), ask.system),)
    figures = () if item is None else (("at_mm", float(item["radius_mm"])),)
    return Slot(
        names.Name("half", None, "", key).id, say("Wheel and tyre"), spec.label, where, hint, "number",
        unit_word(spec, ask.system), spec, "tyre", "half_width_mm", values, extras=(extra,),
        limits=limit_words(spec, ask.system), figures=figures,
    )  # fmt: skip


def _axle(ask: Ask, entry: Entry) -> Iterator[Slot]:
    if entry.steered and not ask.steered:
        return
    yield _single(ask, entry, f"{ask.axle}.{entry.key}", names.axle_field(entry.key), None)


def _corner(ask: Ask, entry: Entry, side: Side) -> Iterator[Slot]:
    slot = _single(ask, entry, f"{ask.axle}.{side}.{entry.key}", names.corner_field(side, entry.key), side)
    yield replace(slot, another=entry.steered and not ask.steered)


def _own_hub(ask: Ask, side: Side) -> Iterator[Slot]:
    """What one side's own hub may state: nothing waits for it, for the axle's hub holds where it says nothing."""
    group = say("Hub, where the sides differ: {side}", side=side_word(side))
    for entry in OF_HUB:
        slot = _single(ask, entry, f"{ask.axle}.{side}.{entry.key}", names.corner_field(side, entry.key), side)
        yield replace(slot, group=group, another=True)


def _single(ask: Ask, entry: Entry, path: str, name: str, side: Side | None) -> Slot:
    spec = spec_at(path)
    value = ask.tree.at(path)
    values, method, doubt = shown_reading(spec, value, ask.system)
    kind = "number" if spec.kind in ("reading", "number", "whole") else spec.kind
    choices = tuple((code, choice_word(spec.key, code)) for code in spec.choices)
    if spec.kind == "yesno":
        choices = (("yes", say("yes")), ("no", say("no")))
    other = names.corner_field("right" if side == "left" else "left", entry.key) if side else ""
    return Slot(
        name, say(entry.group), spec.label, side_word(side) if side else "", say(entry.how) if entry.how else spec.hint,
        "choice" if choices else "text" if kind == "text" else "number", unit_word(spec, ask.system), spec,
        entry.view, entry.what or entry.key.rpartition(".")[2], values, method, doubt, choices, side=side, other=other,
        apart=number_words(spec, entry.apart, ask.system) if entry.apart and side else "",
        limits=limit_words(spec, ask.system) if kind == "number" else "",
    )  # fmt: skip


def shown_reading(spec: Spec, value: object, system: System) -> tuple[tuple[str, ...], str, str]:
    """Repeats, method and doubt of a stored value as they are shown."""
    if value is None:
        return (), "", ""
    if spec.kind != "reading":
        return (words_of(spec, value, system),), "", ""
    repeats, method, u, _ = parts_of_reading(value)
    shown = tuple(number_words(spec, item, system) for item in repeats if isinstance(item, int | float))
    return shown, method or "", "" if u is None else number_words(spec, u, system)


def gap_slots(ask: Ask, side: Side) -> Iterator[Slot]:
    """Gaps of one corner, place by place; each place with its own figures before its gaps."""
    points = ask.tree.at(f"{ask.axle}.{side}.point")
    bump, lock = ask.number("bump_travel_mm"), ask.number("steer_max_deg")
    for place in places_of(points, ask.steered):
        states = states_for(place, ask.steered, bump, lock)
        point = next((one for one in points or () if isinstance(one, dict) and one.get("name") == place.name), {})
        had: dict[str, tuple[State, dict[str, object]]] = {}
        for reading in point.get("reading") or ():
            travel, steer = float(reading.get("travel_mm", 0)), float(reading.get("steer_deg", 0))
            if float(reading.get("disc_mm", 0)) == ask.disc_mm and bool(reading.get("car_turned")) == ask.turned:
                state = state_of(travel, steer, bump, states)
                key = state.key if state.key not in had else f"at {travel:g} {steer:g}"
                had[key] = (State(key, travel, steer), reading)
        own = [entry[0] for key, entry in had.items() if key.startswith("at ")]
        own += [one for one in _as_read_before(ask, point, had, bump, states) if one not in own]
        keys = {one.key for one in (*own, *states)}
        own += [it.state for it in ask.waited if (it.side, it.place) == (side, place.name) and it.state.key not in keys]
        for state in sorted((*states, *own), key=lambda one: abs(one.steer_deg or 0) > 1 or one.turn != 0):
            stood, reading = had.get(state.key, (state, None))
            slot = _gap(ask, side, place, stood, reading, point)
            yield replace(
                slot, another=state.key == "between" and any(not one.turn and not one.steer_deg for one in own)
            )
        if ask.turned and place.room == "outside":
            yield _plumb_line(ask, side, place, point)
        elif place.lip and not ask.disc_mm:
            yield from _place_figures(ask, side, place, point)


def _as_read_before(
    ask: Ask, point: dict[str, Any], had: dict[str, Any], bump: float | None, states: tuple[State, ...]
) -> list[State]:
    """With a disc fitted, or the car turned: heights of their own at which the gap was read before, to be compared with."""
    found: list[State] = []
    for reading in (point.get("reading") or ()) if ask.disc_mm or ask.turned else ():
        state = state_of(float(reading.get("travel_mm", 0)), float(reading.get("steer_deg", 0)), bump, states)
        first = not reading.get("car_turned") if ask.turned else not reading.get("disc_mm")
        if first and state.key.startswith("at ") and state.key not in had and state not in found:
            found.append(state)
    return found


def _gap(
    ask: Ask, side: Side, place: Place, state: State, reading: dict[str, object] | None, point: dict[str, object]
) -> Slot:
    base = f"{ask.axle}.{side}.point[+].reading[+]"
    spec, travel_spec, steer_spec = (spec_at(f"{base}.{key}") for key in ("gap_mm", "travel_mm", "steer_deg"))
    values, method, doubt = shown_reading(spec, None if reading is None else reading.get("gap_mm"), ask.system)
    unit, taken = unit_word(travel_spec, ask.system), reading is not None
    travel = "" if state.travel_mm is None else number_words(travel_spec, abs(state.travel_mm), ask.system)
    steer = "" if state.steer_deg is None else number_words(steer_spec, abs(state.steer_deg), ask.system)
    extras: list[Extra] = []
    down = state.key == "droop" or (state.travel_mm or 0) < 0
    if state.travel_mm is None or abs(state.travel_mm) >= 1:
        label = say("Wheel lowered by") if down else say("Wheel raised by")
        extras.append(Extra("travel", label, unit, travel, fixed=taken))
    if state.turn or abs(state.steer_deg or 0) >= 1:
        turned_left = state.turn > 0 or (state.steer_deg or 0) > 0
        label = say("Wheel turned left by") if turned_left else say("Wheel turned right by")
        extras.append(Extra("steer", label, "°", steer, fixed=taken))
    words = state_words(state, f"{travel} {unit}", f"{steer}°")
    view, what, figures = _gap_sketch(ask, side, place, state)
    where = say("{side}, {place}, {state}", side=side_word(side), place=place_word(place.name), state=words)
    return Slot(
        names.gap(side, place.name, state.key), say("Gaps, {corner}", corner=corner_title(ask.axle, side)), spec.label,
        where, gap_hint(place), "number", unit_word(spec, ask.system), spec, view, what, values,
        method or str(point.get("method") or ""), doubt, extras=tuple(extras), disc_mm=ask.disc_mm, place=place,
        side=side, other=names.gap("right" if side == "left" else "left", place.name, state.key),
        apart=number_words(spec, 8.0, ask.system), limits=limit_words(spec, ask.system), figures=figures,
    )  # fmt: skip


def gap_hint(place: Place) -> str:
    """Where and how a gap is read."""
    if place.lip:
        return say("Blocks or feeler between the tyre and the nearest edge of the arch, level, where it is narrowest.")
    if place.room == "inside":
        return say("Between the wheel or tyre and the part, where it is narrowest; turn the wheel once round.")
    return say("Between the tyre and the part, where it is narrowest.")


def _gap_sketch(ask: Ask, side: Side, place: Place, state: State) -> tuple[str, str, tuple[tuple[str, float], ...]]:
    sign = 1 if side == "right" else -1
    steered = state.turn != 0 or abs(state.steer_deg or 0) >= 1
    turn = state.steer_deg if state.steer_deg is not None else state.turn * 36.0
    if place.direction in ("forward", "rearward") or steered:
        # on a right wheel a right turn swings the front outboard; the left one is the mirror of it
        return "above", place.direction if place.direction != "up" else "outboard", (("turn_deg", -sign * turn),)
    lift = (
        state.travel_mm
        if state.travel_mm is not None
        else {"between": 40.0, "bump": 70.0, "droop": -60.0}.get(state.key, 0.0)
    )
    what = "inside" if place.room == "inside" else "above" if place.direction == "up" else "gap"
    return "behind", what, (("lift_mm", lift),)


def _place_figures(ask: Ask, side: Side, place: Place, point: dict[str, object]) -> Iterator[Slot]:
    base = f"{ask.axle}.{side}.point[+]"
    group = say("Gaps, {corner}", corner=corner_title(ask.axle, side))
    where = say("{side}, {place}", side=side_word(side), place=place_word(place.name))
    hints = {
        "height_mm": say("Rule from the wheel centre straight up to the level of that edge, parked."),
        "return_mm": say("Rule from the lip's outer edge inboard."),
    }
    for key, what in (("height_mm", "height"), ("return_mm", "return")):
        spec = spec_at(f"{base}.{key}")
        values, method, doubt = shown_reading(spec, point.get(key), ask.system)
        yield Slot(
            names.Name("place", side, place.name, key).id, group, spec.label, where, hints[key], "number",
            unit_word(spec, ask.system), spec, "behind", what, values, method, doubt, place=place, side=side,
            limits=limit_words(spec, ask.system),
        )  # fmt: skip
    spec = spec_at(f"{base}.work[+].gain_mm")
    works = point.get("work")
    first = works[0] if isinstance(works, list) and works and isinstance(works[0], dict) else {}
    yield Slot(
        names.Name("work", side, place.name, "gain").id, group, say("Rolling the lip would gain"), where,
        say("Only if the lip may be rolled: free air won at the narrowest place. Leave it out otherwise."), "number",
        unit_word(spec, ask.system), spec, "behind", "return", shown_reading(spec, first.get("gain_mm"), ask.system)[0],
        place=place, side=side, limits=limit_words(spec, ask.system),
    )  # fmt: skip


def _plumb_line(ask: Ask, side: Side, place: Place, point: dict[str, object]) -> Slot:
    spec = spec_at(f"{ask.axle}.{side}.point[+].drop_mm")
    hint = say("From where the line hangs to where the gap is read: the slope of the floor is worked out over it.")
    return Slot(
        names.Name("place", side, place.name, "drop_mm").id, say("Gaps, {corner}", corner=corner_title(ask.axle, side)),
        spec.label, say("{side}, {place}", side=side_word(side), place=place_word(place.name)), hint, "number",
        unit_word(spec, ask.system), spec, "behind", "cover", shown_reading(spec, point.get("drop_mm"), ask.system)[0],
        place=place, side=side, limits=limit_words(spec, ask.system), another=True,
    )  # fmt: skip


def _motion(ask: Ask, side: Side) -> Iterator[Slot]:
    path = f"{ask.axle}.{side}.motion"
    spec, track, travel_spec = (spec_at(f"{path}[+].{key}") for key in ("camber_deg", "half_track_mm", "travel_mm"))
    bump = ask.number("bump_travel_mm")
    had: list[tuple[str, float | None, dict[str, object]]] = []
    for item in ask.tree.at(path) or ():
        travel = float(item.get("travel_mm", 0))
        near_bump = bump is not None and abs(travel - bump) <= 3
        key = "parked" if abs(travel) < 1 else "bump" if near_bump else f"at {travel:g}"
        had.append((key, travel, item))
    taken = {key for key, _, _ in had}
    had += [(key, at, {}) for key, at in (("parked", 0.0), ("between", None), ("bump", bump)) if key not in taken]
    for key, at, item in had:
        shown = "" if at is None else number_words(travel_spec, at, ask.system)
        unit = unit_word(travel_spec, ask.system)
        moved = words_of(track, item.get("half_track_mm"), ask.system)
        extras = [] if key == "parked" else [Extra("travel", say("Wheel raised by"), unit, shown, fixed=bool(item))]
        extras.append(Extra("half_track", track.label, unit, moved, needed=False))
        values, method, doubt = shown_reading(spec, item.get("camber_deg"), ask.system)
        another = key == "between" and any(name.startswith("at ") for name in taken)
        state = state_words(State(key, at, 0.0), f"{shown} {unit}", "")
        yield Slot(
            names.Name("motion", side, "", key).id, say("Camber and track by travel"), spec.label,
            say("{side}, {state}", side=side_word(side), state=state),
            say("Spring out or on the alignment lift: camber at this height, and how far the wheel centre moved outboard."),
            "number", unit_word(spec, ask.system), spec, "behind", "camber", values, method, doubt, extras=tuple(extras),
            another=another, side=side, limits=limit_words(spec, ask.system),
        )  # fmt: skip
