"""Stress areas and breaking loads printed in ISO 898-1 (secondary copies)."""

from __future__ import annotations

import pytest

from hubwright.tables.loader import read_table
from hubwright.tables.property_classes import property_class
from hubwright.tables.threads import thread


@pytest.mark.parametrize(("name", "printed_mm2"), [("M12x1.25", 92.1), ("M12x1.5", 88.1), ("M14x1.5", 125.0)])
def test_the_computed_stress_area_is_the_printed_one(name, printed_mm2):
    assert thread(name).stress_area_mm2 == pytest.approx(printed_mm2, rel=0.005)


def test_the_printed_area_of_m14x1_25_is_not_what_the_formula_gives():
    assert thread("M14x1.25").stress_area_mm2 == pytest.approx(129.23, abs=0.01)
    assert thread("M14x1.25").stress_area_mm2 != pytest.approx(131.0, rel=0.01)


@pytest.mark.parametrize("name", ["8.8", "10.9", "12.9"])
def test_breaking_loads_are_stress_area_times_tensile_strength(name):
    for row in read_table("bolt_min_breaking_load").rows:
        part = thread(str(row["thread"]))
        load_n = part.stress_area_mm2 * property_class(name, part.d_mm).tensile_min_mpa
        assert row[f"class_{name.replace('.', '_')}_n"] == pytest.approx(load_n, rel=0.006)
