"""The shop's settings: their history, two people on them, and what jobs take over from them."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from sqlalchemy import text

from hubwright.errors import BadInput, StoreRefusal
from hubwright.jobs.shopfile import new_shop, parse_shop
from hubwright.jobs.template import new_job
from hubwright.store import dialects
from hubwright.store.cupboard import Cupboard
from hubwright.store.shop_in_job import begun, differences_from_shop, shop_tables, with_shop_table
from hubwright.store.tomltext import job_of

from .conftest import EXAMPLE

SETTINGS = """\
hubwright_shop = 1 # ours
name = "Wheel Room"
address = ["1 Example Lane", "Sometown"]
use = "track"
countries = ["DE"]
law_packs = ["DE", "EU"]
[policy]
least_pilot_mm = 5 # we like more
[policy.margins]
body_in = 0.25
[[disc]]
thickness_mm = 5
kind = "plain"
[[disc]]
thickness_mm = 15
kind = "lipped"
[[fastener]]
kind = "bolt"
thread = "M14x1.5"
seat = "cone"
lengths_mm = [27, 30]
[[tool]]
name = "depth gauge"
u_mm = 0.1
"""


def test_before_anybody_settles_anything_there_is_a_sound_text_that_explains(cupboard: Cupboard) -> None:
    stored = cupboard.shop.now()
    assert (stored.revision, stored.text) == (0, new_shop())
    assert stored.settings.tool == ()
    assert cupboard.shop.history() == ()
    with pytest.raises(StoreRefusal, match="nothing was settled"):
        cupboard.shop.undo("Ann")


def test_every_line_of_that_text_is_sound_when_its_mark_is_taken_away() -> None:
    lines = new_shop().splitlines()
    taken = [line[2:] if line.startswith("# ") and ("=" in line or line.startswith("# [")) else line for line in lines]
    settings = parse_shop("\n".join(taken).replace('name = ""', 'name = "x"').replace('["", ""]', '["x", "y"]'))
    assert len(settings.tool) == 2 and settings.shop.disc and settings.shop.fastener


def test_settings_go_in_and_out_byte_for_byte_and_every_revision_stays(cupboard: Cupboard) -> None:
    first = cupboard.shop.put(SETTINGS, "Ann", base=0, note="begun", key="k")
    assert cupboard.shop.put(SETTINGS, "Ann", base=0, note="begun", key="k") == first
    edited = SETTINGS.replace("u_mm = 0.1", "u_mm = 0.2")
    assert cupboard.shop.put(edited, "Bo", base=1).revision == 2
    assert cupboard.shop.put(edited, "Bo", base=2).changes == ()
    assert cupboard.shop.now().text == edited
    assert cupboard.shop.now(1).text == SETTINGS
    history = [(step.number, step.author, step.kind, step.note) for step in cupboard.shop.history()]
    assert history == [(1, "Ann", "new", "begun"), (2, "Bo", "file", "")]
    (change,) = cupboard.shop.history()[1].changes
    assert (change.field, change.value, change.before) == ("tool[1].u_mm", "0.2", "0.1")
    with pytest.raises(StoreRefusal, match="Revision 7"):
        cupboard.shop.now(7)


def test_two_people_are_merged_where_they_changed_different_places_and_told_where_not(cupboard: Cupboard) -> None:
    cupboard.shop.put(SETTINGS, "Ann", base=0)
    cupboard.shop.put(SETTINGS.replace("least_pilot_mm = 5", "least_pilot_mm = 6"), "Bo", base=1)
    receipt = cupboard.shop.put(SETTINGS.replace("Wheel Room", "Wheel House"), "Cy", base=1)
    assert receipt.merged
    settings = cupboard.shop.now().settings
    assert (settings.policy.least_pilot_mm, settings.name) == (6, "Wheel House")
    assert "# we like more" in cupboard.shop.now().text
    with pytest.raises(
        StoreRefusal, match=r"policy\.least_pilot_mm: Bo has changed it meanwhile; it is 6, you wanted 4"
    ):
        cupboard.shop.enter([("policy.least_pilot_mm", "4"), ("name", '"X"')], "Cy", base=1)
    assert cupboard.shop.now().settings == settings
    assert len(cupboard.shop.history()) == 3


def test_single_places_are_entered_and_revisions_taken_back(cupboard: Cupboard) -> None:
    cupboard.shop.put(SETTINGS, "Ann", base=0)
    cupboard.shop.enter([("disc[+]", '{ thickness_mm = 20, kind = "lipped" }')], "Ann", base=1)
    cupboard.shop.enter([("name", '"Other"')], "Bo", base=2)
    assert [disc.thickness_mm for disc in cupboard.shop.now().settings.disc] == [5, 15, 20]
    cupboard.shop.undo("Cy", revision=2)
    assert [disc.thickness_mm for disc in cupboard.shop.now().settings.disc] == [5, 15]
    assert cupboard.shop.now().settings.name == "Other"
    with pytest.raises(StoreRefusal, match="has changed"):
        cupboard.shop.undo("Cy", revision=1)
    assert cupboard.shop.history()[-1].undoes == 2
    cupboard.shop.undo("Cy")
    assert len(cupboard.shop.now().settings.disc) == 3


def test_the_first_settings_can_be_taken_back(cupboard: Cupboard) -> None:
    cupboard.shop.put(SETTINGS, "Ann", base=0)
    cupboard.shop.undo("Ann")
    assert cupboard.shop.now().settings.disc == ()


def test_all_faults_of_settings_are_told_at_once_with_their_lines_and_nothing_is_stored(cupboard: Cupboard) -> None:
    bad = SETTINGS.replace("least_pilot_mm = 5", "least_pilot_mm = 'x'").replace('"plain"', '"thick"') + "colour = 1\n"
    with pytest.raises(BadInput) as caught:
        cupboard.shop.put(bad, "Ann", base=0)
    found = [(fault.line, fault.field) for fault in caught.value.faults]
    assert found == [(8, "policy.least_pilot_mm"), (13, "disc[1].kind"), (25, "tool[1].colour")]
    clashing = SETTINGS.replace('["DE", "EU"]', '["DE", "XX"]') + "[[tool]]\nname = 'Depth Gauge'\n"
    with pytest.raises(BadInput) as caught:
        cupboard.shop.put(clashing, "Ann", base=0)
    assert [fault.field for fault in caught.value.faults] == ["law_packs[2]", "tool[2].name"]
    for broken in ("hubwright_shop = 2", "name = 'x'", "hubwright_shop = ", b"\xff", "hubwright_job = 1"):
        with pytest.raises(BadInput):
            cupboard.shop.put(broken, "Ann", base=0)
    with pytest.raises(BadInput, match="place of the settings"):
        cupboard.shop.enter([("@note", "x")], "Ann", base=0)
    assert cupboard.shop.now().revision == 0


def test_a_changed_past_of_the_settings_is_found(cupboard: Cupboard) -> None:
    cupboard.shop.put(SETTINGS, "Ann", base=0)
    cupboard.shop.put(SETTINGS.replace("Room", "House"), "Ann", base=1)
    assert cupboard.check().problems == ()
    dialects.write(cupboard._engine, lambda c: c.execute(text("UPDATE shop SET author = 'Mallory' WHERE number = 1")))
    assert cupboard.check().problems == ("settings of the shop: revision 1 is not what was stored",)


def test_settings_are_in_a_backup_and_go_with_the_whole_shop_where_nothing_was_settled_yet(
    cupboard: Cupboard, elsewhere: Cupboard, tmp_path: Path
) -> None:
    job_id = cupboard.add(EXAMPLE, "Ann").job_id
    cupboard.shop.put(SETTINGS, "Ann", base=0)
    cupboard.export(tmp_path / "job.zip", "Ann", [job_id])
    cupboard.export(tmp_path / "shop.zip", "Ann")
    cupboard.backup(tmp_path / "all.zip")
    assert not elsewhere.bring(tmp_path / "job.zip", "Bo").settled
    assert elsewhere.shop.now().revision == 0
    assert elsewhere.bring(tmp_path / "shop.zip", "Bo").settled
    assert elsewhere.shop.now().text == SETTINGS
    elsewhere.shop.enter([("name", '"Ours"')], "Bo", base=1)
    assert not elsewhere.bring(tmp_path / "shop.zip", "Bo").settled
    assert elsewhere.shop.now().settings.name == "Ours"
    elsewhere.restore(tmp_path / "all.zip", force=True)
    assert elsewhere.shop.history() == cupboard.shop.history()


def test_a_new_job_begins_with_what_the_shop_settled_and_then_stands_alone() -> None:
    job = begun(new_job("New", studs=False).encode(), SETTINGS.encode())
    assert job_of(job).shop == parse_shop(SETTINGS).shop
    assert (job_of(job).request.use, job_of(job).request.countries) == ("track", ("DE",))
    assert job.decode().startswith(new_job("New", studs=False)[:40])
    assert differences_from_shop(job, SETTINGS.encode()) == ()
    assert with_shop_table(job, b"hubwright_shop = 1\nname = 'Other'\n") == job
    bare = new_job("New", studs=False).encode()
    assert begun(bare, new_shop().encode()) == bare
    assert shop_tables(new_shop().encode()) == ""


def test_a_job_with_other_line_ends_keeps_them() -> None:
    job = new_job("New", studs=False).replace("\n", "\r\n").encode()
    done = with_shop_table(b"\xef\xbb\xbf" + job.rstrip(), SETTINGS.encode())
    assert done.startswith(b"\xef\xbb\xbf" + job.rstrip()) and done.count(b"\n") == done.count(b"\r\n")
    assert tomllib.loads(done.decode("utf-8-sig"))["shop"]["policy"] == {
        "least_pilot_mm": 5,
        "margins": {"body_in": 0.25},
    }


def test_it_is_told_in_what_a_job_differs_from_the_shop_today() -> None:
    job = with_shop_table(new_job("New", studs=False).encode(), SETTINGS.encode())
    today = SETTINGS.replace("least_pilot_mm = 5", "least_pilot_mm = 4.5").replace("body_in = 0.25", "body_mm = 6.35")
    told = differences_from_shop(job, today.encode())
    assert (told[0].field, told[0].value, told[0].before) == ("shop.policy.least_pilot_mm", "4.5", "5")
    same = SETTINGS.replace("body_in = 0.25", "body_mm = 6.35").replace("least_pilot_mm = 5", "least_pilot_mm = 5.0")
    assert differences_from_shop(job, same.encode()) == ()
    assert {one.field for one in differences_from_shop(job, b"hubwright_shop = 1")} == {"shop"}
    (whole,) = differences_from_shop(new_job("New", studs=False).encode(), SETTINGS.encode())
    assert whole.field == "shop" and whole.before is None


def test_those_differences_can_be_entered_into_the_job(cupboard: Cupboard) -> None:
    job_id = cupboard.add(EXAMPLE, "Ann").job_id
    changes = differences_from_shop(EXAMPLE, SETTINGS.encode())
    receipt = cupboard.enter(job_id, [(one.field, one.value) for one in changes], "Ann", base=1)
    assert receipt.aside is None
    assert differences_from_shop(cupboard.job(job_id).data, SETTINGS.encode()) == ()
