"""Does the clamp that the recorded torque leaves hold the wheel: no slip and no gape, at either face, today and with a disc?"""

from __future__ import annotations

import math
from dataclasses import dataclass

from hubwright.checks import assumed
from hubwright.checks.clamp import Clamp, clamp_of, kilonewtons
from hubwright.checks.forces import Forces, LoadCase, forces_on
from hubwright.checks.given import Given, given
from hubwright.engineering.joint.preload import yield_share
from hubwright.engineering.joint.slip import CapacityOverDemand, Face, gape_ratio, slip_ratio
from hubwright.engineering.joint.wheel_load import face_offsets_mm, interface_demand
from hubwright.errors import BadInput, OutsideValidity
from hubwright.findings import Case, Evidence, Finding, Step, Verdict
from hubwright.language import marked, say
from hubwright.language.part_words import load_case_word
from hubwright.language.words import side_word
from hubwright.parts.hole_circle import HoleCircle, read_hole_circle
from hubwright.parts.hub import Hub
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.parts.shop import StockDisc
from hubwright.parts.wheel import WheelSet
from hubwright.quantities.axes import Side
from hubwright.quantities.text import figure, joined, length, number, percent
from hubwright.tables.property_classes import property_class
from hubwright.uncertainty.band import Band

QUESTION = "joint"
FRICTION = marked("Coulomb friction; VDI 2230 Part 1 (F_Q and M_Y held by friction)")
KERN = marked("kern of a ring (beam theory, derived)")


@dataclass(frozen=True)
class Held:
    """Capacity, demand and their ratio in one load case over the whole range of grip; ``unit`` N or N*m."""

    unit: str
    capacity: Band
    demand: Band
    ratio: Band


@dataclass(frozen=True)
class Ratio:
    """Capacity over demand at one face in one load case, with today's stack and with the disc."""

    face: str
    kind: str
    case: str
    today: Held
    with_disc: Held

    @property
    def change(self) -> float:
        """What the disc changes of the nominal ratio, as a share; zero where nothing is asked."""
        before, after = self.today.ratio.nominal, self.with_disc.ratio.nominal
        return after / before - 1 if 0 < before < math.inf and after < math.inf else 0.0


def judge(
    job: Job, name: AxleName, axle: Axle, wheel_set: WheelSet, side: Side, disc: StockDisc
) -> tuple[Finding, ...]:
    """Clamp, slip and gape of one wheel's joint as three findings; one that says what is missing where there is no answer."""
    found, forces = given(job, axle, side, wheel_set), forces_on(job, name, axle, wheel_set)
    where = say("{side}, {set}", side=side_word(side), set=wheel_set.title)
    case = Case(side, wheel_set.title, say("joint"))
    if isinstance(found, tuple):
        return (_unknown(say("{where}: clamp force: unknown: needs {found}.", where=where, found=joined(found)), case),)
    try:
        clamp = clamp_of(found, disc.thickness_mm, disc.material)
    except OutsideValidity as error:
        return (_unknown(say("{where}: clamp force: unknown: {error}", where=where, error=error), case),)
    clamped = _clamp_finding(found, clamp, where, case)
    ring = ring_of(found.hub, found.thread.d_mm)
    inset = wheel_set.wheel.inset_mm
    needs = [*(forces if isinstance(forces, tuple) else ()), *([ring] if isinstance(ring, str) else [])]
    if inset is None:
        needs.append(say("the inset of the wheel"))
    if isinstance(forces, tuple) or isinstance(ring, str) or inset is None:
        return (
            clamped,
            _unknown(say("{where}: slip and gape: unknown: needs {needs}.", where=where, needs=joined(needs)), case),
        )
    ratios = ratios_of(found, clamp, forces, ring, inset.value, disc.thickness_mm)
    guesses = (*clamp.guesses, *forces.guesses, *ring.guesses, *_friction_guess(found))
    return (
        clamped,
        *(_finding(kind, ratios, where, case, guesses, forces, ring) for kind in ("slip", "gape")),
    )


@dataclass(frozen=True)
class Ring:
    """The ring on which hub, disc and wheel touch."""

    circle: HoleCircle
    inner_mm: float
    outer_mm: float
    guesses: tuple[str, ...]

    @property
    def step(self) -> Step:
        """As a line of working."""
        places = {"holes": self.circle.holes, "inner": figure(self.inner_mm), "outer": length(self.outer_mm)}
        if self.guesses:
            text = say(
                "{holes} fasteners; faces touch from {inner} to {outer} (guess: {guesses})",
                guesses="; ".join(self.guesses),
                **places,
            )
        else:
            text = say("{holes} fasteners; faces touch from {inner} to {outer}", **places)
        return Step(text, say("hub"))


def ring_of(hub: Hub, d_mm: float) -> Ring | str:
    """The ring as measured, its outside guessed from the hole circle where nobody did; or what is missing."""
    if hub.bolt_circle is None:
        return say("the hole circle")
    try:
        circle = read_hole_circle(hub.bolt_circle)
    except BadInput:
        return say("the hole circle")
    inner = hub.face_inner_mm or (hub.spigot_diameter_mm.value if hub.spigot_diameter_mm else None)
    if inner is None:
        return say("the diameter of the spigot")
    outer, guesses = hub.face_outer_mm, list[str]()
    if hub.face_inner_mm is None:
        guesses.append(say("the hub's face begins at the spigot"))
    if outer is None:
        outer = circle.diameter_mm + 2 * d_mm
        guesses.append(say("outside of the hub face {outer}", outer=length(outer)))
    return say("the diameters of the hub's face") if outer <= inner else Ring(circle, inner, outer, tuple(guesses))


def ratios_of(
    found: Given, clamp: Clamp, forces: Forces, ring: Ring, inset_mm: float, thickness_mm: float
) -> tuple[Ratio, ...]:
    """Slip and gape at the hub's face and the wheel's, in every load case, with today's clamp and with the disc's."""
    face = Face(ring.circle.holes, ring.inner_mm, ring.outer_mm, assumed.face_friction(found.own).band)
    before, after = clamp.standard.remaining_n, clamp.with_disc.remaining_n
    bare, thick = face_offsets_mm(inset_mm, 0.0), face_offsets_mm(inset_mm, thickness_mm)
    ratios = []
    for place, name in enumerate((say("hub face"), say("wheel face"))):
        for load in forces.cases:
            for kind in ("slip", "gape"):
                today = _held(kind, face, before, load, bare[place])
                ratios.append(Ratio(name, kind, load.name, today, _held(kind, face, after, load, thick[place])))
    return tuple(ratios)


def _held(kind: str, face: Face, clamp_n: Band, case: LoadCase, offset_mm: float) -> Held:
    """One load case at every grip, taken together: the least ratio, the middle one, the greatest."""
    found: list[CapacityOverDemand] = []
    for load in case.loads:
        demand = interface_demand(load, offset_mm)
        found.append(slip_ratio(face, clamp_n, demand, False) if kind == "slip" else gape_ratio(face, clamp_n, demand))

    def over(bands: list[Band]) -> Band:
        low, high = min(band.low for band in bands), max(band.high for band in bands)
        return Band(low, bands[len(bands) // 2].nominal, high)

    return Held(
        found[0].unit,
        over([item.capacity for item in found]),
        over([item.demand for item in found]),
        over([item.ratio for item in found]),
    )


def _friction_guess(found: Given) -> tuple[str, ...]:
    item = assumed.face_friction(found.own)
    return (item.words,) if item.guessed else ()


def _clamp_finding(found: Given, clamp: Clamp, where: str, case: Case) -> Finding:
    before, after = clamp.standard.remaining_n, clamp.with_disc.remaining_n
    grade = Evidence.PREDICTED if clamp.guesses else Evidence.MEASURED
    sentence = say(
        "{where}: the torque on record leaves {before} of clamp per fastener today, {after} with the disc (a range, not a promise).",
        where=where,
        before=kilonewtons(before),
        after=kilonewtons(after),
    )
    stretch, steps = overstretch(found, clamp), clamp.working
    if stretch is not None:
        text = say(
            "at the high end the bolt is pulled and twisted to {stretch} % of its yield strength",
            stretch=number(100 * stretch, 0),
        )
        steps = (*steps, Step(text, say("VDI 2230 Part 1, combined stress while tightening; ISO 898-1")))
    if stretch is not None and stretch > 1:
        sentence = say(
            "{sentence} At its high end the fastener is stretched beyond its yield strength.", sentence=sentence
        )
        todo = say("Is this record meant for this fastener, and in this state of lubrication?")
        return Finding(QUESTION, Verdict.CAUTION, sentence, None, case, grade, steps, todo)
    if after.low <= 0:
        todo = say("Part of the range leaves no clamp at all: find out friction and tightening method.")
        return Finding(QUESTION, Verdict.CAUTION, sentence, None, case, grade, steps, todo)
    return Finding(QUESTION, Verdict.PASS, sentence, None, case, grade, steps)


def overstretch(found: Given, clamp: Clamp) -> float | None:
    """Share of yield that the highest clamp asks of the bolt at the lowest friction; None without a known property class."""
    name = found.fastener.property_class
    if name is None:
        return None
    try:
        yield_mpa = property_class(name, found.thread.d_mm).yield_min_mpa
    except (BadInput, OutsideValidity):
        return None
    return yield_share(found.thread, yield_mpa, found.friction.band.low, clamp.preload_n.high)


def _finding(
    kind: str, ratios: tuple[Ratio, ...], where: str, case: Case, guesses: tuple[str, ...], forces: Forces, ring: Ring
) -> Finding:
    own = [ratio for ratio in ratios if ratio.kind == kind]
    worst = min(own, key=lambda ratio: (ratio.with_disc.ratio.low, ratio.with_disc.ratio.high))
    verdict = verdict_of(worst.with_disc.ratio, guessed=bool(guesses))
    words = _slip_words(verdict) if kind == "slip" else _gape_words(verdict)
    if verdict is Verdict.PASS and forces.left_out:
        verdict = Verdict.CAUTION
        words = (
            say("no face slips in the cases looked at")
            if kind == "slip"
            else say("no face opens in the cases looked at")
        )
    sentence = say(
        "{where}: {words}: {ratio} what is asked at the {face} in {case}, {ratio2} today; the disc itself changes it by {change}.",
        where=where,
        words=words,
        ratio=_times(worst.with_disc.ratio),
        face=worst.face,
        case=load_case_word(worst.case),
        ratio2=_times(worst.today.ratio),
        change=percent(worst.change, 1),
    )
    todo = ""
    if verdict is not Verdict.PASS:
        todo = say("Clean bare faces, the record's own lubrication state, re-check after the first kilometres.")
    if forces.left_out:
        todo = f"{todo} {say('Not looked at: {cases}.', cases='; '.join(forces.left_out))}".strip()
    steps = (
        ring.step,
        *forces.working,
        *(_step(ratio) for ratio in own),
        *(Step(say("guess: {it}", it=text), say(assumed.GUESS)) for text in guesses),
    )
    grade = Evidence.PREDICTED if guesses else Evidence.MEASURED
    return Finding(QUESTION, verdict, sentence, None, case, grade, steps, todo)


def verdict_of(ratio: Band, *, guessed: bool) -> Verdict:
    """Pass where the whole range reaches 1; fail where all of it stays below and nothing was guessed; else caution."""
    if ratio.low >= 1:
        return Verdict.PASS
    return Verdict.FAIL if ratio.high < 1 and not guessed else Verdict.CAUTION


def _slip_words(verdict: Verdict) -> str:
    if verdict is Verdict.PASS:
        return say("no face slips")
    return say("a face slips") if verdict is Verdict.FAIL else say("that a face slips cannot be ruled out")


def _gape_words(verdict: Verdict) -> str:
    if verdict is Verdict.PASS:
        return say("no face opens")
    return say("a face opens") if verdict is Verdict.FAIL else say("that a face opens cannot be ruled out")


def _times(ratio: Band) -> str:
    if ratio.low == float("inf"):
        return say("any number of times")
    if ratio.high == float("inf"):
        return say("{low} to many times", low=number(ratio.low, 1))
    return say("{low} to {high} times", low=number(ratio.low, 1), high=number(ratio.high, 1))


def _step(ratio: Ratio) -> Step:
    item = ratio.with_disc
    unit = "kN" if item.unit == "N" else "kN·m"
    have, asked = (_span(band) for band in (item.capacity, item.demand))
    text = say(
        "{kind}, {face}, {case}: {have} {unit} against {asked} {unit}",
        kind=say("slip") if ratio.kind == "slip" else say("gape"),
        face=ratio.face,
        case=load_case_word(ratio.case),
        have=have,
        unit=unit,
        asked=asked,
    )
    text = say("{it}: {ratio}; today {ratio2}", it=text, ratio=_times(item.ratio), ratio2=_times(ratio.today.ratio))
    return Step(text, say(FRICTION) if ratio.kind == "slip" else say(KERN))


def _span(band: Band) -> str:
    low, high = number(band.low / 1000, 1), number(band.high / 1000, 1)
    return low if low == high else say("{low} to {high}", low=low, high=high)


def _unknown(sentence: str, case: Case) -> Finding:
    return Finding(
        QUESTION,
        Verdict.UNKNOWN,
        sentence,
        None,
        case,
        Evidence.NONE,
        (),
        say("Measure it or look it up; nothing is assumed in its place."),
    )
