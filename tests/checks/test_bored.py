"""Length of pilot is worth nothing where bore and spigot do not meet."""

from __future__ import annotations

import pytest
from tests.jobs.trees import Tree, answer_of, tree_of

from hubwright.findings import Finding, Verdict
from hubwright.jobs.answer import PlanAnswer


def rolled(tree: Tree) -> PlanAnswer:
    return answer_of(tree).axle("rear").plans[1]


def bored(bore_mm: float) -> tuple[PlanAnswer, Finding]:
    """The hatchback (spigot 57.1) with another bore; its plan with work done and what centring says of 5 mm plain."""
    tree = tree_of("hatchback-rear-flush")
    tree["rear"]["wheel_set"][0]["wheel"]["bore_mm"] = bore_mm
    plan = rolled(tree)
    disc = next(disc for disc in plan.discs if disc.thickness_mm == 5)
    return plan, next(found for found in disc.findings if found.question == "centring")


def test_a_wheel_bored_smaller_than_the_spigot_takes_no_plain_disc() -> None:
    plan, found = bored(56.6)
    assert found.verdict is Verdict.FAIL and "does not go over" in found.sentence
    assert plan.recommended_mm is None
    assert [w.intervals for w in plan.windows if w.question == "centring" and w.disc == "plain"] in ([()], [(), ()])


def test_a_wheel_bored_larger_than_the_spigot_needs_a_ring_and_is_a_caution() -> None:
    _, found = bored(73.1)
    assert found.verdict is Verdict.CAUTION and "only a ring centres" in found.sentence


@pytest.mark.parametrize("bore_mm", [57.0, 57.1, 57.25])
def test_a_bore_that_differs_as_callipers_do_passes(bore_mm: float) -> None:
    assert bored(bore_mm)[1].verdict is Verdict.PASS


def test_a_chord_far_from_the_stated_circle_is_questioned_even_where_no_other_circle_is_nearer() -> None:
    """4x98: 98 sin 45 deg = 69.30 between neighbours; 65.8 was read."""
    tree = tree_of("hatchback-rear-flush")
    tree["rear"]["hub"]["bolt_circle"] = "4x98"
    asked = [item for item in answer_of(tree).questions if item.about == "hole circle"]
    assert len(asked) == 1 and "69.3" in asked[0].text and "65.8" in asked[0].text
    tree["rear"]["hub"]["chord_mm"] = 69.3
    assert not [item for item in answer_of(tree).questions if item.about == "hole circle"]
