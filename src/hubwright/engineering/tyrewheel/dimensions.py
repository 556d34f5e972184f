"""Design dimensions of a tyre (UN R30 6.1) and the envelope a new tyre may have. Plain numbers; no text is read here.

Two rounding habits are in use and both are kept:

* ``r30``: the section height is rounded to 1 mm and the rim counts with its conventional diameter d in mm (16 -> 406);
* ``decimal_inch``: nothing is rounded and the rim counts 25.4 mm per inch (16 -> 406.4).

205/60R16 has a free radius of 326.0 mm by the first and 326.2 mm by the second.

Source: UN R30 6.1; TRA year book where named.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from hubwright.errors import OutsideValidity
from hubwright.language import marked, say
from hubwright.quantities.text import plain
from hubwright.quantities.units import MM_PER_INCH

Habit = Literal["r30", "decimal_inch"]

WIDTH_PER_RIM_WIDTH = 0.4
R30_WIDTH = "UN R30 6.1.1.1"


@dataclass(frozen=True)
class Envelope:
    """Least and greatest section width and overall diameter, mm, of tyres of one size; `source` says by which rule."""

    width_least_mm: float
    width_most_mm: float
    diameter_least_mm: float
    diameter_most_mm: float
    source: str


def theoretical_rim_width_mm(nominal_width_mm: float, theoretical_ratio: float) -> float:
    """The rim width A1 = x S1 for which the nominal section width S1 is meant (UN R30 6.1.1.1; x by ISO 4000-1), mm."""
    return theoretical_ratio * nominal_width_mm


def measuring_rim_width_mm(nominal_width_mm: float, measuring_ratio: float) -> float:
    """The rim width A on which the size is measured: K1 S1, rounded to half an inch (ISO 4000-1), mm."""
    halves = math.floor(measuring_ratio * nominal_width_mm / MM_PER_INCH * 2.0 + 0.5)
    return halves / 2.0 * MM_PER_INCH


def design_section_width_mm(nominal_width_mm: float, rim_width_mm: float, theoretical_ratio: float) -> float:
    """Section width of the design on a measuring rim, not rounded, mm.

    S = S1 + K (A - A1), K = 0.4 (UN R30 6.1.1.1). The standard prints it rounded to 1 mm.
    """
    theoretical = theoretical_rim_width_mm(nominal_width_mm, theoretical_ratio)
    return nominal_width_mm + WIDTH_PER_RIM_WIDTH * (rim_width_mm - theoretical)


def section_width_on_rim_mm(section_width_mm: float, known_rim_width_mm: float, rim_width_mm: float) -> float:
    """Section width on another rim by the standard's slope: 0.4 mm per mm, 0.2 in per half inch (UN R30 6.1.1.1, TRA).

    Holds near the measuring rim; for strongly stretched or pinched tyres use the ply (`sidewall.mount`).

    Raises:
        OutsideValidity: more than two inches away from the rim on which the width is known.
    """
    change = rim_width_mm - known_rim_width_mm
    if abs(change) > 2.0 * MM_PER_INCH + 1e-9:
        raise OutsideValidity("Section width by the 0.4 rule", "change of rim width", change, "up to 2 in", R30_WIDTH)
    return section_width_mm + WIDTH_PER_RIM_WIDTH * change


def section_height_mm(nominal_width_mm: float, aspect_percent: float, habit: Habit = "r30") -> float:
    """Section height H = S1 Ra / 100 (UN R30 6.1.2, from memory); rounded to 1 mm by the `r30` habit, mm."""
    height = nominal_width_mm * aspect_percent / 100.0
    return math.floor(height + 0.5) if habit == "r30" else height


def overall_diameter_mm(height_mm: float, rim_diameter_mm: float) -> float:
    """Overall diameter of the design D = d + 2 H (UN R30 6.1.2, from memory), mm."""
    return rim_diameter_mm + 2.0 * height_mm


def r30_envelope(section_width_mm: float, height_mm: float, rim_diameter_mm: float, snow: bool = False) -> Envelope:
    """Smallest and largest new radial passenger tyre the approval lets pass.

    Width at most 1.04 S (UN R30 6.1.4); D_min = d + 2 H 0.97, D_max = d + 2 H 1.04 (6.1.5, from memory), snow tyres one
    per cent more on D_max. The standard names no least width; the design is taken as the design less 4 % (a guess).

    Args:
        section_width_mm: Design section width S on the rim in question.
        height_mm: Design section height H.
        rim_diameter_mm: Conventional rim diameter d.
        snow: True for snow tyres.
    """
    largest = (rim_diameter_mm + 2.0 * height_mm * 1.04) * (1.01 if snow else 1.0)
    smallest = rim_diameter_mm + 2.0 * height_mm * 0.97
    source = marked("UN R30 6.1.4, 6.1.5 (diameters from memory); least width is a guess")
    return Envelope(0.96 * section_width_mm, 1.04 * section_width_mm, smallest, largest, source)


def tra_envelope(section_width_mm: float, height_mm: float, rim_diameter_mm: float) -> Envelope:
    """The same by the TRA habit: section height up to 1.03 and section width up to 1.04 of the design (TRA year book).

    The least figures are the design less the same shares (a guess).
    """
    return Envelope(
        0.96 * section_width_mm,
        1.04 * section_width_mm,
        rim_diameter_mm + 2.0 * height_mm * 0.97,
        rim_diameter_mm + 2.0 * height_mm * 1.03,
        marked("TRA year book (largest); least figures are guesses"),
    )


def worn_diameter_mm(new_diameter_mm: float, new_depth_mm: float, worn_depth_mm: float = 1.6) -> float:
    """Overall diameter when the tread is worn from one depth to another: D - 2 (new - worn), mm.

    1.6 mm is the least main-groove depth of 89/459/EEC (from memory). Growth in service is not in here.
    """
    if not 0.0 <= worn_depth_mm <= new_depth_mm:
        valid = say("0 to the new depth, {depth} mm", depth=plain(new_depth_mm))
        raise OutsideValidity("Worn diameter", "worn depth", worn_depth_mm, valid, "geometry")
    return new_diameter_mm - 2.0 * (new_depth_mm - worn_depth_mm)
