"""Measuring by mail: the shop's links, and the customer who sees their own sheet and nothing else."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from tests.web.conftest import Page, example, words_of
from tests.web.network import BASE, OPTIONS, browser, with_people

from hubwright.store.cupboard import Cupboard
from hubwright.store.link import Link
from hubwright.web.app import create_app
from hubwright.web.desk import Desk
from hubwright.web.pace import WRONG_LINK, Limit


class Clock:
    def __init__(self) -> None:
        self.at = datetime(2026, 5, 4, 8, tzinfo=UTC)

    def __call__(self) -> datetime:
        return self.at


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def shop(tmp_path: Path, clock: Clock) -> Iterator[Desk]:
    """A shop on a network, with people, settings and two jobs."""
    with Cupboard.open(tmp_path / "data", clock=clock) as cupboard:
        with_people(cupboard)
        cupboard.shop.put('hubwright_shop = 1\nname = "Wheel Room"\naddress = ["1 Secret Lane"]\n', "Ann", base=0)
        cupboard.add(example("saloon-studs"), "Ann", card={"@customer": "Somebody Else"})
        yield Desk(cupboard, lambda: clock().date())


@pytest.fixture
def job_id(shop: Desk) -> str:
    card = {"@customer": "Zoë", "@note": "pays late"}
    text = example("hatchback-rear-flush")
    for not_read in (b"ride_height_mm = 352\n", b"spigot_length_mm = 12.5\n"):
        assert not_read in text
        text = text.replace(not_read, b"")
    return shop.cupboard.add(text, "Ann", card=card).job_id


def made_by(page: Page, job_id: str, **fields: object) -> tuple[str, str]:
    """A link made on its page: the answer's text and the path of the address."""
    asked = {"areas": ["car", "rear"], "customer": "Zoë", "days": "14", **fields}
    answer = page.form(f"/jobs/{job_id}/customer", asked)
    assert answer.status_code == 200, words_of(answer)
    found = re.search(r'href="(http://workshop\.lan:8040)?(/m/[A-Za-z0-9_-]{43})"', answer.text)
    assert found is not None
    return answer.text, found[2]


def test_a_link_is_made_shown_once_as_address_and_code_and_never_again(shop: Desk, job_id: str) -> None:
    with browser(shop, "Dee") as page:
        text, path = made_by(page, job_id)
        assert f"{BASE}{path}" in text and "<svg" in text and 'class="qr"' in text
        assert "It is shown this once" in text and "of this machine alone" not in text
        later = page.get(f"/jobs/{job_id}/customer")
        assert path not in later.text and 'class="qr"' not in later.text
        assert "never opened" in words_of(later) and "made by Dee" in words_of(later)


def test_a_form_sent_twice_makes_one_link(shop: Desk, job_id: str) -> None:
    with browser(shop, "Dee") as page:
        paths = {made_by(page, job_id, key="k" * 32)[1] for _ in range(2)}
    assert len(paths) == 1 and len(shop.cupboard.links.of(job_id)) == 1


def test_only_who_decides_makes_and_revokes_links(shop: Desk, job_id: str) -> None:
    with browser(shop, "Mo") as page:
        assert page.form(f"/jobs/{job_id}/customer", {"areas": "rear"}).status_code == 403
        assert page.get(f"/jobs/{job_id}/customer").status_code == 403
        assert page.form(f"/jobs/{job_id}/customer/x/revoke").status_code == 403
    assert shop.cupboard.links.of(job_id) == ()


def test_a_faulty_form_comes_back_with_everything_typed(shop: Desk, job_id: str) -> None:
    with browser(shop, "Dee") as page:
        for asked, count in (({"customer": "x" * 90, "days": "400"}, 3), ({"areas": "rear", "days": "x"}, 1)):
            answer = page.form(f"/jobs/{job_id}/customer", asked)
            assert answer.status_code == 422
            assert f"{count} thing" in answer.text
        assert page.form(f"/jobs/{job_id}/customer", {"areas": ["shop", "rear"], "days": "3"}).status_code == 422
        assert page.form("/jobs/nothere/customer", {"areas": ["rear"], "days": "3"}).status_code == 404
        assert page.form(f"/jobs/{job_id}/customer/nothere/revoke").status_code == 404


def test_on_loopback_the_shop_is_told_that_no_customer_can_open_the_address(page: Page, desk: Desk) -> None:
    job_id = desk.cupboard.add(example("hatchback-rear-flush"), "Ann").job_id
    answer = page.form(f"/jobs/{job_id}/customer", {"areas": ["rear"], "days": "3"})
    assert "of this machine alone" in answer.text


def test_the_customer_needs_no_account_and_sees_their_own_sheet_and_nothing_else(shop: Desk, job_id: str) -> None:
    with browser(shop, "Dee") as page:
        _, path = made_by(page, job_id)
    with browser(shop) as customer:
        welcome = customer.get(path)
        assert "Wheel Room would like to know" in words_of(welcome)
        sheet = customer.get(f"{path}/rear")
        assert sheet.status_code == 200
        for answer in (welcome, sheet, customer.get(f"{path}/rear/now")):
            for secret in (
                "pays late",
                "Secret Lane",
                "Somebody Else",
                job_id,
                'href="/"',
                'href="/people"',
                "Dee",
                "Ann",
            ):
                assert secret not in answer.text, secret
        assert customer.get(f"{path}/front", follow_redirects=False).headers["location"] == path
        assert customer.get(f"/jobs/{job_id}/history", follow_redirects=False).status_code == 303
        assert customer.get("/", follow_redirects=False).status_code == 303
        assert customer.get(f"/api/v1/jobs/{job_id}").status_code == 401
    (link,) = shop.cupboard.links.of(job_id)
    assert link.uses == 1


def test_a_reading_of_the_customer_goes_in_under_their_name_and_the_shop_sees_it(shop: Desk, job_id: str) -> None:
    with browser(shop, "Dee") as page:
        _, path = made_by(page, job_id)
        with browser(shop) as customer:
            customer.get(path)
            asked = {
                "slot": "field|left||ride_height_mm",
                "value": "351,5",
                "system": "metric",
                "base": "1",
                "key": "k" * 32,
            }
            for _ in range(2):
                assert customer.form(f"{path}/rear", asked).status_code == 303
        step = shop.cupboard.history(job_id)[-1]
        assert (step.number, step.author) == (2, "customer: Zoë")
        assert [change.field for change in step.changes] == ["rear.left.ride_height_mm"]
        assert 'by = "customer"' in (step.changes[0].value or "")
        shown = words_of(page.get(f"/jobs/{job_id}/customer"))
        assert "1 reading came in" in shown and "rear.left.ride_height_mm" in shown


def test_a_customer_writes_nothing_but_the_readings_of_their_link(shop: Desk, job_id: str) -> None:
    with browser(shop, "Dee") as page:
        _, path = made_by(page, job_id, areas=["rear.left"])
    before = shop.cupboard.job(job_id)
    with browser(shop) as customer:
        customer.get(path)
        for slot in (
            "field|right||ride_height_mm", "field|||hub.spigot_length_mm", "field|||original", "work|left|arch lip, inner edge|gain", "x", "",
            "field|left||scan", "field|||wish.thickness_mm",
        ):  # fmt: skip
            answer = customer.form(f"{path}/rear", {"slot": slot, "value": "20", "system": "metric", "base": "1"})
            assert answer.status_code in (404, 422), slot
        assert customer.form(f"{path}/rear", {"add": "place", "place": "x"}).status_code == 422
        script = customer.form(
            f"{path}/rear",
            {"slot": "field|||hub.spigot_length_mm", "value": "20"},
            headers={"accept": "application/json"},
        )
        assert script.status_code == 422 and script.json()["faults"]
        assert customer.post(f"{path}/rear", data={"slot": "field|left||camber_deg", "value": "1"}).status_code == 403
    assert shop.cupboard.job(job_id) == before


def test_a_revoked_ended_or_unknown_link_says_so_politely_and_takes_nothing(
    shop: Desk, job_id: str, clock: Clock
) -> None:
    cupboard = shop.cupboard
    revoked, link = cupboard.links.make(job_id, "Ann")
    ended, _ = cupboard.links.make(job_id, "Ann", days=1)
    with browser(shop, "Dee") as page:
        assert page.form(f"/jobs/{job_id}/customer/{link.id}/revoke").status_code == 303
        assert "revoked by Dee" in words_of(page.get(f"/jobs/{job_id}/customer"))
    clock.at += timedelta(days=2)
    reading = {"slot": "field|left||ride_height_mm", "value": "351", "base": "1"}
    with browser(shop) as customer:
        for token, status, words in (
            (revoked, 410, "This link has ended"), (ended, 410, "This link has ended"), ("x" * 43, 404, "There is nothing"),
        ):  # fmt: skip
            for address in (f"/m/{token}", f"/m/{token}/rear"):
                answer = customer.get(address)
                assert (answer.status_code, words in answer.text) == (status, True)
                assert "Wheel Room" not in answer.text
            assert customer.form(f"/m/{token}/rear", reading).status_code == status
            told = customer.form(f"/m/{token}/rear", reading, headers={"accept": "application/json"})
            assert told.status_code == 403
    assert cupboard.job(job_id).revision == 1


def test_trying_many_addresses_is_slowed_down(shop: Desk, job_id: str) -> None:
    token, _ = shop.cupboard.links.make(job_id, "Ann")
    with browser(shop) as stranger:
        statuses = [stranger.get(f"/m/{number:043}").status_code for number in range(WRONG_LINK.tries + 1)]
        assert statuses == [404] * WRONG_LINK.tries + [429]
        assert stranger.get(f"/m/{token}").status_code == 429
        assert stranger.get(f"/m/{'x' * 5000}").status_code == 429


def test_a_link_takes_so_many_readings_an_hour_and_no_more(
    shop: Desk, job_id: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("hubwright.web.mail.customer.LINK_READINGS", Limit(2, 3600))
    token, _ = shop.cupboard.links.make(job_id, "Ann")
    with browser(shop) as customer:
        customer.get(f"/m/{token}")
        asked = {"slot": "field|left||ride_height_mm", "system": "metric"}
        statuses = [customer.form(f"/m/{token}/rear", {**asked, "value": str(350 + n)}).status_code for n in range(3)]
    assert statuses == [303, 303, 429]


def test_a_customer_speaks_german_and_inches_if_they_like(shop: Desk, job_id: str) -> None:
    token, _ = shop.cupboard.links.make(job_id, "Ann")
    with browser(shop) as customer:
        customer.form("/settings", {"language": "de", "system": "inch", "appearance": "auto", "back": f"/m/{token}"})
        assert '<html lang="de"' in customer.get(f"/m/{token}/rear").text


def test_a_customer_never_writes_over_what_the_workshop_has_read_but_may_correct_themselves(
    shop: Desk, job_id: str
) -> None:
    token, _ = shop.cupboard.links.make(job_id, "Ann", customer="Zoë")
    with browser(shop) as customer:
        offered = {slot["id"] for slot in customer.get(f"/m/{token}/rear/now").json()["slots"]}
        assert "field|left||ride_height_mm" in offered
        assert "field|right||ride_height_mm" not in offered  # read by the workshop: 350 mm
        over = {"slot": "field|right||ride_height_mm", "value": "999", "system": "metric", "base": "1"}
        assert customer.form(f"/m/{token}/rear", over).status_code == 422
        for base, value in enumerate(("351", "352"), start=1):
            own = {"slot": "field|left||ride_height_mm", "value": value, "system": "metric", "base": str(base)}
            assert customer.form(f"/m/{token}/rear", own).status_code == 303
    stored = shop.cupboard.job(job_id).text
    assert "ride_height_mm = 350" in stored and "999" not in stored
    assert "value = 352" in stored


def test_what_clashes_with_the_shop_is_put_aside_and_told_to_both(shop: Desk, job_id: str) -> None:
    cupboard = shop.cupboard
    token, link = cupboard.links.make(job_id, "Ann", customer="Zoë")
    assert isinstance(cupboard.links.look_up(token), Link)
    with browser(shop) as customer:
        customer.get(f"/m/{token}")
        cupboard.enter(job_id, [("rear.hub.spigot_length_mm", "12.2")], "Mo", base=1)
        asked = {"slot": "field|||hub.spigot_length_mm", "value": "12.9", "system": "metric", "base": "1"}
        told = words_of(customer.form(f"/m/{token}/rear", asked, follow_redirects=True))
        assert "put aside: the workshop wrote another value there" in told  # and no name
    assert [aside.author for aside in cupboard.asides(job_id)] == ["customer: Zoë"]
    with browser(shop, "Dee") as page:
        assert "1 entry was put aside" in words_of(page.get(f"/jobs/{job_id}/customer"))
    assert link.note in [aside.note for aside in cupboard.asides(job_id)]


def test_behind_another_address_the_code_holds_the_one_customers_know(shop: Desk, job_id: str) -> None:
    options = replace(OPTIONS, hosts=("workshop.lan", "measure.example"), base_address="https://measure.example")
    with Page(create_app(shop, options), base_url=BASE) as page:
        from tests.web.network import sign_in

        sign_in(page, "Dee")
        answer = page.form(f"/jobs/{job_id}/customer", {"areas": ["rear"], "days": "3"})
        assert 'href="https://measure.example/m/' in answer.text
