"""The page of side effects: signs, alarms, what is not known, odd addresses."""

from __future__ import annotations

import pytest
from tests.web.conftest import Page, example, words_of

from hubwright.store.cupboard import Cupboard


@pytest.fixture
def compact(cupboard: Cupboard) -> str:
    return cupboard.add(example("compact-front-lock"), "Ann").job_id


def test_a_scrub_radius_that_changes_its_sign_is_an_alarm_with_the_disc_asked_for_only(
    page: Page, compact: str
) -> None:
    answer = page.get(f"/jobs/{compact}/effects")
    words = words_of(answer)
    assert "The scrub radius goes from −8.0 mm to 7.0 mm and changes its sign" in words
    assert "The scrub radius goes from −8.0 mm to −3.0 mm: bumps and uneven brakes tug less" in words
    assert answer.text.count('class="told alarm"') == 1
    assert "−8.0 + 15.0 = 7.0 mm" in words  # its working, behind the fold


def test_a_chosen_thickness_stands_beside_the_recommended_and_the_wished_one(page: Page, compact: str) -> None:
    words = words_of(page.get(f"/jobs/{compact}/effects?front=8"))
    assert "5 mm per side recommended" in words
    assert "15 mm per side asked for" in words
    assert "8 mm per side chosen here" in words
    assert "+16.0 mm" in words  # of track
    assert "Front 8 mm, rear none (chosen here)" in words


def test_what_is_not_known_names_the_readings_that_would_open_it(page: Page, compact: str) -> None:
    words = words_of(page.get(f"/jobs/{compact}/effects"))
    assert "the front-view instant centre arm L wheel rate, roll stiffness, parked height" in words


def test_the_whole_car_leans_less_by_a_signed_figure(page: Page, cupboard: Cupboard) -> None:
    job = cupboard.add(example("estate-full-data"), "Ann").job_id
    words = words_of(page.get(f"/jobs/{job}/effects"))
    assert "−0.05 °" in words
    assert "The body leans 2.60° to 2.55° in that bend." in words


@pytest.mark.parametrize("typed", ["abc", "-3", "0", "1e9", "nan", "inf", "9" * 400, "5;10"])
def test_a_thickness_that_is_none_is_answered_with_what_is_wanted(page: Page, compact: str, typed: str) -> None:
    answer = page.get(f"/jobs/{compact}/effects", params={"t": typed})
    assert answer.status_code == 422
    assert "a thickness per side above 0 and up to 150 mm" in words_of(answer)


def test_a_decimal_comma_will_do(page: Page, compact: str) -> None:
    assert "12.5 mm per side chosen here" in words_of(page.get(f"/jobs/{compact}/effects?t=12,5"))


def test_tyres_of_another_circumference_than_the_placard_move_the_speedometer(page: Page, cupboard: Cupboard) -> None:
    """225/45R17 by UN R30 6.1: 432 + 2 x 101 = 634 mm; read on the car 645.2 mm: +1.77 %."""
    job = cupboard.add(example("hatchback-rear-flush"), "Ann").job_id
    edits = [("rear.series_tyre", '"225/45R17 91W"'), ("car.speedometer_lead_percent", "-1.0")]
    cupboard.enter(job, edits, "Ann", base=1)
    words = words_of(page.get(f"/jobs/{job}/effects"))
    assert "+1.77 % around against the 225/45R17 91W of the placard, so the speedometer shows −1.74 %" in words
    assert "The speedometer shows 99.0 km/h at a true 100: outside UN R39 at 40 km/h." in words


def test_a_job_without_axles_or_with_faults_still_has_the_page(page: Page, cupboard: Cupboard) -> None:
    bare = cupboard.add(b"hubwright_job = 1\ntitle = 'T'\n[request]\nuse = 'street'\n", "Ann").job_id
    assert "The job says nothing about either axle yet." in words_of(page.get(f"/jobs/{bare}/effects"))
    assert page.get(f"/jobs/{bare}/law?t=5").status_code == 200
