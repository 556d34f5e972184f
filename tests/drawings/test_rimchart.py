"""The chart of one tyre on several rims, and the figures of its page."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from hubwright.drawings.rimchart import rim_chart_svg
from hubwright.engineering.tyrewheel.from_sizes import carcass_of, design_of, rim_of
from hubwright.engineering.tyrewheel.sidewall import Carcass, mount
from hubwright.parts.rim_size import RimSize, read_rim_size
from hubwright.parts.tyre_size import read_tyre_size

Points = Callable[[str, str], list[list[tuple[float, float]]]]
PAGE = Path(__file__).resolve().parents[2] / "docs" / "tyres.md"
RIMS = (6.5, 7.0, 7.5, 8.0, 8.5, 9.0, 9.5)
ROW = re.compile(r"\| (\d{3}/\d\dR\d\d) \| ([\d.]+) in \| ([\d.]+) mm \| ([\d.]+) \|")


@pytest.fixture(scope="module")
def carcass() -> Carcass:
    rim = rim_of(read_rim_size("7Jx17"))
    return carcass_of(read_tyre_size("215/45R17"), rim, section_width_read_mm=213.0)


def test_every_curve_is_as_wide_as_the_tyre_is_on_that_rim(carcass: Carcass, points_of: Points) -> None:
    svg = rim_chart_svg(carcass, RIMS, "x", 7.0)
    for rim in RIMS:
        widest = max(x for x, _ in points_of(svg, f"on {rim:.1f} in")[0])
        assert 2 * widest == pytest.approx(mount(carcass, rim * 25.4).section_width_mm, abs=0.05)


def test_the_table_below_holds_the_rule_of_the_standard(carcass: Carcass) -> None:
    svg = rim_chart_svg(carcass, RIMS, "x", 7.0)
    for rim in RIMS:
        assert f">{213.0 + 0.4 * 25.4 * (rim - 7.0):.1f}<" in svg


def test_the_same_chart_has_the_same_bytes(carcass: Carcass) -> None:
    assert rim_chart_svg(carcass, RIMS, "x", 7.0) == rim_chart_svg(carcass, RIMS, "x", 7.0)


def test_the_page_prints_the_sections_and_slopes_of_the_model() -> None:
    rows = ROW.findall(PAGE.read_text(encoding="utf-8"))
    assert len(rows) == 7
    for text, rim_in, section_mm, slope in rows:
        size = read_tyre_size(text)
        measuring = design_of(size).measuring_rim_width_mm
        assert measuring / 25.4 == pytest.approx(float(rim_in))
        tyre = carcass_of(size, rim_of(RimSize("", measuring / 25.4, size.rim_code)))
        assert tyre.section_width_mm == pytest.approx(float(section_mm), abs=0.05)
        wide, narrow = (mount(tyre, measuring + step).section_width_mm for step in (6.35, -6.35))
        assert (wide - narrow) / 12.7 == pytest.approx(float(slope), abs=0.0006)
