"""Shigley's Mechanical Engineering Design, 9th edition: bolted joints (chapter 8)."""

from __future__ import annotations

import csv
import math
from collections.abc import Callable
from pathlib import Path
from statistics import mean, stdev

import pytest

from hubwright.engineering.joint.compliance import Layer, clamped_compliance_mm_per_n
from hubwright.engineering.joint.preload import preload_n, scatter_band_n
from hubwright.engineering.joint.working_load import bolt_share, under_pull
from hubwright.tables.threads import thread

LBF_N = 4.4482216
INCH_MM = 25.4
LBF_IN_NM = 0.11298483


def test_example_8_3_shares_the_pull_as_printed() -> None:
    # p. 439: 3/4-16 UNF, F_i 25 kip, P 6 kip, k_b 6.5, k_m 13.8 Mlbf/in, A_t 0.373 in2 -> C 0.320, 67.02, 72.17 kpsi.
    share = bolt_share(1 / 6.5, 1 / 13.8)
    assert share == pytest.approx(0.320, abs=0.0005)
    assert under_pull(25, 0, share).bolt_n / 0.373 == pytest.approx(67.02, abs=0.01)
    assert under_pull(25, 6, round(share, 3)).bolt_n / 0.373 == pytest.approx(72.17, abs=0.01)


def test_a_pull_that_parts_the_joint_is_carried_by_the_bolt_alone() -> None:
    parted = under_pull(25, 60, 0.32)
    assert (parted.bolt_n, parted.clamp_n) == (60, 0)


def test_equation_8_26_and_the_torque_equation_leave_the_same_preload() -> None:
    # p. 438: the same thread, f = f_c = 0.15, collar mean diameter 1.25 d: 3551 lbf*in for 25 kip (answer from memory).
    size = thread("3/4-16")
    arm_mm = 1.25 * size.d_mm / 2
    force = preload_n(3551 * LBF_IN_NM, size, 0.15, arm_mm, 0.15)
    assert force == pytest.approx(25_000 * LBF_N, rel=0.005)


def test_the_rule_of_thumb_torque_leaves_no_less_than_the_stated_preload() -> None:
    # T = 0.2 F d = 3750 lbf*in for 25 kip stands for friction near 0.16 (answer from memory).
    size = thread("3/4-16")
    forces = [preload_n(3750 * LBF_IN_NM, size, mu, 1.25 * size.d_mm / 2, mu) for mu in (0.15, 0.17)]
    assert forces[1] < 25_000 * LBF_N < forces[0]


def test_the_frustum_of_equation_8_20_is_met_by_one_uniform_part() -> None:
    # Eq. 8-22: k = 0.5774 pi E d / (2 ln(5 (0.5774 l + 0.5 d)/(0.5774 l + 2.5 d))), washer face 1.5 d, cone 30 degrees.
    d, grip, E = 12.0, 30.0, 207_000.0
    tan = math.tan(math.radians(30))
    printed = tan * math.pi * E * d / (2 * math.log(5 * (tan * grip + 0.5 * d) / (tan * grip + 2.5 * d)))
    wide = Layer(grip, 200.0, d, E)
    assert 1 / clamped_compliance_mm_per_n((wide,), 1.5 * d, 1.5 * d, tan) == pytest.approx(printed)
    halves = (Layer(12, 200.0, d, E), Layer(18, 200.0, d, E))
    assert 1 / clamped_compliance_mm_per_n(halves, 1.5 * d, 1.5 * d, tan) == pytest.approx(printed)


@pytest.mark.parametrize(("state", "count", "mean_kn", "spread_kn"), [
    ("unlubricated", 20, 34.3, 4.91),
    ("lubricated", 10, 34.18, 2.88),
])  # fmt: skip
def test_measured_preloads_at_one_torque_lie_inside_the_band_of_a_torque_wrench(
    shared: Callable[[str], Path], state: str, count: int, mean_kn: float, spread_kn: float
) -> None:
    # Tables 8-13 and 8-14, Blake and Kurtz, 90 N*m: printed mean and standard deviation; alpha_A 2.0 of VDI 2230
    # (torque wrench, friction estimated) must hold all of them.
    with shared("standards/torque_scatter_blake_kurtz.csv").open(encoding="utf-8") as file:
        forces = [float(row["F_kN"]) for row in csv.DictReader(file) if row["set"] == state]
    assert len(forces) == count
    assert mean(forces) == pytest.approx(mean_kn, abs=0.05)
    assert stdev(forces) == pytest.approx(spread_kn, abs=0.05)
    band = scatter_band_n(mean(forces), 2.0)
    assert band.low <= min(forces)
    assert max(forces) <= band.high
