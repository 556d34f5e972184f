"""A package in one line of text."""

from __future__ import annotations

import pytest

from hubwright.errors import BadInput
from hubwright.parts.package_text import read_package


def test_tyre_rim_and_inset_are_read() -> None:
    package = read_package("235/40R18 95W  ON 8Jx18 ET45")
    assert (package.tyre.section_width_mm, package.tyre.load_index) == (235, 95)
    assert (package.rim.width_code, package.rim.diameter_code, package.inset_mm) == (8, 18, 45)


def test_an_outset_stays_negative() -> None:
    assert read_package("31x10.50R15LT on 8Jx15 ET-19").inset_mm == -19


@pytest.mark.parametrize(
    ("text", "pieces"),
    [
        ("235/40R18 95W", ["package"]),
        ("235/40R18 on 8Jx18 on 9Jx18", ["package"]),
        ("235/40R18 on 8Jx18", ["rim.inset"]),
        ("225/45Q17 on 8Yx18 ET45", ["tyre.construction", "rim.separator"]),
    ],
)
def test_every_piece_not_understood_is_named_at_once(text: str, pieces: list[str]) -> None:
    with pytest.raises(BadInput) as caught:
        read_package(text)
    assert [fault.field for fault in caught.value.faults] == pieces
