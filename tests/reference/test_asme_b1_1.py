"""UNF stress areas printed in ASME B1.1 (secondary copy)."""

from __future__ import annotations

import math

import pytest

from hubwright.tables.threads import thread


@pytest.mark.parametrize(("name", "printed_in2"), [("7/16-20", 0.1187), ("1/2-20 UNF", 0.1599), ("9/16-18", 0.203)])
def test_the_stress_area_is_the_printed_one_and_the_one_of_the_formula(name, printed_in2):
    part = thread(name)
    assert part.stress_area_mm2 / 25.4**2 == pytest.approx(printed_in2, rel=0.001)
    assert part.tpi is not None
    # At = pi/4 (D - 0.9743/n)^2, from memory.
    assert math.pi / 4 * (part.d_mm / 25.4 - 0.9743 / part.tpi) ** 2 == pytest.approx(printed_in2, rel=0.001)
