from __future__ import annotations

import pytest

from hubwright.errors import BadDataFile
from hubwright.rules.loader import parse_rules

RULE = """
name = "Testland"
[[rule]]
id = "XX-track"
title = "Track increase"
quantity = "track_increase_mm"
unit = "mm"
comparison = "at_most"
value = 25
per = "axle"
on_breach = "refused"
breach = "Too wide."
source = "Act 1"
how_seen = "read"
confidence = 0.9
what_to_do = "Take less."
"""


def test_a_rule_comes_out_as_it_was_written():
    (rule,) = parse_rules("XX", RULE, "XX.toml").rules
    assert (rule.quantity, rule.comparison, rule.values, rule.citation) == (
        "track_increase_mm",
        "at_most",
        (25.0,),
        "Act 1",
    )
    assert rule.starts is None
    assert rule.ends is None


@pytest.mark.parametrize(
    ("old", "new", "key"),
    [
        ("value = 25", "value = 25\ncolour = 'red'", "XX-track.colour"),
        ('source = "Act 1"', "", "XX-track.source"),
        ('source = "Act 1"', 'source = ""', "XX-track.source"),
        ('how_seen = "read"', 'how_seen = "heard"', "XX-track.how_seen"),
        ('"track_increase_mm"', '"colour_mm"', "XX-track.quantity"),
        ('unit = "mm"', 'unit = "in"', "XX-track.unit"),
        ('per = "axle"', 'per = "side"', "XX-track.per"),
        ('"at_most"', '"roughly"', "XX-track.comparison"),
        ('"at_most"', '"between"', "XX-track.value"),
        ('"at_most"', '"must_be_zero"', "XX-track.value"),
        ("value = 25", "", "XX-track.value"),
        ("value = 25", 'value = "2 * 12"', "XX-track.value"),
        ("value = 25", "value = true", "XX-track.value"),
        ("value = 25", "value = nan", "XX-track.value"),
        ("confidence = 0.9", "confidence = 90", "XX-track.confidence"),
        ('"refused"', '"maybe"', "XX-track.on_breach"),
        ("value = 25", 'value = 25\nfrom = "2020-01-01"', "XX-track.from"),
        ("value = 25", "value = 25\nfrom = 2020-01-01T00:00:00", "XX-track.from"),
        ("value = 25", "value = 25\nfrom = 2020-01-02\nto = 2020-01-01", "XX-track.to"),
        ("value = 25", 'value = 25\napplies = { colour = ["red"] }', "XX-track.applies.colour"),
        ("value = 25", 'value = 25\napplies = { frame = ["wood"] }', "XX-track.applies.frame"),
        ("value = 25", 'value = 25\napplies = { frame = "ladder" }', "XX-track.applies.frame"),
        ('id = "XX-track"', 'id = "YY-track"', "id"),
        ('name = "Testland"', "", "file.name"),
        ('name = "Testland"', 'name = "Testland"\ncountry = "XX"', "file.country"),
        ('name = "Testland"', 'name = "Testland"\nincludes = ["EU"]', "includes_why"),
        ("[[rule]]", "[rule]", "rule"),
        ("[[rule]]", "[[rule", "file"),
    ],
)
def test_what_the_format_does_not_know_is_refused_by_file_and_key(old, new, key):
    assert old in RULE
    with pytest.raises(BadDataFile) as caught:
        parse_rules("XX", RULE.replace(old, new), "XX.toml")
    assert (caught.value.file, caught.value.key) == ("XX.toml", key)


def test_a_refused_key_is_answered_with_the_keys_there_are():
    with pytest.raises(BadDataFile, match=r"comparison, .*confidence, .*quantity"):
        parse_rules("XX", RULE + "colour = 'red'\n", "XX.toml")


def test_the_same_id_twice_is_refused():
    with pytest.raises(BadDataFile, match="used once"):
        parse_rules("XX", RULE + RULE.replace('name = "Testland"', ""), "XX.toml")
