from __future__ import annotations

import numpy as np
import pytest

from hubwright.engineering.tyrewheel import kernels
from hubwright.engineering.tyrewheel.batch import PART_NAMES, outline_table, package_row
from hubwright.engineering.tyrewheel.charts import tyre_on_rims
from hubwright.engineering.tyrewheel.from_sizes import rim_of, tyre_of
from hubwright.engineering.tyrewheel.outline import Package, outline
from hubwright.engineering.tyrewheel.sidewall import MountedTyre, mount
from hubwright.engineering.tyrewheel.surface import half_width_mm
from hubwright.engineering.tyrewheel.wheel import WheelShape
from hubwright.errors import OutsideValidity
from hubwright.parts.rim_size import RimSize, read_rim_size
from hubwright.parts.tyre_size import read_tyre_size


def test_the_catalogue_and_the_single_package_give_the_same_outline(tyre: MountedTyre) -> None:
    radii = np.arange(230.0, 325.0, 0.5)
    rims = [rim_of(RimSize("", width, 18.0)) for width in (7.0, 8.0, 9.5)]
    table = outline_table([package_row(tyre.carcass, rim, 10.0 - 45.0) for rim in rims], radii)
    for i, rim in enumerate(rims):
        mounted = mount(tyre.carcass, rim.width_mm)
        one = outline(Package(mounted, WheelShape(rim, 45.0), 10.0), radii)
        crown = radii > mounted.tread_edge[0]
        assert table.outer_mm[i][~crown] == pytest.approx(one.outer_mm[~crown], abs=0.01, nan_ok=True)
        assert table.inner_mm[i][~crown] == pytest.approx(one.inner_mm[~crown], abs=0.01, nan_ok=True)
        half = half_width_mm(mounted, radii)
        assert table.outer_mm[i][crown] == pytest.approx(half[crown] - 35.0, abs=1e-9, nan_ok=True)
        assert [PART_NAMES[p] for p in table.part[i][~crown]] == list(one.outer_part[~crown])
        assert table.section_width_mm[i] == pytest.approx(mounted.section_width_mm, abs=1e-9)


def test_a_package_without_an_answer_is_told_by_its_state_and_spoils_no_other(tyre: MountedTyre) -> None:
    good, wide = rim_of(read_rim_size("8Jx18")), rim_of(read_rim_size("14Jx18"))
    table = outline_table([package_row(tyre.carcass, rim, 0.0) for rim in (wide, good)], np.arange(250.0, 320.0))
    assert list(table.state) == [kernels.TAUT, kernels.SOLVED]
    assert np.isnan(table.outer_mm[0]).all()
    assert np.isnan(table.section_width_mm[0])
    assert np.isfinite(table.outer_mm[1]).all()


def test_a_table_of_the_wrong_shape_is_refused(tyre: MountedTyre) -> None:
    row = package_row(tyre.carcass, rim_of(read_rim_size("8Jx18")), 0.0)
    with pytest.raises(OutsideValidity):
        outline_table([row[:-1]], [250.0])
    with pytest.raises(OutsideValidity):
        outline_table([row], [260.0, 250.0])


def test_the_chart_of_a_213_tyre_shows_it_growing_and_its_widest_place_going_down_with_the_rim() -> None:
    tyre = tyre_of(read_tyre_size("215/45R17"), rim_of(read_rim_size("7Jx17")), section_width_read_mm=213.0)
    curves = tyre_on_rims(tyre.carcass)
    assert [curve.rim_width_mm / 25.4 for curve in curves] == pytest.approx([6.5, 7.0, 7.5, 8.0, 8.5, 9.0, 9.5])
    assert curves[1].section_width_mm == pytest.approx(213.0)
    assert (np.diff([curve.section_width_mm for curve in curves]) > 0.0).all()
    assert (np.diff([curve.widest_radius_mm for curve in curves]) < 0.0).all()
    assert all(np.isfinite(curve.half_width_mm).all() for curve in curves)
