"""The measuring sheet without scripts: every reading goes to its place in the job, whatever number that has meanwhile."""

from __future__ import annotations

import html
import re
from typing import Any
from urllib.parse import parse_qs, urlsplit

import pytest
from tests.web.conftest import Page, example, words_of

from hubwright.jobs.assess import assess
from hubwright.jobs.jobfile import parse
from hubwright.parts.job import Axle, Job
from hubwright.store.cupboard import Cupboard
from hubwright.store.link import may_write
from hubwright.web.desk import Desk
from hubwright.web.fields.tree import Tree
from hubwright.web.sheet.names import axle_field, corner_field, fitted_field, gap, name_of
from hubwright.web.sheet.slots import Ask, slots_of
from hubwright.web.sheet.views import sheet_of
from hubwright.web.sheet.worth import OUTSIDE_THE_SHEET, places_of


def job_of(cupboard: Cupboard, job_id: str) -> Job:
    return parse(cupboard.job(job_id).text)


def rear_of(cupboard: Cupboard, job_id: str) -> Axle:
    rear = job_of(cupboard, job_id).rear
    assert rear is not None
    return rear


def fresh(page: Page) -> str:
    return page.form("/new", {"description": "Hatchback", "use": "street"}).headers["location"].removeprefix("/jobs/")


def read(page: Page, job_id: str, slot: str, value: Any, **more: Any) -> Any:
    fields = {"slot": slot, "value": value, "base": more.pop("base", 1), "system": "metric", **more}
    return page.form(f"/jobs/{job_id}/measure/rear", fields)


@pytest.mark.parametrize(
    "name",
    ["hatchback-rear-flush", "saloon-studs", "off-roader-adapter", "mail-order-plumb-line", "coupe-front-dead-zone"],
)
@pytest.mark.parametrize("axle", ["front", "rear"])
def test_the_sheet_of_any_job_is_in_order(page: Page, cupboard: Cupboard, name: str, axle: str) -> None:
    job_id = cupboard.add(example(name), "Ann").job_id
    shown = page.get(f"/jobs/{job_id}/measure/{axle}")
    assert shown.status_code == 200
    assert "All readings" in shown.text and 'class="hw-drawing hw-reading"' in shown.text


def test_a_job_without_the_axle_has_a_sheet_for_it(page: Page, cupboard: Cupboard) -> None:
    job_id = fresh(page)
    assert read(page, job_id, axle_field("hub.spigot_length_mm"), "12,5").status_code == 303
    assert rear_of(cupboard, job_id).hub.spigot_length_mm.value == 12.5  # type: ignore[union-attr]


def test_the_sheet_of_an_axle_not_begun_says_what_to_read_first(page: Page) -> None:
    shown = words_of(page.get(f"/jobs/{fresh(page)}/measure/rear"))
    assert "Nothing an answer waits for" not in shown
    assert "No answer without" in shown or "travel from parked to full bump" in shown


def test_repeats_method_and_doubt_are_kept_with_a_reading(page: Page, cupboard: Cupboard, job_id: str) -> None:
    read(page, job_id, axle_field("hub.spigot_length_mm"), ["12.5", "12,4"], method="depth gauge", u="0.1")
    spigot = rear_of(cupboard, job_id).hub.spigot_length_mm
    assert spigot is not None
    assert (spigot.values, spigot.method, spigot.u) == ((12.5, 12.4), "depth gauge", 0.1)


def test_inches_and_fractions_go_in_as_mm(page: Page, cupboard: Cupboard, job_id: str) -> None:
    read(page, job_id, corner_field("left", "ride_height_mm"), "13 7/8", system="inch")
    height = rear_of(cupboard, job_id).left.ride_height_mm
    assert height is not None and height.value == pytest.approx(352.425)


def test_left_and_right_are_never_copied(page: Page, cupboard: Cupboard) -> None:
    job_id = fresh(page)
    read(page, job_id, gap("left", "arch lip, inner edge", "parked"), "29")
    rear = rear_of(cupboard, job_id)
    assert rear.left.point[0].reading[0].gap_mm.value == 29
    assert rear.right.point == ()


def test_a_first_gap_makes_its_place_and_a_second_joins_it(page: Page, cupboard: Cupboard) -> None:
    job_id = fresh(page)
    read(page, job_id, gap("right", "arch lip, inner edge", "parked"), "24", room="outside", kind="body")
    read(page, job_id, gap("right", "arch lip, inner edge", "between"), "9,5", travel="46")
    read(page, job_id, gap("right", "arch lip, inner edge", "droop"), "40", travel="50", method="blocks", u="1")
    read(page, job_id, gap("right", "strut", "parked"), "18", room="inside", kind="carried")
    lip, strut = rear_of(cupboard, job_id).right.point
    assert [(r.travel_mm, r.gap_mm.value) for r in lip.reading] == [(0, 24), (46, 9.5), (-50, 40)]
    assert (lip.reading[2].gap_mm.method, lip.reading[2].gap_mm.u) == ("blocks", 1)
    assert (strut.room, strut.kind) == ("inside", "carried")


def test_steering_to_the_right_is_negative(page: Page, cupboard: Cupboard) -> None:
    job_id = fresh(page)
    for state, steer in (("left-bump", "36"), ("right", "37")):
        read(page, job_id, gap("left", "liner", state), "14", steer=steer, travel="60", toward="rearward")
    readings = rear_of(cupboard, job_id).left.point[0].reading
    assert [(r.travel_mm, r.steer_deg) for r in readings] == [(60, 36), (60, -37)] or [
        (r.travel_mm, r.steer_deg) for r in readings
    ] == [(60, 36), (0, -37)]


def test_a_gap_read_again_replaces_the_one_of_its_state(page: Page, cupboard: Cupboard, job_id: str) -> None:
    read(page, job_id, gap("left", "arch lip, inner edge", "at 46 0"), ["14.5", "14.7"], travel="46")
    readings = rear_of(cupboard, job_id).left.point[0].reading
    assert len(readings) == 3
    assert readings[1].gap_mm.values == (14.5, 14.7)


def test_a_reading_with_the_disc_fitted_stands_beside_the_bare_one(page: Page, cupboard: Cupboard, job_id: str) -> None:
    shown = page.get(f"/jobs/{job_id}/measure/rear?disc=5")
    assert "A disc of 5 mm is fitted" in words_of(shown)
    assert "Length of the spigot" not in shown.text
    read(page, job_id, gap("left", "arch lip, inner edge", "parked"), "31", disc="5")
    assert [(r.disc_mm, r.gap_mm.value) for r in rear_of(cupboard, job_id).left.point[0].reading][-1] == (5, 31)


def test_a_reading_of_a_place_that_moved_in_its_list_meanwhile_lands_at_its_place(
    page: Page, cupboard: Cupboard, job_id: str
) -> None:
    cupboard.enter(job_id, [("rear.left.point[+]", '{ name = "strut", room = "inside" }')], "Bo", base=1)
    cupboard.enter(job_id, [("rear.left.point[+]", '{ name = "hose", room = "inside" }')], "Bo", base=2)
    cupboard.enter(job_id, [("rear.left.point[2]", None)], "Bo", base=3)
    answer = read(page, job_id, gap("left", "hose", "parked"), "22", base=3)
    assert answer.status_code == 303
    lip, hose = rear_of(cupboard, job_id).left.point
    assert (hose.name, hose.reading[0].gap_mm.value) == ("hose", 22)
    assert len(lip.reading) == 3


def test_a_value_somebody_else_changed_meanwhile_is_put_aside_and_told(
    page: Page, cupboard: Cupboard, job_id: str
) -> None:
    cupboard.enter(job_id, [("rear.hub.spigot_length_mm", "12.0")], "Bo", base=1)
    answer = read(page, job_id, axle_field("hub.spigot_length_mm"), "12.7", base=1)
    assert "put aside: Bo wrote another value" in words_of(page.get(answer.headers["location"]))
    assert rear_of(cupboard, job_id).hub.spigot_length_mm.value == 12.0  # type: ignore[union-attr]


def test_a_reading_sent_twice_arrives_once(page: Page, cupboard: Cupboard, job_id: str) -> None:
    for _ in range(3):
        read(page, job_id, gap("left", "arch lip, inner edge", "between"), "20", travel="30", key="k" * 32)
    assert len(rear_of(cupboard, job_id).left.point[0].reading) == 4
    assert cupboard.job(job_id).revision == 2


def test_the_first_reading_of_the_wheel_makes_the_fitted_set(page: Page, cupboard: Cupboard) -> None:
    job_id = fresh(page)
    read(page, job_id, fitted_field("wheel.bore_chamfer_mm"), "3")
    read(page, job_id, fitted_field("tyre.designation"), "235/40R18 95W")
    read(page, job_id, name_of("half|||widest").id, "119.5", radius="272")  # type: ignore[union-attr]
    fitted = rear_of(cupboard, job_id).fitted
    assert fitted is not None and fitted.wheel.bore_chamfer_mm is not None
    assert (fitted.wheel.bore_chamfer_mm.value, fitted.tyre.designation) == (3, "235/40R18 95W")
    assert [(h.radius_mm, h.half_width_mm) for h in fitted.tyre.half_width] == [(272, 119.5)]


def test_the_length_of_bolts_says_that_they_are_bolts(page: Page, cupboard: Cupboard) -> None:
    job_id = fresh(page)
    read(page, job_id, axle_field("fastener.length_mm"), "27")
    fastener = rear_of(cupboard, job_id).fastener
    assert fastener is not None and fastener.kind == "bolt"


def test_camber_and_half_track_of_one_height_stand_together(page: Page, cupboard: Cupboard) -> None:
    job_id = fresh(page)
    read(page, job_id, "motion|left||between", "-2.369", travel="46", half_track="1,0")
    read(page, job_id, "motion|left||at%2046", "-2.4", travel="46", half_track="1.1", base=2)
    motion = rear_of(cupboard, job_id).left.motion
    assert [(m.travel_mm, m.camber_deg.value, m.half_track_mm and m.half_track_mm.value) for m in motion] == [
        (46, -2.4, 1.1)
    ]


def test_what_rolling_the_lip_would_gain_is_work_on_offer(page: Page, cupboard: Cupboard) -> None:
    job_id = fresh(page)
    read(page, job_id, gap("left", "arch lip", "parked"), "29")
    read(page, job_id, "work|left|arch%20lip|gain", "7")
    work = rear_of(cupboard, job_id).left.point[0].work
    assert [(w.name, w.gain_mm) for w in work] == [("roll the arch lip", 7)]


def test_a_faulty_reading_comes_back_with_everything_wrong_and_what_was_typed(
    page: Page, cupboard: Cupboard, job_id: str
) -> None:
    answer = read(page, job_id, gap("left", "arch lip, inner edge", "between"), "1x", travel="far")
    assert answer.status_code == 422
    assert 'value="1x"' in answer.text and 'value="far"' in answer.text
    assert cupboard.job(job_id).revision == 1


@pytest.mark.parametrize(
    "slot",
    [
        "",
        "gap|left||parked",
        "field|||wish.thickness_mm",
        "field|left||point",
        "gap|up|x|parked",
        "x" * 3000,
        "half|||",
    ],
)
def test_what_is_no_reading_of_the_sheet_is_refused(page: Page, cupboard: Cupboard, job_id: str, slot: str) -> None:
    assert read(page, job_id, slot, "5").status_code in (422, 303)
    assert cupboard.job(job_id).revision == 1


def test_a_reading_is_taken_out_again(page: Page, cupboard: Cupboard, job_id: str) -> None:
    read(page, job_id, gap("left", "arch lip, inner edge", "at 46 0"), "", travel="46", take_out="yes")
    assert [r.travel_mm for r in rear_of(cupboard, job_id).left.point[0].reading] == [0, 71]


def test_an_implausible_reading_is_kept_and_questioned_at_once(page: Page, cupboard: Cupboard) -> None:
    job_id = fresh(page)
    read(page, job_id, gap("left", "arch lip", "parked"), "29")
    answer = read(page, job_id, gap("right", "arch lip", "parked"), "9", base=2)
    shown = words_of(page.get(answer.headers["location"]))
    assert "on the disk" in shown and "Parked gaps left 29.0 mm and right 9.0 mm differ" in shown
    assert rear_of(cupboard, job_id).right.point[0].reading[0].gap_mm.value == 9


def test_readings_that_contradict_each_other_are_kept_beside_the_job_and_told(
    page: Page, cupboard: Cupboard, job_id: str
) -> None:
    answer = read(page, job_id, axle_field("hub.nose_diameter_mm"), "80")
    assert "put aside" in words_of(page.get(answer.headers["location"]))
    assert len(cupboard.asides(job_id)) == 1


def test_the_sheet_goes_on_to_what_an_answer_waits_for(page: Page, cupboard: Cupboard) -> None:
    job_id = fresh(page)
    page.form(f"/jobs/{job_id}/car", {"base": 1, "v:rear.wish.aim": "widest"})
    answer = read(page, job_id, axle_field("hub.spigot_length_mm"), "12.5", base=2)
    step = parse_qs(urlsplit(answer.headers["location"]).query)["step"][0]
    sheet = sheet_of(Desk(cupboard), Desk(cupboard).seen(job_id), "rear", "/x", "metric")
    assert next(slot for slot in sheet.slots if slot.id == step).worth_mm > 0
    assert next(line.what for line in sheet.lines).startswith("travel from parked to full bump")


def test_everything_an_answer_wants_has_its_place_on_the_sheet_or_is_no_reading(cupboard: Cupboard) -> None:
    head = (
        'hubwright_job = 1\ntitle = "x"\n[request]\nuse = "street"\n[rear]\nsteered = true\nwish = { aim = "widest" }\n'
    )
    lip = '[[rear.left.point]]\nname = "lip"\nroom = "outside"\nreading = [{ travel_mm = 0, gap_mm = 20 }]\n'
    bare = head + lip
    bolts = '[rear.fastener]\nkind = "bolt"\nthread = "M14x1.5"\n[[rear.wheel_set]]\nrole = "fitted"\n'
    for text in (bare, bare + bolts, bare + bolts.replace("bolt", "nut")):
        slots = slots_of(Ask(Tree(text.encode()), "rear", True, "metric"))
        known = {slot.id for slot in slots}
        for wanted in assess(parse(text)).axles[0].wanted:
            if not wanted.what.startswith(OUTSIDE_THE_SHEET):
                found = places_of(wanted.what, slots)
                assert found and set(found) <= known, wanted.what


def test_a_customer_may_write_readings_inside_the_areas_of_a_link_and_nothing_else(
    page: Page, cupboard: Cupboard, desk: Desk, job_id: str
) -> None:
    _, link = cupboard.links.make(job_id, "Ann", areas=("rear.left",), customer="E. Sample")
    sheet = sheet_of(
        desk, desk.seen(job_id), "rear", "/m/x", "metric", permitted=lambda f, v: may_write(link, f, v), customer=True
    )
    assert {slot.side for slot in sheet.slots} == {"left"}
    assert not any(slot.id.startswith("work|") for slot in sheet.slots)


def test_in_german_every_reading_has_its_place_and_figures_have_commas(page: Page, job_id: str) -> None:
    page.cookies["hw_likes"] = "de.metric.auto"
    shown = page.get(f"/jobs/{job_id}/measure/rear?step={axle_field('hub.spigot_length_mm')}")
    assert 'value="12,5"' in shown.text


def test_a_script_gets_a_receipt(page: Page, cupboard: Cupboard, job_id: str) -> None:
    fields = {"slot": axle_field("hub.spigot_length_mm"), "value": "12.6", "base": 1}
    answer = page.form(f"/jobs/{job_id}/measure/rear", fields, headers={"accept": "application/json"})
    assert answer.json() == {"revision": 2, "aside": None, "questions": []}
    bad = page.form(f"/jobs/{job_id}/measure/rear", {**fields, "value": "x"}, headers={"accept": "application/json"})
    assert bad.status_code == 422
    assert bad.json()["faults"][0]["words"] == "Wanted a number such as 12.5; given x."
    assert page.get(f"/jobs/{job_id}/measure/rear/now").json()["base"] == 2


def test_a_place_of_the_shops_own_gets_its_gaps(page: Page, cupboard: Cupboard, job_id: str) -> None:
    added = {"add": "place", "place": "spring seat", "side": "left", "toward": "inboard", "kind": "carried"}
    answer = page.form(f"/jobs/{job_id}/measure/rear", added)
    assert "spring seat" in words_of(page.get(answer.headers["location"]))
    assert rear_of(cupboard, job_id).left.point[1].name == "spring seat"


def test_the_whole_sheet_travels_with_the_page(page: Page, job_id: str) -> None:
    shown = page.get(f"/jobs/{job_id}/measure/rear").text
    data = html.unescape(re.search(r'data-sheet="([^"]*)"', shown)[1])  # type: ignore[index]
    assert gap("right", "arch lip, inner edge", "bump") in data
