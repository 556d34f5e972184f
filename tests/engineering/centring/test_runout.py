from __future__ import annotations

import math

import GTC
import pytest

from hubwright.engineering.centring.fit import fit_clearance_um, measured_clearance_mm
from hubwright.engineering.centring.runout import (
    imbalance_force_n,
    off_centre,
    radial_runout_mm,
    static_imbalance_gmm,
)
from hubwright.errors import OutsideValidity
from hubwright.tables.iso286 import size_limits


def test_a_press_fit_has_negative_clearance_and_does_not_move_the_wheel() -> None:
    stack = off_centre((-0.02, 0.05), (0.01,))
    assert stack.worst_mm == pytest.approx(0.035)
    assert stack.likely_mm == pytest.approx(math.hypot(0.025, 0.01))


def test_limits_of_two_sizes_make_no_fit() -> None:
    with pytest.raises(OutsideValidity, match="shaft_nominal_mm"):
        fit_clearance_um(size_limits("H7", 66), size_limits("h7", 65))


def test_a_measured_clearance_carries_its_doubt() -> None:
    # Second method: GTC.
    found = measured_clearance_mm(66.62, 0.01, 66.55, 0.02, k=2)
    doubt = GTC.ureal(66.62, 0.01) - GTC.ureal(66.55, 0.02)
    assert found.nominal == pytest.approx(GTC.value(doubt))
    assert found.width / 4 == pytest.approx(GTC.uncertainty(doubt))


def test_twenty_kilograms_a_tenth_off_centre_pull_like_2000_gram_millimetres() -> None:
    imbalance = static_imbalance_gmm(20, 0.1)
    assert imbalance == pytest.approx(2000)
    # 120 km/h on 320 mm: omega 104.17 1/s; 0.002 kg*m x 10851 = 21.7 N.
    assert imbalance_force_n(imbalance, 120, 320) == pytest.approx(21.7, abs=0.05)
    assert imbalance_force_n(imbalance, 240, 320) == pytest.approx(4 * imbalance_force_n(imbalance, 120, 320))
    assert radial_runout_mm(0.1) == 0.2
