"""Car and request: what is typed goes into the job, everything wrong is told at once, nothing else moves."""

from __future__ import annotations

import html
import re
from typing import Any

import httpx2 as httpx
import pytest
from tests.web.conftest import Page, example, words_of

from hubwright.jobs.jobfile import parse
from hubwright.store.cupboard import Cupboard


def boxes(answer: httpx.Response) -> dict[str, Any]:
    """Every box of the page's form as a browser would post it untouched."""
    form = answer.text[answer.text.index('class="car') :]
    found: dict[str, Any] = {}

    def put(name: str, value: str) -> None:
        found.setdefault(html.unescape(name), []).append(html.unescape(value))

    for tag in re.findall(r"<input\b[^>]*>", form):
        named = dict(re.findall(r'([\w-]+)="([^"]*)"', tag))
        if named.get("type") in ("checkbox", "radio") and " checked" not in tag:
            continue
        put(named["name"], named.get("value", ""))
    for name, inner in re.findall(r'<select[^>]*name="([^"]+)"[^>]*>(.*?)</select>', form, re.S):
        chosen = re.search(r'<option value="([^"]*)" selected', inner) or re.search(r'<option value="([^"]*)"', inner)
        put(name, chosen[1] if chosen else "")
    for name, inner in re.findall(r'<textarea[^>]*name="([^"]+)"[^>]*>(.*?)</textarea>', form, re.S):
        put(name, inner)
    found.pop("form_token", None)
    return found


def fresh(page: Page) -> str:
    return page.form("/new", {"description": "Hatchback", "use": "street"}).headers["location"].removeprefix("/jobs/")


@pytest.mark.parametrize("name", ["hatchback-rear-flush", "saloon-studs", "estate-other-wheels", "off-roader-adapter"])
@pytest.mark.parametrize("units", ["metric", "inch"])
def test_a_page_sent_back_as_it_was_shown_changes_nothing(
    page: Page, cupboard: Cupboard, name: str, units: str
) -> None:
    job_id = cupboard.add(example(name), "Ann").job_id
    page.cookies["hw_likes"] = f"en.{units}.auto"
    answer = page.form(f"/jobs/{job_id}/car", boxes(page.get(f"/jobs/{job_id}/car")))
    assert answer.status_code == 303
    assert cupboard.job(job_id).revision == 1
    assert cupboard.job(job_id).data == example(name)


def test_a_job_opens_at_car_and_request(page: Page, job_id: str) -> None:
    assert page.get(f"/jobs/{job_id}", follow_redirects=False).headers["location"] == f"/jobs/{job_id}/car"


def test_a_wish_on_an_axle_the_job_does_not_know_yet_makes_the_axle(page: Page, cupboard: Cupboard) -> None:
    job_id = fresh(page)
    shown = boxes(page.get(f"/jobs/{job_id}/car"))
    shown["v:rear.wish.aim"], shown["v:rear.wish.thickness_mm"] = "thickness", "20"
    shown["v:request.countries"] = ["", "DE"]
    assert page.form(f"/jobs/{job_id}/car", shown).status_code == 303
    job = parse(cupboard.job(job_id).text)
    assert job.rear is not None and job.rear.wish is not None
    assert job.rear.wish.thickness_mm == 20
    assert job.request.countries == ("DE",)
    assert job.front is None


def test_a_thickness_typed_without_an_aim_is_a_wish_for_that_thickness(page: Page, cupboard: Cupboard) -> None:
    job_id = fresh(page)
    page.form(f"/jobs/{job_id}/car", {"base": 1, "v:front.wish.aim": "", "v:front.wish.thickness_mm": "12,5"})
    job = parse(cupboard.job(job_id).text)
    assert job.front is not None and job.front.wish is not None
    assert (job.front.wish.aim, job.front.wish.thickness_mm) == ("thickness", 12.5)


def test_a_wish_whose_aim_is_emptied_goes_out_whole(page: Page, cupboard: Cupboard, job_id: str) -> None:
    page.form(
        f"/jobs/{job_id}/car",
        {"base": 1, "v:rear.wish.aim": "", "v:rear.wish.thickness_mm": "", "v:rear.wish.discs": ""},
    )
    job = parse(cupboard.job(job_id).text)
    assert job.rear is not None and job.rear.wish is None


def test_everything_wrong_is_told_at_once_and_what_was_typed_stays(page: Page, cupboard: Cupboard, job_id: str) -> None:
    typed = {
        "base": 1, "v:car.seats": "many", "v:rear.track_mm": "15400", "v:rear.wheel_set[1].wheel.inset_mm": "4x5",
        "v:request.reason": "wide & low", "@due": "soon",
    }  # fmt: skip
    answer = page.form(f"/jobs/{job_id}/car", typed)
    assert answer.status_code == 422
    said = words_of(answer)
    assert "4 things to put right" in said
    assert "Rear axle: Track" in said and "a number from 500 mm to 3500 mm" in said
    assert "wide &amp; low" in answer.text and 'value="4x5"' in answer.text
    assert cupboard.job(job_id).revision == 1


def test_figures_that_cannot_both_be_true_come_back_at_their_box(page: Page, cupboard: Cupboard, job_id: str) -> None:
    answer = page.form(f"/jobs/{job_id}/car", {"base": 1, "v:rear.fastener.seat_radius_mm": "13"})
    assert answer.status_code == 422
    assert 'href="#f-rear.fastener.seat_radius_mm"' in answer.text
    assert cupboard.job(job_id).revision == 1


def test_a_wheel_set_is_added_changed_and_taken_out(page: Page, cupboard: Cupboard, job_id: str) -> None:
    new = "v:rear.wheel_set[+]."
    added = {
        "base": 1, f"{new}role": "winter", f"{new}name": "winter wheels", f"{new}tyre.designation": "205/55R16 94H",
        f"{new}wheel.inset_mm": "47", f"{new}fastener.kind": "bolt", f"{new}fastener.length_mm": "27", f"{new}discs": "come off",
    }  # fmt: skip
    assert page.form(f"/jobs/{job_id}/car", added).status_code == 303
    job = parse(cupboard.job(job_id).text)
    assert job.rear is not None
    winter = job.rear.wheel_set[1]
    assert (winter.role, winter.discs, winter.fastener and winter.fastener.kind) == ("winter", "come off", "bolt")
    page.form(f"/jobs/{job_id}/car", {"base": 2, "v:rear.wheel_set[2].name": "snow", "x:rear.wheel_set[1]": "yes"})
    job = parse(cupboard.job(job_id).text)
    assert job.rear is not None
    assert [item.name for item in job.rear.wheel_set] == ["snow"]


def test_a_torque_record_without_its_source_is_refused_at_the_new_box(
    page: Page, cupboard: Cupboard, job_id: str
) -> None:
    new = "v:rear.torque[+]."
    answer = page.form(f"/jobs/{job_id}/car", {"base": 1, f"{new}torque_nm": "120", f"{new}lubrication": "dry"})
    assert answer.status_code == 422
    assert 'href="#f-rear.torque[+].source"' in answer.text
    full = {
        "base": 1,
        f"{new}torque_nm": "88.5",
        f"{new}lubrication": "dry",
        f"{new}source": "owner's book",
        f"{new}stages": "40; 88.5",
    }
    assert page.form(f"/jobs/{job_id}/car", {**full, "system": "inch"}).status_code == 303
    job = parse(cupboard.job(job_id).text)
    assert job.rear is not None
    assert job.rear.torque[0].torque_nm == pytest.approx(119.99, abs=0.01)


def test_a_field_spelled_in_inches_in_the_file_stays_in_inches(page: Page, cupboard: Cupboard) -> None:
    data = example("hatchback-rear-flush").replace(b"track_mm = 1540\nlargest", b"track_in = 60.6\nlargest")
    job_id = cupboard.add(data, "Ann").job_id
    page.form(f"/jobs/{job_id}/car", {"base": 1, "system": "inch", "v:rear.track_mm": "60 1/2"})
    assert "track_in = 60.5" in cupboard.job(job_id).text


def test_released_is_not_set_without_its_proof_and_the_reasons_are_shown(
    page: Page, cupboard: Cupboard, job_id: str
) -> None:
    answer = page.form(f"/jobs/{job_id}/car", {"base": 1, "@stage": "released"})
    assert answer.status_code == 422
    assert "not measured with the recommended disc fitted" in words_of(answer)
    assert cupboard.job(job_id).card.get("@stage") is None


def test_two_people_on_one_field_are_told(page: Page, cupboard: Cupboard, job_id: str) -> None:
    cupboard.enter(job_id, [("car.plate", '"BO 1"')], "Bo", base=1)
    answer = page.form(f"/jobs/{job_id}/car", {"base": 1, "v:car.plate": "ANN 1", "v:car.seats": "4"})
    shown = words_of(page.get(answer.headers["location"]))
    assert "put aside" in shown
    job = parse(cupboard.job(job_id).text)
    assert (job.car.plate, job.car.seats) == ("BO 1", 4)


def test_the_page_says_that_a_torque_is_a_record(page: Page, job_id: str) -> None:
    assert "it is never computed or scaled" in words_of(page.get(f"/jobs/{job_id}/car"))


def test_an_attached_scan_can_be_chosen(page: Page, cupboard: Cupboard, job_id: str) -> None:
    cupboard.attach(job_id, b"ply\n", "arch.ply", "Ann")
    assert '<option value="arch.ply"' in page.get(f"/jobs/{job_id}/car").text
    new = "v:rear.left.scan[+]."
    typed = {"base": 1, f"{new}name": "arch", f"{new}file": "arch.ply", f"{new}unit": "mm", f"{new}hub_centre": "1; 2; 3",
             f"{new}normal": "0; 1; 0", f"{new}forward": "1; 0; 0"}  # fmt: skip
    assert page.form(f"/jobs/{job_id}/car", typed).status_code == 303
    assert 'file = "arch.ply"' in cupboard.job(job_id).text
