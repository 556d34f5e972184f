"""What the measuring sheet shows, for the workshop and for a customer."""

from __future__ import annotations

import secrets
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

from hubwright.errors import Fault
from hubwright.language import say
from hubwright.language.part_words import METHODS
from hubwright.parts.base import READERS
from hubwright.parts.job import AxleName
from hubwright.parts.shop_settings import Tool
from hubwright.quantities.reading import METHOD_DOUBT_MM
from hubwright.quantities.text import System, length
from hubwright.web.desk import Desk, Seen
from hubwright.web.drawn import Drawn
from hubwright.web.fields.shown import number_words
from hubwright.web.fields.spec import Spec
from hubwright.web.fields.tree import Tree
from hubwright.web.forms import Posted
from hubwright.web.frame import Frame
from hubwright.web.sheet.names import name_of
from hubwright.web.sheet.places import Place
from hubwright.web.sheet.resolve import Taken, values_of
from hubwright.web.sheet.sketches import sketches_of
from hubwright.web.sheet.slots import Ask, Slot, slots_of
from hubwright.web.sheet.take import Permitted, anything
from hubwright.web.sheet.tools import tool_words, tools_of
from hubwright.web.sheet.worth import Line, awaited, lines_of, unproven_lines, wanted_of, weighed


@dataclass(frozen=True)
class Sheet:
    """The sheet of one axle.

    Attributes:
        axle: Which.
        address: Where a reading is posted; the same address shows the sheet.
        base: Revision it was made from.
        system: Units.
        disc_mm: The disc fitted while reading; 0 = bare.
        turned: Whether the car was turned round on the same floor for this round.
        slots: Every reading, in the order of the walk.
        current: The one before the person.
        lines: What is worth reading next, best first.
        sketch: Key of each reading's sketch.
        sketches: By key.
        faults: Everything wrong with the reading that came back.
        typed: What was typed then, by box.
        told: A word about the reading before.
        questions: What a careful colleague would ask about it.
        customer: Whether a customer reads.
        key: Of the next entry.
        tools: The shop's own, with the doubt it stated.
    """

    axle: AxleName
    address: str
    base: int
    system: System
    disc_mm: float
    slots: tuple[Slot, ...]
    current: Slot
    lines: tuple[Line, ...]
    sketch: dict[str, str]
    sketches: dict[str, Drawn]
    faults: tuple[Fault, ...]
    typed: dict[str, str]
    told: str
    questions: tuple[tuple[str, str], ...]
    customer: bool
    key: str
    tools: tuple[Tool, ...] = ()
    turned: bool = False

    @property
    def groups(self) -> tuple[tuple[str, tuple[Slot, ...]], ...]:
        """Readings by heading."""
        found: dict[str, list[Slot]] = {}
        for slot in self.slots:
            found.setdefault(slot.group, []).append(slot)
        return tuple((title, tuple(group)) for title, group in found.items())

    @property
    def taken(self) -> int:
        """How many readings are there."""
        return sum(slot.taken for slot in self.slots)

    @property
    def all(self) -> int:
        """How many readings there are, without those nobody need take."""
        return sum(slot.taken or not slot.another for slot in self.slots)

    @property
    def waiting(self) -> int:
        """How many an answer waits for."""
        return sum(slot.needed and not slot.taken for slot in self.slots)

    @property
    def before(self) -> Slot:
        """The reading before the current one in the walk."""
        return self.slots[self._at - 1]

    @property
    def after(self) -> Slot:
        """The reading to go on with where this one is skipped."""
        wanted = next_step(self.slots, self.current.id)
        return next(slot for slot in self.slots if slot.id == wanted)

    @property
    def _at(self) -> int:
        return next(n for n, slot in enumerate(self.slots) if slot.id == self.current.id)

    @property
    def methods(self) -> tuple[tuple[str, str], ...]:
        """Ways of reading, each with its doubt; the shop's own tools first, before what has a usual doubt."""
        own, named = self.current.method, {tool.name for tool in self.tools}
        known = [(tool.name, tool_words(tool)) for tool in self.tools]
        known += [(code, _method_words(code, words)) for code, words in METHODS.items() if code not in named]
        if own and own not in METHODS and own not in named:
            known.append((own, own))
        return (("", say("not stated")), *known)

    def fault(self, name: str) -> Fault | None:
        """What is wrong with one box."""
        return next((fault for fault in self.faults if fault.field == name), None)

    @property
    def data(self) -> dict[str, Any]:
        """The whole sheet for the script: everything it needs while the line is down."""
        return {
            "address": self.address, "base": self.base, "system": self.system, "disc": self.disc_mm,
            "turned": self.turned,
            "slots": [_slot_data(slot, self.sketch) for slot in self.slots],
            "lines": [_line_data(line) for line in self.lines],
        }  # fmt: skip


@dataclass(frozen=True)
class SheetView:
    """The page of the workshop."""

    frame: Frame
    sheet: Sheet


def _method_words(code: str, words: str) -> str:
    return say("{method}, doubt {doubt}", method=say(words), doubt=length(METHOD_DOUBT_MM[code]))


def _line_data(line: Line) -> dict[str, Any]:
    return {
        "what": line.what,
        "how": line.how,
        "worth": worth_words(line),
        "length": length(line.worth_mm) if line.worth_mm else "",
        "needed": line.needed,
        "slots": list(line.slots),
    }


def worth_words(line: Line) -> str:
    """What a reading is worth, in a sentence."""
    if not line.worth_mm:
        return say("The car may not go without it.")
    if line.needed:
        return say("No answer without it: it settles up to {length}.", length=length(line.worth_mm))
    return say("It would remove doubt of up to {length}.", length=length(line.worth_mm))


def _slot_data(slot: Slot, sketch: dict[str, str]) -> dict[str, Any]:
    place, spec = slot.place, slot.spec
    return {
        "id": slot.id, "group": slot.group, "label": slot.label, "where": slot.where, "hint": slot.hint, "kind": slot.kind,
        "unit": slot.unit, "repeats": spec.kind == "reading", "values": list(slot.values), "method": slot.method,
        "u": slot.doubt, "choices": [list(pair) for pair in slot.choices], "extras": [vars(extra) for extra in slot.extras],
        "disc": slot.disc_mm or "", "other": slot.other, "apart": slot.apart, "limits": slot.limits,
        "place": {} if place is None else {"room": place.room, "kind": place.kind, "toward": place.toward},
        "worth": slot.worth_mm, "needed": slot.needed, "many": many(slot), "another": slot.another,
        "sketch": sketch[slot.id], "low": _own(spec, spec.low, slot), "high": _own(spec, spec.high, slot),
    }  # fmt: skip


def _own_hub(slot: Slot) -> bool:
    """Whether it is a reading of one side's own hub, which customers are not asked."""
    name = name_of(slot.id)
    return name is not None and name.side is not None and name.what.startswith("hub.")


def many(slot: Slot) -> bool:
    """Whether the reading may be taken at several heights or radii, each one of its own."""
    name = name_of(slot.id)
    return name is not None and (name.what == "between" or (name.kind == "half" and not name.what.startswith("at ")))


def _own(spec: Spec, limit: float | None, slot: Slot) -> str:
    """A limit in the person's units, as a plain number for the script."""
    if limit is None or slot.kind != "number":
        return ""
    system: System = "inch" if slot.unit in ("in", "lb-ft", "lb") else "metric"
    return number_words(spec, limit, system).replace(",", ".").replace("\u2212", "-")


def sheet_of(
    desk: Desk,
    seen: Seen,
    axle: AxleName,
    address: str,
    system: System,
    *,
    permitted: Permitted = anything,
    customer: bool = False,
    disc_mm: float = 0.0,
    turned: bool = False,
    step: str = "",
    form: Posted | None = None,
    faults: tuple[Fault, ...] = (),
    told: str = "",
    questions: tuple[tuple[str, str], ...] = (),
) -> Sheet:
    """The sheet of one axle, the reading named, or the one worth most, before the person.

    Args:
        desk: The desk.
        seen: The job.
        axle: Which axle.
        address: Where readings are posted.
        system: Units.
        permitted: Which fields may be written; readings that may not are not shown.
        customer: Whether a customer reads: the readings then say so.
        disc_mm: The disc fitted while reading; 0 = bare.
        turned: Whether the car was turned round for this round of readings.
        step: The reading wanted.
        form: The reading that came back with faults.
        faults: What is wrong with it.
        told: A word about the reading before.
        questions: What was raised by it: text and what to do.
    """
    tree = Tree(seen.stored.data)
    steered = tree.at(f"{axle}.steered")
    ask = Ask(tree, axle, axle == "front" if steered is None else bool(steered), system, disc_mm, turned)
    if disc_mm and seen.job is not None:
        ask = replace(ask, waited=awaited(seen.job, axle, disc_mm))
    slots = tuple(slot for slot in slots_of(ask) if not (customer and _own_hub(slot)))
    slots = tuple(slot for slot in slots if permitted is anything or may(slot, tree, axle, permitted, customer))
    if not slots:
        slots = slots_of(ask)[:1]
    if disc_mm:
        known = {slot.id for slot in slots}
        found = () if seen.job is None else unproven_lines(seen.job, axle, disc_mm)
        lines = tuple(replace(line, slots=tuple(name for name in line.slots if name in known)[:1]) for line in found)
    elif turned:
        lines = ()
    else:
        lines = lines_of(wanted_of(desk, seen, axle), slots)
    slots = weighed(slots, lines)
    keys, drawings = sketches_of(ask, slots)
    current = _current(slots, lines, step)
    typed = (
        {}
        if form is None
        else {name: form.text(name) for name in ("travel", "steer", "radius", "half_track", "method", "u")}
    )
    if form is not None:
        typed["value"] = (form.texts("value") or ("",))[-1]
    return Sheet(
        axle, address, seen.stored.revision, system, disc_mm, slots, current, lines, keys, drawings, faults, typed, told,
        questions, customer, (form.text("key") if form is not None else "") or secrets.token_hex(16),
        () if customer else tools_of(desk), turned,
    )  # fmt: skip


def _current(slots: tuple[Slot, ...], lines: tuple[Line, ...], step: str) -> Slot:
    by_id = {slot.id: slot for slot in slots}
    if step in by_id:
        return by_id[step]
    for line in lines:
        for name in line.slots:
            if not by_id[name].taken:
                return by_id[name]
    return next((slot for slot in slots if not slot.taken and not slot.another), slots[0])


def next_step(slots: tuple[Slot, ...], current: str) -> str:
    """The reading to go on with: the next one of the walk that an answer waits for, else the next one not taken."""
    ids = [slot.id for slot in slots]
    at = ids.index(current) + 1 if current in ids else 0
    walk = [*slots[at:], *slots[:at]]
    rules: tuple[Callable[[Slot], bool], ...] = (lambda s: s.needed, lambda s: s.worth_mm > 0, lambda s: True)
    for rule in rules:
        for slot in walk:
            if not slot.taken and not slot.another and rule(slot) and slot.id != current:
                return slot.id
    return current


def may(slot: Slot, tree: Tree, axle: AxleName, permitted: Permitted, customer: bool) -> bool:
    """Whether somebody may write what a reading would write."""
    name = name_of(slot.id)
    if name is None:
        return False
    value: Any = {"text": "x", "yesno": True, "choice": slot.spec.choices[:1] and slot.spec.choices[0]}.get(
        slot.spec.kind, [1.0]
    )
    by = READERS[1] if customer else None
    sample = Taken(name, value, travel_mm=1.0, radius_mm=300.0, place=slot.place or Place(""), by=by)
    return all(permitted(*tree.entry(field, item)) for field, item in values_of(sample, tree, axle))
