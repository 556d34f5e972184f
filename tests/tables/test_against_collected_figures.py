"""The tables of the package hold what was collected, figure by figure."""

from __future__ import annotations

import csv

import pytest

from hubwright.tables.iso286 import size_limits, tolerance_um
from hubwright.tables.loader import read_table
from hubwright.tables.threads import thread

PAIRS = [
    ("load_index.csv", "load_index", {"LI": "load_index", "kg": "load_kg", "lb": "load_lb"}),
    ("speed_symbols.csv", "speed_symbols", {"symbol": "symbol", "km_h": "speed_kmh"}),
    ("nominal_rim_diameter_R30.csv", "nominal_rim_diameter", {"code": "code", "d_mm": "nominal_mm"}),
    ("rim_specified_diameter_ISO4000-2.csv", "rim_bead_seat", {"code": "code", "D_bead_seat_mm": "bead_seat_mm"}),
    ("threads_unf.csv", "threads_unf", {"thread": "thread", "At_in2": "stress_area_in2"}),
    ("k_factors_shigley.csv", "nut_factors", {"condition": "condition", "K": "nut_factor"}),
    ("friction_classes_VDI2230.csv", "friction_classes", {"mu_min": "friction_min", "mu_max": "friction_max"}),
    ("bolt_property_classes.csv", "bolt_property_classes", {"Rm_min": "tensile_min_mpa", "Rp02_min": "yield_min_mpa"}),
    ("margin_policy_priors.csv", "margins", {"tyre_to_body_mm": "tyre_to_body_mm"}),
    ("embedding_fz.csv", "embedding", {"head_or_nut_um": "head_or_nut_um", "load": "load"}),
]


@pytest.mark.parametrize(("file", "name", "columns"), PAIRS)
def test_every_row_is_there_with_its_figures(shared, file, name, columns):
    collected = _rows(shared, file)
    rows = read_table(name).rows
    assert len(rows) == len(collected)
    for row, given in zip(rows, collected, strict=True):
        for theirs, ours in columns.items():
            cell = row[ours]
            assert (cell if isinstance(cell, str) else _number(cell)) == _as(cell, given[theirs]), (given, ours)


def test_tolerance_classes_are_the_collected_ones(shared):
    for row in _rows(shared, "iso286_50_80.csv"):
        size_mm = float(row["size_range"].split("-")[1])
        if row["grade_or_class"].startswith("IT"):
            assert tolerance_um(row["grade_or_class"], size_mm) == float(row["upper_um"])
        else:
            limits = size_limits(row["grade_or_class"], size_mm)
            assert (limits.lower_um, limits.upper_um) == (float(row["lower_um"]), float(row["upper_um"]))


def test_metric_threads_agree_with_the_collected_diameters(shared):
    for row in _rows(shared, "threads_metric.csv"):
        made = thread(row["thread"])
        found = (made.d2_mm, made.d3_mm, made.minor_internal_mm)
        assert found == pytest.approx([float(row[key]) for key in ("d2", "d3", "D1")], abs=0.0006)
        assert made.stress_area_mm2 == pytest.approx(float(row["As_calc_mm2"]), abs=0.01)


def _rows(shared, file: str) -> list[dict[str, str]]:
    return list(csv.DictReader(shared(f"standards/{file}").read_text(encoding="utf-8").splitlines()))


def _number(cell: float | None) -> float | None:
    return None if cell is None else float(cell)


def _as(cell: object, text: str) -> str | float | None:
    if isinstance(cell, str):
        return text
    return None if text == "" else float(text)
