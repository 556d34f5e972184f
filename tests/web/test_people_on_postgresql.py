"""People, settings and links through the pages, on PostgreSQL."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from tests.web.conftest import example, words_of
from tests.web.network import WORD, browser, sign_in, with_people

from hubwright.store.cupboard import Cupboard
from hubwright.web.desk import Desk

pytestmark = pytest.mark.slow


@pytest.fixture
def shop(new_database: str, tmp_path: Path) -> Iterator[Desk]:
    with Cupboard.open(tmp_path / "data", new_database) as cupboard:
        with_people(cupboard)
        yield Desk(cupboard)


def test_people_sign_in_are_changed_and_sign_out(shop: Desk) -> None:
    with browser(shop, "Ann") as page, browser(shop, "Mo") as tablet:
        assert page.form("/people", {"name": "MO", "role": "measure", "password": WORD}).status_code == 422
        mo = shop.cupboard.people.named("Mo")
        assert page.form(f"/people/{mo.id}/role", {"role": "decide"}).status_code == 303
        assert page.form(f"/people/{mo.id}/access", {"access": "take"}).status_code == 303
        assert tablet.get("/", follow_redirects=False).status_code == 303
        assert sign_in(tablet, "Mo") == 422
        assert page.form("/sign-out").status_code == 303


def test_the_shop_is_settled_taken_back_and_backed_up(shop: Desk) -> None:
    with browser(shop, "Ann") as page:
        disc = {"v:disc[+].thickness_mm": "5", "v:disc[+].kind": "plain", "system": "metric"}
        assert page.form("/shop/disc/new", disc).status_code == 303
        assert page.form("/shop/disc/1", {"v:disc[1].thickness_mm": "8", "base": "1"}).status_code == 303
        assert page.form("/shop/undo", {"revision": "2"}).status_code == 303
        assert [one.thickness_mm for one in shop.cupboard.shop.now().settings.disc] == [5]
        assert page.get("/shop/backup.zip").status_code == 200


def test_a_customer_measures_by_mail(shop: Desk) -> None:
    not_read = example("hatchback-rear-flush").replace(b"ride_height_mm = 352\n", b"")
    job_id = shop.cupboard.add(not_read, "Ann").job_id
    token, link = shop.cupboard.links.make(job_id, "Ann", customer="Zoë")
    with browser(shop) as customer:
        assert customer.get(f"/m/{token}").status_code == 200
        asked = {"slot": "field|left||ride_height_mm", "value": "351.5", "system": "metric", "base": "1"}
        assert customer.form(f"/m/{token}/rear", asked).status_code == 303
    assert shop.cupboard.history(job_id)[-1].author == "customer: Zoë"
    with browser(shop, "Dee") as page:
        assert "opened once" in words_of(page.get(f"/jobs/{job_id}/customer"))
        assert page.form(f"/jobs/{job_id}/customer/{link.id}/revoke").status_code == 303
    with browser(shop) as customer:
        assert customer.get(f"/m/{token}").status_code == 410
