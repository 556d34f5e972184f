"""What the address of a bench asks for: thickness, kind of disc, with or without the work offered."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from urllib.parse import urlencode

from hubwright.errors import Fault
from hubwright.jobs.trying import KINDS, THICKEST_MM, number_from, thickness_from
from hubwright.language import say
from hubwright.parts.shop import DiscKind

STEP_MM = 0.5
LONGEST = 20


@dataclass(frozen=True)
class Asked:
    """What was asked for; None where the address says nothing usable about it.

    Attributes:
        thickness_mm: Per side; 0 = no disc.
        kind: Of disc.
        name: The shop's own name, where it has several discs of one thickness and kind.
        with_work: Whether the work offered is reckoned as done.
        typed: The thickness as it stands in the address.
        faults: What cannot be used of it.
    """

    thickness_mm: float | None
    kind: DiscKind | None
    name: str | None
    with_work: bool | None
    typed: str = ""
    faults: tuple[Fault, ...] = ()


def asked_of(fields: Mapping[str, str]) -> Asked:
    """From the query of the address; a decimal comma will do; ``step`` is added to ``t``, as the buttons do without scripts."""
    typed = fields.get("t", "").strip()
    thickness_mm, faults = thickness_from(typed, "t")
    step = number_from(fields.get("step", "").strip() or "0")
    if thickness_mm is not None and math.isfinite(step):
        thickness_mm = min(max(thickness_mm + step, 0.0), THICKEST_MM)
    kind_text, work_text = fields.get("kind", "").strip(), fields.get("work", "").strip()
    kind = next((kind for kind in KINDS if kind == kind_text), None)
    if kind_text and kind is None:
        faults += (Fault("kind", say("plain, lipped or bolted"), kind_text[:LONGEST]),)
    if work_text not in ("", "0", "1"):
        faults += (Fault("work", say("0 (as the car stands) or 1 (with the work done)"), work_text[:LONGEST]),)
    with_work = {"0": False, "1": True}.get(work_text)
    return Asked(thickness_mm, kind, fields.get("name", "").strip()[:400] or None, with_work, typed[:LONGEST], faults)


def query_of(asked: Asked) -> str:
    """The query of an address that asks for just this."""
    fields = {
        "t": "" if asked.thickness_mm is None else f"{asked.thickness_mm:g}", "kind": asked.kind or "",
        "name": asked.name or "", "work": {None: "", False: "0", True: "1"}[asked.with_work],
    }  # fmt: skip
    return "?" + urlencode({name: value for name, value in fields.items() if value})
