from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hubwright.errors import BadInput
from hubwright.rules.applies import applicability
from hubwright.rules.model import FACTS
from hubwright.rules.ruleset import all_rules

RULES = {rule.id: rule for file in all_rules() for rule in file.rules}
TWO, FOUR = RULES["DE-track-2-percent"], RULES["DE-track-4-percent-ladder"]

complete_facts = st.fixed_dictionaries({fact: st.sampled_from(words) for fact, words in FACTS.items()})


@pytest.mark.parametrize(
    ("facts", "two", "four"),
    [
        ({"frame": "ladder", "category": "off-road"}, False, True),
        ({"frame": "unibody", "category": "off-road"}, True, False),
        ({"frame": "ladder", "category": "goods"}, True, False),
        ({"frame": "unibody"}, True, False),
        ({"frame": "ladder"}, None, None),
        ({}, None, None),
    ],
)
def test_the_4_percent_limit_takes_the_place_of_the_2_percent_one_for_frame_built_off_roaders(facts, two, four):
    assert applicability(TWO, facts).applies is two
    assert applicability(FOUR, facts).applies is four


def test_an_open_answer_names_the_facts_that_would_close_it():
    assert applicability(FOUR, {"frame": "ladder"}).missing == ("category",)


@given(complete_facts)
def test_with_all_facts_known_exactly_one_german_track_limit_and_one_cover_rule_hold(facts):
    assert applicability(TWO, facts).applies is not applicability(FOUR, facts).applies
    cover = [applicability(RULES[name], facts).applies for name in ("DE-cover-national", "DE-cover-sector-wheel")]
    assert sorted(cover, key=bool) == [False, True]


@given(complete_facts, st.sets(st.sampled_from(sorted(FACTS))), st.sampled_from(sorted(RULES)))
def test_knowing_less_never_turns_a_yes_into_a_no(facts, forgotten, name):
    full = applicability(RULES[name], facts)
    part = applicability(RULES[name], {fact: word for fact, word in facts.items() if fact not in forgotten})
    assert full.applies is not None
    assert part.applies in (full.applies, None)
    assert bool(part.missing) == (part.applies is None)


@pytest.mark.parametrize("facts", [{"colour": "red"}, {"frame": "wood"}])
def test_a_fact_or_word_not_on_the_list_is_refused(facts):
    with pytest.raises(BadInput):
        applicability(TWO, facts)
