from __future__ import annotations

import pytest

from hubwright.errors import BadInput
from hubwright.parts.hole_circle import HoleCircle, read_hole_circle


@pytest.mark.parametrize(
    ("text", "holes", "diameter"),
    [
        ("5x112", 5, 112.0),
        ("5x114.3", 5, 114.3),
        ("6 x 139,7 mm", 6, 139.7),
        ("5x4.5in", 5, 114.3),
        ('5x4.5"', 5, 114.3),
    ],
)
def test_a_hole_circle_is_read_in_mm_or_inches(text: str, holes: int, diameter: float) -> None:
    circle = read_hole_circle(text)
    assert circle.holes == holes
    assert circle.diameter_mm == pytest.approx(diameter)
    assert isinstance(circle, HoleCircle)


@pytest.mark.parametrize(
    ("text", "piece"),
    [
        ("2x100", "holes"),
        ("x112", "holes"),
        ("5-112", "separator"),
        ("5x4.5", "diameter"),
        ("5x900", "diameter"),
        ("5x112 foo", "marks"),
    ],
)
def test_nonsense_and_a_figure_without_its_unit_are_refused_by_name(text: str, piece: str) -> None:
    with pytest.raises(BadInput) as refused:
        read_hole_circle(text)
    assert refused.value.faults[0].field == f"hole_circle.{piece}"
