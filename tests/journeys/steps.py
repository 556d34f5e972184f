"""Steps that several journeys take, by what people see: roles, labels, words."""

from __future__ import annotations

import re
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


def choose(page: Page, group: str, reading: str) -> None:
    """Put a reading of the list before one.

    Args:
        page: With the sheet open.
        group: Heading of the list it stands in.
        reading: Its name in the list.
    """
    fold = page.locator("[data-list] details", has=page.get_by_text(group))
    link = fold.get_by_role("link").get_by_text(reading, exact=True)
    if not link.first.is_visible():
        fold.locator("summary").click()
    link.first.click()


def take(page: Page, group: str, reading: str, value: str, **extras: str) -> None:
    """Take one reading on the measuring sheet and wait until it is on the disk.

    Args:
        page: With the sheet open.
        group: Heading of the list it stands in.
        reading: Its name in the list.
        value: Typed, or the words of the choice.
        extras: Labels and texts of the other boxes, blanks as ``_``.
    """
    choose(page, group, reading)
    form = page.locator("form.take")
    for label, text in extras.items():
        form.get_by_label(label.replace("_", " ")).fill(text)
    keep(page, value)
    expect(page.locator("[data-told]")).to_contain_text(re.compile(rf"{re.escape(reading)}.*on the disk", re.S))


def keep(page: Page, value: str) -> None:
    """Type the reading before one, or choose it, and wait until it is on the disk."""
    page.wait_for_load_state()  # before its script has come the form goes without it, and says so in another way
    form = page.locator("form.take")
    choice = form.get_by_role("radio", name=value, exact=True)
    if choice.count():
        form.locator("label", has_text=re.compile(rf"^\s*{re.escape(value)}\s*$")).click()
    else:
        form.locator("input.value").fill(value)
    form.get_by_role("button", name="Keep", exact=True).click()
    expect(page.locator("[data-told]")).to_contain_text("on the disk")
