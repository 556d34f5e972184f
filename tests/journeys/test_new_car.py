"""From a new car to a released job, by the pages alone: request, measuring sheet, bench, disc fitted, release, appointment."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect
from tests.journeys.conftest import People
from tests.journeys.server import Site
from tests.journeys.steps import keep, new_job, store, take

pytestmark = pytest.mark.slow
STANDS, WHEEL, FASTENERS, HUB, TRAVEL, BRAKE = (
    "How the car stands", "Wheel and tyre", "Bolts or nuts", "Hub", "Travel and lock", "Brake",
)  # fmt: skip
ONCE = (
    (TRAVEL, "Travel from parked to full bump", "60"),
    (WHEEL, "Tyre", "225/45R17 91W"),
    (WHEEL, "Rim", "7.5Jx17"),
    (WHEEL, "Inset", "47"),
    (WHEEL, "Section width", "226"),
    (WHEEL, "Free radius", "316"),
    (WHEEL, "Centre bore", "57,1"),
    (WHEEL, "Chamfer at the bore", "1.5"),
    (FASTENERS, "Bolts or nuts?", "bolts"),
    (FASTENERS, "Thread", "M14x1.5"),
    (FASTENERS, "Seat", "cone"),
    (FASTENERS, "Seat in the wheel", "cone"),
    (FASTENERS, "Length of the bolts", "27"),
    (FASTENERS, "Thread engaged now", "19.5"),
    (HUB, "Bolt circle", "5x112"),
    (HUB, "Neighbouring holes, centre to centre", "65.8"),
    (HUB, "Diameter of the spigot", "57.1"),
    (HUB, "Length of the spigot", "12.5"),
    (HUB, "Length of the nose", "0"),
    (HUB, "Thickness of the hub flange", "15"),
    (HUB, "Free space behind the flange", "12"),
)
EACH_SIDE = (
    (STANDS, "Ride height, {side}", "352"),
    (BRAKE, "Spokes to caliper, {side}", "6"),
    (BRAKE, "Barrel to caliper, {side}", "5"),
    (BRAKE, "Slope of the barrel, {side}", "15"),
    (BRAKE, "Where the slope begins, {side}", "0.5"),
)
LIP = "arch lip, inner edge"
GAPS = (("parked", "30", ""), ("on the way up", "28", "30"), ("at full bump", "27", "60"))


def gaps(page: Page) -> None:
    """The gap to the arch over the travel, on both sides."""
    for side in ("left", "right"):
        for state, gap, travel in GAPS:
            raised = {"Wheel_raised_by": travel} if travel else {}
            take(page, f"Gaps, Rear {side}", f"Gap, {side}, {LIP}, {state}", gap, **raised)


def test_a_new_car_is_measured_answered_fitted_and_released(site: Site, people: People) -> None:
    ann = people(site, "Ann")
    page = ann.page
    ann.open("/")
    job = new_job(page, "NEW 1")
    ann.open(f"{job}/car")
    wish = page.get_by_role("group", name="Rear axle")
    wish.get_by_label("What is wished?").select_option(label="a certain disc")
    wish.get_by_label("Disc asked for, per side").fill("5")
    page.get_by_label("DE", exact=True).check()
    store(page)
    ann.open(f"{job}/measure/rear")
    for group, reading, value in ONCE:
        take(page, group, reading, value)
    for side in ("left", "right"):
        for group, reading, value in EACH_SIDE:
            take(page, group, reading.format(side=side), value)
    gaps(page)
    ann.look()
    ann.open(f"{job}/bench/rear")
    expect(page.get_by_role("heading", name="per side is recommended")).to_contain_text("5 mm")
    expect(page.get_by_text("not yet")).to_be_visible()
    ann.look()
    ann.open(f"{job}/verify/rear")
    expect(page.get_by_role("button", name="Release the car")).to_be_disabled()
    for side in ("left", "right"):  # where it is tightest, as the page names it
        page.get_by_role("link", name=f"{side}, {LIP}, 47 mm up").click()
        expect(page.get_by_text("A disc of 5 mm is fitted")).to_be_visible()
        page.get_by_label("Wheel raised by").fill("47")
        keep(page, "20.6")
        ann.open(f"{job}/verify/rear")
    expect(page.get_by_text("Yes: measured with the disc fitted, both sides")).to_be_visible()
    expect(page.get_by_role("table")).to_contain_text("as predicted")
    page.get_by_label("Measured by").fill("Ann")
    page.get_by_label("Released by").fill("Bo")
    page.get_by_label("Handed over to").fill("A. Sample")
    page.get_by_role("button", name="Release the car").click()
    expect(page.get_by_text("Stored as revision")).to_be_visible()
    page.get_by_label("Check the tightening again on").fill("2026-05-11")
    page.get_by_role("button", name="Set the appointment").click()
    expect(page.get_by_role("main")).to_contain_text("waiting for re-torque")
    ann.look()
    ann.open("/")
    due = page.locator("section", has=page.get_by_role("heading", name="Waiting for re-torque"))
    expect(due.get_by_role("link", name="NEW 1")).to_contain_text("2026-05-11")
