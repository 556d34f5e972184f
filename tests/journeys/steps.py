"""Steps that several journeys take, by what people see: roles, labels, words."""

from __future__ import annotations

from urllib.parse import urlsplit

from playwright.sync_api import Page, expect
from tests.journeys.server import Site

from hubwright.store.things import Query


def new_job(page: Page, plate: str) -> str:
    """A new job by the form on the shelf; its path."""
    page.get_by_role("link", name="New job").click()
    page.get_by_role("textbox", name="Plate", exact=True).fill(plate)
    page.get_by_label("What car is it?").fill("Estate, as it left the works")
    page.get_by_role("button", name="Start the job").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text(plate)
    return "/" + "/".join(urlsplit(page.url).path.split("/")[1:3])


def store(page: Page) -> None:
    """Store the form of car and request, and see that it was."""
    page.get_by_role("button", name="Store").click()
    expect(page.get_by_text("Stored as revision")).to_be_visible()


def demo_job(site: Site, title: str) -> str:
    """The path of a demo job."""
    with site.cupboard() as cupboard:
        return f"/jobs/{cupboard.find(Query(title=title))[0].id}"
