"""The wheel as polylines in the half-plane (distance from the spin axis, position along it).

Positions are counted from the mounting face of the wheel, outboard positive, so a disc moves the whole wheel rigidly.
Nothing unmeasured is invented but the rim flanges and, when asked for, an estimated barrel; what is missing is named.

Source: geometry of what was measured (derived); estimates are common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from hubwright.engineering.tyrewheel.rim import FLANGE_DEPTH_MM, Rim
from hubwright.errors import OutsideValidity
from hubwright.language import say
from hubwright.parts.hole_circle import HoleCircle
from hubwright.quantities.text import plain

Floats = NDArray[np.float64]
Points = tuple[tuple[float, float], ...]
BARREL_WALL_MM = 6.0
WELL_DEPTH_MM = 17.3


@dataclass(frozen=True)
class Part:
    """One named piece of the outline: points (rho, y) of a polyline, mm."""

    name: str
    rho_mm: Floats
    y_mm: Floats

    def moved(self, along_mm: float) -> Part:
        """The same piece farther outboard."""
        return replace(self, y_mm=self.y_mm + along_mm)


@dataclass(frozen=True)
class Weight:
    """A balance weight stuck to the inside of the barrel, mm; `y_mm` is its middle, from the mounting face."""

    y_mm: float
    width_mm: float = 20.0
    thickness_mm: float = 5.0


@dataclass(frozen=True)
class WheelShape:
    """A wheel; None means nobody measured it. Points are (rho, y) from the mounting face, mm.

    Attributes:
        rim: The rim.
        inset_mm: Rim centre plane inboard of the mounting face, positive.
        pad_diameter_mm: Outer diameter of the mounting face.
        bore_diameter_mm: Centre bore.
        bore_chamfer_mm: Chamfer of the bore at the mounting face (45 degrees).
        bore_depth_mm: How deep the bore is cylindrical, from the mounting face.
        holes: Hole circle.
        spoke_face: Outermost line of the spokes, seen from outside.
        spoke_back: The spokes' side towards the brake.
        cap: Outermost line of the centre cap.
        valve: Outermost line of the valve.
        barrel: Inner surface of the barrel, from outboard to inboard.
        weights: Weights stuck in the barrel.
        measured: Further profiles taken off the wheel, by name.
    """

    rim: Rim
    inset_mm: float
    pad_diameter_mm: float | None = None
    bore_diameter_mm: float | None = None
    bore_chamfer_mm: float | None = None
    bore_depth_mm: float | None = None
    holes: HoleCircle | None = None
    spoke_face: Points | None = None
    spoke_back: Points | None = None
    cap: Points | None = None
    valve: Points | None = None
    barrel: Points | None = None
    weights: tuple[Weight, ...] = ()
    measured: tuple[tuple[str, Points], ...] = ()

    @property
    def missing(self) -> tuple[str, ...]:
        """Names of the lines nobody measured."""
        lines = ("pad_diameter_mm", "bore_diameter_mm", "spoke_face", "spoke_back", "cap", "valve", "barrel")
        return tuple(name for name in lines if getattr(self, name) is None)


def wheel_parts(wheel: WheelShape) -> tuple[Part, ...]:
    """Every known piece of the wheel, from its mounting face: flanges, spokes, cap, valve, pad, bore, barrel, weights.

    Raises:
        OutsideValidity: for a weight off the barrel, or weights without one.
    """
    named = [("spoke", wheel.spoke_face), ("spoke back", wheel.spoke_back), ("cap", wheel.cap), ("valve", wheel.valve)]
    named += [("barrel", wheel.barrel), *wheel.measured]
    parts = [*_flanges(wheel), *(part_from(name, points) for name, points in named if points)]
    if wheel.pad_diameter_mm is not None:
        inner = (wheel.bore_diameter_mm or 0.0) / 2.0 + (wheel.bore_chamfer_mm or 0.0)
        parts.append(part_from("pad", ((inner, 0.0), (wheel.pad_diameter_mm / 2.0, 0.0))))
    if wheel.bore_diameter_mm is not None:
        parts.append(_bore(wheel.bore_diameter_mm / 2.0, wheel.bore_chamfer_mm or 0.0, wheel.bore_depth_mm))
    return (*parts, *(_weight(wheel, weight) for weight in wheel.weights))


def brake_side_parts(wheel: WheelShape) -> tuple[Part, ...]:
    """What faces the brake: spoke back, pad, barrel, weights, and profiles whose name starts with `brake side`."""
    names = ("spoke back", "pad", "barrel", "weight")
    return tuple(part for part in wheel_parts(wheel) if part.name in names or part.name.startswith("brake side"))


def part_from(name: str, points: Points) -> Part:
    """A named polyline from points (rho, y), mm.

    Raises:
        OutsideValidity: for a negative radius or fewer than two points.
    """
    rho, y = np.array([p[0] for p in points], dtype=float), np.array([p[1] for p in points], dtype=float)
    if rho.size < 2:
        raise OutsideValidity(
            "Wheel profile", say("number of points of {name}", name=name), rho.size, "2 and more", "geometry"
        )
    if (rho < 0.0).any():
        raise OutsideValidity(
            "Wheel profile", say("radius of {name}", name=name), float(rho.min()), "0 and more", "geometry"
        )
    return Part(name, rho, y)


def estimate_barrel(
    rim: Rim, inset_mm: float, well_from_outboard_mm: float = 35.0, well_width_mm: float = 45.0
) -> Points:
    """A barrel inside for a wheel nobody has measured, with its drop well near the outboard side. A guess.

    Bead seats carry 6 mm of metal (guess); the well lies 17.3 mm deeper than the bead seats (ISO 4000-2 least well
    depth of the J contour, from memory) with walls of 45 degrees. Points run from outboard to inboard.
    """
    outer, inner = -inset_mm + rim.width_mm / 2.0, -inset_mm - rim.width_mm / 2.0
    seat = rim.bead_seat_diameter_mm / 2.0 - BARREL_WALL_MM
    well = seat - WELL_DEPTH_MM
    start, end = outer - well_from_outboard_mm, outer - well_from_outboard_mm - well_width_mm
    points = ((seat, outer), (seat, start + WELL_DEPTH_MM), (well, start), (well, end), (seat, end - WELL_DEPTH_MM))
    return (*points, (seat, min(inner, end - WELL_DEPTH_MM - 1.0)))


def barrel_radius_mm(barrel: Points, y_mm: float) -> float:
    """Inner radius of the barrel at a position along the axis: the smallest where the line passes more than once, mm.

    Raises:
        OutsideValidity: beside the barrel.
    """
    found: list[float] = []
    for (r0, y0), (r1, y1) in pairwise(barrel):
        if min(y0, y1) <= y_mm <= max(y0, y1):
            found += [min(r0, r1)] if y0 == y1 else [r0 + (r1 - r0) * (y_mm - y0) / (y1 - y0)]
    if not found:
        low, high = min(y for _, y in barrel), max(y for _, y in barrel)
        raise OutsideValidity(
            "Barrel", "position", y_mm, say("{low} to {high} mm", low=plain(low), high=plain(high)), "geometry"
        )
    return min(found)


def _flanges(wheel: WheelShape) -> tuple[Part, Part]:
    rim = wheel.rim
    top, low = rim.flange_radius_mm, rim.flange_radius_mm - FLANGE_DEPTH_MM
    outer, inner = -wheel.inset_mm + rim.overall_width_mm / 2.0, -wheel.inset_mm - rim.overall_width_mm / 2.0
    return (
        part_from("rim flange", ((low, outer), (top, outer))),
        part_from("rim flange", ((low, inner), (top, inner))),
    )


def _bore(radius_mm: float, chamfer_mm: float, depth_mm: float | None) -> Part:
    deep = max(chamfer_mm, depth_mm if depth_mm is not None else chamfer_mm)
    return part_from("bore", ((radius_mm + chamfer_mm, 0.0), (radius_mm, chamfer_mm), (radius_mm, deep)))


def _weight(wheel: WheelShape, weight: Weight) -> Part:
    if wheel.barrel is None:
        raise OutsideValidity("Balance weight", "barrel", None, "a measured or estimated barrel", "geometry")
    y0, y1 = weight.y_mm - weight.width_mm / 2.0, weight.y_mm + weight.width_mm / 2.0
    seat = min(barrel_radius_mm(wheel.barrel, y) for y in (y0, weight.y_mm, y1))
    low = seat - weight.thickness_mm
    return part_from("weight", ((seat, y0), (low, y0), (low, y1), (seat, y1)))
