"""What the pages of paper show."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Literal
from urllib.parse import urlencode

from hubwright.errors import Fault
from hubwright.jobs.answer import Answer
from hubwright.language import say
from hubwright.language.words import axle_title
from hubwright.parts.job import AxleName
from hubwright.reports import axles_to_draw
from hubwright.reports.kinds import KINDS
from hubwright.web.frame import Frame

ONE_AXLE = ("dxf", "svg")


@dataclass(frozen=True)
class Copy:
    """One file a sheet can be had as.

    Attributes:
        ending: Such as pdf.
        axle: Which axle it shows; empty = all there are.
        label: On its button.
    """

    ending: str
    axle: AxleName | Literal[""]
    label: str


@dataclass(frozen=True)
class Sheet:
    """One sheet to print.

    Attributes:
        name: As it is asked for.
        title: In words.
        copies: The files it can be had as.
    """

    name: str
    title: str
    copies: tuple[Copy, ...]


def sheet_of(name: str, answer: Answer) -> Sheet:
    """A sheet the answer has something for. A drawing for machines shows one disc, so each axle has its own."""
    kind, axles = KINDS[name], axles_to_draw(answer)
    copies: list[Copy] = []
    for ending in kind.formats:
        if ending in ONE_AXLE and len(axles) > 1:
            copies += [Copy(ending, axle, f"{ending.upper()} · {axle_title(axle)}") for axle in axles]
        else:
            copies.append(Copy(ending, "", ending.upper()))
    return Sheet(name, say(kind.title), tuple(copies))


@dataclass(frozen=True)
class PaperView:
    """The sheets of one job."""

    frame: Frame
    sheets: tuple[Sheet, ...]
    asked: Mapping[str, str]

    def address(self, name: str, ending: str, axle: str = "") -> str:
        """Where a sheet is, printed as asked."""
        stated = {key: value for key, value in {**self.asked, **({"axle": axle} if axle else {})}.items() if value}
        return f"/jobs/{self.frame.job_id}/paper/{name}.{ending}" + (f"?{urlencode(stated)}" if stated else "")


@dataclass(frozen=True)
class DayView:
    """The jobs of a day, to be printed together."""

    day: date
    titles: tuple[tuple[str, str], ...]
    kinds: tuple[tuple[str, str], ...]
    faults: tuple[Fault, ...] = ()
