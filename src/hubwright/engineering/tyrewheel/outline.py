"""The outline of a whole package in the hub frame, and what stands outermost at each radius.

Hub frame: origin at the centre of the face the disc sits on, along the spin axis, outboard positive. The mounting face
of the wheel lies at the disc thickness, the rim centre plane at thickness - inset (UN R124 2.6, ISO 3911).

Source: geometry (derived) in the frame of UN R124 2.6 and ISO 3911.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hubwright.engineering.tyrewheel import kernels
from hubwright.engineering.tyrewheel.sidewall import MountedTyre
from hubwright.engineering.tyrewheel.surface import Side, half_width_mm
from hubwright.engineering.tyrewheel.wheel import Part, WheelShape, wheel_parts
from hubwright.errors import OutsideValidity
from hubwright.language import say

Floats = NDArray[np.float64]
Names = NDArray[np.str_]
NOTHING = ""
FINE_MM = 0.5


@dataclass(frozen=True)
class Rib:
    """A protector rib: how far it stands out of the sidewall, where, and how broad it is, mm. On both sides."""

    radius_mm: float
    height_mm: float
    width_mm: float = 6.0


@dataclass(frozen=True)
class Package:
    """Tyre, wheel and disc. `tyre` None is a bare wheel; thickness is per side."""

    tyre: MountedTyre | None
    wheel: WheelShape
    thickness_mm: float = 0.0
    ribs: tuple[Rib, ...] = ()

    @property
    def centre_plane_mm(self) -> float:
        """Rim centre plane in the hub frame: thickness - inset."""
        return self.thickness_mm - self.wheel.inset_mm

    @property
    def estimated(self) -> tuple[str, ...]:
        """Names of the estimated figures of tyre and rim; what is missing of the wheel is in `wheel.missing`."""
        of_tyre = () if self.tyre is None else self.tyre.carcass.build.estimated
        return (*of_tyre, *self.wheel.rim.estimated)


@dataclass(frozen=True)
class Outline:
    """Largest and smallest position along the spin axis at each radius, mm in the hub frame, shape (n,).

    NaN, and an empty name, where nothing of the package lies at that radius.
    """

    radius_mm: Floats = field(repr=False)
    outer_mm: Floats = field(repr=False)
    outer_part: Names = field(repr=False)
    inner_mm: Floats = field(repr=False)
    inner_part: Names = field(repr=False)

    @property
    def outermost(self) -> tuple[float, float, str]:
        """Radius, position and name of what stands farthest outboard."""
        return self._at(int(np.nanargmax(self.outer_mm)), self.outer_mm, self.outer_part)

    @property
    def innermost(self) -> tuple[float, float, str]:
        """Radius, position and name of what stands farthest inboard."""
        return self._at(int(np.nanargmin(self.inner_mm)), self.inner_mm, self.inner_part)

    def _at(self, i: int, position: Floats, names: Names) -> tuple[float, float, str]:
        return float(self.radius_mm[i]), float(position[i]), str(names[i])


@dataclass(frozen=True)
class Standing:
    """How a wheel stands to a body line: `poke_mm` outside positive, tucked in negative; by which part and radius."""

    poke_mm: float
    part: str
    radius_mm: float

    @property
    def word(self) -> str:
        """`poke`, `tuck` or, within half a millimetre, `flush`."""
        return "flush" if abs(self.poke_mm) <= 0.5 else "poke" if self.poke_mm > 0.0 else "tuck"


def package_parts(package: Package) -> tuple[Part, ...]:
    """Every piece of the package as polylines in the hub frame, tyre sides and ribs included."""
    parts = [part.moved(package.thickness_mm) for part in wheel_parts(package.wheel)]
    if package.tyre is not None:
        radii = tyre_radii(package.tyre)
        for side, sign in (("outboard", 1.0), ("inboard", -1.0)):
            parts.append(_tyre_side(package.tyre, radii, side, sign, "tyre").moved(package.centre_plane_mm))  # type: ignore[arg-type]  # the pair is of literals
            for rib in package.ribs:
                parts.append(_rib(package.tyre, rib, sign).moved(package.centre_plane_mm))
    return tuple(parts)


def outline(package: Package, radius_mm: ArrayLike | None = None) -> Outline:
    """The outline of a package.

    Args:
        package: Tyre, wheel, disc.
        radius_mm: Ascending radii, mm; None means every half millimetre, and every corner of every part.

    Returns:
        Outer and inner position with the name of the part at each radius.

    Raises:
        OutsideValidity: for radii that do not ascend.
    """
    parts = package_parts(package)
    if radius_mm is None:
        corners = np.concatenate([part.rho_mm for part in parts])
        radii = np.unique(np.concatenate((np.arange(0.0, corners.max(), FINE_MM), corners)))
    else:
        radii = np.ascontiguousarray(np.atleast_1d(np.asarray(radius_mm, dtype=float)))
        if (np.diff(radii) < 0.0).any():
            raise OutsideValidity("Outline", "radii", say("not sorted"), "ascending radii", "geometry")
    outer, outer_part = _outermost(parts, radii, 1.0)
    inner, inner_part = _outermost(parts, radii, -1.0)
    return Outline(radii, outer, outer_part, -inner, inner_part)


def standing(
    shape: Outline,
    body_line_mm: float,
    angle_deg: float = 0.0,
    camber_deg: float = 0.0,
    radius_mm: tuple[float, float] = (0.0, math.inf),
) -> Standing:
    """Flush, tuck or poke of a wheel against a point of the body edge.

    A point of the wheel at radius rho and position y stands outboard by y cos(c) + rho cos(a) sin(c): camber c leans it
    about the hub, negative with the top inboard; a is the angle from straight up (derived).

    Args:
        shape: The outline.
        body_line_mm: Lateral distance from the hub-face centre out to the named point of the body, mm.
        angle_deg: Where around the wheel, 0 straight up; only camber makes it matter.
        camber_deg: True camber.
        radius_mm: Least and greatest radius of the wheel to look at.
    """
    lean = math.radians(camber_deg)
    out = shape.outer_mm * math.cos(lean) + shape.radius_mm * math.cos(math.radians(angle_deg)) * math.sin(lean)
    looked_at = (shape.radius_mm >= radius_mm[0]) & (shape.radius_mm <= radius_mm[1]) & ~np.isnan(out)
    if not looked_at.any():
        raise OutsideValidity("Standing", "radius", radius_mm, "radii at which the wheel has something", "geometry")
    best = int(np.argmax(np.where(looked_at, out, -math.inf)))
    return Standing(float(out[best]) - body_line_mm, str(shape.outer_part[best]), float(shape.radius_mm[best]))


def tyre_radii(tyre: MountedTyre) -> Floats:
    """Radii at which the polyline of a tyre is taken: half a millimetre apart, finer at the crown, and the readings."""
    low, (edge, _) = tyre.carcass.bead_radius_mm, tyre.tread_edge
    crown = tyre.radius_mm - (tyre.radius_mm - edge) * np.linspace(1.0, 0.0, 33) ** 2
    readings = [radius for radius, _ in (*tyre.readings_outboard, *tyre.readings_inboard)]
    extra = np.array([tyre.widest_radius_mm, *readings])
    return np.unique(np.concatenate((np.arange(low, edge, FINE_MM), crown, extra)))


def _tyre_side(tyre: MountedTyre, radii: Floats, side: Side, sign: float, name: str) -> Part:
    half = half_width_mm(tyre, radii, side)
    there = ~np.isnan(half)
    return Part(name, radii[there], sign * half[there])


def _rib(tyre: MountedTyre, rib: Rib, sign: float) -> Part:
    low, high = rib.radius_mm - rib.width_mm / 2.0, rib.radius_mm + rib.width_mm / 2.0
    radii = np.linspace(low, high, 7)
    side = _tyre_side(tyre, radii, "outboard" if sign > 0.0 else "inboard", sign, "protector rib")
    return Part(side.name, side.rho_mm, side.y_mm + sign * rib.height_mm)


def _outermost(parts: tuple[Part, ...], radii: Floats, sign: float) -> tuple[Floats, Names]:
    best = np.full(radii.size, -math.inf)
    names = np.full(radii.size, NOTHING, dtype="U32")
    for part in parts:
        y = kernels.envelope_at(np.ascontiguousarray(part.rho_mm), np.ascontiguousarray(sign * part.y_mm), radii)
        better = np.nan_to_num(y, nan=-math.inf) > best
        best[better] = y[better]
        names[better] = part.name
    return np.where(np.isinf(best), math.nan, best), names
