"""Documented example of an open vehicle-simulation library's tyre-code function (read there)."""

from __future__ import annotations

import pytest

from hubwright.engineering.tyrewheel.from_sizes import design_of
from hubwright.parts.tyre_size import read_tyre_size


def test_the_free_radius_of_p205_60r16_depends_on_the_rounding_habit() -> None:
    size = read_tyre_size("P205/60R16")
    assert design_of(size, habit="decimal_inch").free_radius_mm == pytest.approx(326.2, abs=0.1)
    assert design_of(size, habit="r30").free_radius_mm == 326.0
