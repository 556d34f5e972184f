"""Signing in, roles and the people of the shop, where the server is open to a network."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import pytest
from fastapi.routing import APIRoute
from tests.web.conftest import Page, words_of
from tests.web.network import OPTIONS, WORD, browser, sign_in, with_people

from hubwright.errors import BadInput
from hubwright.store.cupboard import Cupboard
from hubwright.web.api import router as api
from hubwright.web.app import FEATURES, create_app
from hubwright.web.decisions import is_decision
from hubwright.web.desk import Desk
from hubwright.web.pace import SIGN_IN_ADDRESS, SIGN_IN_HERE, Limit, Pace
from hubwright.web.roles import line_for, role_for
from hubwright.web.serve import Listening, options_of, refuse_unmanaged


@pytest.fixture
def shop(desk: Desk) -> Desk:
    with_people(desk.cupboard)
    return desk


def test_a_server_on_a_network_does_not_start_before_somebody_can_manage_it(cupboard: Cupboard) -> None:
    assert options_of(Listening("0.0.0.0"), "x").network
    assert not options_of(Listening("127.0.0.1"), "x").network
    assert not options_of(Listening("localhost", base_address="http://127.0.0.1:8040"), "x").network
    assert options_of(Listening("127.0.0.1", names=("shop.example",)), "x").network
    assert options_of(Listening("127.0.0.1", base_address="https://shop.example"), "x").network
    with pytest.raises(BadInput, match="hubwright store people add NAME manage"):
        refuse_unmanaged(cupboard)
    with_people(cupboard)
    refuse_unmanaged(cupboard)


def test_nobody_gets_further_than_the_gate_without_signing_in(shop: Desk, job_id: str) -> None:
    with browser(shop) as page:
        for address in ("/", f"/jobs/{job_id}/history", "/people", "/new", "/password"):
            answer = page.get(address, follow_redirects=False)
            assert (answer.status_code, answer.headers["location"].partition("?")[0]) == (303, "/sign-in"), address
        for address in ("/new", f"/jobs/{job_id}/undo", f"/jobs/{job_id}/files", "/people", "/sign-out"):
            answer = page.form(address, {"title": "T", "use": "street"})
            assert answer.status_code == 401 and "nothing was stored" in answer.text, address
        assert page.get("/", headers={"hw-part": "live"}).headers["hx-redirect"] == "/sign-in"
        assert page.get("/static/css/base.css").status_code == 200
        assert page.get("/settings").status_code == 200
        assert "Hatchback" not in page.get("/nothere").text
    assert len(shop.cupboard.find()) == 1


def test_signing_in_leads_where_one_wanted_to_go_and_nowhere_else(shop: Desk, job_id: str) -> None:
    for to, leads in (
        (f"/jobs/{job_id}/history", f"/jobs/{job_id}/history"), ("//evil.example/x", "/"), ("https://evil.example", "/"),
        ("/\\evil.example", "/"), ("javascript:alert(1)", "/"), ("/sign-out", "/"), ("", "/"),
    ):  # fmt: skip
        with browser(shop) as page:
            page.get("/sign-in", params={"to": to})
            answer = page.form("/sign-in", {"name": "mo", "password": WORD, "to": to})
            assert (answer.status_code, answer.headers["location"]) == (303, leads)
            assert "Mo" in page.get("/").text


def test_the_cookie_of_a_session_is_out_of_reach_of_scripts_and_foreign_pages(shop: Desk) -> None:
    for secure in (False, True):
        options = replace(OPTIONS, secure=secure, base_address=f"http{'s' if secure else ''}://workshop.lan:8040")
        with browser(shop, options=options) as page:
            page.get("/sign-in")
            answer = page.form("/sign-in", {"name": "Mo", "password": WORD})
            kept = answer.headers["set-cookie"].lower()
            assert "hw_session=" in kept and "httponly" in kept and "samesite=lax" in kept and "path=/" in kept
            assert ("secure" in kept) == secure


def test_a_wrong_password_says_the_same_as_an_unknown_name(shop: Desk) -> None:
    shop.cupboard.people.add("Gone", WORD, "measure", "Ann")
    shop.cupboard.people.deactivate("Gone", "Ann")
    said = set()
    with browser(shop) as page:
        page.get("/sign-in")
        for name, password in (("Mo", "wrong wrong wrong"), ("Xy", "wrong wrong wrong"), ("Gone", WORD)):
            answer = page.form("/sign-in", {"name": name, "password": password})
            assert answer.status_code == 422 and "hw_session" not in page.cookies
            said.add(words_of(answer))
    assert len(said) == 1


def test_a_sign_in_form_without_the_token_of_the_browser_is_refused(shop: Desk) -> None:
    with browser(shop) as page:
        page.get("/sign-in")
        answer = page.post("/sign-in", data={"name": "Mo", "password": WORD}, follow_redirects=False)
        assert answer.status_code == 403 and "hw_session" not in page.cookies


def test_guessing_is_slowed_down_for_one_name_and_for_one_address(shop: Desk) -> None:
    with browser(shop) as page:
        statuses = [sign_in(page, "Mo", "wrong wrong wrong") for _ in range(SIGN_IN_HERE.tries)]
        assert statuses == [422] * SIGN_IN_HERE.tries
        page.get("/sign-in")
        answer = page.form("/sign-in", {"name": "MO", "password": WORD})
        assert answer.status_code == 429 and int(answer.headers["retry-after"]) > 60
        assert sign_in(page, "Dee") == 303
        left = SIGN_IN_ADDRESS.tries + 5
    with browser(shop) as page:
        assert 429 in [sign_in(page, f"name {number}", "wrong wrong wrong") for number in range(left)]


def test_whoever_gets_it_right_has_all_tries_again(shop: Desk) -> None:
    with browser(shop) as page:
        for _ in range(3):
            for _ in range(SIGN_IN_HERE.tries - 1):
                sign_in(page, "Mo", "wrong wrong wrong")
            assert sign_in(page, "Mo") == 303
            page.form("/sign-out")


def test_tries_come_back_with_time_and_what_is_remembered_is_bounded() -> None:
    at = [0.0]
    pace, limit = Pace(lambda: at[0]), Limit(2, 60)
    for _ in range(2):
        assert pace.wait_s(limit, "a") == 0
        pace.spend(limit, "a")
    assert 29 < pace.wait_s(limit, "a") <= 30
    assert pace.wait_s(limit, "b") == 0
    at[0] = 30.0
    assert pace.wait_s(limit, "a") == 0
    pace.forgive("a")
    assert pace.wait_s(limit, "a") == 0


def test_signing_out_ends_the_session_for_good(shop: Desk) -> None:
    with browser(shop, "Mo") as page:
        held = page.cookies["hw_session"]
        assert page.form("/sign-out").headers["location"] == "/sign-in"
        page.cookies.set("hw_session", held, domain="workshop.lan")
        assert page.get("/", follow_redirects=False).status_code == 303


def test_each_role_may_do_what_is_its_own_and_nothing_above(shop: Desk, job_id: str) -> None:
    measure = ("/jobs/{}/files/x/remove", "/new")
    decide = ("/jobs/{}/undo", "/jobs/{}/aside/x", "/bring", "/jobs/{}/job.toml")
    manage = ("/demo-shop", "/people", "/people/x/role", "/people/x/password", "/people/x/access")
    for name, may in (("Mo", measure), ("Dee", measure + decide), ("Ann", measure + decide + manage)):
        with browser(shop, name) as page:
            for address in measure + decide + manage:
                status = page.form(address.format(job_id), {"name": ""}).status_code
                assert (status != 403) == (address in may), (name, address, status)
            assert (page.get("/people").status_code == 200) == (name == "Ann")
            assert ("/people" in page.get("/").text) == (name == "Ann")
            assert page.get(f"/jobs/{job_id}/history").status_code == 200


def addresses() -> list[tuple[str, str]]:
    """Method and address of every route there is, something put into its places."""

    def walk(routes: list[Any], prefix: str) -> Iterator[tuple[str, str]]:
        for route in routes:
            if isinstance(route, APIRoute):
                yield from ((method, prefix + re.sub(r"\{[^}]*\}", "x", route.path)) for method in route.methods)
            elif hasattr(route, "original_router"):
                yield from walk(route.original_router.routes, prefix + route.include_context.prefix)

    return [found for router in (*FEATURES, api) for found in walk(router.routes, "")]


def test_every_address_stands_in_the_table_of_roles_and_one_that_does_not_is_for_managers() -> None:
    assert len(addresses()) > 20
    assert [found for found in addresses() if line_for(*found) is None] == []
    assert role_for("GET", "/something/new") == "manage"
    assert role_for("POST", "/jobs/x/something/new") == "decide"
    assert role_for("POST", "/jobs/x/aside/measure") == "decide"
    assert role_for("POST", "/jobs/x/measure/rear") == "measure"
    assert role_for("GET", "/mx") == "manage"


def test_only_these_addresses_are_open_to_everybody() -> None:
    free = {path for method, path in addresses() if role_for(method, path) is None}
    assert free <= {"/sign-in", "/settings", "/api/v1/sign-in", "/sheet-worker.js"} | {
        path for path in free if path.startswith("/m/x")
    }


def test_what_somebody_enters_bears_the_name_they_signed_in_with(shop: Desk, job_id: str) -> None:
    with browser(shop, "Dee") as page:
        page.cookies.set("hw_name", "Somebody%20Else", domain="workshop.lan")
        shop.cupboard.enter(job_id, [("car.plate", '"X 1"')], "Mo", base=1)
        page.form(f"/jobs/{job_id}/undo", {"revision": 2})
    assert shop.cupboard.history(job_id)[-1].author == "Dee"


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("rear.wish.thickness_mm", "20"), ("rear", "{ wish = { aim = 'widest' } }"), ("rear", None), ("@stage", "closed"),
        ("request.use", "'track'"), ("shop.policy.doubt_k", "0"), ("rear.package[+]", "{ name = 'x' }"), ("shop", None),
        ("rear.left.point[1].work[+]", "{ name = 'roll', gain_mm = 9 }"), ("rear.torque[+]", "{ torque_nm = 120 }"),
    ],
)  # fmt: skip
def test_whoever_only_measures_enters_no_decision(shop: Desk, job_id: str, field: str, value: str | None) -> None:
    assert is_decision(field, value)
    with browser(shop, "Mo") as page:
        body = {"base": 1, "readings": [{"field": field, "toml": value}]}
        answer = page.post(f"/api/v1/jobs/{job_id}/entries", json=body, headers={"x-hubwright": "1"})
        assert answer.status_code == 403, answer.text
    assert shop.cupboard.job(job_id).revision == 1


@pytest.mark.parametrize(
    "field", ["rear.hub.spigot_length_mm", "rear.left.scan[1].unit", "car.plate", "@note", "rear.hub"]
)
def test_whoever_only_measures_enters_readings(field: str) -> None:
    assert not is_decision(field, "1")


def test_a_session_without_access_any_more_ends_at_the_next_page(shop: Desk) -> None:
    with browser(shop, "Mo") as page:
        shop.cupboard.people.deactivate("Mo", "Ann")
        assert page.get("/", follow_redirects=False).status_code == 303
    with browser(shop, "Dee") as page:
        assert page.form("/bring").status_code == 422
        shop.cupboard.people.set_role("Dee", "measure", "Ann")
        assert page.form("/bring").status_code == 403


def test_a_cookie_nobody_was_given_leads_to_the_gate(shop: Desk) -> None:
    for odd in ("x", "x" * 4000, "a b", "%00", "ü"):
        with browser(shop) as page:
            page.get("/sign-in")
            answer = page.get("/", headers={"cookie": f"hw_session={odd}".encode()}, follow_redirects=False)
            assert answer.status_code == 303


def test_people_are_added_changed_and_taken_off_on_their_page(shop: Desk) -> None:
    people = shop.cupboard.people
    with browser(shop, "Ann") as page:
        faulty = page.form("/people", {"name": "ann", "role": "boss", "password": "short"})
        assert faulty.status_code == 422 and "3 things to put right" in faulty.text and "short" not in faulty.text
        assert page.form("/people", {"name": "Zoë", "role": "measure", "password": WORD}).status_code == 303
        zoe = people.named("Zoë")
        assert zoe.made_by == "Ann"
        page.form(f"/people/{zoe.id}/role", {"role": "decide"})
        page.form(f"/people/{zoe.id}/password", {"password": "ten red cars"})
        assert people.sign_in("Zoë", "ten red cars") is not None and people.named("Zoë").role == "decide"
        assert page.form(f"/people/{zoe.id}/password", {"password": "short"}).status_code == 422
        page.form(f"/people/{zoe.id}/access", {"access": "take"})
        assert "no access" in words_of(page.get("/people"))
        page.form(f"/people/{zoe.id}/access", {"access": "give"})
        assert people.named("Zoë").active
        ann = people.named("Ann")
        for address, fields in (("role", {"role": "measure"}), ("access", {"access": "take"})):
            refused = page.form(f"/people/{ann.id}/{address}", fields)
            assert refused.status_code == 409 and "could manage any more" in refused.text
        assert page.form("/people/nobody/role", {"role": "decide"}).status_code == 404


def test_ones_own_password_is_changed_with_the_old_one_and_signs_other_devices_out(shop: Desk) -> None:
    with browser(shop, "Mo") as page, browser(shop, "Mo") as tablet:
        assert "on 2 devices" in words_of(page.get("/password"))
        faulty = page.form("/password", {"old": "wrong wrong", "password": "short", "again": "shirt"})
        assert faulty.status_code == 422 and "3 things to put right" in faulty.text
        done = page.form("/password", {"old": WORD, "password": "ten red cars", "again": "ten red cars"})
        assert "Your password is changed" in done.text
        assert page.get("/", follow_redirects=False).status_code == 200
        assert tablet.get("/", follow_redirects=False).status_code == 303
        assert page.form("/sign-out", {"everywhere": "1"}).status_code == 303
        assert sign_in(page, "Mo") == 422
        assert sign_in(page, "Mo", "ten red cars") == 303


def test_on_loopback_nobody_signs_in_and_accounts_can_be_prepared(page: Page, cupboard: Cupboard) -> None:
    assert page.get("/sign-in", follow_redirects=False).headers["location"] == "/"
    assert page.get("/password").status_code == 404
    assert "Accounts count once" in words_of(page.get("/people"))
    assert page.form("/people", {"name": "Bo", "role": "manage", "password": WORD}).status_code == 303
    assert cupboard.people.can_be_managed()


def test_a_program_that_asks_too_often_has_to_wait(shop: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("hubwright.web.gate.API", Limit(3, 60))
    app = create_app(shop, OPTIONS)
    with Page(app, base_url=OPTIONS.base_address) as page:
        sign_in(page, "Mo")
        from hubwright.web.gate import admitted  # the API has addresses of its own; this one stands for them

        assert admitted in [dependency.dependency for dependency in app.router.dependencies]

        @app.get("/api/v1/try")
        def tried() -> dict[str, int]:
            return {"done": 1}

        answers = [page.get("/api/v1/try") for _ in range(5)]
        assert [answer.status_code for answer in answers] == [200, 200, 200, 429, 429]
        assert answers[-1].json()["detail"].startswith("Too many tries")
        page.form("/sign-out")
        assert page.get("/api/v1/try").status_code == 401
