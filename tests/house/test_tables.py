"""Every figure has its papers."""

from __future__ import annotations

from importlib.resources import files

from hubwright.rules.model import HOW_SEEN
from hubwright.rules.ruleset import all_rules
from hubwright.tables.loader import all_tables, table_names


def test_every_table_file_has_a_sidecar_and_every_sidecar_a_table():
    names = [file.name for file in files("hubwright.tables").joinpath("data").iterdir()]
    tables = {name.removesuffix(".csv") for name in names if name.endswith(".csv")}
    sidecars = {name.removesuffix(".toml") for name in names if name.endswith(".toml")}
    assert tables == sidecars == set(table_names())
    assert len(names) == 2 * len(tables)


def test_every_table_can_be_read_and_says_where_each_row_was_seen():
    for table in all_tables():
        assert table.title, table.name
        assert table.licence, table.name
        assert table.transcribed, table.name
        assert table.rows, table.name
        assert all(column.meaning for column in table.columns), table.name
        assert all(row["how_seen"] for row in table.rows), table.name


def test_every_rule_and_obligation_has_a_source_how_it_was_seen_and_what_to_do():
    found = [item for file in all_rules() for item in (*file.rules, *file.obligations)]
    assert found
    for item in found:
        assert item.source, item.id
        assert item.what_to_do, item.id
        assert item.how_seen in HOW_SEEN, item.id


def test_a_rule_without_a_known_first_day_says_so():
    for file in all_rules():
        for rule in file.rules:
            if rule.starts is None:
                assert "not known" in rule.date_note, rule.id


def test_every_limit_on_track_names_the_track_it_is_measured_against():
    for file in all_rules():
        for rule in file.rules:
            if rule.quantity in ("track_increase_ratio", "track_increase_mm"):
                assert "track" in rule.reference, rule.id
