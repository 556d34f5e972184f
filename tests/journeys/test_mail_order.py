"""Measuring by mail: a link is made, a customer opens it in a browser of their own, readings arrive under their name, it ends."""

from __future__ import annotations

import re
from datetime import timedelta
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import expect
from sqlalchemy import update
from tests.journeys.conftest import People
from tests.journeys.server import Site
from tests.journeys.steps import new_job, take

from hubwright.store import tables
from hubwright.store.rows import time_text

pytestmark = pytest.mark.slow


def test_a_customer_fills_the_sheet_of_their_own_car_until_the_link_ends(site: Site, people: People) -> None:
    ann = people(site, "Ann", size="desktop")
    page = ann.page
    ann.open("/")
    job = new_job(page, "MAIL 1")
    ann.open(f"{job}/customer")
    for area in ("Front axle", "What belongs to the whole car"):
        box = page.get_by_role("checkbox", name=area)
        if box.count():
            box.uncheck()
    page.get_by_label("Name of the customer").fill("A. Sample")
    page.get_by_role("button", name="Make the link").click()
    expect(page.get_by_text("It is shown this once.")).to_be_visible()
    ann.look()
    path = urlsplit(str(page.locator("a.address").get_attribute("href"))).path

    customer = people(site, size="phone")
    customer.open(path)
    expect(customer.page.get_by_role("heading", level=1)).to_have_text("Measure your car")
    for hidden in ("Jobs", "Shop", "History", "Bench"):
        expect(customer.page.get_by_role("link", name=hidden, exact=True)).to_have_count(0)
    customer.page.get_by_role("link", name="Rear axle").first.click()
    take(customer.page, "How the car stands", "Ride height, left", "352")
    take(customer.page, "How the car stands", "Ride height, right", "350")
    customer.look()
    customer.open(f"{path}/front")  # is not theirs: back to the first page
    assert urlsplit(customer.page.url).path == path

    ann.open(f"{job}/history")
    expect(page.get_by_role("main")).to_contain_text("customer: A. Sample")
    ann.open(f"{job}/customer")
    expect(page.get_by_role("main")).to_contain_text("2 readings came in")
    _outlive(site, job)
    with customer.expecting(404, 410):
        customer.page.goto(site.address + path)
        expect(customer.page.get_by_role("heading", level=1)).to_have_text("This link has ended")
    with site.cupboard() as cupboard:
        assert cupboard.job(job.removeprefix("/jobs/")).text.count("ride_height_mm") == 2


def _outlive(site: Site, job: str) -> None:
    """The two weeks pass: the end of every link of the job is set back."""
    with site.cupboard() as cupboard:
        past = time_text(cupboard.links.moment() - timedelta(days=1))
        ours = tables.link.c.job_id == job.removeprefix("/jobs/")
        with cupboard._engine.begin() as connection:
            connection.execute(update(tables.link).where(ours).values(expires_at=past))


def test_a_made_up_address_tells_nothing(plain_site: Site, people: People) -> None:
    anybody = people(plain_site)
    with anybody.expecting(404):
        anybody.page.goto(f"{plain_site.address}/m/{'x' * 43}")
        expect(anybody.page.get_by_role("heading", level=1)).to_have_text("There is nothing at this address")
    assert not re.search("DEMO|Sample", anybody.page.content())
