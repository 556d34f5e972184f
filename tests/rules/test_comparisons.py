from __future__ import annotations

import math
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hubwright.errors import MissingReading, OutsideValidity
from hubwright.rules.comparisons import bounds, judge, limit_words
from hubwright.rules.ruleset import all_rules, jurisdictions, rules_for

RULES = {rule.id: rule for file in all_rules() for rule in file.rules}


@pytest.mark.parametrize(
    ("name", "kept", "broken"),
    [
        ("AU-NSW-track-passenger", [25, 0, -4], [25.01, 50]),
        ("AT-gap-body", [10, 40], [9.99, 0, -3]),
        ("JP-sector-tyre", [9.99, -20], [10, 15]),
        ("AU-NSW-no-contact", [0.1], [0, -1]),
        ("AU-NSW-tyre-diameter", [-15, 0, 15], [-15.1, 15.1]),
        ("AU-NSW-no-discs", [0], [3, 25]),
        ("AU-SA-suspension-travel", [0.3, 1 / 3], [0.34]),
        ("US-PA-lock-turns", [0.25, -0.25], [0.3, -0.3]),
    ],
)
def test_standing_on_a_limit_keeps_it_unless_the_law_says_above_or_below(name, kept, broken):
    assert all(judge(RULES[name], value) for value in kept)
    assert not any(judge(RULES[name], value) for value in broken)


@pytest.mark.parametrize(("indicated_kmh", "kept"), [(99.9, False), (100, True), (114, True), (114.1, False)])
def test_a_speedometer_at_true_100_may_show_100_to_114(indicated_kmh, kept):
    assert judge(RULES["UN-speedometer"], indicated_kmh - 100, base=100) is kept


def test_a_share_without_its_base_is_a_missing_reading():
    with pytest.raises(MissingReading, match="true speed"):
        judge(RULES["UN-speedometer"], 4)


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_not_a_number_is_never_judged(value):
    with pytest.raises(OutsideValidity):
        judge(RULES["AU-SA-track"], value)


@given(st.sampled_from(sorted(RULES)), st.floats(min_value=-500, max_value=500))
def test_a_figure_keeps_a_rule_exactly_when_it_lies_within_its_bounds(name, value):
    within = bounds(RULES[name], base=100)
    low, high = within.low, within.high
    ends = [end for end in (low, high) if end is not None]
    assert ends
    if all(abs(value - end) > 1e-6 for end in ends):
        inside = (low is None or low < value) and (high is None or value < high)
        assert judge(RULES[name], value, base=100) == inside


def test_the_words_of_a_limit_name_figure_unit_and_reference():
    assert limit_words(RULES["DE-track-2-percent"]) == "at most 2 % per axle against the largest series track"
    assert limit_words(RULES["CA-BC-gap-steered"]) == "at least 25 mm per side"
    assert limit_words(RULES["AU-NSW-no-discs"]) == "not permitted"


def test_a_wish_for_25_mm_a_side_on_a_frame_built_off_roader_is_refused_in_south_australia_only():
    on = date(2025, 6, 15)
    ladder = RULES["DE-track-4-percent-ladder"]
    assert judge(ladder, 50 / 1560)
    assert not judge(ladder, 70 / 1560)
    refused = [rule.id for rule in rules_for(("AU-SA",), on).rules if rule.quantity == "track_increase_mm"]
    assert refused == ["AU-SA-track"]
    assert not judge(RULES["AU-SA-track"], 50)
    assert RULES["AU-SA-track"].on_breach == "refused"


def test_beyond_the_swiss_limits_a_declaration_is_needed_and_nothing_is_refused():
    own = [rule for rule in RULES.values() if rule.jurisdiction == "CH"]
    assert {rule.on_breach for rule in own} == {"declaration needed"}
    assert "CH" in jurisdictions()
