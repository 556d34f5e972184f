"""What must hold whenever one package takes the place of another."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hubwright.checks.outlines import Built, built
from hubwright.checks.package_room import swap_of
from hubwright.engineering.tyrewheel.figures import figures_of
from hubwright.engineering.tyrewheel.outline import Package
from hubwright.engineering.tyrewheel.replace import (
    change,
    edges,
    inset_for_equal_outer_edge_mm,
    thickness_for_equal_outer_edge_mm,
)
from hubwright.parts.wheel import Tyre, Wheel

SIZES = (
    ("195/65R15", 6.0, 15), ("205/55R16", 6.5, 16), ("225/45R17", 7.5, 17), ("225/40R18", 8.0, 18),
    ("235/40R18", 8.5, 18), ("245/35R19", 8.5, 19),
)  # fmt: skip
insets = st.integers(-20, 60)
sizes = st.sampled_from(SIZES)


def drawn(size: tuple[str, float, int], inset: int) -> Built:
    text, rim, code = size
    return built(Wheel(rim=f"{rim:g}Jx{code} ET{inset}"), Tyre(designation=text))


@given(sizes, sizes, insets, insets)
def test_there_and_back_again_takes_nothing(
    one: tuple[str, float, int], other: tuple[str, float, int], first: int, second: int
) -> None:
    a, b = drawn(one, first), drawn(other, second)
    there, back = swap_of(a, b, Tyre(), Tyre()), swap_of(b, a, Tyre(), Tyre())
    radii = np.linspace(250.0, 300.0, 11)
    for forth, return_ in zip(there.differences(radii), back.differences(radii), strict=True):
        assert np.allclose(forth, -return_, atol=1e-9)
    assert min(there.outward_mm, there.inward_mm, there.growth_mm, back.outward_mm, back.growth_mm) >= 0.0
    assert not np.isnan(there.differences(radii)).any()


@given(sizes, insets, st.integers(1, 20))
def test_less_inset_takes_as_much_outside_as_it_gives_inside(
    size: tuple[str, float, int], inset: int, less: int
) -> None:
    swap = swap_of(drawn(size, inset), drawn(size, inset - less), Tyre(), Tyre())
    out, inside = swap.differences(np.linspace(240.0, 300.0, 13))
    assert out == pytest.approx(less) and inside == pytest.approx(-less)
    assert (swap.outward_mm, swap.inward_mm) == (pytest.approx(less), 0.0)


@given(sizes, sizes, insets, insets)
def test_the_disc_and_the_inset_for_the_same_position_give_it(
    one: tuple[str, float, int], other: tuple[str, float, int], first: int, second: int
) -> None:
    a, b = drawn(one, first), drawn(other, second)
    before, after = figures_of(a.package), figures_of(b.package)
    disc = thickness_for_equal_outer_edge_mm(before, after)
    on_disc = figures_of(Package(b.tyre, b.wheel, disc))
    assert edges(on_disc).outer_mm == pytest.approx(edges(before).outer_mm)
    assert inset_for_equal_outer_edge_mm(before, after) == pytest.approx(b.wheel.inset_mm - disc)
    assert change(before, on_disc).outward_mm == pytest.approx(0.0, abs=1e-9)
