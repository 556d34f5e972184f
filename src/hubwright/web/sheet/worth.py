"""Which reading is worth taking next: the answer's own list, each line led to its place on the sheet."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from hubwright.checks.clearance import RELEASE_STEER_DEG, RELEASE_TRAVEL_MM
from hubwright.errors import HubwrightError
from hubwright.findings import Wanted
from hubwright.jobs.verified import Unproven, unproven
from hubwright.language import SOURCE, say, spoken
from hubwright.language.place_words import place_word
from hubwright.language.words import side_word
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.quantities.axes import SIDES
from hubwright.quantities.text import length, number, speaking
from hubwright.web.desk import Desk, Seen, sound
from hubwright.web.sheet.names import axle_field, corner_field, fitted_field, gap, name_of
from hubwright.web.sheet.places import NEAR_STEER_DEG, NEAR_TRAVEL_MM, STILL_MM, State
from hubwright.web.sheet.slots import Awaited, Slot

OUTSIDE_THE_SHEET = ("the torque record", "the other wheel sets and the spare", "outline of both packages")
"""Wanted, but no reading on the car: they belong to car and request."""


@dataclass(frozen=True)
class Line:
    """One reading worth taking.

    Attributes:
        what, how: In the language spoken.
        worth_mm: Doubt about the allowed thickness it would remove.
        needed: Whether there is no answer without it.
        slots: Where it is on the sheet, those not taken yet first; empty where it belongs to car and request.
    """

    what: str
    how: str
    worth_mm: float
    needed: bool
    slots: tuple[str, ...]


def wanted_of(desk: Desk, seen: Seen, axle: AxleName) -> tuple[tuple[Wanted, str], ...]:
    """The answer's wanted readings in the language spoken, each with what it is called in English."""
    try:
        own = _wanted(desk, seen, axle)
        if spoken() == SOURCE:
            return tuple((item, item.what) for item in own)
        with speaking("metric", SOURCE):
            english = _wanted(desk, seen, axle)
    except (HubwrightError, KeyError):
        return ()  # a job with faults, or without this axle: the sheet goes in its own order
    return tuple((item, other.what) for item, other in zip(own, english, strict=True))


def _wanted(desk: Desk, seen: Seen, axle: AxleName) -> tuple[Wanted, ...]:
    """By the readings alone: a sheet neither waits for a clearance map nor has one drawn for every reading."""
    job, today = sound(seen), desk.today()
    if axle not in dict(job.axles):  # nothing was read there yet: everything an answer needs is wanted
        job = replace(job, front=Axle()) if axle == "front" else replace(job, rear=Axle())

    def work() -> tuple[Wanted, ...]:
        from hubwright.web.working import work_out  # noqa: PLC0415 - slow to import, not needed to start

        return work_out(job, today).answer.axle(axle).wanted

    return desk.once("wanted", seen, work, axle, today)


def lines_of(wanted: Iterable[tuple[Wanted, str]], slots: tuple[Slot, ...]) -> tuple[Line, ...]:
    """Wanted readings with their places on the sheet."""
    by_id = {slot.id: slot for slot in slots}
    found = []
    for item, english in wanted:
        ids = [name for name in places_of(english, slots) if name in by_id]
        ids = sorted((name for name in ids if not by_id[name].another), key=lambda name: by_id[name].taken)
        found.append(Line(item.what, item.how, item.worth_mm, item.needed, tuple(ids)))
    return tuple(found)


def weighed(slots: tuple[Slot, ...], lines: tuple[Line, ...]) -> tuple[Slot, ...]:
    """Slots that know what they are worth; only those not taken yet."""
    worth: dict[str, tuple[float, bool]] = {}
    for line in lines:
        for name in line.slots:
            before = worth.get(name, (0.0, False))
            worth[name] = (max(before[0], line.worth_mm), before[1] or line.needed)
    return tuple(
        slot
        if slot.taken or slot.another or slot.id not in worth
        else replace(slot, worth_mm=worth[slot.id][0], needed=worth[slot.id][1])
        for slot in slots
    )


SINGLE: dict[str, tuple[str, ...]] = {
    "travel from parked to full bump": (axle_field("bump_travel_mm"),),
    "length of the hub's spigot": (axle_field("hub.spigot_length_mm"),),
    "chamfer of the bore": (fitted_field("wheel.bore_chamfer_mm"),),
    "thread of the fasteners": (
        axle_field("fastener.kind"),
        axle_field("fastener.thread"),
        axle_field("fastener.seat"),
    ),
    "engagement now": (axle_field("fastener.engagement_mm"), axle_field("fastener.engagement_turns")),
    "length of the bolts": (axle_field("fastener.length_mm"),),
    "what stands behind the hub flange": (axle_field("hub.flange_thickness_mm"), axle_field("hub.free_behind_mm")),
    "length of the studs": (axle_field("hub.stud_length_mm"),),
    "lead of the studs": (axle_field("hub.stud_lead_mm"),),
    "thickness of the brake disc's hat": (axle_field("hub.hat_thickness_mm"),),
    "mounting face to start of the nut's thread": (fitted_field("wheel.pad_to_thread_mm"),),
    "whether the nuts are closed": (axle_field("fastener.closed_depth_mm"), axle_field("fastener.open_end")),
    "section width of the tyre": (fitted_field("tyre.section_width_mm"),),
}
"""Beginning of what is wanted, and the readings that give it."""
CORNERS: dict[str, tuple[str, ...]] = {
    "barrel room over the caliper": ("brake.radial_gap_mm",),
    "slope of the barrel": ("brake.ramp_deg", "brake.ramp_start_mm"),
    "axial room between spokes and caliper": ("brake.axial_gap_mm",),
    "that the steering stood straight": ("toe_deg",),
    "ride heights": ("ride_height_mm",),
}
ANY_PLACE = ("gaps at full lock", "gap over the whole travel")
"""Not of the arch lip alone."""
GAPS: dict[str, tuple[str, ...]] = {
    "gap to the arch at full bump": ("parked", "between", "bump"),
    "gap over the whole travel": ("parked", "between", "bump"),
    "gaps at full lock": ("left", "right", "left-bump", "right-bump"),
    "gaps in droop": ("droop",),
}


def places_of(english: str, slots: tuple[Slot, ...]) -> tuple[str, ...]:
    """Readings that give what is wanted."""
    ids = next((ids for start, ids in SINGLE.items() if english.startswith(start)), ())
    if english.startswith("gaps at full lock"):
        ids = (axle_field("steer_max_deg"),)
    keys = next((keys for start, keys in CORNERS.items() if english.startswith(start)), ())
    states = next((states for start, states in GAPS.items() if english.startswith(start)), ())
    sides = [side for side in SIDES if f", {side}" in english] or SIDES
    found = [*ids, *(corner_field(side, key) for key in keys for side in sides)]
    for slot in slots:
        name = name_of(slot.id)
        if name is None or name.side not in sides or slot.place is None or slot.place.room != "outside":
            continue
        if name.kind == "gap" and name.what in states and (slot.place.lip or english.startswith(ANY_PLACE)):
            found.append(slot.id)
        if name.kind == "place" and name.what == "return_mm" and english.startswith("how far the arch lip returns"):
            found.append(slot.id)
    return tuple(found)


def unproven_lines(job: Job, axle: AxleName, disc_mm: float) -> tuple[Line, ...]:
    """What must still be read with a disc fitted before the car may go; where on the sheet, the very state first."""
    found = []
    for state in unproven(job, axle, disc_mm):
        words = say(
            "{side}, {place}, {state}", side=side_word(state.side), place=place_word(state.place),
            state=where_words(state.travel_mm, state.steer_deg),
        )  # fmt: skip
        keys = (*_read_bare(job, axle, state), _key(job, axle, state))
        found.append(Line(words, "", 0.0, True, tuple(gap(state.side, state.place, key) for key in keys)))
    return tuple(found)


def _read_bare(job: Job, axle: AxleName, state: Unproven) -> Iterator[str]:
    """The very heights at which this gap was read bare, near enough to prove it there."""
    own = job.front if axle == "front" else job.rear
    for point in own.corner(state.side).point if own is not None else ():
        for reading in point.reading if point.name == state.place else ():
            near = abs(reading.travel_mm - state.travel_mm) <= RELEASE_TRAVEL_MM
            if near and abs(reading.steer_deg - state.steer_deg) <= RELEASE_STEER_DEG and not reading.disc_mm:
                yield f"at {reading.travel_mm:g} {reading.steer_deg:g}"


def awaited(job: Job, axle: AxleName, disc_mm: float) -> tuple[Awaited, ...]:
    """The gaps release still waits for that stand at a height or lock of their own, which the sheet then asks at."""
    found = []
    for state in unproven(job, axle, disc_mm):
        key = _key(job, axle, state)
        if key.startswith("at "):
            _, travel, steer = key.split(" ")
            found.append(Awaited(state.side, state.place, State(key, float(travel), float(steer))))
    return tuple(found)


def _key(job: Job, axle: AxleName, state: Unproven) -> str:
    """The usual state a gap is waited for in; else one named by its own height and lock, in whole mm and degrees."""
    own = job.front if axle == "front" else job.rear
    bump = own.bump_travel_mm.value if own is not None and own.bump_travel_mm is not None else None
    lock = own.steer_max_deg if own is not None else None
    straight, parked = abs(state.steer_deg) < STILL_MM, abs(state.travel_mm) < STILL_MM
    at_bump = bump is not None and abs(state.travel_mm - bump) <= NEAR_TRAVEL_MM
    if (parked or at_bump) and straight:
        return "parked" if parked else "bump"
    if (parked or at_bump) and lock is not None and abs(abs(state.steer_deg) - lock) <= NEAR_STEER_DEG:
        return f"{'left' if state.steer_deg > 0 else 'right'}{'' if parked else '-bump'}"
    return f"at {round(state.travel_mm) or 0} {0 if straight else round(state.steer_deg)}"


def where_words(travel_mm: float, steer_deg: float) -> str:
    """Ride height and lock in words."""
    if abs(travel_mm) < STILL_MM:
        height = say("parked")
    elif travel_mm > 0:
        height = say("{travel} up", travel=length(travel_mm, 0))
    else:
        height = say("{travel} down", travel=length(-travel_mm, 0))
    if abs(steer_deg) < STILL_MM:
        return height
    turned = number(abs(steer_deg), 0)
    if steer_deg > 0:
        return say("{height}, turned left {angle}°", height=height, angle=turned)
    return say("{height}, turned right {angle}°", height=height, angle=turned)
