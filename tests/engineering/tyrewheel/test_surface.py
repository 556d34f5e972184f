from __future__ import annotations

import numpy as np
import pytest

from hubwright.engineering.tyrewheel.build import build_from
from hubwright.engineering.tyrewheel.sidewall import MountedTyre
from hubwright.engineering.tyrewheel.surface import bend_to_readings, half_width_mm, section_width_read_mm
from hubwright.errors import OutsideValidity

READINGS = [(318.0, 104.0), (247.0, 115.0), (272.0, 119.5)]


def test_readings_at_flange_sidewall_and_shoulder_are_all_met(tyre: MountedTyre) -> None:
    bent = bend_to_readings(tyre, READINGS)
    assert half_width_mm(bent, [318.0, 247.0, 272.0]) == pytest.approx([104.0, 115.0, 119.5], abs=1e-9)
    assert half_width_mm(bent, [318.0], "inboard") == pytest.approx([104.0])
    assert section_width_read_mm(bent) == pytest.approx(239.0, abs=0.5)


def test_above_a_reading_on_the_shoulder_the_crown_closes_without_a_jump(tyre: MountedTyre) -> None:
    half = half_width_mm(bend_to_readings(tyre, READINGS), np.linspace(317.9, 322.5, 2000))
    assert np.abs(np.diff(half[:1500])).max() < 0.2
    assert half[-1] == pytest.approx(0.0, abs=1e-6)


def test_readings_off_the_tyre_or_taken_from_elsewhere_are_refused(tyre: MountedTyre) -> None:
    for points in ([(200.0, 110.0)], [(330.0, 100.0)], [(272.0, 239.0)], [(272.0, 119.0), (272.2, 119.1)]):
        with pytest.raises(OutsideValidity):
            bend_to_readings(tyre, points)


def test_a_build_names_what_nobody_measured() -> None:
    build = build_from(235.0, 40.0, tread_width_mm=208.0)
    assert build.tread_width_mm == 208.0
    assert "tread_width_mm" not in build.estimated
    assert "shoulder_drop_mm" in build.estimated
    # A worked workshop case has the tread edge of a 235/40 at 104 mm from the middle.
    assert build_from(235.0, 40.0).tread_width_mm / 2.0 == pytest.approx(104.0, abs=1.0)
