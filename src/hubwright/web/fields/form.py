"""A posted form of fields: what is to be entered, or everything wrong with it, each by its field.

Names in the form: ``v:FIELD`` is the value, of a reading also ``m:FIELD`` its method and ``u:FIELD`` its doubt. A field whose
text is as it was shown, from the revision the form was made of, is not entered. ``v:LIST[+].KEY`` belongs to a new item of
the list, ``x:LIST[2]`` takes an item out.
"""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from hubwright.errors import Fault
from hubwright.language import say
from hubwright.language.part_words import METHODS, PART, SUSPENSION
from hubwright.language.words import word
from hubwright.parts.base import LARGEST_DOUBT
from hubwright.parts.job import Job
from hubwright.quantities.text import System
from hubwright.store.merge import Content, settle
from hubwright.store.things import Change, StoredJob
from hubwright.web.fields.labels import CHOICES
from hubwright.web.fields.shown import number_words, words_of
from hubwright.web.fields.spec import Spec, spec_at
from hubwright.web.fields.tree import Tree, parts_of_reading, reading_value
from hubwright.web.fields.typed import NotThat, read, unit_word
from hubwright.web.forms import Posted

WORDED = {"HardPoints.kind": ("suspension", SUSPENSION), "ProfileLine.part": ("part", PART)}
"""Choices whose words other pages and papers have too."""
VALUE, METHOD, DOUBT, TAKE_OUT = "v:", "m:", "u:", "x:"


@dataclass(frozen=True)
class Filled:
    """One field on a page, as stored or as typed.

    Attributes:
        path: Its field.
        text: In the box.
        method, doubt: Of a reading.
        fault: What is wrong with it.
        given: Choices a page has found out itself, code and words, instead of those of the field.
    """

    path: str
    spec: Spec
    text: str
    unit: str
    method: str = ""
    doubt: str = ""
    fault: Fault | None = None
    given: tuple[tuple[str, str], ...] = ()

    @property
    def name(self) -> str:
        """Of the box in the form."""
        return VALUE + self.path

    @property
    def options(self) -> tuple[tuple[str, str], ...]:
        """Choices with their words, the empty one first."""
        known = self.given or tuple((code, choice_word(self.spec.key, code)) for code in self.spec.choices)
        blank = any(not code for code, _ in known) or (self.spec.needed and self.text)
        return known if blank else (("", "–"), *known)

    @property
    def methods(self) -> tuple[tuple[str, str], ...]:
        """Ways of reading, the unstated one first; one the shop has a name of its own for stays."""
        own = () if not self.method or self.method in METHODS else ((self.method, self.method),)
        return (("", say("not stated")), *((code, say(words)) for code, words in METHODS.items()), *own)


def choice_word(key: str, code: str) -> str:
    """The words of one choice of a field such as ``Wish.aim``."""
    if key in WORDED:
        return word(*WORDED[key], code)
    words = CHOICES.get((key, code))
    return say(words) if words else code


class Box:
    """Fills fields from a job file, or from what was typed where a form came back."""

    def __init__(
        self, tree: Tree, system: System, typed: Posted | None = None, faults: Iterable[Fault] = (), root: Any = Job
    ) -> None:
        self.tree, self.system, self._typed, self._root = tree, system, typed, root
        self._faults = {fault.field: fault for fault in faults}

    def __call__(self, path: str, given: tuple[tuple[str, str], ...] = ()) -> Filled:
        """One field, ready to be drawn."""
        spec = spec_at(path, self._root)
        value = self.tree.at(path)
        text, method, doubt = words_of(spec, value, self.system), "", ""
        if spec.kind == "reading" and value is not None:
            _, stated, u, _ = parts_of_reading(value)
            method, doubt = stated or "", "" if u is None else number_words(spec, u, self.system)
        if self._typed is not None and VALUE + path in self._typed.fields:
            text = typed_text(spec, self._typed, path)
            method = self._typed.text(METHOD + path, method)
            doubt = self._typed.text(DOUBT + path, doubt)
        return Filled(path, spec, text, unit_word(spec, self.system), method, doubt, self._faults.get(path), given)

    @property
    def wrong(self) -> tuple[str, ...]:
        """Fields with a fault."""
        return tuple(self._faults)


def typed_text(spec: Spec, form: Posted, path: str) -> str:
    """The text of a field; of a list with a box for each figure the boxes apart by semicolons, as one box would have them."""
    texts = form.texts(VALUE + path)
    apart = spec.kind == "numbers" and len(texts) > 1
    return ("; " if apart else " ").join(texts).strip() if any(texts) else ""


@dataclass(frozen=True)
class Asked:
    """What a form asks to enter: fields of the job file in the units used inside, with plain values; and its faults."""

    values: tuple[tuple[str, Any], ...]
    faults: tuple[Fault, ...]

    def entries(self, tree: Tree) -> list[tuple[str, str | None]]:
        """As the store takes them."""
        return [tree.entry(field, value) for field, value in self.values]


def asked(form: Posted, before: Tree, system: System, by: str | None = None, root: Any = Job) -> Asked:
    """Everything a form changes.

    Args:
        form: As posted.
        before: The job as the form showed it.
        system: The units the form was shown in.
        by: Written into readings where it is not the workshop that read.
        root: The noun the file holds: a job, or the shop's settings.
    """
    values: list[tuple[str, Any]] = []
    faults: list[Fault] = []
    for path, _ in form.beginning(VALUE):
        try:
            spec = spec_at(path, root)
        except (KeyError, IndexError):
            faults.append(Fault(path[:200], say("a field of the job file"), say("an unknown one")))
            continue
        text = typed_text(spec, form, path)
        found, fault = _one(spec, path, text, form, before, system, by)
        if fault is not None:
            faults.append(fault)
        elif found is not _SAME:
            values.append((path, found))
    taken = [path for path, word in form.beginning(TAKE_OUT) if word and before.at(path) is not None]
    kept = [(path, value) for path, value in values if not any(path.startswith(f"{item}.") for item in taken)]
    gone = [(path, None) for path in sorted(taken, key=_last_number, reverse=True)]
    return Asked((*_new_items(kept), *gone), tuple(faults))


def _last_number(path: str) -> int:
    """List numbers counted from the end of the list, so that taking one out moves none that is still to go."""
    digits = path.rpartition("[")[2].rstrip("]")
    return int(digits) if digits.isdigit() else 0


def _new_items(values: list[tuple[str, Any]]) -> list[tuple[str, Any]]:
    """Fields of one new list item (``rear.torque[+].source``) brought together as the item."""
    found: list[tuple[str, Any]] = []
    items: dict[str, dict[str, Any]] = {}
    for path, value in values:
        start, adds, rest = path.partition("[+].")
        if not adds:
            found.append((path, value))
            continue
        field = f"{start}[+]"
        if field not in items:
            items[field] = {}
            found.append((field, items[field]))
        table = items[field]
        *upper, last = rest.split(".")
        for key in upper:
            table = table.setdefault(key, {})
        table[last] = value
    return found


def as_posted(fault: Fault, before: Tree) -> Fault:
    """A fault of the job that would be, at the box it came from: the item a list does not have yet is the new one."""
    path = fault.field
    for match in re.finditer(r"\[(\d+)\]", fault.field):
        start = fault.field[: match.start()]
        if before.count(start) < int(match[1]):
            path = f"{start}[+]{fault.field[match.end() :]}"
            break
    return dataclasses.replace(fault, field=path, line=None)


_SAME = object()


def _one(
    spec: Spec, path: str, text: str, form: Posted, before: Tree, system: System, by: str | None
) -> tuple[Any, Fault | None]:
    stands = before.at(path)
    shown = words_of(spec, stands, system)
    if spec.kind == "reading":
        return _reading(spec, path, text, form, stands, system, by)
    if text == shown or (spec.kind in ("texts", "choices") and sorted(text.split()) == sorted(shown.split())):
        return _SAME, None
    value = _ticked(spec, text) if spec.kind == "choices" else read(spec, text, system)
    if isinstance(value, NotThat):
        return None, Fault(path, value.wanted, value.given)
    return (_SAME if value is None and stands is None else value), None


def _ticked(spec: Spec, text: str) -> Any:
    codes = text.split()
    odd = [code for code in codes if code not in spec.choices]
    return NotThat(say("one of the choices"), odd[0][:60]) if odd else codes or None


def _reading(
    spec: Spec, path: str, text: str, form: Posted, stands: Any, system: System, by: str | None
) -> tuple[Any, Fault | None]:
    values, method, u, stood_by = parts_of_reading(stands)
    shown_u = "" if u is None else number_words(spec, u, system)
    new_method, new_u = form.text(METHOD + path, method or ""), form.text(DOUBT + path, shown_u)
    same_text = text == words_of(spec, stands, system)
    if same_text and new_method == (method or "") and new_u == shown_u:
        return _SAME, None
    if not text:
        return (_SAME if stands is None else None), None
    if not same_text:
        found = read(spec, text, system)
        if isinstance(found, NotThat):
            return None, Fault(path, found.wanted, found.given)
        values = found or []
    if new_u != shown_u:
        doubt = read_doubt(spec, new_u, system)
        if isinstance(doubt, NotThat):
            return None, Fault(path, doubt.wanted, doubt.given)
        u = doubt
    if len(new_method) > 100:
        return None, Fault(path, say("at most {count} letters", count=100), new_method[:60])
    return reading_value(values, new_method, u, by or stood_by), None


def read_doubt(spec: Spec, text: str, system: System) -> float | NotThat | None:
    """A doubt as typed, in the unit of its field."""
    if not text.strip():
        return None
    plain = Spec(spec.noun, spec.name, "number", spec.unit, False, 0.0, LARGEST_DOUBT)
    value = read(plain, text, system)
    return float(value) if isinstance(value, float | int) else NotThat(say("a doubt of 0 or more"), text[:60])


def trial(stored: StoredJob, entries: Iterable[tuple[str, str | None]]) -> tuple[Fault, ...]:
    """Faults the job would have with an entry, before it is entered; empty when it would go in."""
    changes = tuple(Change(field, value) for field, value in entries)
    if not changes:
        return ()
    return settle(Content(stored.data, stored.card), (), changes).faults
