"""What the forms of the shop, its history and its files show."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from hubwright.errors import Fault
from hubwright.language import say
from hubwright.parts.shop_settings import ShopSettings
from hubwright.quantities.text import System
from hubwright.rules.ruleset import jurisdictions
from hubwright.store.shop_rows import StoredShop
from hubwright.store.things import Revision
from hubwright.web.fields.form import Box, Filled, choice_word
from hubwright.web.fields.shown import words_of
from hubwright.web.fields.spec import Spec, spec_at
from hubwright.web.fields.tree import Tree
from hubwright.web.forms import Posted
from hubwright.web.shop.lines import LINES, LinesBox
from hubwright.web.shop.parts import Part


@dataclass(frozen=True)
class Tick:
    """A list of codes to tick."""

    path: str
    label: str
    hint: str
    options: tuple[tuple[str, bool], ...]


@dataclass(frozen=True)
class Section:
    """One form of settings.

    Attributes:
        action: Where it is posted.
        remove: Where the item is taken out; empty where there is none.
        usual: What holds where a field is left empty, by field.
    """

    part: Part
    title: str
    words: str
    first: tuple[Filled, ...]
    more: tuple[Filled, ...]
    ticks: tuple[Tick, ...]
    lines: tuple[LinesBox, ...]
    action: str
    remove: str
    base: int
    system: System
    faults: tuple[Fault, ...]
    usual: dict[str, str]

    @property
    def more_open(self) -> bool:
        """Whether something stands, or is wrong, behind the fold."""
        return any(field.text or field.fault for field in self.more)

    def hint(self, field: Filled) -> str:
        """What exactly is meant, and what holds without a figure."""
        words, usual = field.spec.hint, self.usual.get(field.path)
        return words if usual is None else say("{words}; usual: {usual}", words=words, usual=usual)

    def named(self, path: str) -> str:
        """What people call a field."""
        try:
            return spec_at(path, ShopSettings).label
        except (KeyError, IndexError):
            return path


@dataclass(frozen=True)
class History:
    """Every revision, the newest first."""

    revisions: tuple[Revision, ...]


@dataclass(frozen=True)
class Keeping:
    """Everything out and in again."""

    revision: int
    faults: tuple[Fault, ...] = ()
    told: tuple[str, ...] = ()


def section_of(
    part: Part,
    stored: StoredShop,
    system: System,
    number: str = "",
    typed: Posted | None = None,
    faults: Iterable[Fault] = (),
) -> Section:
    """A form, filled from the settings or from what was typed.

    Args:
        part: Which.
        stored: The settings the form is made of.
        system: Units of the boxes.
        number: Of a list: the item from 1, or ``new``.
        typed: The form as it came back.
        faults: What is wrong with it.
    """
    found = tuple(faults)
    tree = Tree(stored.data)
    prefix = f"{part.key}[{'+' if number == 'new' else number}]." if part.listed else ""
    box = Box(tree, system, typed, found, ShopSettings)
    by_field = {fault.field: fault for fault in found}
    lines = tuple(
        LinesBox(path, lines_spec(path), _lines(tree, path, typed), by_field.get(path)) for path in part.lines
    )
    first, more = (
        tuple(box(prefix + key, () if part.listed else _as_usual(prefix + key)) for key in keys)
        for keys in (part.first, part.more)
    )
    here = f"/shop/{part.key}" + (f"/{number}" if part.listed else "")
    title = say(part.new) if number == "new" else say(part.title)
    ticks = tuple(_tick(path, tree, typed) for path in part.ticks)
    remove = f"{here}/remove" if part.listed and number != "new" else ""
    usual = {} if part.listed else _usual(system)
    return Section(
        part, title, say(part.words), first, more, ticks, lines, here, remove, stored.revision, system, found, usual
    )


@cache
def lines_spec(path: str) -> Spec:
    """What a list of texts holds."""
    return spec_at(path, ShopSettings)


def _lines(tree: Tree, path: str, typed: Posted | None) -> str:
    raw = typed.fields.get(LINES + path) if typed is not None else None
    return raw if isinstance(raw, str) else "\n".join(tree.at(path) or ())


def _tick(path: str, tree: Tree, typed: Posted | None) -> Tick:
    spec = spec_at(path, ShopSettings)
    chosen = typed.texts(f"v:{path}") if typed is not None else tuple(tree.at(path) or ())
    codes = dict.fromkeys((*jurisdictions(), *(code for code in chosen if code)))
    return Tick(path, spec.label, spec.hint, tuple((code, code in chosen) for code in codes))


def _usual(system: System) -> dict[str, str]:
    """What the program takes where the shop says nothing, by field."""
    policy = ShopSettings(hubwright_shop=1).policy
    found = {
        f"policy.margins.{field.name}": say("as the use of the car asks")
        for field in dataclasses.fields(policy.margins)
    }
    for field in dataclasses.fields(policy):
        value = getattr(policy, field.name)
        if not isinstance(value, bool | int | float | str):
            continue
        path = f"policy.{field.name}"
        spec = spec_at(path, ShopSettings)
        text = words_of(spec, value, system)
        found[path] = choice_word(spec.key, text) if spec.choices else _yes(value) if isinstance(value, bool) else text
    return found


def _as_usual(path: str) -> tuple[tuple[str, str], ...]:
    """Choices of a house rule, the first of them the usual one; none where it is no choice."""
    spec = spec_at(path, ShopSettings)
    if not path.startswith("policy."):
        return ()
    codes = [("yes", say("yes")), ("no", say("no"))] if spec.kind == "yesno" else []
    codes += [(code, choice_word(spec.key, code)) for code in spec.choices]
    return (("", say("as usual")), *codes) if codes else ()


def _yes(value: bool) -> str:
    return say("yes") if value else say("no")
