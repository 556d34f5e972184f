from __future__ import annotations

import pytest

from hubwright.engineering.joint.hole_reading import chord_mm, circle_from_reading, tell_circles_apart
from hubwright.errors import OutsideValidity
from hubwright.parts.hole_circle import HoleCircle


def test_neighbours_of_5x108_are_63_48_mm_apart() -> None:
    assert chord_mm(HoleCircle(5, 108.0)) == pytest.approx(63.48, abs=0.005)


def test_opposite_holes_of_an_even_circle_are_its_diameter_apart() -> None:
    for holes in (4, 6, 8, 10):
        assert chord_mm(HoleCircle(holes, 139.7), holes // 2) == pytest.approx(139.7)


@pytest.mark.parametrize("holes", range(3, 11))
def test_every_way_of_measuring_leads_back_to_the_circle(holes: int) -> None:
    circle, hole_mm = HoleCircle(holes, 114.3), 14.5
    for apart in range(1, holes // 2 + 1):
        chord = chord_mm(circle, apart)
        readings = {"centres": chord, "outer edges": chord + hole_mm, "inner edges": chord - hole_mm}
        for over, reading in readings.items():
            found = circle_from_reading(reading, holes, apart, over, hole_mm)  # type: ignore[arg-type]  # keys are the literals
            assert found.diameter_mm == pytest.approx(114.3)


def test_a_good_calliper_tells_112_from_114_3_and_says_by_how_much() -> None:
    best, second = tell_circles_apart(chord_mm(HoleCircle(5, 112.0)) + 0.1, 0.2, 5)[:2]
    assert (best.circle.diameter_mm, second.circle.diameter_mm) == (112.0, 114.3)
    first, other = tell_circles_apart(chord_mm(HoleCircle(5, 112.0)) + 0.1, 0.2, 5, candidates_mm=(112.0, 114.3))
    assert first.standard_steps == pytest.approx(0.5)
    assert other.difference_mm == pytest.approx(0.1 - 1.352, abs=0.001)


def test_holes_and_steps_that_do_not_exist_are_refused() -> None:
    with pytest.raises(OutsideValidity):
        chord_mm(HoleCircle(5, 112.0), 3)
    with pytest.raises(OutsideValidity):
        circle_from_reading(60.0, 2)
    with pytest.raises(OutsideValidity):
        circle_from_reading(60.0, 5, over="outer edges")
