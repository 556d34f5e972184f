"""The tyre under load: how far it sinks, how far it bulges at the ground, and how it sits without air.

Source: stiffness estimate Rhyne, Tire Sci. Tech. 33(3) (2005), from memory; shapes derived from the membrane of `sidewall`.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from hubwright.engineering.tyrewheel.sidewall import MountedTyre, lower
from hubwright.errors import OutsideValidity
from hubwright.language import marked

GRAVITY_M_S2 = 9.80665
FOLDED_SIDEWALLS = 2.0


@dataclass(frozen=True)
class LoadedTyre:
    """What the load makes of a tyre, mm. The bulge belongs to the bottom of the wheel, not to the arch lip.

    Attributes:
        deflection_mm: Free radius minus loaded radius.
        loaded_radius_mm: Axle height over the ground.
        bulge_mm: Growth of the half width at the contact, per side.
        contact: The section through the contact.
    """

    deflection_mm: float
    loaded_radius_mm: float
    bulge_mm: float
    contact: MountedTyre


@dataclass(frozen=True)
class FlatTyre:
    """A tyre without air, rim carried by the folded sidewalls, mm; bounds, not a shape.

    Attributes:
        axle_height_mm: Rim flange radius, two thicknesses of sidewall and the tread: where the wheel comes to rest.
        drop_mm: How much lower than the free radius that is.
        half_width_most_mm: The sidewall cannot lie farther out than this at the contact.
    """

    axle_height_mm: float
    drop_mm: float
    half_width_most_mm: float


def estimate_vertical_stiffness_n_mm(
    pressure_kpa: float, aspect_percent: float, section_width_mm: float, overall_diameter_mm: float
) -> float:
    """Vertical stiffness of a radial passenger tyre from its size and pressure, N/mm. An estimate; a reading is better.

    Kz = 0.00028 p sqrt((1.03 - 0.004 AR) SN OD) + 3.45 kg/mm (Rhyne, Tire Sci. Tech. 33(3), 2005, from memory).

    Raises:
        OutsideValidity: outside 100 to 400 kPa or aspect ratios 25 to 85.
    """
    source = marked("Rhyne, Tire Sci. Tech. 33(3) 136-155 (2005), from memory; range is a guess")
    if not 100.0 <= pressure_kpa <= 400.0:
        raise OutsideValidity("Vertical stiffness", "pressure in kPa", pressure_kpa, "100 to 400", source)
    if not 25.0 <= aspect_percent <= 85.0:
        raise OutsideValidity("Vertical stiffness", "aspect ratio in %", aspect_percent, "25 to 85", source)
    root = math.sqrt((1.03 - 0.004 * aspect_percent) * section_width_mm * overall_diameter_mm)
    return (0.00028 * pressure_kpa * root + 3.45) * GRAVITY_M_S2


def under_load(tyre: MountedTyre, load_n: float, stiffness_n_mm: float) -> LoadedTyre:
    """The tyre under a wheel load, its deflection taken as load over stiffness (secant).

    Raises:
        OutsideValidity: where the tread would reach the rim or the ply folds up.
    """
    if load_n < 0.0 or stiffness_n_mm <= 0.0:
        raise OutsideValidity("Loaded tyre", "load, stiffness", (load_n, stiffness_n_mm), "positive figures", "statics")
    deflection = load_n / stiffness_n_mm
    contact = lower(tyre, deflection)
    bulge = (contact.section_width_mm - tyre.section_width_mm) / 2.0
    return LoadedTyre(deflection, tyre.radius_mm - deflection, bulge, contact)


def without_air(tyre: MountedTyre) -> FlatTyre:
    """The same tyre run flat on its folded sidewalls.

    The rim rests on two thicknesses of sidewall (twice the skin each, a guess) and the tread package. A ply of length L
    between two anchors h apart in radius can reach no farther out than (y_b + y_e + sqrt(L^2 - h^2)) / 2 (derived).
    """
    build, c = tyre.carcass.build, tyre.carcass
    wall = 2.0 * build.sidewall_skin_mm
    height = c.bead_radius_mm + FOLDED_SIDEWALLS * wall + build.belt_depth_mm + build.shoulder_drop_mm
    gap = FOLDED_SIDEWALLS * wall
    reach = math.sqrt(max(c.ply_length_mm**2 - gap**2, 0.0))
    half = (tyre.rim_width_mm / 2.0 + c.belt_edge_half_width_mm + reach) / 2.0 + build.sidewall_skin_mm
    return FlatTyre(height, tyre.radius_mm - height, half)
