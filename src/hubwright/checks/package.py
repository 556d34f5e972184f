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
from hubwright.parts.hub import Hub
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.parts.rim_size import read_rim_size
from hubwright.parts.tyre_size import TyreSize, read_tyre_size
from hubwright.parts.wheel import OfferedPackage
from hubwright.quantities.axes import SIDES
from hubwright.quantities.text import length, number
from hubwright.tables.tyre_indices import load_index, speed_symbol

QUESTION = "package"
RIM_WIDTH_MM = 1.0
"""Rim widths nearer than this are the same."""
BORE_TIGHT_MM = 0.05
"""A bore this much below the spigot still goes on; a guess."""
BORE_LOOSE_MM = 0.3
"""A bore further off the spigot than this does not centre on it; a guess."""
R30_ANNEX_4 = "UN R30 annex 4 (load index), annex 3 (speed symbol)"


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
            Verdict.PASS, "rim diameter", f"Tyre and rim both have the diameter code {rim:g}.", "designations"
        )
    sentence = f"A tyre for rims of code {tyre:g} does not go on a rim of code {rim:g}."
    return _finding(Verdict.FAIL, "rim diameter", sentence, "designations", "Take another tyre or wheel.")


def _rim_width(swapped: Swapped) -> Finding:
    width, allowed = swapped.new.rim_size.width_mm, swapped.offered.tyre.approved_rim_widths_mm
    inches = f"{swapped.new.rim_size.width_code:g} in"
    size = swapped.new.tyre_size.text
    if not allowed:
        measuring = design_of(swapped.new.tyre_size).measuring_rim_width_mm / 25.4
        sentence = f"Whether {size} is approved on {inches} was not looked up; it is measured on {measuring:g} in."
        todo = "Look it up in the tyre maker's table and enter approved_rim_widths_in."
        return _finding(Verdict.CAUTION, "rim width", sentence, "ISO 4000-1 (measuring rim)", todo)
    if any(abs(width - each) <= RIM_WIDTH_MM for each in allowed):
        return _finding(Verdict.PASS, "rim width", f"{size} is approved on {inches}.", "tyre maker's table, as entered")
    sentence = f"{size} is not approved on {inches}."
    return _finding(
        Verdict.FAIL, "rim width", sentence, "tyre maker's table, as entered", "Take another tyre or wheel."
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
        sentence = f"The load index of {size.text} is not stated."
        return _finding(Verdict.UNKNOWN, "load index", sentence, R30_ANNEX_4, "Copy it from the sidewall.")
    needs = []
    if swapped.axle.axle_load_kg is not None:
        needs.append((swapped.axle.axle_load_kg / 2, "half the axle load"))
    series = series_size(swapped.axle)
    placard = capacity_kg(series) if series is not None else None
    if placard is not None and series is not None:
        needs.append((placard, f"the placard's {series.load_index}"))
    if not needs:
        sentence = f"Load index {size.load_index} carries {number(capacity, 0)} kg; neither axle load nor placard tyre is stated."
        return _finding(Verdict.UNKNOWN, "load index", sentence, R30_ANNEX_4, "Enter axle_load_kg or series_tyre.")
    words = f"Load index {size.load_index} carries {number(capacity, 0)} kg"
    short = [(need, what) for need, what in needs if capacity < need]
    if not short:
        need, what = max(needs)
        return _finding(Verdict.PASS, "load index", f"{words}; {what}: {number(need, 0)} kg.", R30_ANNEX_4)
    need, what = max(short)
    sentence = f"{words}, less than {what}: {number(need, 0)} kg."
    if swapped.axle.axle_load_kg is not None and capacity >= swapped.axle.axle_load_kg / 2:
        todo = "It carries the axle load; whether the lower index is lawful, ask the inspector."
        return _finding(Verdict.CAUTION, "load index", sentence, R30_ANNEX_4, todo)
    return _finding(Verdict.FAIL, "load index", sentence, R30_ANNEX_4, "Take a tyre with a higher load index.")


def _speed(swapped: Swapped) -> Finding:
    size, speed = swapped.new.tyre_size, capacity_kmh(swapped.new.tyre_size)
    series = series_size(swapped.axle)
    need, what = swapped.job.car.top_speed_kmh, "the car's top speed"
    if need is None and series is not None:
        need, what = capacity_kmh(series), f"the placard's {series.speed_symbol}"
    if speed is None or need is None:
        missing = (
            "The speed symbol is not stated." if speed is None else "Neither top speed nor placard tyre is stated."
        )
        todo = "Copy it from the sidewall." if speed is None else "Enter top_speed_kmh or series_tyre."
        return _finding(Verdict.UNKNOWN, "speed symbol", missing, R30_ANNEX_4, todo)
    words = f"Speed symbol {size.speed_symbol} allows {number(speed, 0)} km/h; {what}: {number(need, 0)} km/h."
    verdict = Verdict.PASS if speed >= need else Verdict.FAIL
    todo = "" if verdict is Verdict.PASS else "Take a tyre with a higher symbol."
    return _finding(verdict, "speed symbol", words, R30_ANNEX_4, todo)


def _wheel_rating(swapped: Swapped) -> Finding:
    wheel, load = swapped.offered.wheel, swapped.axle.axle_load_kg
    source = "bending moment of a wheel M = S F (mu r + e), mu 0.9 (UN R124 annex 6, from memory)"
    if wheel.load_rating_kg is None or load is None:
        missing = "The wheel's load rating" if wheel.load_rating_kg is None else "The axle load"
        todo = (
            "Read it on the back of the spokes or on its papers."
            if wheel.load_rating_kg is None
            else "Enter axle_load_kg."
        )
        return _finding(Verdict.UNKNOWN, "wheel rating", f"{missing} is not stated.", source, todo)
    circumference = rolling_circumference_mm(2.0 * swapped.new.tyre.radius_mm)
    allowed, words = wheel.load_rating_kg, f"The wheel is rated {number(wheel.load_rating_kg, 0)} kg"
    stated = wheel.rating_circumference_mm
    if stated is not None and circumference > stated:
        allowed = rating_on_tyre_kg(wheel.load_rating_kg, stated, circumference, swapped.new.wheel.inset_mm)
        words += f" up to a circumference of {length(stated, 0)}; with {length(circumference, 0)} that is {number(allowed, 0)} kg"
    enough = allowed >= load / 2
    sentence = f"{words}; half the axle load: {number(load / 2, 0)} kg."
    if enough and stated is not None and circumference > stated:
        return _finding(Verdict.CAUTION, "wheel rating", sentence, source, "Ask the wheel maker for this tyre size.")
    todo = "" if enough else "Take a wheel with a higher rating."
    return _finding(Verdict.PASS if enough else Verdict.FAIL, "wheel rating", sentence, source, todo)


def _circle(hub: Hub, offered: OfferedPackage, side: str) -> Finding:
    own, wanted = offered.wheel.bolt_circle, hub.bolt_circle
    if own is None or wanted is None:
        whose = "the wheel" if own is None else "the hub"
        return _finding(
            Verdict.UNKNOWN, "hole circle", f"The hole circle of {whose} is not stated.", "", "Measure it.", side=side
        )
    if same_circle(own, wanted):
        return _finding(Verdict.PASS, "hole circle", f"Hub and wheel have {wanted}.", "readings", side=side)
    sentence = f"A {own} wheel does not go on a {wanted} hub without an adapter."
    return _finding(Verdict.FAIL, "hole circle", sentence, "readings", "Take another wheel.", side=side)


def _bore(hub: Hub, offered: OfferedPackage, side: str) -> Finding:
    bore, spigot = offered.wheel.bore_mm, hub.spigot_diameter_mm
    if bore is None or spigot is None:
        whose = "wheel's bore" if bore is None else "hub's spigot"
        return _finding(
            Verdict.UNKNOWN, "bore", f"The diameter of the {whose} is not known.", "", "Measure it.", side=side
        )
    air = bore.value - spigot.value
    words = f"bore {length(bore.value)} on a spigot of {length(spigot.value)}"
    if air < -BORE_TIGHT_MM:
        return _finding(
            Verdict.FAIL, "bore", f"The wheel does not go on: {words}.", "readings", "Take another wheel.", air, side
        )
    if air > BORE_LOOSE_MM:
        todo = f"Centring ring {number(bore.value, 1)} to {number(spigot.value, 1)} mm, or a disc with that lip."
        return _finding(
            Verdict.CAUTION, "bore", f"The wheel is not centred by itself: {words}.", "readings", todo, air, side
        )
    return _finding(Verdict.PASS, "bore", f"The wheel is centred: {words}.", "readings", "", air, side)
