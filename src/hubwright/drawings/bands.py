"""Which thicknesses pass every window at once, for one kind of disc."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from hubwright.findings import Interval, Window
from hubwright.language import say
from hubwright.quantities.rounding import down, up
from hubwright.quantities.text import figure, step_mm, unit

LAW = "law"


@dataclass(frozen=True)
class Band:
    """Thicknesses that pass every window of one kind of disc.

    Attributes:
        kind: plain, lipped or bolted.
        intervals: Ascending; empty = none.
        settled: False where a window other than law is not known: then nothing here is valid yet, only not ruled out.
        law_open: True where a law window is not known; law that cannot be answered leaves the fit standing.
    """

    kind: str
    intervals: tuple[Interval, ...]
    settled: bool
    law_open: bool


def bands_of(windows: Iterable[Window], kinds: Iterable[str]) -> tuple[Band, ...]:
    """One band for each kind of disc."""
    every = tuple(windows)
    return tuple(_band(every, kind) for kind in kinds)


def _band(windows: tuple[Window, ...], kind: str) -> Band:
    asked = [window for window in windows if window.disc in ("any", kind)]
    left: tuple[Interval, ...] = (Interval(0.0, None),)
    for window in asked:
        left = common(left, window.intervals)
    return Band(
        kind,
        left,
        bool(asked) and all(window.known for window in asked if window.question != LAW),
        any(not window.known for window in asked if window.question == LAW),
    )


def common(first: Iterable[Interval], second: Iterable[Interval]) -> tuple[Interval, ...]:
    """What two sets of intervals share, ascending; single points count."""
    others = tuple(second)
    found = set[tuple[float, float]]()
    for one in first:
        for other in others:
            low = max(_low(one), _low(other))
            high = min(_high(one), _high(other))
            if low <= high:
                found.add((low, high))
    return tuple(
        Interval(None if low == -math.inf else low, None if high == math.inf else high) for low, high in sorted(found)
    )


def words(intervals: Iterable[Interval]) -> str:
    """Intervals in words, rounded to the safe side: ``0 to 2.5 and 3.5 to 5.5 mm``."""
    parts = []
    for interval in intervals:
        low = max(_low(interval), 0.0)
        high = _high(interval)
        start = "0" if low == 0 else figure(up(low, step_mm()))
        parts.append(
            say("from {start}", start=start)
            if high == math.inf
            else say("{start} to {high}", start=start, high=figure(down(high, step_mm())))
        )
    if not parts:
        return say("none")
    return (
        say("{ranges} and {last} {unit}", ranges=", ".join(parts[:-1]), last=parts[-1], unit=unit())
        if len(parts) > 1
        else f"{parts[0]} {unit()}"
    )


def _low(interval: Interval) -> float:
    return -math.inf if interval.low_mm is None else interval.low_mm


def _high(interval: Interval) -> float:
    return math.inf if interval.high_mm is None else interval.high_mm
