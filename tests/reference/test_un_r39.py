"""UN R39 speedometer band."""

from __future__ import annotations

import pytest

from hubwright.engineering.tyrewheel.replace import indicated_speed_kmh, indicated_speed_limits_kmh


def test_at_true_100_the_speedometer_may_show_100_to_114() -> None:
    assert indicated_speed_limits_kmh(100.0) == (100.0, 114.0)


def test_larger_tyres_make_a_true_100_show_less() -> None:
    assert indicated_speed_kmh(100.0, 634.3, 645.2) == pytest.approx(98.31, abs=0.01)
    assert indicated_speed_kmh(100.0, 634.3, 645.2, lead_percent=3.0) > 100.0
