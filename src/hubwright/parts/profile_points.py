"""Points of a measured profile as text: two columns, distance from the spin axis and position along it, in mm."""

from __future__ import annotations

import csv
import math

from hubwright.errors import BadInput, Fault
from hubwright.language import say

HEADER = ("rho_mm", "y_mm")


def read_profile_points(text: str, source: str = "profile") -> tuple[tuple[float, float], ...]:
    """The points of a CSV text with the header ``rho_mm,y_mm``; y is positive outboard of the mounting face.

    Raises:
        BadInput: with every line that is not two numbers, a negative radius, or fewer than two points.
    """
    records = list(csv.reader(text.splitlines()))
    header = tuple(cell.strip() for cell in records[0]) if records else ()
    if header != HEADER:
        raise BadInput(source, (Fault("header", ",".join(HEADER), repr(",".join(header)), line=1),))
    points, faults = list[tuple[float, float]](), list[Fault]()
    for line, record in enumerate(records[1:], start=2):
        if not "".join(record).strip():
            continue
        point = _point(record)
        if point is None:
            faults.append(
                Fault("point", say("two numbers in mm, the radius not negative"), repr(",".join(record)), line=line)
            )
        else:
            points.append(point)
    if len(points) + len(faults) < 2:
        faults.append(Fault("points", say("two points and more"), str(len(points))))
    if faults:
        raise BadInput(source, tuple(faults))
    return tuple(points)


def _point(record: list[str]) -> tuple[float, float] | None:
    try:
        rho, y = (float(cell) for cell in record)
    except ValueError:
        return None
    return (rho, y) if rho >= 0.0 and math.isfinite(rho) and math.isfinite(y) else None
