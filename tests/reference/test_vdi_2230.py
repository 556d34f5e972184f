"""VDI 2230:2001 tables of assembly preload and torque for fine threads at 90 % yield, read in a secondary copy."""

from __future__ import annotations

import csv
from collections.abc import Callable
from pathlib import Path

import pytest

from hubwright.engineering.joint.compliance import Layer, clamped_compliance_mm_per_n, cone_tangent
from hubwright.engineering.joint.preload import preload_n, scatter_band_n, yield_preload_n, yield_share
from hubwright.engineering.joint.seat import FlatSeat, friction_arm_mm
from hubwright.tables.property_classes import property_class
from hubwright.tables.threads import thread

CLASSES = ("8.8", "10.9", "12.9")
# Hexagon head: washer face of ISO 4014 and clearance hole of ISO 273 medium (from memory).
HEADS = {"M8x1": FlatSeat(9.0, 11.63), "M10x1.25": FlatSeat(11.0, 14.63), "M12x1.25": FlatSeat(13.5, 16.63)}


@pytest.fixture
def published(shared: Callable[[str], Path]) -> list[dict[str, str]]:
    with shared("standards/vdi2230_fine_published.csv").open(encoding="utf-8") as file:
        return list(csv.DictReader(file))


def test_preload_at_90_percent_yield_meets_every_published_row_within_half_a_percent(
    published: list[dict[str, str]],
) -> None:
    assert len(published) == 9
    for row in published:
        size = thread(row["thread"])
        for name in CLASSES:
            computed = yield_preload_n(size, property_class(name, size.d_mm).yield_min_mpa, float(row["mu_total"]))
            assert computed == pytest.approx(float(row[f"FM_{name}_kN"]) * 1000, rel=0.005)


def test_the_published_torque_leaves_the_published_preload_within_one_and_a_half_percent(
    published: list[dict[str, str]],
) -> None:
    for row in published:
        mu, arm_mm = float(row["mu_total"]), friction_arm_mm(HEADS[row["thread"]])
        for name in CLASSES:
            computed = preload_n(float(row[f"MA_{name}_Nm"]), thread(row["thread"]), mu, arm_mm, mu)
            assert computed == pytest.approx(float(row[f"FM_{name}_kN"]) * 1000, rel=0.015)


def test_m14_fine_of_class_10_9_reaches_95_2_kn() -> None:
    # VDI 2230:2001 table, mu 0.12, read in a secondary copy.
    assert yield_preload_n(thread("M14x1.5"), 940, 0.12) == pytest.approx(95_200, rel=0.005)


def test_209_newton_metres_leave_that_preload_under_a_hexagon_head() -> None:
    # Same table. Head of M14: washer face 19.6 mm, hole 15.5 mm (from memory).
    arm_mm = friction_arm_mm(FlatSeat(15.5, 19.6))
    assert preload_n(209, thread("M14x1.5"), 0.12, arm_mm, 0.12) == pytest.approx(95_200, rel=0.015)


def test_the_share_of_yield_at_the_yield_preload_is_the_utilisation() -> None:
    size = thread("M12x1.5")
    force = yield_preload_n(size, 940, 0.14, utilisation=0.9)
    assert yield_share(size, 940, 0.14, force) == pytest.approx(0.9)


def test_a_tightening_factor_of_1_8_takes_41_9_kn_down_to_23_3_kn() -> None:
    # VDI 2230 example: FM max 41.9, alpha_A 1.8, FM min 23.3 kN (read).
    band = scatter_band_n(41_900 * (1 + 1 / 1.8) / 2, 1.8)
    assert band.high == pytest.approx(41_900)
    assert band.low == pytest.approx(23_300, abs=50)


def test_uniform_parts_give_the_closed_form_for_cone_and_sleeve() -> None:
    # VDI 2230 Part 1, resilience of a cone with a sleeve, bolt with nut (w = 1), from memory; second method.
    import math

    dW, dh, DA, lK, E = 20.0, 13.0, 30.0, 40.0, 205_000.0
    tan = cone_tangent(lK, dW, DA, tapped=False)
    assert dW + lK * tan > DA
    cone = 2 / (dh * tan) * math.log((dW + dh) * (DA - dh) / ((dW - dh) * (DA + dh)))
    sleeve = 4 / (DA**2 - dh**2) * (lK - (DA - dW) / tan)
    computed = clamped_compliance_mm_per_n((Layer(lK, DA, dh, E),), dW, dW, tan)
    assert computed == pytest.approx((cone + sleeve) / (E * math.pi))
