"""Sizes as they stand on sidewalls; the order of the pieces is that of UN R30 annex 3 and R54 annex 3."""

from __future__ import annotations

import pytest

from hubwright.errors import BadInput
from hubwright.parts.tyre_size import read_tyre_size


def test_a_passenger_size_gives_width_aspect_rim_load_and_speed() -> None:
    size = read_tyre_size("205/55R16 91V")
    assert (size.service, size.section_width_mm, size.aspect_percent, size.rim_code) == ("passenger", 205.0, 55.0, 16.0)
    assert (size.load_index, size.load_index_dual, size.speed_symbol) == (91, None, "V")
    assert size.section_height_mm == 112.75


@pytest.mark.parametrize(
    ("text", "service"),
    [
        ("P205/60R15", "P-metric"),
        ("LT245/75R16 120/116S", "light truck"),
        ("195/70R15C 104/102R", "commercial"),
        ("225/70 R 15 C 112/110R", "commercial"),
        ("T125/70R17 98M", "temporary"),
        ("31x10.50R15LT", "light truck"),
        ("31 x 10.5 R 15", "passenger"),
    ],
)
def test_the_letters_around_the_size_say_what_it_serves(text: str, service: str) -> None:
    assert read_tyre_size(text).service == service


def test_a_flotation_size_is_written_in_inches_and_has_no_aspect_ratio() -> None:
    size = read_tyre_size("31x10.5R15")
    assert size.overall_diameter_mm == pytest.approx(31 * 25.4)
    assert size.section_width_mm == pytest.approx(10.5 * 25.4)
    assert size.aspect_percent is None
    assert size.section_height_mm is None


def test_a_dual_index_gives_both_figures() -> None:
    size = read_tyre_size("225/70R15C 112/110R")
    assert (size.load_index, size.load_index_dual, size.speed_symbol) == (112, 110, "R")


def test_zr_brackets_and_extra_load_are_understood_in_any_order() -> None:
    for text in ("225/45ZR17 (94Y) XL", "225/45 ZR 17 XL 94Y", "225/45zr17 extra load (94y)"):
        size = read_tyre_size(text)
        assert (size.zr, size.construction, size.extra_load, size.load_index) == (True, "R", True, 94)
        assert size.speed_symbol == "Y"


@pytest.mark.parametrize(
    ("text", "piece"),
    [
        ("", "section_width"),
        ("hello", "section_width"),
        ("999/55R16", "section_width"),
        ("207/55R16", "section_width"),
        ("205/5R16", "aspect_ratio"),
        ("165R13", "aspect_ratio"),
        ("205/55/16", "construction"),
        ("205/55Q16", "construction"),
        ("205/55R1", "rim_code"),
        ("205/55R99", "rim_code"),
        ("205/55R16 191V", "load_index"),
        ("205/55R16 110/112R", "load_index"),
        ("205/55R16 91X", "speed_symbol"),
        ("205/55R16 91V blah", "marks"),
        ("205/55R16 91V 92H", "marks"),
        ("14x10.5R15", "overall_diameter"),
        ("31x2R15", "section_width"),
    ],
)
def test_nonsense_is_refused_by_the_name_of_the_piece(text: str, piece: str) -> None:
    with pytest.raises(BadInput) as refused:
        read_tyre_size(text)
    (fault,) = refused.value.faults
    assert fault.field == f"tyre.{piece}"
    assert fault.wanted
    assert fault.given
