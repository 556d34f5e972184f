"""What differs from side to side, the round with the car turned, and gaps at the height release waits for."""

from __future__ import annotations

import html
import re
from urllib.parse import parse_qs, urlsplit

import pytest
from tests.web.conftest import Page, example, words_of
from tests.web.sheet.test_sheet import fresh, job_of, read, rear_of

from hubwright.checks.plausibility import questions
from hubwright.store.cupboard import Cupboard
from hubwright.web.desk import Desk
from hubwright.web.sheet.names import axle_field, corner_field, gap, name_of
from hubwright.web.sheet.views import sheet_of

LIP = "arch lip, inner edge"
PINCH_UNREAD = re.compile(rb"  \{ travel_mm = (?!0,|71,)[^}]*\},\n")


def test_a_hub_that_differs_on_one_side_is_that_sides_own(page: Page, cupboard: Cupboard) -> None:
    job_id = fresh(page)
    read(page, job_id, axle_field("hub.spigot_length_mm"), "12,5")
    read(page, job_id, corner_field("left", "hub.spigot_length_mm"), ["11,5", "11,7"], base=2, method="depth gauge")
    rear = rear_of(cupboard, job_id)
    assert rear.hub_at("right").spigot_length_mm.value == 12.5  # type: ignore[union-attr]
    own = rear.hub_at("left").spigot_length_mm
    assert own is not None and own.values == (11.5, 11.7) and own.method == "depth gauge"


def test_nothing_waits_for_a_hub_of_its_own_and_customers_are_not_asked_for_it(desk: Desk, cupboard: Cupboard) -> None:
    seen = desk.seen(cupboard.add(example("hatchback-rear-flush"), "Ann").job_id)

    def own(customer: bool) -> list[bool]:
        shown = sheet_of(desk, seen, "rear", "/x", "metric", customer=customer)
        names = {slot.id: name_of(slot.id) for slot in shown.slots}
        return [slot.another for slot in shown.slots if (n := names[slot.id]) and n.side and n.what.startswith("hub.")]

    assert own(False) and all(own(False))
    assert own(True) == []


def test_toe_can_be_read_on_an_axle_that_does_not_steer(page: Page, cupboard: Cupboard) -> None:
    job_id = fresh(page)
    read(page, job_id, corner_field("right", "toe_deg"), "0.12")
    assert rear_of(cupboard, job_id).right.toe_deg == 0.12


def test_both_rounds_of_a_gap_stand_beside_each_other_and_show_the_slope_of_the_floor(
    page: Page, cupboard: Cupboard
) -> None:
    job_id = fresh(page)
    for side, first, second in (("left", "30", "22"), ("right", "22", "30")):
        step = gap(side, LIP, "parked")  # type: ignore[arg-type]
        read(page, job_id, step, first, base=cupboard.job(job_id).revision)
        answer = read(page, job_id, step, second, base=cupboard.job(job_id).revision, turned="yes")
        assert "turned=yes" in answer.headers["location"]
    rear = rear_of(cupboard, job_id)
    for side, first, second in (("left", 30, 22), ("right", 22, 30)):
        readings = rear.corner(side).point[0].reading  # type: ignore[arg-type]
        assert [(one.gap_mm.value, one.car_turned) for one in readings] == [(first, False), (second, True)]
    assert any(question.about == "floor slope" for question in questions(job_of(cupboard, job_id)))


def test_the_round_with_the_car_turned_asks_only_gaps_and_the_length_of_the_plumb_line(page: Page, job_id: str) -> None:
    shown = page.get(f"/jobs/{job_id}/measure/rear?turned=yes")
    kinds = {html.unescape(step).split("%7C")[0] for step in re.findall(r"\?step=([^&\"]+)", shown.text)}
    assert kinds == {"gap", "place"}
    assert 'name="turned" value="yes"' in shown.text
    assert "Length of the plumb line" in words_of(shown)


@pytest.mark.parametrize("units", ["metric", "inch"])
def test_verify_carries_the_height_of_a_pinch_nobody_read_bare_to_the_sheet(
    page: Page, cupboard: Cupboard, units: str
) -> None:
    data = PINCH_UNREAD.sub(b"", example("hatchback-rear-flush"))
    job_id = cupboard.add(data, "Ann").job_id
    page.cookies["hw_likes"] = f"en.{units}.auto"
    shown = page.get(f"/jobs/{job_id}/verify/rear?disc=5").text
    links = [html.unescape(link) for link in re.findall(r'class="button" href="([^"]+step=[^"]+)"', shown)]
    link = next(link for link in links if "right" in link)
    name = name_of(parse_qs(urlsplit(link).query)["step"][0])
    assert name is not None
    travel = int(name.what.split(" ")[1])
    assert 5 < travel < 66
    sheet = page.get(link)
    box = re.search(r'name="travel" value="([^"]*)"(.*?)>', sheet.text)
    assert box is not None and "readonly" not in box[2]
    typed = float(box[1]) * (25.4 if units == "inch" else 1)
    assert typed == pytest.approx(travel, abs=0.01)
    step = html.unescape(re.search(r'name="slot" value="([^"]+)"', sheet.text)[1])  # type: ignore[index]
    fields = {"slot": step, "value": box[1], "travel": box[1], "disc": "5", "base": 1, "system": units}
    assert page.form(f"/jobs/{job_id}/measure/rear", fields).status_code == 303
    last = rear_of(cupboard, job_id).right.point[0].reading[-1]
    assert (last.disc_mm, last.travel_mm) == (5, pytest.approx(travel, abs=0.01))
