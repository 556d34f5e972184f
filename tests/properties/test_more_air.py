"""More air or less owed never makes a disc worse; a gap seen parked is not one seen over the travel."""

from __future__ import annotations

from copy import deepcopy
from functools import cache
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.jobs.trees import Place, Tree, answer_of, at, changed, places, tree_of

from hubwright.errors import BadInput
from hubwright.jobs.answer import Answer

HATCHBACK, COMPACT = "hatchback-rear-flush", "compact-front-lock"
RANK = {"refused": 0, "not known": 1, "caution": 2, "valid": 3}
AIR = ("gap_mm", "axial_gap_mm", "radial_gap_mm")
OWED = ("u", "u_mm", "new_lining_mm", "weight_height_mm", "bore_chamfer_mm")
CASES = [
    (name, place, +1 if place[-1] in AIR else -1)
    for name in (HATCHBACK, COMPACT, "coupe-front-dead-zone", "saloon-studs", "mail-order-plumb-line")
    for place in places(tree_of(name))
    if place[-1] in AIR + OWED and isinstance(at(tree_of(name), place), int | float)
]
PARKED = {
    "name": "bumper corner", "room": "outside", "u_mm": 1.0, "method": "blocks",
    "reading": [{"travel_mm": 0, "gap_mm": 18.0}],
}  # fmt: skip


def ranks_of(answer: Answer) -> dict[tuple[Any, ...], int]:
    return {
        (axle.axle, plan.work, disc.thickness_mm, disc.kind): RANK[disc.status]
        for axle in answer.axles
        for plan in axle.plans
        for disc in plan.discs
    }


@cache
def as_read(name: str) -> dict[tuple[Any, ...], int]:
    return ranks_of(answer_of(tree_of(name)))


@pytest.mark.slow
@given(st.sampled_from(CASES), st.floats(0.1, 20.0))
@settings(max_examples=30)
def test_more_air_or_less_owed_never_makes_any_disc_worse_nor_less_air_one_better(
    case: tuple[str, Place, int], more_mm: float
) -> None:
    name, place, better = case
    tree = tree_of(name)
    for sign in (+1, -1):
        try:
            moved = ranks_of(answer_of(changed(tree, place, at(tree, place) + sign * more_mm)))
        except BadInput:
            continue
        assert all(sign * better * (moved[key] - rank) >= 0 for key, rank in as_read(name).items())


def corners(tree: Tree, axle: str) -> list[Tree]:
    return [tree[axle]["left"], tree[axle]["right"]]


@pytest.mark.parametrize("height", [{}, {"height_mm": 250}])
def test_a_second_place_read_only_parked_leaves_every_disc_unsettled(height: dict[str, float]) -> None:
    """The pinch may be further up: a parked gap is never taken for the one in bump, whatever else was swept."""
    tree = tree_of(HATCHBACK)
    for corner in corners(tree, "rear"):
        corner["point"].append(deepcopy(PARKED) | height)
    rolled = answer_of(tree).axle("rear").plans[1]
    assert {disc.status for disc in rolled.discs} == {"not known", "refused"}
    assert any("bumper corner" in item.thing and item.needed for item in answer_of(tree).axle("rear").wanted)


def test_a_second_place_far_off_over_the_whole_travel_changes_no_verdict() -> None:
    tree = tree_of(HATCHBACK)
    for corner in corners(tree, "rear"):
        far = deepcopy(PARKED)
        far["reading"] = [{"travel_mm": travel, "gap_mm": 90.0} for travel in (0, 23, 46, 71)]
        corner["point"].append(far)
    assert ranks_of(answer_of(tree)) == as_read(HATCHBACK)


def test_lock_read_only_parked_leaves_a_steered_axle_unsettled() -> None:
    tree = tree_of(COMPACT)
    for corner in corners(tree, "front"):
        lip = corner["point"][0]
        lip["reading"] = [item for item in lip["reading"] if not item.get("steer_deg")]
    plan = answer_of(tree).axle("front").plan
    assert plan.recommended_mm is None
    assert {disc.status for disc in plan.discs} == {"not known", "refused"}
