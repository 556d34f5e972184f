"""The worked example of VdTUEV Merkblatt 751: 1547 mm + 2 % = 1577.94 mm (secondary copy)."""

from __future__ import annotations

from datetime import date

from hubwright.rules.comparisons import judge
from hubwright.rules.ruleset import rules_for


def test_a_track_of_1577_94_mm_stands_on_the_limit_and_0_01_mm_more_breaks_it():
    rules = {rule.id: rule for rule in rules_for(("DE",), date(2025, 1, 1)).rules}
    limit = rules["DE-track-2-percent"]
    assert judge(limit, 1577.94 / 1547 - 1)
    assert not judge(limit, 1577.95 / 1547 - 1)
    assert limit.reference == "the largest series track"
