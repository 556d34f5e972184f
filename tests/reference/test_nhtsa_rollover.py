"""NHTSA: static stability factor of 1,012 measured vehicles, and the star bands of the rollover rating."""

from __future__ import annotations

import csv
from collections.abc import Callable
from pathlib import Path

import pytest

from hubwright.engineering.handling.track import (
    rollover_risk,
    star_band,
    static_stability_factor,
    track_change_mm,
)
from hubwright.tables.cells import number_of
from hubwright.tables.loader import read_table


def test_the_factor_of_every_measured_vehicle_is_met_and_discs_raise_it_by_their_share(
    shared: Callable[[str], Path],
) -> None:
    with shared("vehicles/nhtsa_vehicles_1012.csv").open(encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    assert len(rows) == 1012
    for row in rows:
        track_mm, height_mm = float(row["avg_track_m"]) * 1000, float(row["cg_height_m"]) * 1000
        factor = static_stability_factor(track_mm, height_mm)
        assert factor == pytest.approx(float(row["ssf"]), abs=0.005)
        wider = static_stability_factor(track_change_mm(track_mm, 20, 20).with_disc, height_mm)
        assert wider - factor == pytest.approx(40 / (2 * height_mm))


@pytest.mark.parametrize(("factor", "stars"), [
    (1.50, 5), (1.45, 5), (1.444, 4), (1.25, 4), (1.13, 3), (1.126, 3), (1.04, 2), (1.03, 1), (0.95, 1),
])  # fmt: skip
def test_star_bands_are_those_of_the_rating(factor: float, stars: int) -> None:
    assert star_band(factor).stars == stars


def test_risk_of_the_2003_model_falls_as_the_factor_grows() -> None:
    # Coefficients from memory; at 1.45 the model stays near the 10 % that parts five stars from four.
    row = read_table("rollover_risk_model").rows[0]
    a, b = number_of(row, "a"), number_of(row, "b")
    risks = [rollover_risk(factor, a, b) for factor in (1.0, 1.1, 1.2, 1.3, 1.45)]
    assert risks == sorted(risks, reverse=True)
    assert risks[-1] == pytest.approx(0.10, abs=0.015)
