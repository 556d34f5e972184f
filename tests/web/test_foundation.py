"""What holds for every page: who may call, whose form it is, language, units, faults."""

from __future__ import annotations

import asyncio
import re
import time
from collections.abc import Iterator
from datetime import UTC, datetime
from typing import Any

import pytest
from fastapi.routing import APIRoute
from tests.web.conftest import Page, example, words_of

from hubwright.store.cupboard import Cupboard
from hubwright.web.app import FEATURES
from hubwright.web.forms import posted


def test_a_request_under_a_foreign_name_is_refused(page: Page) -> None:
    assert page.get("/", headers={"host": "elsewhere.example"}).status_code == 421
    assert page.get("/", headers={"host": "localhost:8040"}).status_code == 200


def test_a_form_without_the_token_of_this_browser_stores_nothing(page: Page, cupboard: Cupboard) -> None:
    page.get("/")
    for token in ("", "0" * 32):
        answer = page.post("/new", data={"title": "T", "use": "street", "form_token": token})
        assert answer.status_code == 403
        assert "Nothing was stored" in answer.text
    assert cupboard.find() == ()


def test_every_route_that_changes_something_asks_for_the_token() -> None:
    routes = [route for router in FEATURES for route in router.routes if isinstance(route, APIRoute)]
    changing = [r for r in routes if r.methods - {"GET", "HEAD"} and not r.path.startswith("/api/")]
    assert changing
    for route in changing:
        calls = [dependency.call for dependency in route.dependant.dependencies]
        assert posted in calls, route.path


def test_language_units_and_appearance_are_kept_in_the_browser(page: Page) -> None:
    asked = {"language": "de", "system": "inch", "appearance": "dark", "name": "Bö", "back": "//evil.example/x"}
    answer = page.form("/settings", asked)
    assert answer.headers["location"] == "/x"  # never another host
    assert page.cookies["hw_likes"] == "de.inch.dark"
    shown = page.get("/")
    assert '<html lang="de" data-appearance="dark">' in shown.text
    assert "Bö" in shown.text


def test_a_browser_without_cookie_is_spoken_to_in_its_own_language(page: Page) -> None:
    assert '<html lang="de"' in page.get("/", headers={"accept-language": "fr;q=0.9, de-AT, en;q=0.5"}).text
    assert '<html lang="en"' in page.get("/", headers={"accept-language": "fr"}).text


def test_an_empty_shelf_offers_the_demo_cars(page: Page, cupboard: Cupboard) -> None:
    assert "Put the demo cars on the shelf" in page.get("/").text
    assert page.form("/demo-shop").status_code == 303
    assert len(cupboard.find()) == 9
    assert "DEMO 101" in page.get("/").text


def test_a_new_job_with_faults_shows_all_of_them_and_keeps_what_was_typed(page: Page, cupboard: Cupboard) -> None:
    answer = page.form("/new", {"use": "moon", "countries": "XX", "reason": "wide & low"})
    assert answer.status_code == 422
    assert "3 things to put right" in answer.text
    assert "wide &amp; low" in answer.text
    assert cupboard.find() == ()


def test_a_new_job_opens_and_its_file_holds_what_was_typed(page: Page, cupboard: Cupboard) -> None:
    asked = {"plate": 'K"1', "description": "Van", "customer": "A. Sample", "use": "laden", "countries": ["DE"]}
    address = page.form("/new", asked).headers["location"]
    stored = cupboard.job(address.removeprefix("/jobs/"))
    assert not stored.faults
    assert 'plate = "K\\"1"' in stored.text
    assert stored.card["@customer"] == "A. Sample"
    assert page.get(address).status_code == 200


def test_a_form_sent_twice_makes_one_job(page: Page, cupboard: Cupboard) -> None:
    for _ in range(2):
        page.form("/new", {"title": "Once", "use": "street", "key": "k" * 32})
    assert len(cupboard.find()) == 1


def test_a_job_file_comes_in_and_goes_out_byte_for_byte(page: Page) -> None:
    data = example("saloon-studs")
    answer = page.form("/bring", files={"file": ("saloon.toml", data)})
    assert answer.status_code == 303
    assert page.get(f"{answer.headers['location']}/job.toml").content == data


def test_a_spoilt_job_file_is_refused_with_every_fault(page: Page, cupboard: Cupboard) -> None:
    bad = example("saloon-studs").replace(b"hubwright_job = 1", b"hubwright_job = 1\nsize = 3\ncolour = 4")
    answer = page.form("/bring", files={"file": ("saloon.toml", bad)})
    assert answer.status_code == 422
    assert "2 things to put right" in answer.text
    assert cupboard.find() == ()


def test_history_shows_who_changed_what_and_takes_it_back(page: Page, cupboard: Cupboard, job_id: str) -> None:
    cupboard.enter(job_id, [("car.plate", '"NEW 1"')], "Bo", base=1)
    assert "Bo" in page.get(f"/jobs/{job_id}/history").text
    assert page.form(f"/jobs/{job_id}/undo", {"revision": 2}).status_code == 303
    assert cupboard.job(job_id).data == example("hatchback-rear-flush")


def test_two_values_for_one_field_wait_for_a_decision(page: Page, cupboard: Cupboard, job_id: str) -> None:
    cupboard.enter(job_id, [("car.plate", '"ANN 1"')], "Ann", base=1)
    receipt = cupboard.enter(job_id, [("car.plate", '"BO 1"')], "Bo", base=1)
    assert receipt.aside is not None
    shown = words_of(page.get(f"/jobs/{job_id}/aside"))
    assert "ANN 1" in shown and "BO 1" in shown
    page.form(f"/jobs/{job_id}/aside/{receipt.aside.id}", {"decision": "take", "base": 2})
    assert 'plate = "BO 1"' in cupboard.job(job_id).text
    assert cupboard.asides(job_id) == ()


def test_a_job_that_is_not_there_says_so(page: Page) -> None:
    for address in ("/jobs/nothere", "/jobs/nothere/history", "/files/nothere", "/nothere"):
        assert page.get(address).status_code == 404, address


def test_pictures_are_shown_and_everything_else_is_only_handed_out(page: Page, job_id: str) -> None:
    for name, data in (("lip.png", b"\x89PNG\r\n\x1a\nx"), ("page.html", b"<script>alert(1)</script>")):
        page.form(f"/jobs/{job_id}/files", {"note": "x"}, files={"file": (name, data)})
    shown = page.get(f"/jobs/{job_id}/files").text
    picture, other = [page.get(f"/files/{name}") for name in re.findall(r'<p><a href="/files/([^"]+)"', shown)]
    assert picture.headers["content-type"] == "image/png"
    assert other.headers["content-type"] == "application/octet-stream"
    assert other.headers["content-disposition"].startswith("attachment")


def test_moments_are_told_in_the_time_of_the_shop_and_the_language_of_the_person(
    page: Page, cupboard: Cupboard, job_id: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(cupboard, "_clock", lambda: datetime(2026, 5, 4, 22, 30, tzinfo=UTC))
    cupboard.enter(job_id, [("car.seats", "4")], "Bo", base=1)
    monkeypatch.setenv("TZ", "Europe/Berlin")
    time.tzset()
    try:
        assert "2026-05-05 00:30" in page.get(f"/jobs/{job_id}/history").text
        page.cookies.set("hw_likes", "de.metric.auto")
        assert "05.05.2026 00:30" in page.get(f"/jobs/{job_id}/history").text
    finally:
        monkeypatch.undo()
        time.tzset()


def test_a_line_that_breaks_while_a_form_is_sent_is_no_trouble_of_the_server(page: Page, job_id: str) -> None:
    came: Iterator[dict[str, Any]] = iter(
        ({"type": "http.request", "body": b"form_token=", "more_body": True}, {"type": "http.disconnect"})
    )
    sent: list[dict[str, Any]] = []
    scope = {
        "type": "http", "asgi": {"version": "3.0"}, "http_version": "1.1", "method": "POST", "scheme": "http",
        "path": f"/jobs/{job_id}/measure/rear", "raw_path": b"", "query_string": b"", "root_path": "",
        "headers": [(b"host", b"127.0.0.1:8040"), (b"content-type", b"application/x-www-form-urlencoded")],
        "client": ("127.0.0.1", 5), "server": ("127.0.0.1", 8040), "state": {},
    }  # fmt: skip

    async def receive() -> dict[str, Any]:
        return next(came)

    async def send(message: dict[str, Any]) -> None:
        sent.append(message)

    asyncio.run(page.app(scope, receive, send))  # type: ignore[arg-type]  # a bare call, as servers make it
    assert sent[0]["status"] == 400
