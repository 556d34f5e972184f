"""From the posted form of car and request to an entry."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from hubwright.errors import Fault
from hubwright.store.things import Stage, StoredJob
from hubwright.web.car.groups import HOLLOW
from hubwright.web.car.views import CARD
from hubwright.web.fields.form import VALUE, asked
from hubwright.web.fields.tree import Tree
from hubwright.web.forms import Posted
from hubwright.web.frame import AXLES

USUAL = {"@stage": Stage.DRAFT.value}
"""What the form shows of a card that says nothing."""


@dataclass(frozen=True)
class Wanted:
    """Fields of the job file and of the card, as the store takes them, and everything wrong with the form."""

    entries: tuple[tuple[str, str | None], ...]
    card: tuple[tuple[str, str | None], ...]
    faults: tuple[Fault, ...]


def wanted_of(form: Posted, before: StoredJob) -> Wanted:
    """What the form changes against the revision it was made of."""
    tree = Tree(before.data)
    found = asked(form, tree, form.system("metric"))
    values = _without_hollow(form, tree, list(found.values))
    changed = [
        (name, form.text(name))
        for name in CARD
        if name in form.fields and form.text(name) != (before.card.get(name) or USUAL.get(name, ""))
    ]
    card = tuple((name, text or None) for name, text in changed if name != "@stage" or text)
    return Wanted(tuple(tree.entry(field, value) for field, value in values), card, found.faults)


def _without_hollow(form: Posted, tree: Tree, values: list[tuple[str, Any]]) -> list[tuple[str, Any]]:
    """A wish without an aim is none; a table all of whose fields were emptied goes out whole."""
    for axle in AXLES:
        for table in HOLLOW:
            path = f"{axle}.{table}"
            texts = dict(form.beginning(f"{VALUE}{path}."))
            if not texts:
                continue
            if table == "wish" and texts.get("thickness_mm") and not texts.get("aim"):
                values = [*values, (f"{path}.aim", "thickness")]
            elif not any(texts.values()) or (table == "wish" and not texts.get("aim")):
                values = [(field, value) for field, value in values if not field.startswith(f"{path}.")]
                if tree.at(path) is not None:
                    values.append((path, None))
    return values
