"""What a person types becomes a value, and a value the text a person would type: no figure drifts between the two."""

from __future__ import annotations

import dataclasses

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hubwright.parts.assumptions import Assumptions
from hubwright.parts.corner import Corner
from hubwright.parts.hub import Fastener, Hub, TorqueRecord
from hubwright.parts.job import Axle, Car, Request, Wish
from hubwright.parts.shop import Margins, Policy, StockDisc, StockFastener
from hubwright.parts.shop_settings import Tool
from hubwright.parts.wheel import Tyre, Wheel, WheelSet
from hubwright.quantities.text import speaking
from hubwright.web.fields.labels import CHOICES, LABELS
from hubwright.web.fields.shown import words_of
from hubwright.web.fields.spec import spec_at, specs_of
from hubwright.web.fields.typed import NotThat, number_of, read, unit_word

SPIGOT = spec_at("rear.hub.spigot_length_mm")
GAP = spec_at("rear.left.point[1].reading[1].gap_mm")
TORQUE = spec_at("rear.torque[1].torque_nm")


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("12,5", 12.5),
        ("12.5", 12.5),
        ("-3", -3.0),
        ("−3", -3.0),
        ("5/8", 0.625),
        ("1 5/8", 1.625),
        (".5", 0.5),
        ("7½", 7.5),
    ],
)
def test_numbers_are_read_as_people_write_them(text: str, value: float) -> None:
    assert number_of(text) == value


@pytest.mark.parametrize("text", ["", "12 5", "1/0", "five", "1.2.3", "nan", "1e5", "12,5 mm", "٣", "9" * 40])
def test_what_is_no_number_is_none(text: str) -> None:
    assert number_of(text) is None


def test_a_fraction_of_an_inch_is_stored_in_mm_and_shown_as_it_was() -> None:
    assert read(SPIGOT, "5/8", "inch") == [15.875]
    assert read(SPIGOT, "0.5", "inch") == [12.7]
    assert words_of(SPIGOT, 12.7, "inch") == "0.5"
    assert words_of(SPIGOT, 15.875, "inch") == "0.625"
    assert words_of(SPIGOT, 25.4 / 64, "inch") == "1/64"


def test_repeats_are_typed_with_blanks_or_semicolons() -> None:
    assert read(SPIGOT, "12,5 12,4; 12.6", "metric") == NotThat("a number such as 12.5", "12,5 12,4")
    assert read(SPIGOT, "12,5 12,4 12.6", "metric") == [12.5, 12.4, 12.6]
    assert read(SPIGOT, "1/2; 5/8", "inch") == [12.7, 15.875]


def test_a_figure_beyond_its_limits_is_refused_in_the_units_of_the_person() -> None:
    wrong = read(GAP, "70", "inch")
    assert isinstance(wrong, NotThat)
    assert wrong.wanted == "a number from -7.874 in to 59.06 in"
    assert isinstance(read(TORQUE, "0", "metric"), NotThat)


def test_in_german_a_figure_is_shown_with_a_comma_and_read_with_one() -> None:
    with speaking("metric", "de"):
        assert words_of(SPIGOT, 12.5, "metric") == "12,5"
    assert read(SPIGOT, "12,5", "metric") == [12.5]


@given(st.integers(-20_000, 150_000))
def test_a_metric_figure_shown_and_typed_again_is_the_same(hundredths: int) -> None:
    value = hundredths / 100
    assert read(GAP, words_of(GAP, value, "metric"), "metric") == [value]


@given(st.one_of(st.integers(-7_000, 59_000).map(lambda n: n / 1000), st.integers(-500, 3_700).map(lambda n: n / 64)))
def test_inches_typed_come_back_as_the_very_same_value(inches: float) -> None:
    stored = read(GAP, f"{inches:.6f}", "inch")[0]
    assert read(GAP, words_of(GAP, stored, "inch"), "inch") == [stored]


@given(st.integers(-20_000, 150_000))
def test_a_metric_figure_shown_in_inches_is_off_by_less_than_two_thousandths_of_a_mm(hundredths: int) -> None:
    value = hundredths / 100
    again = read(GAP, words_of(GAP, value, "inch"), "inch")
    assert not isinstance(again, NotThat)
    assert abs(again[0] - value) < 0.002


@given(st.text(max_size=40))
def test_any_text_is_a_value_or_a_reason(text: str) -> None:
    for path in ("rear.hub.spigot_length_mm", "car.seats", "rear.wish.aim", "date", "car.level_floor", "car.plate"):
        for system in ("metric", "inch"):
            read(spec_at(path), text, system)  # type: ignore[arg-type]  # both are systems


def test_every_field_of_the_pages_has_words() -> None:
    nouns = (
        Car, Request, Axle, Wish, Hub, Fastener, Wheel, Tyre, WheelSet, Corner, TorqueRecord,
        Policy, Margins, Assumptions, StockDisc, StockFastener, Tool,
    )  # fmt: skip
    keys = {spec.key for noun in nouns for spec in specs_of(noun).values()}
    assert keys <= set(LABELS)
    coded = {(spec.key, code) for noun in nouns for spec in specs_of(noun).values() for code in spec.choices}
    assert coded <= set(CHOICES)


def test_no_label_is_left_without_a_field() -> None:
    from hubwright.parts import assumptions, chassis, corner, hardpoints, hub, job, scan, shop, shop_settings, wheel

    found = set()
    for module in (assumptions, chassis, corner, hardpoints, hub, job, scan, shop, shop_settings, wheel):
        for noun in vars(module).values():
            if isinstance(noun, type) and dataclasses.is_dataclass(noun) and hasattr(noun, "__pydantic_fields__"):
                found |= {spec.key for spec in specs_of(noun).values()}
    assert set(LABELS) <= found
    assert {key for key, _ in CHOICES} <= found


def test_units_stand_beside_fields_as_the_person_likes_them() -> None:
    assert unit_word(SPIGOT, "inch") == "in"
    assert unit_word(TORQUE, "inch") == "lb-ft"
    assert unit_word(spec_at("rear.suspension.wheel_rate_n_per_mm"), "inch") == "N/mm"
    assert unit_word(spec_at("rear.left.camber_deg"), "inch") == "°"
