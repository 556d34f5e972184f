"""Readings made while the line is bad: none that was kept is lost, none arrives twice, their order stays."""

from __future__ import annotations

from typing import Any

import pytest
from tests.journeys.server import Site
from tests.web.conftest import example

from hubwright.jobs.jobfile import parse
from hubwright.parts.job import Axle
from hubwright.store.cupboard import Cupboard
from hubwright.web.sheet.names import axle_field, corner_field, gap

pytestmark = pytest.mark.slow
LIP = "arch lip, inner edge"
SPIGOT, HAT, HEIGHT = (
    axle_field("hub.spigot_length_mm"),
    axle_field("hub.hat_thickness_mm"),
    corner_field("left", "ride_height_mm"),
)


def new_job(server: Site) -> str:
    with Cupboard.open(server.data) as cupboard:
        return cupboard.add(example("hatchback-rear-flush"), "Ann").job_id


def rear_of(server: Site, job_id: str) -> Axle:
    with Cupboard.open(server.data) as cupboard:
        rear = parse(cupboard.job(job_id).text).rear
    assert rear is not None
    return rear


def fields_of(server: Site, job_id: str) -> list[str]:
    with Cupboard.open(server.data) as cupboard:
        assert cupboard.asides(job_id) == ()
        return [change.field for step in cupboard.history(job_id)[1:] for change in step.changes]


def opened(context: Any, server: Site, job_id: str) -> Any:
    page = context.new_page()
    page.goto(f"{server.address}/jobs/{job_id}/measure/rear")
    page.locator("[data-list] details[data-group]").first.wait_for()  # the script has drawn the list
    return page


def jump(page: Any, slot: str) -> None:
    page.evaluate(
        "slot => { const link = [...document.querySelectorAll('[data-list] a')].find((it) => it.dataset.step === slot); link.click(); }",
        slot,
    )


def keep(page: Any, slot: str, text: str, **extras: str) -> None:
    jump(page, slot)
    for name, value in extras.items():
        page.fill(f"#x-{name}", value)
    page.fill("#value", text)
    page.click("button[value=on]")


def said(page: Any, where: str, words: str) -> None:
    page.locator(f"[data-{where}]", has_text=words).wait_for(timeout=40_000)


def settled(page: Any) -> None:
    said(page, "line-words", "All on the disk")


def test_a_reading_typed_on_the_big_keys_is_on_the_disk_when_the_page_says_so(context: Any, server: Site) -> None:
    job_id = new_job(server)
    page = opened(context, server, job_id)
    jump(page, SPIGOT)
    for key in ("1", "2", "mark", "6"):
        page.click(f"[data-key='{key}']")
    page.click("button[value=on]")
    said(page, "told", "on the disk, revision 2")
    spigot = rear_of(server, job_id).hub.spigot_length_mm
    assert spigot is not None and spigot.values == (12.5, 12.6)


def test_keys_are_at_least_64_pixels_high(context: Any, server: Site) -> None:
    page = opened(context, server, new_job(server))
    heights = page.eval_on_selector_all(
        "[data-pad] button, .keep button, .walk a",
        "all => all.filter((it) => it.offsetHeight).map((it) => it.offsetHeight)",
    )
    assert len(heights) >= 18 and min(heights) >= 64


def test_readings_made_without_a_line_wait_and_arrive_once_in_order(context: Any, server: Site) -> None:
    job_id = new_job(server)
    page = opened(context, server, job_id)
    context.set_offline(True)
    keep(page, HAT, "6")
    keep(page, gap("left", LIP, "between"), "20", travel="30")
    keep(page, HEIGHT, "351")
    said(page, "line-words", "3 readings wait")
    assert rear_of(server, job_id).hub.hat_thickness_mm is None
    context.set_offline(False)
    settled(page)
    assert fields_of(server, job_id) == [
        "rear.hub.hat_thickness_mm", "rear.left.point[1].reading[4]", "rear.left.ride_height_mm",
    ]  # fmt: skip
    assert rear_of(server, job_id).left.point[0].reading[3].gap_mm.value == 20


def test_waiting_readings_survive_a_reload_without_line_and_a_closed_tab(context: Any, server: Site) -> None:
    job_id = new_job(server)
    page = opened(context, server, job_id)
    on_shelf = "path => caches.open('hw-sheets-1').then((shelf) => shelf.match(path)).then((found) => !!found)"
    while not page.evaluate(on_shelf, f"/jobs/{job_id}/measure/rear"):
        page.wait_for_timeout(100)
    server.kill()
    keep(page, HAT, "6,5")
    page.reload()
    said(page, "line-words", "waits in this browser")
    assert page.text_content(f"[data-list] a[data-step='{HAT}'] b") == "6,5 mm"
    keep(page, HEIGHT, "353")
    page.close()
    server.start()
    again = opened(context, server, job_id)
    settled(again)
    rear = rear_of(server, job_id)
    assert rear.hub.hat_thickness_mm is not None and rear.hub.hat_thickness_mm.value == 6.5
    assert rear.left.ride_height_mm is not None and 353 in rear.left.ride_height_mm.values


def test_a_server_killed_again_and_again_in_the_middle_loses_and_doubles_nothing(context: Any, server: Site) -> None:
    job_id = new_job(server)
    page = opened(context, server, job_id)
    wanted = []
    for number in range(12):
        travel = str(21 + number)
        keep(page, gap("left", LIP, "between"), f"{30 + number}", travel=travel)
        wanted.append((float(travel), 30.0 + number))
        if number in (2, 5, 9):
            page.wait_for_timeout(20 * number)  # sometimes before, sometimes while, sometimes after it is stored
            server.kill()
        if number in (4, 7, 10):
            server.start()
    settled(page)
    readings = rear_of(server, job_id).left.point[0].reading[3:]
    assert [(reading.travel_mm, reading.gap_mm.value) for reading in readings] == wanted
    assert len(fields_of(server, job_id)) == len(wanted)


def test_an_answer_that_got_lost_does_not_make_a_second_reading(chromium: Any, server: Site) -> None:
    job_id = new_job(server)
    context = chromium.new_context(service_workers="block")  # what a worker passes on cannot be swallowed here
    page = opened(context, server, job_id)
    lost = []

    def swallow(route: Any) -> None:
        if route.request.method == "POST" and not lost:
            lost.append(route.fetch())
            route.abort()
        else:
            route.continue_()

    page.route("**/measure/rear", swallow)
    keep(page, gap("left", LIP, "between"), "20", travel="30")
    for _ in range(100):  # the first sending may still be on its way
        if lost:
            break
        page.wait_for_timeout(100)
    settled(page)
    assert lost
    assert len(rear_of(server, job_id).left.point[0].reading) == 4
    assert len(fields_of(server, job_id)) == 1
    context.close()


def test_a_reading_corrected_while_the_first_still_waits_is_no_clash(context: Any, server: Site) -> None:
    job_id = new_job(server)
    page = opened(context, server, job_id)
    context.set_offline(True)
    keep(page, HAT, "6")
    jump(page, HAT)
    page.uncheck("input[type=checkbox][name=value]")
    page.fill("#value", "6.5")
    page.click("button[value=on]")
    context.set_offline(False)
    settled(page)
    assert fields_of(server, job_id) == ["rear.hub.hat_thickness_mm"] * 2
    hat = rear_of(server, job_id).hub.hat_thickness_mm
    assert hat is not None and hat.values == (6.5,)


def test_what_somebody_else_wrote_meanwhile_is_not_overwritten_and_it_is_told(context: Any, server: Site) -> None:
    job_id = new_job(server)
    page = opened(context, server, job_id)
    context.set_offline(True)
    keep(page, HEIGHT, "399")
    with Cupboard.open(server.data) as cupboard:
        cupboard.enter(job_id, [("rear.left.ride_height_mm", "340")], "Bo", base=1)
    context.set_offline(False)
    settled(page)
    said(page, "told", "put aside: Bo wrote another value")
    with Cupboard.open(server.data) as cupboard:
        assert len(cupboard.asides(job_id)) == 1
    height = rear_of(server, job_id).left.ride_height_mm
    assert height is not None and height.value == 340


def test_a_reading_the_server_refuses_stays_visible_and_holds_nothing_up(context: Any, server: Site) -> None:
    job_id = new_job(server)
    page = opened(context, server, job_id)
    jump(page, axle_field("fastener.thread"))
    page.fill("#value", "x" * 500)
    page.click("button[value=on]")
    keep(page, HAT, "6")
    settled(page)
    assert "not taken by the server" in page.inner_text("[data-refused]")
    assert rear_of(server, job_id).hub.hat_thickness_mm is not None


def test_left_and_right_far_apart_are_questioned_before_any_server_answers(context: Any, server: Site) -> None:
    job_id = new_job(server)
    page = opened(context, server, job_id)
    context.set_offline(True)
    keep(page, gap("left", LIP, "droop"), "60", travel="40")
    keep(page, gap("right", LIP, "droop"), "20", travel="40")
    assert "lie far apart" in page.inner_text("[data-ask]")
    context.set_offline(False)
    settled(page)
    assert len(rear_of(server, job_id).right.point[0].reading) == 4
