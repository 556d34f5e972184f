"""The pages of the shop: what is settled there is stored, told apart, taken back and found in new jobs."""

from __future__ import annotations

import io
import zipfile

import pypdf
import pytest
from tests.web.conftest import Page, words_of

from hubwright.jobs.shopfile import new_shop
from hubwright.store.cupboard import Cupboard
from hubwright.store.tomltext import job_of

DISC = "v:disc[+]."


def add_disc(page: Page, thickness: str = "5", kind: str = "plain", **more: str) -> int:
    fields = {f"{DISC}thickness_mm": thickness, f"{DISC}kind": kind, "system": "metric", **more}
    return page.form("/shop/disc/new", fields).status_code


def test_every_page_of_the_shop_is_in_order_before_and_after_something_is_settled(page: Page) -> None:
    def look() -> None:
        for address in (
            "",
            "/about",
            "/rules",
            "/assumptions",
            "/disc/new",
            "/fastener/new",
            "/tool/new",
            "/history",
            "/keeping",
        ):
            assert page.get(f"/shop{address}").status_code == 200, address

    look()
    assert "Nothing was settled yet" in words_of(page.get("/shop"))
    add_disc(page)
    look()
    for odd in (
        "/shop/nothing",
        "/shop/disc",
        "/shop/disc/2",
        "/shop/disc/0",
        "/shop/disc/x",
        "/shop/rules/1",
        "/shop/disc/²",
    ):
        assert page.get(odd).status_code == 404, odd


def test_name_address_use_and_countries_are_settled_and_printed_as_typed(page: Page, cupboard: Cupboard) -> None:
    asked = {
        "base": "0", "system": "metric", "v:name": "Wheel Room", "l:address": " 1 Example Lane \r\n\r\n12345 Sometown\r\n",
        "v:use": "track", "v:countries": ["", "DE", "AT"], "v:law_packs": [""],
    }  # fmt: skip
    assert page.form("/shop/about", asked).headers["location"] == "/shop?kept=1#about"
    settings = cupboard.shop.now().settings
    assert (settings.name, settings.address) == ("Wheel Room", ("1 Example Lane", "12345 Sometown"))
    assert (settings.use, settings.countries, settings.law_packs) == ("track", ("DE", "AT"), ())
    assert cupboard.shop.history()[0].author == "Ann"
    assert "1 Example Lane" in page.get("/shop/about").text
    assert page.form("/shop/about", {**asked, "base": "1"}).headers["location"] == "/shop"
    assert cupboard.shop.now().revision == 1


def test_a_house_rule_is_typed_in_the_persons_units_and_emptied_is_as_usual_again(
    page: Page, cupboard: Cupboard
) -> None:
    page.form(
        "/shop/rules", {"system": "inch", "base": "0", "v:policy.least_pilot_mm": "1/4", "v:policy.equal_sides": "no"}
    )
    policy = cupboard.shop.now().settings.policy
    assert (policy.least_pilot_mm, policy.equal_sides) == (6.35, False)
    assert "2 rules of the shop" in words_of(page.get("/shop"))
    assert "usual: 4" in words_of(page.get("/shop/rules"))
    page.form(
        "/shop/rules", {"system": "metric", "base": "1", "v:policy.least_pilot_mm": "", "v:policy.equal_sides": ""}
    )
    assert cupboard.shop.now().settings.policy.least_pilot_mm == 4.0
    assert cupboard.shop.now().settings.policy.equal_sides


def test_all_faults_come_back_with_everything_typed_and_nothing_is_stored(page: Page, cupboard: Cupboard) -> None:
    asked = {
        "system": "metric",
        "base": "0",
        "v:policy.least_pilot_mm": "much",
        "v:policy.settle_days": "-3",
        "v:policy.margins.body_mm": "6,5",
    }
    answer = page.form("/shop/rules", asked)
    assert answer.status_code == 422
    assert "2 things to put right" in answer.text and 'value="much"' in answer.text and 'value="6,5"' in answer.text
    answer = page.form("/shop/disc/new", {f"{DISC}name": "<b>mine</b>", "system": "metric"})
    assert answer.status_code == 422 and "&lt;b&gt;mine" in answer.text and "2 things to put right" in answer.text
    assert page.form("/shop/fastener/new", {"system": "metric"}).status_code == 422
    lip = {f"{DISC}lip_outer_mm": "60", f"{DISC}lip_inner_mm": "66"}
    assert add_disc(page, "15", "lipped", **lip) == 422
    assert page.form("/shop/about", {"l:address": "\n".join("abcdefghi")}).status_code == 422
    assert cupboard.shop.now().revision == 0


def test_discs_fasteners_and_tools_are_added_changed_and_taken_out(page: Page, cupboard: Cupboard) -> None:
    assert add_disc(page) == add_disc(page, "15", "lipped") == 303
    bolt = {
        "v:fastener[+].kind": "bolt",
        "v:fastener[+].thread": "M14x1.5",
        "v:fastener[+].seat": "cone",
        "v:fastener[+].lengths_mm": "27 30; 33",
    }
    assert page.form("/shop/fastener/new", bolt).status_code == 422  # neither blanks nor semicolons alone
    assert page.form("/shop/fastener/new", {**bolt, "v:fastener[+].lengths_mm": "27; 30; 33"}).status_code == 303
    tool = {"v:tool[+].name": "depth gauge", "v:tool[+].u_mm": "0,1", "v:tool[+].check_by": "2026-01-31"}
    assert page.form("/shop/tool/new", {**tool, "system": "metric"}).status_code == 303
    shown = words_of(page.get("/shop"))
    assert "5 mm, plain" in shown.replace("5.0", "5") and "27" in shown and "overdue" in shown
    settings = cupboard.shop.now().settings
    assert (settings.fastener[0].lengths_mm, settings.tool[0].u_mm) == ((27, 30, 33), 0.1)
    page.form("/shop/disc/2", {"v:disc[2].thickness_mm": "20", "system": "metric"})
    assert [disc.thickness_mm for disc in cupboard.shop.now().settings.disc] == [5, 20]
    page.form("/shop/disc/1/remove")
    assert [disc.thickness_mm for disc in cupboard.shop.now().settings.disc] == [20]


def test_two_people_on_the_settings_are_merged_or_told(page: Page, cupboard: Cupboard) -> None:
    add_disc(page)
    cupboard.shop.enter([("disc[1].thickness_mm", "8")], "Bo", base=1)
    answer = page.form("/shop/disc/1", {"base": "1", "system": "metric", "v:disc[1].thickness_mm": "10"})
    assert answer.status_code == 409 and "Bo has changed it meanwhile" in answer.text
    assert page.form("/shop/disc/1", {"base": "1", "system": "metric", "v:disc[1].name": "thin one"}).status_code == 303
    (disc,) = cupboard.shop.now().settings.disc
    assert (disc.thickness_mm, disc.name) == (8, "thin one")
    assert page.form("/shop/disc/1/remove", {"base": "1"}).status_code == 409


def test_a_form_sent_twice_adds_one_disc(page: Page, cupboard: Cupboard) -> None:
    for _ in range(2):
        add_disc(page, key="k" * 32)
    assert len(cupboard.shop.now().settings.disc) == 1


def test_the_history_shows_who_changed_what_and_takes_it_back(page: Page, cupboard: Cupboard) -> None:
    add_disc(page)
    add_disc(page, "8")
    shown = words_of(page.get("/shop/history"))
    assert "Revision 2" in shown and "Ann" in shown
    assert page.form("/shop/undo", {"revision": "1"}).status_code == 303
    assert [disc.thickness_mm for disc in cupboard.shop.now().settings.disc] == [8]
    assert "takes revision 1 back" in words_of(page.get("/shop/history"))
    assert page.form("/shop/undo", {"revision": "9"}).status_code == 404


def test_a_new_job_begins_with_the_settings_and_offers_the_shops_law_packs(page: Page, cupboard: Cupboard) -> None:
    settings = 'hubwright_shop = 1\nuse = "track"\ncountries = ["DE"]\nlaw_packs = ["DE", "AT"]\n[[disc]]\nthickness_mm = 7\nkind = "plain"\n'
    cupboard.shop.put(settings, "Ann", base=0)
    form = page.get("/new").text
    assert '<option value="track" selected>' in form and 'value="DE" checked' in form and 'value="JP"' not in form
    address = page.form("/new", {"title": "T", "use": "street", "countries": ["AT"]}).headers["location"]
    job = job_of(cupboard.job(address.removeprefix("/jobs/")).data)
    assert [disc.thickness_mm for disc in job.shop.disc] == [7]
    assert (job.request.use, job.request.countries) == ("street", ("AT",))


def test_settings_go_out_and_come_back_edited(page: Page, cupboard: Cupboard) -> None:
    out = page.get("/shop/shop.toml")
    assert out.text == new_shop() and 'filename="shop-0.toml"' in out.headers["content-disposition"]
    edited = out.content.replace(b'# name = ""  ', b'name = "Ours"')
    answer = page.form("/shop/shop.toml", {"base": "0"}, files={"file": ("shop.toml", edited)})
    assert answer.headers["location"] == "/shop?kept=1"
    assert cupboard.shop.now().data == edited
    bad = edited + b"colour = 1\nsize = 2\n"
    answer = page.form("/shop/shop.toml", {"base": "1"}, files={"file": ("shop.toml", bad)})
    assert answer.status_code == 422 and "2 things to put right" in answer.text
    assert page.form("/shop/shop.toml", {"base": "x"}).status_code == 422
    for odd in (b"\xff\x00", b"x" * 5_000_000, b""):
        assert page.form("/shop/shop.toml", {"base": "1"}, files={"file": ("shop.toml", odd)}).status_code == 422


def test_the_whole_shop_goes_out_and_comes_in_and_a_backup_is_handed_out(
    page: Page, cupboard: Cupboard, job_id: str
) -> None:
    add_disc(page)
    bundle, backup = page.get("/shop/export.zip"), page.get("/shop/backup.zip")
    for archive, member in ((bundle, "shop.toml"), (backup, "tables/shop.jsonl")):
        assert archive.headers["content-type"] == "application/zip"
        assert member in zipfile.ZipFile(io.BytesIO(archive.content)).namelist()
    told = words_of(page.form("/shop/import", files={"archive": ("shop.zip", bundle.content)}))
    assert "1 job was here already." in told
    for odd in (b"nothing like it", backup.content):
        answer = page.form("/shop/import", files={"archive": ("shop.zip", odd)})
        assert answer.status_code == 422 and "wanted a file that an export has written" in words_of(answer)
    assert page.form("/shop/import").status_code == 422


@pytest.mark.parametrize("form", ["yes", "v:"])
def test_odd_fields_change_nothing(page: Page, cupboard: Cupboard, form: str) -> None:
    for name in (f"{form}rear.wish", "v:hubwright_shop", "v:tool[+]", "v:policy", "v:..", "x:policy", "v:disc[9].name"):
        assert page.form("/shop/rules", {name: "1", "base": "0"}).status_code in (303, 409, 422)
    assert cupboard.shop.now().settings == cupboard.shop.now(0).settings


def test_a_job_is_compared_with_the_shop_of_today_and_brought_up_to_date(
    page: Page, cupboard: Cupboard, job_id: str
) -> None:
    assert "settled nothing yet" in words_of(page.get(f"/jobs/{job_id}/shop"))
    add_disc(page, "7")
    shown = words_of(page.get(f"/jobs/{job_id}/shop"))
    assert "shop.disc" in shown and "thickness_mm = 7" in shown
    assert cupboard.job(job_id).revision == 1
    for _ in range(2):
        assert page.form(f"/jobs/{job_id}/shop", {"base": "1", "key": "k" * 32}).status_code == 303
    assert "those of the shop today" in words_of(page.get(f"/jobs/{job_id}/shop"))
    assert [disc.thickness_mm for disc in job_of(cupboard.job(job_id).data).shop.disc] == [7]
    assert cupboard.job(job_id).revision == 2


def test_name_and_address_are_printed_on_paper(page: Page, cupboard: Cupboard, job_id: str) -> None:
    cupboard.shop.put('hubwright_shop = 1\nname = "Wheel Room"\naddress = ["1 Example Lane"]\n', "Ann", base=0)
    data = page.get(f"/jobs/{job_id}/paper/job-card.pdf").content
    words = pypdf.PdfReader(io.BytesIO(data)).pages[0].extract_text()
    assert "Wheel Room, 1 Example Lane" in words
