"""Two people on one job, each in a browser of their own: what differs is merged, what clashes is told and decided."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect
from tests.journeys.conftest import People
from tests.journeys.server import Site
from tests.journeys.steps import new_job, store

pytestmark = pytest.mark.slow


def test_different_fields_are_merged_and_one_field_twice_is_decided(site: Site, people: People) -> None:
    ann, bo = people(site, "Ann"), people(site, "Bo", size="desktop")
    ann.open("/")
    job = new_job(ann.page, "TWO 1")
    for one in (ann, bo):
        one.open(f"{job}/car")
    ann.page.get_by_label("Customer", exact=True).fill("A. Sample")
    bo.page.get_by_label("What does the customer want?").fill("As wide as it goes")
    for one in (ann, bo):
        store(one.page)
        one.look()
    expect(bo.page.get_by_label("Customer", exact=True)).to_have_value("A. Sample")
    ann.open(f"{job}/car")
    expect(ann.page.get_by_label("What does the customer want?")).to_have_value("As wide as it goes")
    bo.open(f"{job}/car")
    for one, plate in ((ann, "ANN 7"), (bo, "BO 8")):
        one.page.get_by_role("textbox", name="Plate", exact=True).fill(plate)
        store(one.page)
    bo.look()
    bo.page.get_by_role("link", name="1 entry was put aside").click()
    bo.look()
    expect(bo.page.get_by_role("row", name="car.plate")).to_contain_text("ANN 7")
    bo.page.get_by_role("button", name="Take the entry of Bo").click()
    expect(bo.page.get_by_text("None.")).to_be_visible()
    ann.open(f"{job}/history")
    expect(ann.page.get_by_role("main")).to_contain_text("BO 8")
    ann.open("/?plate=bo8")
    expect(ann.page.get_by_role("heading", name="1 job found")).to_be_visible()
