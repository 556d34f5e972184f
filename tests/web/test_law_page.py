"""The law of a job: measure against limit, open never a pass, other countries and days, the packs."""

from __future__ import annotations

import pytest
from tests.web.conftest import Page, example, words_of

from hubwright.store.cupboard import Cupboard


@pytest.fixture
def hatchback(cupboard: Cupboard) -> str:
    return cupboard.add(example("hatchback-rear-flush"), "Ann").job_id


def test_each_rule_stands_with_measure_limit_source_and_date_for_every_disc(page: Page, hatchback: str) -> None:
    words = words_of(page.get(f"/jobs/{hatchback}/law?t=10"))
    assert "at most 2 % per axle against the largest series track" in words
    assert "5 mm track +0.65 % against 1540 mm kept" in words
    assert "20 mm track +2.60 % against 1540 mm no" in words
    assert "10 mm track +1.30 % against 1540 mm kept" in words
    assert "VdTUEV Merkblatt 751 (5/2000)" in words
    assert "in force since 2000-05-01" in words
    assert "Not legal advice: the local inspector decides." in words


def test_a_disc_with_one_open_rule_is_open_and_never_kept(page: Page, hatchback: str) -> None:
    words = words_of(page.get(f"/jobs/{hatchback}/law"))
    assert "5 mm recommended open" in words
    assert "20 mm asked for no" in words


def test_other_countries_and_days_are_looked_at_without_changing_the_job(
    page: Page, cupboard: Cupboard, hatchback: str
) -> None:
    words = words_of(page.get(f"/jobs/{hatchback}/law?law=1&country=AU-SA&on=2026-01-01"))
    assert "AU-SA" in words and "Keep these in the job" in words
    assert cupboard.job(hatchback).revision == 1
    form = {"country": ["AU-SA"], "on": "2026-01-01", "law": "1", "base": "1"}
    assert page.form(f"/jobs/{hatchback}/law", form).status_code == 303
    assert 'countries = ["AU-SA"]' in cupboard.job(hatchback).text
    assert "date = 2026-01-01" in cupboard.job(hatchback).text
    assert "Keep these in the job" not in words_of(page.get(f"/jobs/{hatchback}/law"))


def test_no_country_is_open_not_kept(page: Page, hatchback: str) -> None:
    words = words_of(page.get(f"/jobs/{hatchback}/law?law=1"))
    assert "No country is named" in words
    assert "5 mm recommended open" in words
    assert "kept" not in words.split("Rear axle")[1]


def test_everything_wrong_with_the_question_is_told_at_once(page: Page, hatchback: str) -> None:
    answer = page.get(f"/jobs/{hatchback}/law?country=Atlantis&on=2026-99-01&t=x")
    assert answer.status_code == 422
    assert "3 things to put right" in answer.text
    assert page.form(f"/jobs/{hatchback}/law", {"country": "Atlantis", "on": "soon"}).status_code == 422


def test_duties_are_listed_for_the_inspector(page: Page, hatchback: str) -> None:
    assert "Wheels must have sufficient covers." in words_of(page.get(f"/jobs/{hatchback}/law"))


def test_every_pack_shows_limits_in_force_on_a_day_with_their_papers(page: Page) -> None:
    assert "Germany" in words_of(page.get("/law"))
    words = words_of(page.get("/law/DE?on=1999-01-01"))
    assert "To come" in words
    assert "Track increase without proof of fatigue strength" in words
    assert page.get("/law?on=never").status_code == 422
    assert page.get("/law/XX").status_code == 404
