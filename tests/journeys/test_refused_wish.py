"""A wish that cannot be granted is shown with the mm that are short and with what binds, by slider, by shelf and without scripts."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect
from tests.journeys.conftest import People
from tests.journeys.server import Site
from tests.journeys.steps import demo_job

pytestmark = pytest.mark.slow
SHORT = "right, arch lip, inner edge, bump 46 mm: −3.5 mm of air with 20 mm, 11.0 mm wanted: 14.5 mm short."


@pytest.mark.parametrize("scripts", [True, False])
def test_the_wish_of_20_mm_is_refused_with_the_mm_short_and_the_place(
    site: Site, people: People, scripts: bool
) -> None:
    ann = people(site, "Ann", scripts=scripts, size="desktop" if scripts else "phone")
    page = ann.page
    ann.open(f"{demo_job(site, 'hatchback')}/bench/rear")
    decision = page.get_by_role("region", name="per side is recommended")
    expect(decision).to_contain_text("5 mm")
    expect(decision).to_contain_text(SHORT)
    page.get_by_role("link", name="20 mm").first.click()
    expect(page.locator("#live")).to_contain_text("14.5 mm short")
    expect(page.locator("#live")).to_contain_text("Decided by clearance")
    expect(page.locator("#says")).to_contain_text("refused")
    ann.look()


def test_moving_the_slider_redraws_what_binds_and_the_back_button_returns(plain_site: Site, people: People) -> None:
    ann = people(plain_site, "Ann", size="desktop")
    page = ann.page
    ann.open(f"{demo_job(plain_site, 'hatchback')}/bench/rear?work=1&t=5")
    expect(page.locator("#says")).to_contain_text("valid")
    slider = page.get_by_role("slider", name="Thickness per side")
    slider.focus()
    for _ in range(12):
        slider.press("ArrowRight")
    expect(page.get_by_label("Thickness per side, mm")).to_have_value("11")
    expect(page.locator("#live")).to_contain_text("11 mm")
    expect(page.locator("#says")).to_contain_text("refused")
    page.wait_for_url("**t=11**")
    ann.look()
    page.go_back()
    expect(page.get_by_label("Thickness per side, mm")).to_have_value("5")
    expect(page.locator("#says")).to_contain_text("valid")
