"""Load indices of UN R30 annex 4 and rim diameters of UN R30."""

from __future__ import annotations

import pytest

from hubwright.tables.loader import read_table
from hubwright.tables.tyre_indices import load_index, speed_symbol


@pytest.mark.parametrize(("index", "load_kg"), [(70, 335), (91, 615), (98, 750), (126, 1700)])
def test_a_load_index_carries_what_annex_4_prints(index, load_kg):
    assert load_index(index).single_kg == load_kg


@pytest.mark.parametrize(("symbol", "speed_kmh"), [("Q", 160), ("H", 210), ("V", 240), ("Y", 300)])
def test_a_speed_symbol_stands_for_what_the_regulation_prints(symbol, speed_kmh):
    assert speed_symbol(symbol).speed_kmh == speed_kmh


def test_nominal_rim_diameters_are_inches_rounded_to_whole_millimetres():
    for row in read_table("nominal_rim_diameter").rows:
        assert abs(row["nominal_mm"] - 25.4 * row["code"]) <= 0.5


def test_pounds_where_printed_agree_with_kilograms():
    for row in read_table("load_index").rows:
        if row["load_lb"] is not None:
            assert row["load_kg"] * 2.20462 == pytest.approx(row["load_lb"], rel=0.003)
