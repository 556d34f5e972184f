"""Only a car measured with its disc fitted is released, and what was predicted is held against what was read."""

from __future__ import annotations

import re

import pytest
from tests.web.conftest import Page, example, words_of

from hubwright.jobs.jobfile import parse
from hubwright.jobs.verified import compared
from hubwright.store.cupboard import Cupboard

READ = {"left": ((0, 31.0), (46, 16.4), (71, 21.1)), "right": ((0, 26.0), (46, 11.5), (71, 15.9))}


def with_readings(extra: dict[str, float] | None = None) -> str:
    text = example("hatchback-rear-flush").decode()
    for side, last in (("left", "19.0"), ("right", "14.0")):
        line = f"  {{ travel_mm = 71, gap_mm = {last} }},\n"
        rows = "".join(
            f"  {{ travel_mm = {t}, gap_mm = {(extra or {}).get(f'{side} {t}', g)}, disc_mm = 5 }},\n"
            for t, g in READ[side]
        )
        text = text.replace(line, line + rows)
    return text


def done(page: Page, job_id: str) -> None:
    shown = page.get(f"/jobs/{job_id}/verify/rear").text
    for field in re.findall(r'name="field" value="([^"]+)"', shown):
        assert page.form(f"/jobs/{job_id}/verify/rear", {"what": "work", "field": field}).status_code == 303


def test_predicted_and_measured_agree_within_twice_their_combined_doubt() -> None:
    rows = compared(parse(with_readings({"right 46": 8.0})), "rear", 5.0)
    assert len(rows) == 6
    pinch = next(row for row in rows if row.side == "right" and row.travel_mm == 46)
    assert pinch.predicted_mm == pytest.approx(9.5 + 7 - 5, abs=0.02)  # bare gap, lip rolled, disc
    assert pinch.doubt_mm == pytest.approx(2 * (1.0**2 + 1.0**2) ** 0.5)
    assert pinch.difference_mm == pytest.approx(-3.5, abs=0.02)
    assert not pinch.agrees and not pinch.keeps_margin
    assert all(row.agrees for row in rows if row is not pinch)


def test_a_state_without_a_bare_reading_near_it_was_not_predicted() -> None:
    text = with_readings().replace(
        "{ travel_mm = 71, gap_mm = 15.9, disc_mm = 5 }",
        "{ travel_mm = 0, steer_deg = 20, gap_mm = 15.9, disc_mm = 5 }",
    )
    row = next(row for row in compared(parse(text), "rear", 5.0) if row.steer_deg == 20)
    assert row.predicted_mm is None and row.agrees is None


def test_the_page_names_what_is_still_to_be_read_with_the_disc(page: Page, job_id: str) -> None:
    shown = words_of(page.get(f"/jobs/{job_id}/verify/rear"))
    assert "Still to read with the disc of 5 mm fitted" in shown
    assert "right, arch lip, inner edge, 46 mm up" in shown


def test_release_is_refused_with_its_reasons_until_it_is_proven(page: Page, cupboard: Cupboard, job_id: str) -> None:
    names = {"what": "release", "@measured_by": "Mo", "@released_by": "Dee"}
    answer = page.form(f"/jobs/{job_id}/verify/rear", names)
    assert answer.status_code == 422
    assert "not measured with the recommended disc fitted" in words_of(answer)
    assert 'value="Mo"' in answer.text
    assert "@stage" not in cupboard.job(job_id).card


def test_a_car_measured_with_its_disc_is_released_with_names_and_goes_out_with_an_appointment(
    page: Page, cupboard: Cupboard
) -> None:
    job_id = cupboard.add(with_readings(), "Ann").job_id
    before = words_of(page.get(f"/jobs/{job_id}/verify/rear"))
    assert "First say whether the work was done" in before
    done(page, job_id)
    shown = page.get(f"/jobs/{job_id}/verify/rear")
    assert "Yes: measured with the disc fitted" in words_of(shown)
    assert words_of(shown).count("as predicted") == 6  # held against the bare readings of the history
    signed = {"what": "release", "@measured_by": "Mo", "@released_by": "Dee", "@handed_over": "A. Sample"}
    assert page.form(f"/jobs/{job_id}/verify/rear", signed).status_code == 303
    card = cupboard.job(job_id).card
    assert (card["@stage"], card["@measured_by"], card["@released_by"], card["@handed_over"]) == (
        "released",
        "Mo",
        "Dee",
        "A. Sample",
    )
    assert page.form(f"/jobs/{job_id}/verify/rear", {"what": "appointment", "@due": "2026-05-11"}).status_code == 303
    assert cupboard.job(job_id).card["@stage"] == "waiting for re-torque"


def test_everything_missing_for_a_release_is_told_at_once(page: Page, job_id: str) -> None:
    answer = page.form(f"/jobs/{job_id}/verify/rear", {"what": "release"})
    assert answer.status_code == 422
    assert "@measured_by" in answer.text and "@released_by" in answer.text


def test_a_complaint_brings_the_car_back_to_its_readings(page: Page, cupboard: Cupboard, job_id: str) -> None:
    assert (
        page.form(f"/jobs/{job_id}/verify/rear", {"what": "returned", "@complaint": "rubs in bumps, right"}).status_code
        == 303
    )
    assert cupboard.job(job_id).card["@stage"] == "came back"
    assert "The readings it must be held against" in words_of(page.get(f"/jobs/{job_id}/verify/rear"))


def test_work_done_takes_out_only_the_bare_readings_of_its_place(page: Page, cupboard: Cupboard) -> None:
    job_id = cupboard.add(with_readings(), "Ann").job_id
    page.form(f"/jobs/{job_id}/verify/rear", {"what": "work", "field": "rear.right.point[1]"})
    rear = parse(cupboard.job(job_id).text).rear
    assert rear is not None
    assert rear.right.point[0].work == () and {r.disc_mm for r in rear.right.point[0].reading} == {5}
    assert len(rear.left.point[0].reading) == 6 and rear.left.point[0].work


@pytest.mark.parametrize(
    "fields", [{"what": "x"}, {}, {"what": "work", "field": "car.plate"}, {"what": "appointment", "@due": "soon"}]
)
def test_what_is_no_decision_stores_nothing(
    page: Page, cupboard: Cupboard, job_id: str, fields: dict[str, str]
) -> None:
    assert page.form(f"/jobs/{job_id}/verify/rear", fields).status_code == 422
    assert cupboard.job(job_id).revision == 1


def test_an_axle_the_job_does_not_know_has_a_page(page: Page, job_id: str) -> None:
    assert "Not yet" in words_of(page.get(f"/jobs/{job_id}/verify/front"))


def test_the_sheet_with_the_disc_leads_to_the_height_at_which_the_pinch_was_read_bare(page: Page, job_id: str) -> None:
    shown = words_of(page.get(f"/jobs/{job_id}/measure/rear?disc=5"))
    assert "Gap left, arch lip, inner edge, 46 mm up" in shown
    assert "2 still waited for" in shown
