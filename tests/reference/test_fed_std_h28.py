"""FED-STD-H28 / ASME B1.1 stripping areas of inch threads, and the same equations on ISO 965 limits."""

from __future__ import annotations

import csv
from collections.abc import Callable
from pathlib import Path

import pytest

from hubwright.engineering.joint.strip import bolt_shear_area_mm2, nut_shear_area_mm2

IN_MM = 25.4
# Limits of size of ASME B1.1 (from memory), inch: threads per inch, d_min, d2_min, D1_max, D2_max; then the published
# stripping areas of the screw and the nut at one diameter of engagement, square inch (read in a secondary copy).
INCH = {
    "1/2-20 2A/2B": (20, 0.5, 0.4906, 0.4619, 0.4570, 0.4731, 0.400, 0.541),
    "1/2-20 3A/3B": (20, 0.5, 0.4919, 0.4643, 0.4537, 0.4717, 0.444, 0.567),
    "3/8-24 2A/2B": (24, 0.375, 0.3668, 0.3430, 0.3400, 0.3528, 0.217, 0.299),
    "5/8-18 2A/2B": (18, 0.625, 0.6149, 0.5828, 0.5780, 0.5949, 0.624, 0.853),
    "3/4-16 2A/2B": (16, 0.75, 0.7391, 0.7029, 0.6960, 0.7159, 0.924, 1.24),
}


@pytest.mark.parametrize("name", INCH)
def test_published_stripping_areas_of_inch_threads_are_met_within_half_a_percent(name: str) -> None:
    tpi, diameter, d_min, d2_min, D1_max, D2_max, screw_in2, nut_in2 = INCH[name]
    engaged_mm, pitch_mm = diameter * IN_MM, IN_MM / tpi
    screw = bolt_shear_area_mm2(engaged_mm, pitch_mm, D1_max * IN_MM, d2_min * IN_MM) / IN_MM**2
    nut = nut_shear_area_mm2(engaged_mm, pitch_mm, d_min * IN_MM, D2_max * IN_MM) / IN_MM**2
    assert screw == pytest.approx(screw_in2, rel=0.005)
    assert nut == pytest.approx(nut_in2, rel=0.005)


def test_areas_per_millimetre_of_wheel_threads_meet_the_collected_figures(shared: Callable[[str], Path]) -> None:
    with shared("standards/thread_limits_6g6H.csv").open(encoding="utf-8") as file:
        rows = [row for row in csv.DictReader(file) if row["AS_ext_min_mm2_per_mm"]]
    assert len(rows) == 3
    for row in rows:
        d_min, d2_min, D1_max, D2_max, P = (
            float(row[key]) for key in ("d_min", "d2_min", "D1_max_6H", "D2_max_6H", "P")
        )
        external = bolt_shear_area_mm2(1, P, D1_max, d2_min)
        internal = nut_shear_area_mm2(1, P, d_min, D2_max)
        assert external == pytest.approx(float(row["AS_ext_min_mm2_per_mm"]), abs=0.01)
        assert internal == pytest.approx(float(row["AS_int_min_mm2_per_mm"]), abs=0.01)
