"""Everything about one tyre on one rim, from what is written on both and what was read."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from hubwright.checks.outlines import HABIT
from hubwright.engineering.tyrewheel.build import Build, build_from
from hubwright.engineering.tyrewheel.dimensions import Envelope, worn_diameter_mm
from hubwright.engineering.tyrewheel.from_sizes import Which, design_of, envelope_of, rim_of, tyre_of
from hubwright.engineering.tyrewheel.loaded import (
    GRAVITY_M_S2,
    estimate_vertical_stiffness_n_mm,
    under_load,
    without_air,
)
from hubwright.engineering.tyrewheel.replace import rolling_circumference_mm
from hubwright.engineering.tyrewheel.rim import Rim
from hubwright.engineering.tyrewheel.sidewall import MountedTyre
from hubwright.engineering.tyrewheel.surface import bend_to_readings, half_width_mm, section_width_read_mm
from hubwright.errors import BadInput, Fault, OutsideValidity
from hubwright.language import say
from hubwright.parts.rim_size import read_rim_size
from hubwright.parts.tyre_size import TyreSize, read_tyre_size
from hubwright.tables.tyre_indices import load_index, speed_symbol

Points = tuple[tuple[float, float], ...]
RADII_STEP_MM = 10.0
LEAST_DEPTH_MM = 1.6


@dataclass(frozen=True)
class HalfWidths:
    """Half width at one radius about the spin axis: this tyre, and the smallest and largest of its size, mm."""

    radius_mm: float
    half_width_mm: float
    smallest_mm: float | None
    largest_mm: float | None


@dataclass(frozen=True)
class LoadedSheet:
    """The tyre under a wheel load, mm; the bulge belongs to the contact, not to the arch."""

    load_kg: float
    stiffness_n_mm: float
    deflection_mm: float
    loaded_radius_mm: float
    bulge_mm: float


@dataclass(frozen=True)
class TyreSheet:
    """One tyre on one rim. Lengths in mm; ``largest`` and ``smallest`` are a new tyre of the size.

    Attributes:
        tyre, rim: As written.
        measuring_rim_width_mm: On which the size is measured.
        design_width_mm: Section width of the design on this rim, by the standard's slope.
        design_diameter_mm: Overall diameter of the design, rounded as UN R30 does.
        envelope: Least and most of both, new; its source.
        worn_diameter_mm: With 1.6 mm of tread; None where the new depth was not given.
        section_width_mm: As it stands on this rim: read, else by the length of its ply.
        free_radius_mm: Read, else the design without the standard's rounding.
        widest_radius_mm: Where the section is widest.
        tread_width_mm: Read or estimated.
        circumference_mm: Rolling.
        half_widths: From flange to tread edge.
        load_kg, speed_kmh: By index and symbol; None where not written.
        loaded: Under the wheel load given; None without one.
        flat_axle_height_mm, flat_half_width_mm: Run without air: axle over the ground, and how far the folded sidewall
            reaches out at most (upper bound).
        estimated: Figures nobody measured.
    """

    tyre: str
    rim: str
    measuring_rim_width_mm: float
    design_width_mm: float
    design_diameter_mm: float
    envelope: Envelope
    worn_diameter_mm: float | None
    section_width_mm: float
    free_radius_mm: float
    widest_radius_mm: float
    tread_width_mm: float
    circumference_mm: float
    half_widths: tuple[HalfWidths, ...]
    load_kg: float | None
    speed_kmh: float | None
    loaded: LoadedSheet | None
    flat_axle_height_mm: float
    flat_half_width_mm: float
    estimated: tuple[str, ...]


@dataclass(frozen=True)
class TyreReadings:
    """What was read of a tyre, mm, kPa, N/mm and kg; None = not read."""

    section_width_mm: float | None = None
    diameter_mm: float | None = None
    tread_width_mm: float | None = None
    new_tread_depth_mm: float | None = None
    half_widths: Points = ()
    load_kg: float | None = None
    pressure_kpa: float | None = None
    stiffness_n_mm: float | None = None


def tyre_sheet(tyre: str, rim: str, readings: TyreReadings | None = None, *, snow: bool = False) -> TyreSheet:
    """The sheet of one tyre on one rim.

    Args:
        tyre: Designation, such as ``235/40R18 95W``.
        rim: Designation, such as ``8Jx18``.
        readings: What was read; it goes before every estimate.
        snow: Snow tyres may be one per cent larger.

    Raises:
        BadInput: naming the piece of a designation that was not understood.
        OutsideValidity: where tyre and rim do not go together, or a figure is outside its formula.
    """
    read = readings or TyreReadings()
    size, rim_size = read_tyre_size(tyre), read_rim_size(rim)
    shape = rim_of(rim_size)
    design = design_of(size, rim_size.width_mm)
    build = build_from(design.nominal_width_mm, design.aspect_percent, tread_width_mm=read.tread_width_mm)
    mounted = _mounted(size, shape, build, read, "design", snow)
    points = [(radius, half) for radius, half in read.half_widths]
    bent = bend_to_readings(mounted, points) if points else mounted
    worn = None
    if read.new_tread_depth_mm is not None:
        worn = worn_diameter_mm(2 * bent.radius_mm, read.new_tread_depth_mm, LEAST_DEPTH_MM)
    unread = () if read.section_width_mm is not None else ("section_width_mm",)
    free = () if read.diameter_mm is not None else ("overall_diameter_mm",)
    flat = without_air(bent)
    return TyreSheet(
        size.text,
        rim_size.text,
        design.measuring_rim_width_mm,
        design.section_width_mm,
        design.overall_diameter_mm,
        envelope_of(design, snow),
        worn,
        section_width_read_mm(bent) if points else bent.section_width_mm,
        bent.radius_mm,
        bent.widest_radius_mm,
        build.tread_width_mm,
        rolling_circumference_mm(2 * bent.radius_mm),
        _half_widths(
            bent, _other(size, shape, build, read, "smallest", snow), _other(size, shape, build, read, "largest", snow)
        ),
        None if size.load_index is None else load_index(size.load_index).single_kg,
        None if size.speed_symbol is None else speed_symbol(size.speed_symbol).speed_kmh,
        _loaded(size, bent, read),
        flat.axle_height_mm,
        flat.half_width_most_mm,
        (*unread, *free, *build.estimated, *shape.estimated),
    )


def _mounted(size: TyreSize, rim: Rim, build: Build, read: TyreReadings, which: Which, snow: bool) -> MountedTyre:
    return tyre_of(
        size,
        rim,
        which,
        section_width_read_mm=read.section_width_mm,
        overall_diameter_read_mm=read.diameter_mm,
        build=build,
        snow=snow,
        habit=HABIT,
    )


def _other(size: TyreSize, rim: Rim, build: Build, read: TyreReadings, which: Which, snow: bool) -> MountedTyre | None:
    """The smallest or largest of the size; None where its ply does not reach over this rim."""
    try:
        return _mounted(size, rim, build, read, which, snow)
    except OutsideValidity:
        return None


def _half_widths(tyre: MountedTyre, small: MountedTyre | None, large: MountedTyre | None) -> tuple[HalfWidths, ...]:
    low, (edge, _) = tyre.carcass.bead_radius_mm, tyre.tread_edge
    first = np.ceil(low / RADII_STEP_MM) * RADII_STEP_MM
    radii = [*np.arange(first, edge, RADII_STEP_MM).tolist(), tyre.widest_radius_mm, edge]
    radii = sorted({*radii, *(radius for radius, _ in tyre.readings_outboard)})
    return tuple(HalfWidths(r, _at(tyre, r) or 0.0, _at(small, r), _at(large, r)) for r in radii)


def _at(tyre: MountedTyre | None, radius_mm: float) -> float | None:
    if tyre is None:
        return None
    half = float(half_width_mm(tyre, radius_mm)[0])
    return None if np.isnan(half) else half


def _loaded(size: TyreSize, tyre: MountedTyre, read: TyreReadings) -> LoadedSheet | None:
    if read.load_kg is None:
        return None
    stiffness = read.stiffness_n_mm
    if stiffness is None:
        if read.pressure_kpa is None or size.aspect_percent is None:
            return None
        diameter = 2 * tyre.radius_mm
        stiffness = estimate_vertical_stiffness_n_mm(
            read.pressure_kpa, size.aspect_percent, size.section_width_mm, diameter
        )
    under = under_load(tyre, read.load_kg * GRAVITY_M_S2, stiffness)
    return LoadedSheet(read.load_kg, stiffness, under.deflection_mm, under.loaded_radius_mm, under.bulge_mm)


def pairs_of(texts: Sequence[str]) -> Points:
    """Calliper readings written ``272:119.5``: radius about the spin axis, half width; mm.

    Raises:
        BadInput: naming the text that is not two numbers.
    """
    found, faults = list[tuple[float, float]](), list[Fault]()
    for text in texts:
        try:
            radius, half = (float(part) for part in text.split(":"))
            found.append((radius, half))
        except ValueError:
            faults.append(Fault(say("half width"), say("radius:half width in mm, such as 272:119.5"), repr(text)))
    if faults:
        raise BadInput(say("readings"), tuple(faults))
    return tuple(found)
