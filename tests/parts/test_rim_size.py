from __future__ import annotations

import pytest

from hubwright.errors import BadInput
from hubwright.parts.rim_size import read_rim_size


@pytest.mark.parametrize(
    ("text", "width", "diameter", "inset"),
    [
        ("8Jx18 H2 ET45", 8.0, 18.0, 45.0),
        ("8.5x19 ET 35", 8.5, 19.0, 35.0),
        ("6 1/2 J x 15", 6.5, 15.0, None),
        ("6½Jx15", 6.5, 15.0, None),
        ("6-1/2Jx15", 6.5, 15.0, None),
        ("7.5J x 17 ET-5", 7.5, 17.0, -5.0),
        ("7,5 J x 17 EH2+ ET 52,5", 7.5, 17.0, 52.5),
        ("18x8J ET45", 8.0, 18.0, 45.0),
        ("7.5 J x 17 ET−5", 7.5, 17.0, -5.0),
    ],
)
def test_a_rim_size_is_read_however_it_is_spaced(text: str, width: float, diameter: float, inset: float | None) -> None:
    size = read_rim_size(text)
    assert (size.width_code, size.diameter_code, size.inset_mm) == (width, diameter, inset)
    assert size.width_mm == pytest.approx(25.4 * width)


def test_flange_contour_and_joint_are_kept() -> None:
    size = read_rim_size("8Jx18 H2 ET45")
    assert (size.flange, size.contour, size.one_piece) == ("J", "H2", True)
    assert read_rim_size("5.50 B - 13").one_piece is False


@pytest.mark.parametrize(
    ("text", "piece"),
    [
        ("J8x18", "width"),
        ("8.3Jx18", "width"),
        ("8J18", "separator"),
        ("8Jx", "diameter"),
        ("8Jx5", "diameter"),
        ("8Jx18 XX", "marks"),
        ("8Jx18 ET", "marks"),
        ("8Jx18 ET45 ET46", "marks"),
        ("8Jx18 ET450", "inset"),
    ],
)
def test_nonsense_is_refused_by_the_name_of_the_piece(text: str, piece: str) -> None:
    with pytest.raises(BadInput) as refused:
        read_rim_size(text)
    assert refused.value.faults[0].field == f"rim.{piece}"
