"""From the posted form of links and springs to what is entered."""

from __future__ import annotations

import re
from typing import Any

from hubwright.errors import Fault
from hubwright.language import say
from hubwright.quantities.text import System
from hubwright.web.fields.form import VALUE, asked
from hubwright.web.fields.spec import spec_at
from hubwright.web.fields.tree import Tree
from hubwright.web.forms import Posted

LINK = re.compile(r"(.+\.link)\[(\d+)\]\.(\w+)")
AXES = 3
Values = list[tuple[str, Any]]


def is_place(path: str) -> bool:
    """Whether a field is typed in three boxes: X, Y and Z."""
    spec = spec_at(path)
    return spec.kind == "numbers" and spec.noun != "BumpStop"


def values_of(form: Posted, tree: Tree, system: System) -> tuple[Values, tuple[Fault, ...]]:
    """Fields with plain values, and everything wrong with the form itself."""
    found = asked(form, tree, system)
    faults = list(found.faults)
    for path, _ in form.beginning(VALUE):
        texts = form.texts(VALUE + path)
        if len(texts) == AXES and any(texts) and not all(texts):
            wanted = say("three figures: forward, to the left, up")
            faults = [*(one for one in faults if one.field != path), Fault(path, wanted, _said(texts))]
    return _new_links(list(found.values), tree), tuple(faults)


def _said(texts: tuple[str, ...]) -> str:
    return "; ".join(text or "–" for text in texts)[:60]


def _new_links(values: Values, tree: Tree) -> Values:
    """Links that a list does not have yet are added to it, each whole, in their order."""
    found: Values = []
    fresh: dict[tuple[str, int], dict[str, Any]] = {}
    for path, value in values:
        match = LINK.fullmatch(path)
        if match is None or int(match[2]) <= tree.count(match[1]):
            found.append((path, value))
        else:
            fresh.setdefault((match[1], int(match[2])), {})[match[3]] = value
    return found + [(f"{start}[+]", item) for (start, _), item in sorted(fresh.items())]
