"""The fasteners of an axle: a window with two ends, every length, every wheel set, adapters, the torque on record."""

from __future__ import annotations

import html
import re

import pytest
from tests.web.conftest import Page, example, words_of

from hubwright.store.cupboard import Cupboard


def words(page: Page, address: str, status: int = 200) -> str:
    answer = page.get(address)
    assert answer.status_code == status
    return html.unescape(words_of(answer))


def add(cupboard: Cupboard, name: str) -> str:
    return cupboard.add(example(name), "Ann").job_id


def test_the_next_longer_bolt_is_taken_and_the_one_too_long_is_refused(page: Page, cupboard: Cupboard) -> None:
    """Bolts of 27 mm engaging 13.5 mm, flange 15, 4 behind it, 5 mm disc: 33 mm is right, 30 a caution, 35 too long."""
    job = add(cupboard, "hatchback-rear-flush")
    shown = words(page, f"/jobs/{job}/fasteners/rear")
    assert "Shown: 5 mm per side, plain disc. It is the recommended one." in shown
    assert "Needed: old length plus disc 32.0 mm Next longer on the shelf 33 mm" in shown
    assert "wanted 14.0 mm to 16.0 mm, floor 11.2 mm" in shown
    assert re.search(r"33 mm, draw it fits take 14\.5 9\.7 4\.5", shown)
    assert re.search(r"30 mm, draw it caution 11\.5 7\.7 7\.5", shown)
    assert re.search(r"35 mm, draw it no 16\.5 11\.0 2\.5", shown)
    assert re.search(r"27 mm, draw it no today's 8\.5 5\.7 10\.5", shown)


def test_any_length_of_the_list_can_be_drawn(page: Page, cupboard: Cupboard) -> None:
    job = add(cupboard, "hatchback-rear-flush")
    shown = words(page, f"/jobs/{job}/fasteners/rear?t=5&length=50")
    assert "The tip runs 12.5 mm into what stands behind." in shown
    shown = words(page, f"/jobs/{job}/fasteners/rear?t=5&length=51", 422)
    assert "one of the lengths listed: 27, 28, 30, 33" in shown


def test_a_stud_that_bottoms_in_a_closed_nut_is_refused_with_the_mm(page: Page, cupboard: Cupboard) -> None:
    """Studs of 38 mm engage 14 mm with 5 mm; 58 mm studs reach 35.5 mm into nuts that are 24 mm deep."""
    job = add(cupboard, "saloon-studs")
    shown = words(page, f"/jobs/{job}/fasteners/rear?t=5&length=58")
    assert re.search(r"38 mm, draw it fits take today's 14\.0 9\.3 8\.5", shown)
    assert "The stud is 11.5 mm too long for the closed nut: it bottoms before it clamps." in shown
    assert "wanted 12.0 mm to 22.5 mm, floor 9.6 mm" in shown


def test_a_bolted_adapter_is_drawn_for_every_wheel_set_and_a_flat_spare_cannot_be_mounted(
    page: Page, cupboard: Cupboard
) -> None:
    job = add(cupboard, "off-roader-adapter")
    shown = words(page, f"/jobs/{job}/fasteners/rear")
    assert "The studs stand 8.0 mm out; the pocket is 12.0 mm deep." in shown
    assert "The studs stand 8.0 mm out and the wheel is flat: it cannot be mounted." in shown
    assert "The wheel hides the inner joint: re-checking it means wheels off." in shown


def test_a_set_for_which_the_discs_come_off_is_left_as_it_is(page: Page, cupboard: Cupboard) -> None:
    job = add(cupboard, "estate-full-data")
    assert "winter wheels: the discs come off for them" in words(page, f"/jobs/{job}/fasteners/front")


def test_seats_that_do_not_match_are_said_first(page: Page, cupboard: Cupboard) -> None:
    job = add(cupboard, "hatchback-rear-flush")
    cupboard.enter(job, [("rear.wheel_set[1].wheel.seat", '"ball"')], "Ann", base=1)
    shown = words(page, f"/jobs/{job}/fasteners/rear?t=5")
    assert "seats do not match" in shown
    assert "a cone seat does not sit in a ball seat" in shown


def test_torque_is_a_record_or_to_be_looked_up_and_order_is_drawn(page: Page, cupboard: Cupboard) -> None:
    none = page.get(f"/jobs/{add(cupboard, 'hatchback-rear-flush')}/fasteners/rear")
    assert "Nothing on record" in words_of(none)
    assert 'data-part="hole 5"' in none.text
    shown = words(page, f"/jobs/{add(cupboard, 'estate-full-data')}/fasteners/front")
    assert "120 N·m clean and dry" in shown
    assert "Two records disagree" in shown
    assert "of clamp per fastener today" in shown


def test_readings_that_are_missing_are_named_with_how_to_take_them(page: Page, cupboard: Cupboard) -> None:
    job = add(cupboard, "hatchback-rear-flush")
    cupboard.enter(job, [("rear.fastener.engagement_mm", None)], "Ann", base=1)
    shown = words(page, f"/jobs/{job}/fasteners/rear?t=5")
    assert "Count turns from first hold to seated" in shown


@pytest.mark.parametrize("address", ["front", "rear?t=0", "rear?t=x&length=-1", "middle", "rear?length=1e308"])
def test_odd_addresses_have_clear_answers(page: Page, cupboard: Cupboard, address: str) -> None:
    answer = page.get(f"/jobs/{add(cupboard, 'hatchback-rear-flush')}/fasteners/{address}")
    assert answer.status_code == (200 if address == "front" else 422)
