"""Which thickness a page is asked to look at: pills for the shelf, a field for any other. In mm, as discs are sold."""

from __future__ import annotations

from dataclasses import dataclass
from urllib.parse import urlencode

from fastapi import Request
from fastapi.responses import Response

from hubwright.errors import Fault
from hubwright.jobs.shown import ASKED, CHOSEN, RECOMMENDED, Shown
from hubwright.jobs.trying import thickness_from
from hubwright.language import marked, say
from hubwright.parts.job import Job
from hubwright.quantities.text import thickness
from hubwright.selection.plans import shelf

WHY = {RECOMMENDED: marked("recommended"), ASKED: marked("asked for"), CHOSEN: marked("chosen here")}
SHAPES = {"pass": "valid", "caution": "caution", "unknown": "not known", "fail": "refused"}
"""Shape of a verdict in the page's kit."""


@dataclass(frozen=True)
class Pill:
    """One thickness of the shelf to look at."""

    words: str
    address: str
    current: bool


@dataclass(frozen=True)
class LookedAt:
    """What the address asks for.

    Attributes:
        field: Name in the address.
        typed: As it stands there.
        thickness_mm: The figure; None where nothing, or nothing usable, was asked for.
        faults: Why it cannot be used.
    """

    field: str
    typed: str
    thickness_mm: float | None
    faults: tuple[Fault, ...]


def looked_at(request: Request, field: str = "t", *, or_none: bool = False) -> LookedAt:
    """The thickness asked for in the address: above 0, at most 150 mm; a decimal comma will do.

    ``or_none``: 0 is taken too, for a look without a disc.
    """
    typed = request.query_params.get(field, "").strip()
    value, faults = thickness_from(typed, field, or_none=or_none)
    return LookedAt(field, typed, value, faults)


def pills(job: Job, path: str, chosen_mm: float | None, *, or_none: bool = False) -> tuple[Pill, ...]:
    """The thicknesses of the shelf as links, with ``or_none`` a look without a disc before them."""
    sizes = sorted({disc.thickness_mm for disc in shelf(job)} | ({0.0} if or_none else set()))
    return tuple(
        Pill(
            thickness(size) if size else say("no disc"),
            f"{path}?{urlencode({'t': f'{size:g}'})}",
            size == chosen_mm,
        )
        for size in sizes
    )


def why_words(shown: Shown) -> str:
    """Why a disc is shown."""
    return ", ".join(say(WHY[why]) for why in shown.why)


def looks_again(request: Request, answer: Response, waiting: bool) -> Response:
    """The answer; to a page that asks whether a map is there by now, also that it shall load itself anew."""
    if request.headers.get("hw-part") == "waiting" and not waiting:
        answer.headers["hx-refresh"] = "true"
    return answer
