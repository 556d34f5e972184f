"""Lists of texts in a form: one text in each line of a box."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.errors import Fault
from hubwright.language import say
from hubwright.web.fields.spec import Spec
from hubwright.web.fields.tree import Tree
from hubwright.web.fields.typed import LONGEST_TEXT
from hubwright.web.forms import Posted

LINES = "l:"


@dataclass(frozen=True)
class LinesBox:
    """A list of texts as stored or as typed."""

    path: str
    spec: Spec
    text: str
    fault: Fault | None = None

    @property
    def name(self) -> str:
        """Of the box in the form."""
        return LINES + self.path


def texts_of(text: str) -> list[str]:
    """The lines that say something."""
    return [" ".join(line.split()) for line in text.splitlines() if line.strip()]


def changed_lines(
    form: Posted, tree: Tree, specs: dict[str, Spec]
) -> tuple[list[tuple[str, list[str] | None]], list[Fault]]:
    """Lists that are not as they were shown, and what is wrong with them."""
    values: list[tuple[str, list[str] | None]] = []
    faults: list[Fault] = []
    for path, spec in specs.items():
        raw = form.fields.get(LINES + path)
        if not isinstance(raw, str):
            continue
        texts = texts_of(raw)
        if texts == (tree.at(path) or []):
            continue
        if spec.most is not None and len(texts) > spec.most:
            faults.append(Fault(path, say("at most {count} lines", count=spec.most), str(len(texts))))
        if any(len(text) > LONGEST_TEXT or "\0" in text for text in texts):
            faults.append(Fault(path, say("at most {count} letters in a line", count=LONGEST_TEXT), say("more")))
        values.append((path, texts or None))
    return values, faults
