"""The wheel and tyre a job carries as a closed outline in the half-plane, for the clearance map."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from hubwright.errors import BadInput, HubwrightError
from hubwright.language import say
from hubwright.parts.rim_size import read_rim_size
from hubwright.parts.tyre_size import read_tyre_size
from hubwright.parts.wheel import WheelSet
from hubwright.quantities.text import joined

if TYPE_CHECKING:
    from hubwright.engineering.envelope.outline import Outline

Floats = np.ndarray[Any, np.dtype[np.float64]]

THIN_MM = 0.05
"""Corners of the outline nearer than this to the line through their neighbours are dropped."""


def package_outline(wheel_set: WheelSet) -> tuple[Outline, str] | None:
    """The outline from bead to tread in the hub frame (mounting face at 0), and what it rests on.

    The outline is the convex hull of both half widths from the rim flange up: what little a hollow beside the flange
    would give is not counted on. A tyre nobody measured is taken as the largest its size allows; half widths read overrule the model. The spokes and
    the barrel are not in it: the brake has its own check. None where size or rim is not known.
    """
    from hubwright.engineering.envelope.outline import Outline  # noqa: PLC0415 - compiled sums
    from hubwright.engineering.tyrewheel.from_sizes import rim_of, tyre_of  # noqa: PLC0415
    from hubwright.engineering.tyrewheel.outline import Package, outline  # noqa: PLC0415
    from hubwright.engineering.tyrewheel.surface import bend_to_readings  # noqa: PLC0415
    from hubwright.engineering.tyrewheel.wheel import WheelShape  # noqa: PLC0415

    tyre, wheel = wheel_set.tyre, wheel_set.wheel
    if tyre.designation is None or wheel.rim is None:
        return None
    try:
        size, rim_size = read_tyre_size(tyre.designation), read_rim_size(wheel.rim)
        overall = wheel.overall_width_mm.value if wheel.overall_width_mm else None
        rim = rim_of(rim_size, overall_width_read_mm=overall)
        width = tyre.section_width_mm.value if tyre.section_width_mm else None
        diameter = 2.0 * tyre.free_radius_mm.value if tyre.free_radius_mm else None
        mounted = tyre_of(size, rim, "largest", section_width_read_mm=width, overall_diameter_read_mm=diameter)
        if tyre.half_width:
            mounted = bend_to_readings(mounted, [(one.radius_mm, one.half_width_mm) for one in tyre.half_width])
    except (BadInput, HubwrightError):
        return None
    inset = wheel.inset_mm.value if wheel.inset_mm else rim_size.inset_mm or 0.0
    shape = outline(Package(mounted, WheelShape(rim, inset)))
    there = np.isfinite(shape.outer_mm) & (shape.radius_mm >= rim.flange_radius_mm - 1.0)
    rho, outer, inner = shape.radius_mm[there], shape.outer_mm[there], shape.inner_mm[there]
    rho, y = np.concatenate([rho, rho[::-1]]), np.concatenate([outer, inner[::-1]])
    ring = _hull(rho, y)
    rho, y = rho[ring], y[ring]
    keep = _corners(rho, y)
    read = [
        words
        for words, given in (
            (say("width"), width),
            (say("diameter"), diameter),
            (say("half widths"), tyre.half_width),
        )
        if given
    ]
    places = {"tyre": tyre.designation, "rim": wheel.rim, "read": joined(read)}
    words = (
        say("{tyre} on {rim}, {read} read", **places)
        if read
        else say("{tyre} on {rim}, largest its size allows", **places)
    )
    return Outline(rho[keep], y[keep]), words


def inset_of(wheel_set: WheelSet) -> float:
    """Inset of the wheel; 0 where nobody said (the hub frame then begins at the rim's centre plane)."""
    if wheel_set.wheel.inset_mm is not None:
        return wheel_set.wheel.inset_mm.value
    try:
        size = read_rim_size(wheel_set.wheel.rim) if wheel_set.wheel.rim else None
    except BadInput:
        return 0.0
    return size.inset_mm or 0.0 if size else 0.0


def _hull(rho: Floats, y: Floats) -> list[int]:
    """Corners of the convex hull, in order round it (Andrew's monotone chain, 1979)."""
    order = sorted(range(len(rho)), key=lambda i: (rho[i], y[i]))
    chains: list[list[int]] = []
    for run in (order, order[::-1]):
        chain: list[int] = []
        for i in run:
            while len(chain) > 1 and _left(rho, y, chain[-2], chain[-1], i) <= 0.0:
                chain.pop()
            chain.append(i)
        chains.append(chain[:-1])
    return [*chains[0], *chains[1]]


def _left(rho: Floats, y: Floats, a: int, b: int, c: int) -> float:
    return float((rho[b] - rho[a]) * (y[c] - y[a]) - (y[b] - y[a]) * (rho[c] - rho[a]))


def _corners(rho: Floats, y: Floats) -> list[int]:
    """Corners worth keeping: recursive halving at the farthest point (Ramer 1972; Douglas and Peucker 1973)."""
    keep, stack = {0, len(rho) - 1}, [(0, len(rho) - 1)]
    while stack:
        i, j = stack.pop()
        if j - i < 2:
            continue
        a, b = np.array([rho[i], y[i]]), np.array([rho[j], y[j]])
        p = np.column_stack([rho[i + 1 : j], y[i + 1 : j]])
        along = b - a
        t = np.clip(((p - a) @ along) / max(float(along @ along), 1e-12), 0.0, 1.0)
        away = np.linalg.norm(p - a - t[:, None] * along, axis=1)
        k = int(away.argmax())
        if away[k] > THIN_MM:
            middle = i + 1 + k
            keep.add(middle)
            stack += [(i, middle), (middle, j)]
    return sorted(keep)
