"""The shape of an inflated tyre on any rim, from a width known on one rim and the length of its ply, which it keeps.

Model: inextensible radial-ply membrane between the rim flange and the belt edge, sin(phi) = (r_m^2 - r^2) / K (derived:
pressure on a ring element against a ply tension that is constant along radial cords; see `kernels`). The two unknowns
follow from the place of the belt edge and the section width where that is known, and from the place of the belt edge
and the unchanged ply length on any other rim. The outside check is the standard's own slope of 0.4 (UN R30 6.1.1.1).

Source: derived as above; outside check UN R30 6.1.1.1.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from hubwright.engineering.tyrewheel import kernels
from hubwright.engineering.tyrewheel.build import Build
from hubwright.errors import OutsideValidity
from hubwright.language import marked, say
from hubwright.quantities.text import plain

Floats = NDArray[np.float64]
Points = tuple[tuple[float, float], ...]
MODEL = "Sidewall membrane"
SOURCE = marked("inextensible radial ply, derived")
PLY_POINTS = kernels.PLY_POINTS


@dataclass(frozen=True)
class Carcass:
    """What a tyre keeps when it goes from one rim to another, mm.

    `section_width_mm` holds on a rim of `known_rim_width_mm`; `ply_length_mm` runs from bead anchor to belt edge on one
    side. The bead anchor lies at the flange radius, at half the rim width.
    """

    section_width_mm: float
    known_rim_width_mm: float
    overall_diameter_mm: float
    bead_radius_mm: float
    belt_edge_radius_mm: float
    belt_edge_half_width_mm: float
    ply_length_mm: float
    build: Build


@dataclass(frozen=True)
class MountedTyre:
    """A tyre on a rim, about its own centre plane (both sides alike unless readings say otherwise), mm and rad.

    Attributes:
        carcass: The tyre.
        rim_width_mm: The rim it sits on.
        radius_mm: Radius at the crown: free, or loaded where `lower` made this section.
        section_width_mm: Over both sidewalls as the model gives it, without readings and ribs.
        widest_radius_mm: Where that is.
        phi_bead_rad: Angle of the ply to the radial direction at the bead anchor; negative on a stretched tyre.
        phi_belt_rad: The same at the belt edge.
        ply: Radius and half width of the ply, shape (points, 2), from bead to belt.
        surface: Radius and half width of the outer surface from flange to tread edge, shape (points, 2).
        readings_outboard: Calliper readings (radius, half width) the outboard side must pass.
        readings_inboard: The same, inboard.
    """

    carcass: Carcass
    rim_width_mm: float
    radius_mm: float
    section_width_mm: float
    widest_radius_mm: float
    phi_bead_rad: float
    phi_belt_rad: float
    ply: Floats = field(repr=False, compare=False)
    surface: Floats = field(repr=False, compare=False)
    readings_outboard: Points = ()
    readings_inboard: Points = ()

    @property
    def tread_edge(self) -> tuple[float, float]:
        """Radius and half width of the tread edge, mm."""
        build = self.carcass.build
        return self.radius_mm - build.shoulder_drop_mm, build.tread_width_mm / 2.0


def build_carcass(
    section_width_mm: float, rim_width_mm: float, overall_diameter_mm: float, flange_radius_mm: float, build: Build
) -> Carcass:
    """The carcass of a tyre whose section width is known, by design or by calliper, on a rim of `rim_width_mm`.

    Raises:
        OutsideValidity: where no inflated ply has this width between this rim and this tread.
    """
    rb, re, ye = _anchors(overall_diameter_mm, flange_radius_mm, build)
    w = section_width_mm / 2.0 - build.sidewall_skin_mm
    b, e, state = kernels.solve_membrane(rb, rim_width_mm / 2.0, re, ye, kernels.WIDTH, w, *kernels.FIRST_GUESS)
    if state != kernels.SOLVED:
        raise OutsideValidity(
            MODEL,
            "section width",
            section_width_mm,
            say("widths an inflated ply can take on a {width} mm rim", width=plain(rim_width_mm)),
            SOURCE,
        )
    length = kernels.membrane_integrals(b, e, rb, re, False)[0]
    return Carcass(section_width_mm, rim_width_mm, overall_diameter_mm, rb, re, ye, float(length), build)


def mount(carcass: Carcass, rim_width_mm: float) -> MountedTyre:
    """The tyre on a rim of `rim_width_mm`, its ply as long as before.

    Holds from strongly pinched to strongly stretched.

    Raises:
        OutsideValidity: where the ply is too short for so wide a rim (within 0.2 % of taut), or folds up on a narrow
            one.
    """
    c = carcass
    w = c.section_width_mm / 2.0 - c.build.sidewall_skin_mm
    b, e, _, state = kernels.solve_on_rim(
        c.bead_radius_mm,
        c.known_rim_width_mm / 2.0,
        w,
        rim_width_mm / 2.0,
        c.belt_edge_radius_mm,
        c.belt_edge_half_width_mm,
    )
    refuse_unless_solved(state, "rim width", rim_width_mm)
    return _mounted(carcass, rim_width_mm, (b, e), c.belt_edge_radius_mm, c.overall_diameter_mm / 2.0)


def lower(tyre: MountedTyre, deflection_mm: float) -> MountedTyre:
    """The section through the contact: the tread comes nearer to the rim by `deflection_mm`, the ply keeps its length.

    An estimate: the ply is taken as a membrane with the same law, bent more; the tread stays as wide as it is.

    Raises:
        OutsideValidity: where the ply folds up or the tread would reach the rim.
    """
    c = tyre.carcass
    steps = max(1, math.ceil(deflection_mm / kernels.STEP_MM))
    b, e = tyre.phi_bead_rad, tyre.phi_belt_rad
    for i in range(1, steps + 1):
        re = c.belt_edge_radius_mm - deflection_mm * i / steps
        if re <= c.bead_radius_mm:
            raise OutsideValidity(MODEL, "deflection", deflection_mm, "a tread clear of the rim flange", SOURCE)
        b, e, state = kernels.solve_membrane(
            c.bead_radius_mm,
            tyre.rim_width_mm / 2.0,
            re,
            c.belt_edge_half_width_mm,
            kernels.LENGTH,
            c.ply_length_mm,
            b,
            e,
        )
        refuse_unless_solved(state, "deflection", deflection_mm)
    return _mounted(c, tyre.rim_width_mm, (b, e), re, tyre.radius_mm - deflection_mm)


def refuse_unless_solved(state: int, quantity: str, value: float) -> None:
    """Raise `OutsideValidity` with the reason of the kernel's `state`, unless it is SOLVED."""
    reasons = {
        kernels.TAUT: marked("a ply long enough to reach from rim to belt with 0.2 % to spare"),
        kernels.FOLDED: marked("a ply bent by less than 170 degrees"),
        kernels.NO_ANSWER: marked("shapes an inflated ply can take"),
    }
    if state != kernels.SOLVED:
        raise OutsideValidity(MODEL, quantity, value, reasons[state], SOURCE)


def _anchors(overall_diameter_mm: float, flange_radius_mm: float, build: Build) -> tuple[float, float, float]:
    re = overall_diameter_mm / 2.0 - build.shoulder_drop_mm - build.belt_depth_mm
    ye = build.tread_width_mm / 2.0 - build.belt_inset_mm
    if re - flange_radius_mm < 10.0:
        raise OutsideValidity(
            MODEL, "height between flange and belt edge", re - flange_radius_mm, "10 mm and more", "guess"
        )
    if ye <= 0.0:
        raise OutsideValidity(MODEL, "belt half width", ye, "more than 0", "geometry")
    return flange_radius_mm, re, ye


def _mounted(
    carcass: Carcass, rim_width_mm: float, angles_rad: tuple[float, float], belt_radius_mm: float, radius_mm: float
) -> MountedTyre:
    b, e = angles_rad
    build = carcass.build
    rb, yb, skin = carcass.bead_radius_mm, rim_width_mm / 2.0, build.sidewall_skin_mm
    r, y, phi = kernels.ply_points(b, e, rb, yb, belt_radius_mm, PLY_POINTS)
    edge = radius_mm - build.shoulder_drop_mm
    out_r, out_y = kernels.outer_skin(r, y, phi, skin, edge, build.tread_width_mm / 2.0)
    widest_radius, widest_half = kernels.widest_point(b, e, rb, yb, belt_radius_mm)
    stretched = min(b, 0.0)
    return MountedTyre(
        carcass,
        rim_width_mm,
        radius_mm,
        2.0 * (widest_half + skin * math.cos(stretched)),
        widest_radius - skin * math.sin(stretched),
        b,
        e,
        np.column_stack((r, y)),
        np.column_stack((out_r, out_y)),
    )
