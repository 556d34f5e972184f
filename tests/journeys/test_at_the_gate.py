"""A server open to a network, in a real browser: the gate, the people, the shop, and a customer with a link."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Page, expect
from tests.journeys.conftest import People
from tests.journeys.server import Site

pytestmark = pytest.mark.slow
WORD = "nine blue vans"


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Site]:
    """Open to a network: Ann manages, Mo measures."""
    made = Site(tmp_path_factory.mktemp("gate"))
    with made.cupboard() as cupboard:
        for name, role in (("Ann", "manage"), ("Mo", "measure")):
            cupboard.people.add(name, WORD, role, "setup")
    made.start("--host", "0.0.0.0", "--base-address", "http://127.0.0.1")
    made.address = made.address.replace("0.0.0.0", "127.0.0.1")
    try:
        yield made
    finally:
        made.stop()
    assert "Traceback" not in made.log, made.log


def sign_in(page: Page, name: str, word: str = WORD) -> None:
    page.get_by_label("Name").fill(name)
    page.get_by_label("Password").fill(word)
    page.get_by_role("button", name="Sign in").click()


@pytest.mark.parametrize("size", ["phone", "tablet", "desktop"])
def test_everybody_signs_in_and_the_pages_of_people_and_shop_stand_without_barriers(
    site: Site, people: People, size: str
) -> None:
    ann = people(site, size=size)
    ann.open("/shop/rules")
    with ann.expecting(422):
        sign_in(ann.page, "Ann", "something else")
        expect(ann.page.get_by_role("alert")).to_contain_text("do not belong together")
        ann.look()
    sign_in(ann.page, "ann")
    expect(ann.page).to_have_url(f"{site.address}/shop/rules")
    for address in ("/people", "/password", "/settings", "/shop", "/shop/about", "/shop/rules", "/shop/assumptions", "/shop/disc/new",
                    "/shop/fastener/new", "/shop/tool/new", "/shop/history", "/shop/keeping"):  # fmt: skip
        ann.open(address)
    ann.open("/shop/rules")
    ann.page.get_by_label("Least pilot, alloy wheel").fill("much")
    with ann.expecting(422):
        ann.page.get_by_role("button", name="Store").click()
        expect(ann.page.get_by_role("alert")).to_be_focused()
        ann.look()
    ann.open("/people")
    ann.page.get_by_text("Change Mo").click()
    ann.look()


def test_whoever_only_measures_is_told_what_they_may_not(site: Site, people: People) -> None:
    mo = people(site)
    mo.open("/sign-in")
    sign_in(mo.page, "Mo")
    expect(mo.page.get_by_role("heading", name="Jobs", exact=True)).to_be_visible()
    assert mo.page.get_by_role("link", name="People").count() == 0
    with mo.expecting(403):
        mo.open("/people")
        expect(mo.page.get_by_role("main")).to_contain_text("it needs the role “manage”")
    mo.open("/settings")
    mo.page.get_by_role("button", name="Sign out").click()
    expect(mo.page).to_have_url(f"{site.address}/sign-in")
    mo.open("/")
    expect(mo.page).to_have_url(f"{site.address}/sign-in")


def test_a_link_is_made_opened_on_a_telephone_and_revoked_in_the_middle(site: Site, people: People) -> None:
    ann, zoe = people(site, size="desktop"), people(site, size="phone")
    ann.open("/sign-in")
    sign_in(ann.page, "Ann")
    ann.page.locator(".jobs .job").first.click()
    job = ann.page.url.removeprefix(site.address).split("/")[2]
    ann.open(f"/jobs/{job}/customer")
    ann.page.get_by_label("Name of the customer").fill("Zoë")
    ann.page.get_by_role("button", name="Make the link").click()
    expect(ann.page.get_by_role("img", name="QR code of the address")).to_be_visible()
    ann.look()
    path = "/m/" + ann.page.locator(".made .address").inner_text().rpartition("/m/")[2]
    zoe.open(path)
    zoe.page.locator(".axle-choice a").first.click()
    zoe.look()
    ann.open(f"/jobs/{job}/customer")
    expect(ann.page.get_by_role("main")).to_contain_text("opened once")
    ann.page.get_by_role("button", name="Revoke this link").click()
    ann.look()
    with zoe.expecting(404, 410):
        zoe.open(path)
        expect(zoe.page.get_by_role("heading", name="This link has ended")).to_be_visible()
        zoe.open(f"{path}x")  # one letter too many leads nowhere either
