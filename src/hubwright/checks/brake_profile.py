"""Room between wheel and caliper from their measured outlines, where nobody put a feeler in between."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from hubwright.checks.outlines import wheel_shape
from hubwright.engineering.tyrewheel.wheel import brake_side_parts
from hubwright.errors import HubwrightError
from hubwright.parts.corner import Brake
from hubwright.parts.wheel import Wheel

Floats = NDArray[np.float64]
Points = tuple[tuple[float, float], ...]
STEP_MM = 0.5
"""Distance between the places of the outlines that are held against each other."""
BARREL_SIDE = ("barrel", "weight")


@dataclass(frozen=True)
class BrakeRoom:
    """Wheel and caliper as polylines about the spin axis; the wheel counts from its mounting face, mm."""

    caliper_rho_mm: Floats
    caliper_y_mm: Floats
    spoke_back: tuple[Points, ...]
    barrel: tuple[Points, ...]

    def axial_mm(self, thickness_mm: float) -> float:
        """Least room along the axis from the caliper to the spokes; negative where they overlap."""
        spokes = [_at(line, self.caliper_rho_mm, over=0) for line in self.spoke_back]
        room = np.fmin.reduce(spokes) + thickness_mm - self.caliper_y_mm
        return float(np.nanmin(room)) if not np.isnan(room).all() else float("inf")

    def radial_mm(self, thickness_mm: float) -> float:
        """Least room square to the axis from the caliper to barrel and weights; negative where they overlap."""
        inside = [_at(line, self.caliper_y_mm - thickness_mm, over=1) for line in self.barrel]
        room = np.fmin.reduce(inside) - self.caliper_rho_mm
        return float(np.nanmin(room)) if not np.isnan(room).all() else float("inf")


def brake_room(wheel: Wheel, brake: Brake) -> BrakeRoom | None:
    """What is needed to reckon the room over the caliper; None where caliper, spoke back or barrel are not known."""
    if brake.caliper_mm is None:
        return None
    try:
        parts = brake_side_parts(wheel_shape(wheel))
    except HubwrightError:
        return None
    lines = [(part.name, tuple(zip(part.rho_mm.tolist(), part.y_mm.tolist(), strict=True))) for part in parts]
    back = tuple(line for name, line in lines if name == "spoke back")
    barrel = tuple(line for name, line in lines if name in BARREL_SIDE)
    if not back or not barrel:
        return None
    places = _dense(brake.caliper_mm)
    return BrakeRoom(places[:, 0], places[:, 1], back, barrel)


def _dense(points: Points) -> Floats:
    """Places along a polyline, its corners among them."""
    found = [np.array([points[0]])]
    for (r0, y0), (r1, y1) in pairwise(points):
        count = max(2, int(np.ceil(np.hypot(r1 - r0, y1 - y0) / STEP_MM)) + 1)
        found.append(np.column_stack((np.linspace(r0, r1, count)[1:], np.linspace(y0, y1, count)[1:])))
    return np.concatenate(found)


def _at(line: Points, places: Floats, *, over: int) -> Floats:
    """The other coordinate of a polyline over one of them, the least where it passes twice; NaN beside it."""
    out = np.full(places.size, np.nan)
    other = 1 - over
    for first, second in pairwise(line):
        a, b = (first, second) if first[over] <= second[over] else (second, first)
        there = (places >= a[over]) & (places <= b[over])
        if not there.any():
            continue
        run = b[over] - a[over]
        share = (places[there] - a[over]) / run if run else np.zeros(int(there.sum()))
        value = a[other] + share * (b[other] - a[other]) if run else np.full(share.size, min(a[other], b[other]))
        out[there] = np.fmin(out[there], value)
    return out
