"""Tyres for the property tests: ordinary sizes of all heights on rims around their measuring rim."""

from __future__ import annotations

from hypothesis import strategies as st

from hubwright.engineering.tyrewheel.build import build_from
from hubwright.engineering.tyrewheel.from_sizes import Design, design_of
from hubwright.engineering.tyrewheel.sidewall import Carcass, build_carcass
from hubwright.parts.tyre_size import TyreSize
from hubwright.tables.rims import rim_diameter

FLANGE_HEIGHT_MM = 17.5


@st.composite
def designs(draw: st.DrawFn) -> Design:
    aspect = draw(st.sampled_from((30.0, 35.0, 40.0, 45.0, 50.0, 55.0, 60.0, 65.0, 70.0, 75.0)))
    height = draw(st.floats(80.0, 170.0))
    width = 5.0 * round(max(145.0, min(325.0, 100.0 * height / aspect)) / 5.0)
    code = draw(st.sampled_from((14.0, 15.0, 16.0, 17.0, 18.0, 19.0, 20.0)))
    return design_of(TyreSize("", "passenger", width, aspect, None, code))


@st.composite
def carcasses(draw: st.DrawFn) -> Carcass:
    design = draw(designs())
    code = next(c for c in range(14, 21) if rim_diameter(c).nominal_mm == design.rim_diameter_mm)
    seat = rim_diameter(code).bead_seat_mm
    assert seat is not None
    build = build_from(design.nominal_width_mm, design.aspect_percent)
    flange = seat / 2.0 + FLANGE_HEIGHT_MM
    return build_carcass(
        design.section_width_mm, design.measuring_rim_width_mm, design.overall_diameter_mm, flange, build
    )
