"""Screw threads from their designation: ``M14x1.5`` by the ISO formulas, ``1/2-20`` from the UNF table."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from hubwright.errors import BadInput, Fault
from hubwright.language import say
from hubwright.quantities.text import plain
from hubwright.quantities.units import MM_PER_INCH
from hubwright.tables.cells import number_of, text_of
from hubwright.tables.loader import Row, read_table

METRIC_SOURCE = "ISO 724 and ISO 68-1 (diameters), ISO 898-1 (nominal stress area)"
_NUMBER = r"\d+(?:[.,]\d+)?"
_METRIC = re.compile(rf"(?i)\s*M\s*({_NUMBER})\s*(?:[-x×*]\s*({_NUMBER}))?\s*(.*?)\s*")
_INCH = re.compile(r"(?i)\s*(\d+/\d+)\s*\"?\s*(?:[-x×]\s*(\d+))?\s*(UNF)?\s*(.*?)\s*")


@dataclass(frozen=True)
class Thread:
    """One thread at its basic size.

    Attributes:
        designation: Written the one way the program writes it, such as ``M14x1.5`` or ``1/2-20``.
        d_mm: Major diameter.
        pitch_mm: Pitch.
        d2_mm: Pitch diameter.
        d3_mm: Minor diameter of the external thread.
        minor_internal_mm: Minor diameter of the internal thread, D1.
        stress_area_mm2: Nominal stress area.
        tpi: Threads per inch; None for a metric thread.
        source: Where the figures come from.
    """

    designation: str
    d_mm: float
    pitch_mm: float
    d2_mm: float
    d3_mm: float
    minor_internal_mm: float
    stress_area_mm2: float
    tpi: int | None
    source: str


def known_threads() -> tuple[str, ...]:
    """Designations of the tables; `thread` takes any other metric designation with a pitch as well."""
    return tuple(text_of(row, "thread") for name in ("threads_metric", "threads_unf") for row in read_table(name).rows)


def thread(text: str) -> Thread:
    """The thread a designation stands for.

    Metric threads of any diameter and pitch are computed (see `metric_thread`); inch threads come from the UNF table.
    ``M14 x 1,5``, ``M14-1.5``, ``1/2-20 UNF`` and ``1/2 UNF`` are understood. A metric thread without a pitch is
    refused: the standard means the coarse pitch by that, people at the car mostly mean the fine one in their hand.

    Raises:
        BadInput: naming the part not understood and listing the threads known.
    """
    if match := _METRIC.fullmatch(text):
        size, pitch, rest = match.groups()
        if rest:
            raise _refused(text, say("nothing after the pitch"), rest)
        if pitch is None:
            alike = [name for name in known_threads() if name.startswith(f"M{size}x")]
            raise _refused(text, say("a pitch after the diameter"), say("only {given}", given=f"M{size}"), alike)
        return metric_thread(_decimal(size), _decimal(pitch))
    if match := _INCH.fullmatch(text):
        return _inch_thread(text, *match.groups())
    raise _refused(text, say("M and a diameter, or a fraction of an inch"), text)


def metric_thread(d_mm: float, pitch_mm: float) -> Thread:
    """Basic ISO metric thread of a diameter and a pitch.

    With ``H = P sqrt(3)/2`` (ISO 68-1): ``d2 = d - 2 (3/8) H``, ``D1 = d - 2 (5/8) H`` (ISO 724),
    ``d3 = D1 - H/6`` and ``As = pi/4 ((d2 + d3)/2)^2`` (ISO 898-1).

    Raises:
        BadInput: for a diameter outside 1 to 300 mm (scope of ISO 261, from memory), or a pitch that is not between
            1/100 and 1/4 of the diameter (all pitches of ISO 261 lie within, from memory), which is a slip of the pen.
    """
    name = f"M{d_mm:g}x{pitch_mm:g}"
    if not 1 <= d_mm <= 300:
        raise _refused(name, say("a diameter of 1 to 300 mm"), f"{d_mm:g}")
    if not 0.01 * d_mm <= pitch_mm <= 0.25 * d_mm:
        raise _refused(
            name, say("a pitch of {low} to {high} mm", low=plain(0.01 * d_mm), high=plain(0.25 * d_mm)), f"{pitch_mm:g}"
        )
    height_mm = pitch_mm * math.sqrt(3) / 2
    d2_mm = d_mm - 2 * 3 / 8 * height_mm
    minor_internal_mm = d_mm - 2 * 5 / 8 * height_mm
    d3_mm = minor_internal_mm - height_mm / 6
    stress_area_mm2 = math.pi / 4 * ((d2_mm + d3_mm) / 2) ** 2
    return Thread(name, d_mm, pitch_mm, d2_mm, d3_mm, minor_internal_mm, stress_area_mm2, None, METRIC_SOURCE)


def turns(length_mm: float, of: Thread) -> float:
    """Turns of engagement that a length of thread stands for: length divided by pitch."""
    return length_mm / of.pitch_mm


def _inch_thread(text: str, size: str, threads_per_inch: str | None, series: str | None, rest: str) -> Thread:
    if rest:
        raise _refused(text, say("nothing after the threads per inch but UNF"), rest)
    alike = [name for name in known_threads() if name.startswith(f"{size}-")]
    if threads_per_inch is None and series is None:
        raise _refused(
            text, say("the threads per inch, or UNF, after the diameter"), say("only {given}", given=size), alike
        )
    for row in read_table("threads_unf").rows:
        name = text_of(row, "thread")
        if name in alike and threads_per_inch in (None, name.split("-")[1]):
            return _unf_row(name, row)
    given = size if threads_per_inch is None else f"{size}-{threads_per_inch}"
    raise _refused(text, say("a thread of the UNF table"), given, alike)


def _unf_row(name: str, row: Row) -> Thread:
    tpi = int(number_of(row, "threads_per_in"))
    return Thread(
        designation=name,
        d_mm=number_of(row, "major_in") * MM_PER_INCH,
        pitch_mm=MM_PER_INCH / tpi,
        d2_mm=number_of(row, "pitch_diameter_in") * MM_PER_INCH,
        d3_mm=number_of(row, "minor_external_in") * MM_PER_INCH,
        minor_internal_mm=number_of(row, "minor_internal_in") * MM_PER_INCH,
        stress_area_mm2=number_of(row, "stress_area_in2") * MM_PER_INCH**2,
        tpi=tpi,
        source=read_table("threads_unf").source,
    )


def _decimal(text: str) -> float:
    return float(text.replace(",", "."))


def _refused(text: str, wanted: str, part: str, alike: list[str] | None = None) -> BadInput:
    known = ", ".join(alike or known_threads())
    todo = say("Known threads: {known}; other metric ones with their pitch, such as M12x1.5.", known=known)
    return BadInput(say("thread {text}", text=repr(text)), (Fault("thread", wanted, repr(part), todo),))
