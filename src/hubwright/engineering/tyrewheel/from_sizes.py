"""Tyre and rim from what is written on them, with the standard's tables behind the figures.

Source: UN R30 6.1 (dimensions), ISO 4000-1 and -2 (rims), through their tables.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from hubwright.engineering.tyrewheel import dimensions as dim
from hubwright.engineering.tyrewheel.build import Build, build_from
from hubwright.engineering.tyrewheel.rim import Rim, rim_from
from hubwright.engineering.tyrewheel.sidewall import Carcass, MountedTyre, build_carcass, mount
from hubwright.errors import OutsideValidity
from hubwright.language import say
from hubwright.parts.rim_size import RimSize
from hubwright.parts.tyre_size import TyreSize
from hubwright.quantities.text import plain
from hubwright.quantities.units import MM_PER_INCH
from hubwright.tables.rims import flange_height, rim_diameter, rim_ratios

Which = Literal["design", "largest", "smallest"]
# Measuring rim over written width of an inch flotation size: common practice, no source.
FLOTATION_RIM_RATIO = 0.8
# The bead seat of a code differs from the conventional diameter by up to 6 mm, the next half code by 12.7.
BEAD_SEAT_NEARNESS_MM = 8.0


@dataclass(frozen=True)
class Design:
    """Design dimensions of a size on one rim, mm.

    Attributes:
        nominal_width_mm: S1, or the written width of a flotation size.
        aspect_percent: Ra, or the one that follows from a flotation size.
        section_width_mm: Design section width on `rim_width_mm`, not rounded.
        section_height_mm: H, by the rounding habit.
        rim_diameter_mm: d, by the rounding habit.
        overall_diameter_mm: D.
        measuring_rim_width_mm: The rim on which the size is measured.
        rim_width_mm: The rim this design is for.
        habit: Which rounding habit.
    """

    nominal_width_mm: float
    aspect_percent: float
    section_width_mm: float
    section_height_mm: float
    rim_diameter_mm: float
    overall_diameter_mm: float
    measuring_rim_width_mm: float
    rim_width_mm: float
    habit: dim.Habit

    @property
    def free_radius_mm(self) -> float:
        """Half the overall diameter."""
        return self.overall_diameter_mm / 2.0


def conventional_rim_diameter_mm(rim_code: float, habit: dim.Habit = "r30") -> float:
    """Rim diameter d that goes into D = d + 2 H: the table of UN R30 6.1.2, or 25.4 mm per inch, mm.

    Raises:
        OutsideValidity: by the `r30` habit for a code the table does not have.
        BadInput: for a whole code no table knows.
    """
    if habit == "decimal_inch":
        return rim_code * MM_PER_INCH
    known = rim_diameter(int(rim_code)).nominal_mm if rim_code == int(rim_code) else None
    if known is None:
        raise OutsideValidity("Overall diameter", "rim code", rim_code, "the codes of UN R30 6.1.2", "UN R30 6.1.2")
    return known


def design_of(size: TyreSize, rim_width_mm: float | None = None, habit: dim.Habit = "r30") -> Design:
    """Design dimensions of a size, on its measuring rim or on another.

    Args:
        size: The tyre size.
        rim_width_mm: Rim between the flanges; None means the measuring rim.
        habit: Rounding habit, see `dimensions`.

    Raises:
        OutsideValidity: for sizes or rims outside the tables, or a rim more than two inches from the measuring rim.
    """
    d = conventional_rim_diameter_mm(size.rim_code, habit)
    S1 = size.section_width_mm
    if size.overall_diameter_mm is not None:
        D = size.overall_diameter_mm
        H = (D - d) / 2.0
        aspect = 100.0 * H / S1
        measuring = dim.measuring_rim_width_mm(S1, FLOTATION_RIM_RATIO)
        S = S1
    else:
        aspect = size.aspect_percent or 0.0
        ratios = rim_ratios(aspect)
        H = dim.section_height_mm(S1, aspect, habit)
        D = dim.overall_diameter_mm(H, d)
        measuring = dim.measuring_rim_width_mm(S1, ratios.measuring_ratio)
        S = dim.design_section_width_mm(S1, measuring, ratios.theoretical_ratio)
    rim = measuring if rim_width_mm is None else rim_width_mm
    return Design(S1, aspect, dim.section_width_on_rim_mm(S, measuring, rim), H, d, D, measuring, rim, habit)


def envelope_of(design: Design, snow: bool = False) -> dim.Envelope:
    """Smallest and largest new tyre of this design on its rim (`dimensions.r30_envelope`)."""
    return dim.r30_envelope(design.section_width_mm, design.section_height_mm, design.rim_diameter_mm, snow)


def rim_of(
    size: RimSize, *, flange_radius_read_mm: float | None = None, overall_width_read_mm: float | None = None
) -> Rim:
    """The rim of a size: bead seat and the larger J-flange height of ISO 4000-2, overruled by readings.

    Raises:
        OutsideValidity: for a rim code without a bead seat diameter in the table.
        BadInput: for a code or flange no table knows.
    """
    code = size.diameter_code
    seat = rim_diameter(int(code)).bead_seat_mm if code == int(code) else None
    if seat is None:
        raise OutsideValidity("Rim shape", "rim code", code, "the codes of ISO 4000-2", "ISO 4000-2")
    letter = size.flange if size.flange in ("J", "JJ", "B") else "J"
    height = flange_height(letter).high_mm
    return rim_from(
        size.width_mm,
        seat,
        height,
        flange_radius_read_mm=flange_radius_read_mm,
        overall_width_read_mm=overall_width_read_mm,
    )


def carcass_of(
    size: TyreSize,
    rim: Rim,
    which: Which = "design",
    *,
    section_width_read_mm: float | None = None,
    overall_diameter_read_mm: float | None = None,
    build: Build | None = None,
    habit: dim.Habit = "r30",
    snow: bool = False,
) -> Carcass:
    """What a tyre of this size keeps on every rim.

    Width comes from the reading on this rim, else from the design on the measuring rim; diameter from the reading, else
    the design. `largest` and `smallest` take the unmeasured ones from the envelope. Sizes marked C, LT or T are
    taken by the same formulas (UN R54 and R30 print them in tables).

    Raises:
        OutsideValidity: for a tyre that is not radial or a rim of another diameter; else see `design_of` and
            `sidewall.build_carcass`.
    """
    design = design_of(size, None, habit)
    if size.construction != "R":
        raise OutsideValidity("Sidewall membrane", "construction", size.construction, "radial plies (R)", "derived")
    if abs(rim.bead_seat_diameter_mm - design.rim_diameter_mm) > BEAD_SEAT_NEARNESS_MM:
        valid = say("rims whose bead seat is near {diameter} mm", diameter=plain(design.rim_diameter_mm))
        raise OutsideValidity("Tyre on rim", "bead seat", rim.bead_seat_diameter_mm, valid, "ISO 4000-2, UN R30 6.1.2")
    envelope = envelope_of(design, snow)
    widths = {"design": design.section_width_mm, "largest": envelope.width_most_mm, "smallest": envelope.width_least_mm}
    diameters = {
        "design": design.overall_diameter_mm,
        "largest": envelope.diameter_most_mm,
        "smallest": envelope.diameter_least_mm,
    }
    known_rim = design.measuring_rim_width_mm if section_width_read_mm is None else rim.width_mm
    return build_carcass(
        widths[which] if section_width_read_mm is None else section_width_read_mm,
        known_rim,
        diameters[which] if overall_diameter_read_mm is None else overall_diameter_read_mm,
        rim.flange_radius_mm,
        build or build_from(design.nominal_width_mm, design.aspect_percent),
    )


def tyre_of(
    size: TyreSize,
    rim: Rim,
    which: Which = "design",
    *,
    section_width_read_mm: float | None = None,
    overall_diameter_read_mm: float | None = None,
    build: Build | None = None,
    habit: dim.Habit = "r30",
    snow: bool = False,
) -> MountedTyre:
    """The mounted shape of a size on a rim: `carcass_of`, then the ply keeps its length on this rim (`sidewall.mount`).

    Raises:
        OutsideValidity: see `carcass_of` and `sidewall.mount`.
    """
    carcass = carcass_of(
        size,
        rim,
        which,
        section_width_read_mm=section_width_read_mm,
        overall_diameter_read_mm=overall_diameter_read_mm,
        build=build,
        habit=habit,
        snow=snow,
    )
    return mount(carcass, rim.width_mm)
