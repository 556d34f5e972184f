"""The sheet of one tyre on one rim."""

from __future__ import annotations

from hubwright.jobs.tyre_sheet import TyreReadings, tyre_sheet


def test_a_tyre_without_air_sits_lower_and_reaches_farther_out_than_under_its_load() -> None:
    sheet = tyre_sheet("205/55R16 91V", "7Jx16", TyreReadings(load_kg=450, pressure_kpa=230))
    assert sheet.loaded is not None
    assert sheet.flat_axle_height_mm < sheet.loaded.loaded_radius_mm < sheet.free_radius_mm
    assert sheet.flat_half_width_mm > sheet.section_width_mm / 2
