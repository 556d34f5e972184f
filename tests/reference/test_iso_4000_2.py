"""Bead seat diameters of ISO 4000-2 table 1 (secondary copy)."""

from __future__ import annotations

import pytest

from hubwright.tables.loader import read_table
from hubwright.tables.rims import flange_height, rim_diameter


def test_the_flange_of_a_17_inch_rim_ends_at_235_8_mm_radius():
    seat_mm = rim_diameter(17).bead_seat_mm
    assert seat_mm is not None
    assert seat_mm / 2 + flange_height("J").high_mm == pytest.approx(235.8, abs=0.05)


def test_bead_seats_follow_the_two_series_of_the_standard():
    for row in read_table("rim_bead_seat").rows:
        code = row["code"]
        assert row["bead_seat_mm"] == pytest.approx(25.4 * code + (4.8 if code >= 17 else -0.8), abs=0.05)
