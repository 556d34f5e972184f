"""What the pages of paper show."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from urllib.parse import urlencode

from hubwright.errors import Fault
from hubwright.web.frame import Frame


@dataclass(frozen=True)
class Sheet:
    """One sheet to print.

    Attributes:
        name: As it is asked for.
        title: In words.
        files: Endings it can be had in, such as pdf, csv.
    """

    name: str
    title: str
    files: tuple[str, ...]


@dataclass(frozen=True)
class PaperView:
    """The sheets of one job."""

    frame: Frame
    sheets: tuple[Sheet, ...]
    asked: Mapping[str, str]

    def address(self, name: str, ending: str) -> str:
        """Where a sheet is, printed as asked."""
        stated = {key: value for key, value in self.asked.items() if value}
        return f"/jobs/{self.frame.job_id}/paper/{name}.{ending}" + (f"?{urlencode(stated)}" if stated else "")


@dataclass(frozen=True)
class DayView:
    """The jobs of a day, to be printed together."""

    day: date
    titles: tuple[tuple[str, str], ...]
    kinds: tuple[tuple[str, str], ...]
    faults: tuple[Fault, ...] = ()
