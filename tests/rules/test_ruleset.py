from __future__ import annotations

from datetime import date, timedelta

import pytest

from hubwright.errors import BadDataFile
from hubwright.rules.ruleset import jurisdictions, rules_for

TODAY = date(2025, 6, 15)
OWN = """
name = "Testland"
[[rule]]
id = "XX-{name}"
title = "Track increase"
quantity = "track_increase_mm"
unit = "mm"
comparison = "at_most"
value = {value}
per = "axle"
{dates}
on_breach = "refused"
breach = "Too wide."
source = "Act 1"
how_seen = "read"
confidence = 0.9
what_to_do = "Take less."
"""


def ids(asked, on=TODAY, extra_folder=None):
    return [rule.id for rule in rules_for(asked, on, extra_folder).rules]


def test_the_packaged_files_are_those_of_the_twelve_jurisdictions():
    assert jurisdictions() == tuple(
        sorted(("DE", "EU", "UN", "AT", "AU-NSW", "AU-SA", "AU", "UK", "US-PA", "CH", "JP", "CA-BC"))
    )


@pytest.mark.parametrize("asked", [("ZZ",), ("de",), ("DE", "AU-VIC"), ()])
def test_a_country_without_a_file_is_unknown_and_never_an_empty_pass(asked):
    found = rules_for(asked, TODAY)
    assert not found.known
    assert found.unknown[-1].reason


def test_an_unknown_country_does_not_hide_the_rules_of_a_known_one():
    assert ids(("DE", "AU-VIC")) == ids(("DE",))


def test_a_country_brings_along_what_it_includes_each_rule_once():
    found = rules_for(("DE", "EU"), TODAY)
    assert found.covered == ("DE", "EU", "UN")
    names = [rule.id for rule in found.rules]
    assert {"DE-track-2-percent", "EU-guard-sector-tyre", "UN-speedometer"} <= set(names)
    assert len(names) == len(set(names))


def test_a_state_limit_takes_the_place_of_the_national_one_only_in_that_state():
    assert "AU-track-passenger" in ids(("AU",))
    assert "AU-track-passenger" not in ids(("AU-SA",))
    assert "AU-no-discs" in ids(("AU-SA",))
    assert [name for name in ids(("AU-NSW",)) if name.endswith("no-discs")] == ["AU-NSW-no-discs"]


def test_a_rule_holds_on_its_first_and_last_day_and_not_beyond(tmp_path):
    first, last = TODAY - timedelta(days=30), TODAY - timedelta(days=1)
    old = OWN.format(name="old", value=20, dates=f"from = {first}\nto = {last}")
    new = OWN.format(name="new", value=25, dates=f"from = {TODAY}").replace('name = "Testland"', "")
    (tmp_path / "XX.toml").write_text(old + new, encoding="utf-8")
    days = {day: ids(("XX",), day, tmp_path) for day in (first - timedelta(days=1), first, last, TODAY)}
    assert list(days.values()) == [[], ["XX-old"], ["XX-old"], ["XX-new"]]


def test_a_country_whose_own_limits_are_not_in_force_yet_is_unknown_even_when_included_ones_are():
    found = rules_for(("CH",), date(2024, 3, 31))
    assert "UN-speedometer" in [rule.id for rule in found.rules]
    assert not found.known
    assert rules_for(("CH",), date(2024, 4, 1)).known


def test_a_rule_whose_first_day_is_not_known_counts_as_in_force_and_says_so():
    (rule,) = [rule for rule in rules_for(("CA-BC",), date(1980, 1, 1)).rules if rule.id == "CA-BC-gap-steered"]
    assert rule.starts is None
    assert "not known" in rule.date_note


def test_a_shop_adds_a_country_and_to_a_country(tmp_path):
    (tmp_path / "XX.toml").write_text(OWN.format(name="track", value=20, dates=""), encoding="utf-8")
    more = OWN.format(name="own", value=20, dates="").replace("XX-own", "DE-own")
    (tmp_path / "DE.toml").write_text(more, encoding="utf-8")
    assert "XX" in jurisdictions(tmp_path)
    assert ids(("XX",), extra_folder=tmp_path) == ["XX-track"]
    assert set(ids(("DE",), extra_folder=tmp_path)) == {*ids(("DE",)), "DE-own"}


@pytest.mark.parametrize(
    ("name", "text", "key"),
    [
        ("DE.toml", OWN.format(name="x", value=1, dates="").replace("XX-x", "DE-odometer"), "DE-odometer"),
        ("XX.toml", 'name = "X"\nincludes = ["ZZ"]\nincludes_why = "so"', "includes"),
        ("XX.toml", OWN.format(name="x", value=1, dates='replaces = ["AU-nothing"]'), "XX-x.replaces"),
    ],
)
def test_a_shop_file_that_does_not_agree_with_the_others_is_refused(tmp_path, name, text, key):
    (tmp_path / name).write_text(text, encoding="utf-8")
    with pytest.raises(BadDataFile) as caught:
        rules_for(("DE",), TODAY, tmp_path)
    assert caught.value.key == key


def test_a_folder_that_is_not_there_is_refused(tmp_path):
    with pytest.raises(BadDataFile, match="no such folder"):
        rules_for(("DE",), TODAY, tmp_path / "law")
