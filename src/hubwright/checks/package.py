"""Whether wheel and tyre of an offered package go together, carry the car and meet the hub; and what the law limits."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.checks.outlines import Built
from hubwright.checks.policy import same_circle
from hubwright.engineering.tyrewheel.from_sizes import design_of
from hubwright.engineering.tyrewheel.replace import (
    rolling_circumference_mm,
)
from hubwright.engineering.tyrewheel.wheel_load import rating_on_tyre_kg
from hubwright.errors import BadInput
from hubwright.findings import Case, Evidence, Finding, Step, Verdict
from hubwright.language import marked, say
from hubwright.parts.hub import Hub
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.parts.rim_size import read_rim_size
from hubwright.parts.tyre_size import TyreSize, read_tyre_size
from hubwright.parts.wheel import OfferedPackage
from hubwright.quantities.axes import SIDES
from hubwright.quantities.text import length, number, plain
from hubwright.tables.tyre_indices import load_index, speed_symbol

QUESTION = "package"
RIM_WIDTH_MM = 1.0
"""Rim widths nearer than this are the same."""
BORE_TIGHT_MM = 0.05
"""A bore this much below the spigot still goes on; a guess."""
BORE_LOOSE_MM = 0.3
"""A bore further off the spigot than this does not centre on it; a guess."""
R30_ANNEX_4 = marked("UN R30 annex 4 (load index), annex 3 (speed symbol)")


@dataclass(frozen=True)
class Swapped:
    """Everything the verdicts on one offered package are made from."""

    job: Job
    name: AxleName
    axle: Axle
    offered: OfferedPackage
    fitted: Built | None
    new: Built


def judge(swapped: Swapped) -> tuple[Finding, ...]:
    """Every verdict on the package itself; clearance, brake, pilot and fasteners are judged like those of a disc."""
    hubs = {side: swapped.axle.hub_at(side) for side in SIDES}
    found = [
        _rim_code(swapped.new.tyre_size.rim_code, swapped.new.rim_size.diameter_code),
        _rim_width(swapped),
        _load(swapped),
        _speed(swapped),
        _wheel_rating(swapped),
    ]
    apart = hubs["left"] != hubs["right"]
    for side in SIDES if apart else SIDES[:1]:
        where = side if apart else "both"
        found += [_circle(hubs[side], swapped.offered, where), _bore(hubs[side], swapped.offered, where)]
    return tuple(found)


def _finding(
    verdict: Verdict,
    item: str,
    sentence: str,
    source: str,
    todo: str = "",
    margin_mm: float | None = None,
    side: str = "both",
) -> Finding:
    grade = Evidence.NONE if verdict is Verdict.UNKNOWN else Evidence.MEASURED
    return Finding(QUESTION, verdict, sentence, margin_mm, Case(side, item), grade, (Step(sentence, source),), todo)


def clash(offered: OfferedPackage) -> tuple[Finding, ...]:
    """Of a package that cannot be drawn up: whether that is because tyre and rim have different diameters."""
    try:
        tyre = read_tyre_size(offered.tyre.designation or "").rim_code
        rim = read_rim_size(offered.wheel.rim or "").diameter_code
    except BadInput:
        return ()
    return () if tyre == rim else (_rim_code(tyre, rim),)


def _rim_code(tyre: float, rim: float) -> Finding:
    if tyre == rim:
        return _finding(
            Verdict.PASS,
            say("rim diameter"),
            say("Tyre and rim both have the diameter code {rim}.", rim=plain(rim)),
            say("designations"),
        )
    sentence = say(
        "A tyre for rims of code {tyre} does not go on a rim of code {rim}.", tyre=plain(tyre), rim=plain(rim)
    )
    return _finding(
        Verdict.FAIL, say("rim diameter"), sentence, say("designations"), say("Take another tyre or wheel.")
    )


def _rim_width(swapped: Swapped) -> Finding:
    width, allowed = swapped.new.rim_size.width_mm, swapped.offered.tyre.approved_rim_widths_mm
    inches = f"{plain(swapped.new.rim_size.width_code)} in"
    size = swapped.new.tyre_size.text
    if not allowed:
        measuring = design_of(swapped.new.tyre_size).measuring_rim_width_mm / 25.4
        sentence = say(
            "Whether {size} is approved on {inches} was not looked up; it is measured on {measuring} in.",
            size=size,
            inches=inches,
            measuring=plain(measuring),
        )
        todo = say("Look it up in the tyre maker's table and enter approved_rim_widths_in.")
        return _finding(Verdict.CAUTION, say("rim width"), sentence, say("ISO 4000-1 (measuring rim)"), todo)
    if any(abs(width - each) <= RIM_WIDTH_MM for each in allowed):
        return _finding(
            Verdict.PASS,
            say("rim width"),
            say("{size} is approved on {inches}.", size=size, inches=inches),
            say("tyre maker's table, as entered"),
        )
    sentence = say("{size} is not approved on {inches}.", size=size, inches=inches)
    return _finding(
        Verdict.FAIL,
        say("rim width"),
        sentence,
        say("tyre maker's table, as entered"),
        say("Take another tyre or wheel."),
    )


def capacity_kg(size: TyreSize) -> float | None:
    """Load of one tyre by its index; None where the size has none or the table does not know it."""
    try:
        return None if size.load_index is None else load_index(size.load_index).single_kg
    except BadInput:
        return None


def capacity_kmh(size: TyreSize) -> float | None:
    """Greatest speed by the symbol; None where the size has none or the table does not know it."""
    try:
        return None if size.speed_symbol is None else speed_symbol(size.speed_symbol).speed_kmh
    except BadInput:
        return None


def series_size(axle: Axle) -> TyreSize | None:
    """The tyre of the placard; None where it is not stated or cannot be read."""
    try:
        return read_tyre_size(axle.series_tyre) if axle.series_tyre else None
    except BadInput:
        return None


def _load(swapped: Swapped) -> Finding:
    capacity, size = capacity_kg(swapped.new.tyre_size), swapped.new.tyre_size
    if capacity is None:
        sentence = say("The load index of {size_text} is not stated.", size_text=size.text)
        return _finding(
            Verdict.UNKNOWN, say("load index"), sentence, say(R30_ANNEX_4), say("Copy it from the sidewall.")
        )
    needs = []
    if swapped.axle.axle_load_kg is not None:
        needs.append((swapped.axle.axle_load_kg / 2, say("half the axle load")))
    series = series_size(swapped.axle)
    placard = capacity_kg(series) if series is not None else None
    if placard is not None and series is not None:
        needs.append((placard, say("the placard's {load_index}", load_index=series.load_index)))
    if not needs:
        sentence = say(
            "Load index {load_index} carries {capacity} kg; neither axle load nor placard tyre is stated.",
            load_index=size.load_index,
            capacity=number(capacity, 0),
        )
        return _finding(
            Verdict.UNKNOWN, say("load index"), sentence, say(R30_ANNEX_4), say("Enter axle_load_kg or series_tyre.")
        )
    words = say(
        "Load index {load_index} carries {capacity} kg", load_index=size.load_index, capacity=number(capacity, 0)
    )
    short = [(need, what) for need, what in needs if capacity < need]
    if not short:
        need, what = max(needs)
        return _finding(
            Verdict.PASS,
            say("load index"),
            say("{words}; {what}: {need} kg.", words=words, what=what, need=number(need, 0)),
            say(R30_ANNEX_4),
        )
    need, what = max(short)
    sentence = say("{words}, less than {what}: {need} kg.", words=words, what=what, need=number(need, 0))
    if swapped.axle.axle_load_kg is not None and capacity >= swapped.axle.axle_load_kg / 2:
        todo = say("It carries the axle load; whether the lower index is lawful, ask the inspector.")
        return _finding(Verdict.CAUTION, say("load index"), sentence, say(R30_ANNEX_4), todo)
    return _finding(
        Verdict.FAIL, say("load index"), sentence, say(R30_ANNEX_4), say("Take a tyre with a higher load index.")
    )


def _speed(swapped: Swapped) -> Finding:
    size, speed = swapped.new.tyre_size, capacity_kmh(swapped.new.tyre_size)
    series = series_size(swapped.axle)
    need, what = swapped.job.car.top_speed_kmh, say("the car's top speed")
    if need is None and series is not None:
        need, what = capacity_kmh(series), say("the placard's {speed_symbol}", speed_symbol=series.speed_symbol)
    if speed is None or need is None:
        missing = (
            say("The speed symbol is not stated.")
            if speed is None
            else say("Neither top speed nor placard tyre is stated.")
        )
        todo = say("Copy it from the sidewall.") if speed is None else say("Enter top_speed_kmh or series_tyre.")
        return _finding(Verdict.UNKNOWN, say("speed symbol"), missing, say(R30_ANNEX_4), todo)
    words = say(
        "Speed symbol {speed_symbol} allows {speed} km/h; {what}: {need} km/h.",
        speed_symbol=size.speed_symbol,
        speed=number(speed, 0),
        what=what,
        need=number(need, 0),
    )
    verdict = Verdict.PASS if speed >= need else Verdict.FAIL
    todo = "" if verdict is Verdict.PASS else say("Take a tyre with a higher symbol.")
    return _finding(verdict, say("speed symbol"), words, say(R30_ANNEX_4), todo)


def _wheel_rating(swapped: Swapped) -> Finding:
    wheel, load = swapped.offered.wheel, swapped.axle.axle_load_kg
    source = say("bending moment of a wheel M = S F (mu r + e), mu 0.9 (UN R124 annex 6, from memory)")
    if wheel.load_rating_kg is None or load is None:
        missing = (
            say("The wheel's load rating is not stated.")
            if wheel.load_rating_kg is None
            else say("The axle load is not stated.")
        )
        todo = (
            say("Read it on the back of the spokes or on its papers.")
            if wheel.load_rating_kg is None
            else say("Enter axle_load_kg.")
        )
        return _finding(Verdict.UNKNOWN, say("wheel rating"), missing, source, todo)
    circumference = rolling_circumference_mm(2.0 * swapped.new.tyre.radius_mm)
    allowed = wheel.load_rating_kg
    words = say("The wheel is rated {rating} kg", rating=number(wheel.load_rating_kg, 0))
    stated = wheel.rating_circumference_mm
    if stated is not None and circumference > stated:
        allowed = rating_on_tyre_kg(wheel.load_rating_kg, stated, circumference, swapped.new.wheel.inset_mm)
        words = say(
            "The wheel is rated {rating} kg up to a circumference of {stated}; with {circumference} that is {allowed} kg",
            rating=number(wheel.load_rating_kg, 0),
            stated=length(stated, 0),
            circumference=length(circumference, 0),
            allowed=number(allowed, 0),
        )
    enough = allowed >= load / 2
    sentence = say("{words}; half the axle load: {load} kg.", words=words, load=number(load / 2, 0))
    if enough and stated is not None and circumference > stated:
        return _finding(
            Verdict.CAUTION, say("wheel rating"), sentence, source, say("Ask the wheel maker for this tyre size.")
        )
    todo = "" if enough else say("Take a wheel with a higher rating.")
    return _finding(Verdict.PASS if enough else Verdict.FAIL, say("wheel rating"), sentence, source, todo)


def _circle(hub: Hub, offered: OfferedPackage, side: str) -> Finding:
    own, wanted = offered.wheel.bolt_circle, hub.bolt_circle
    if own is None or wanted is None:
        unstated = (
            say("The hole circle of the wheel is not stated.")
            if own is None
            else say("The hole circle of the hub is not stated.")
        )
        return _finding(
            Verdict.UNKNOWN,
            say("hole circle"),
            unstated,
            "",
            say("Measure it."),
            side=side,
        )
    if same_circle(own, wanted):
        return _finding(
            Verdict.PASS,
            say("hole circle"),
            say("Hub and wheel have {wanted}.", wanted=wanted),
            say("readings"),
            side=side,
        )
    sentence = say("A {own} wheel does not go on a {wanted} hub without an adapter.", own=own, wanted=wanted)
    return _finding(Verdict.FAIL, say("hole circle"), sentence, say("readings"), say("Take another wheel."), side=side)


def _bore(hub: Hub, offered: OfferedPackage, side: str) -> Finding:
    bore, spigot = offered.wheel.bore_mm, hub.spigot_diameter_mm
    if bore is None or spigot is None:
        unstated = (
            say("The diameter of the wheel's bore is not known.")
            if bore is None
            else say("The diameter of the hub's spigot is not known.")
        )
        return _finding(
            Verdict.UNKNOWN,
            say("bore"),
            unstated,
            "",
            say("Measure it."),
            side=side,
        )
    air = bore.value - spigot.value
    words = say("bore {bore} on a spigot of {spigot}", bore=length(bore.value), spigot=length(spigot.value))
    if air < -BORE_TIGHT_MM:
        return _finding(
            Verdict.FAIL,
            say("bore"),
            say("The wheel does not go on: {words}.", words=words),
            say("readings"),
            say("Take another wheel."),
            air,
            side,
        )
    if air > BORE_LOOSE_MM:
        todo = say(
            "Centring ring {bore} to {spigot} mm, or a disc with that lip.",
            bore=number(bore.value, 1),
            spigot=number(spigot.value, 1),
        )
        return _finding(
            Verdict.CAUTION,
            say("bore"),
            say("The wheel is not centred by itself: {words}.", words=words),
            say("readings"),
            todo,
            air,
            side,
        )
    return _finding(
        Verdict.PASS, say("bore"), say("The wheel is centred: {words}.", words=words), say("readings"), "", air, side
    )
