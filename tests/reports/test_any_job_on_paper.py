"""No job, however bare or odd, spoils a sheet: it is printed, or refused in words."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.jobs.trees import NAMES, answer_of, at, changed, job_of, places, tree_of, without

from hubwright.errors import BadInput
from hubwright.reports import Identity, Options, kinds_for, print_sheet
from hubwright.reports.kinds import KINDS
from hubwright.reports.printing import sheet_of

OWN = Identity("0" * 64)
PAPER = [name for name in NAMES if "scan" not in name]
ODD: list[Any] = [
    0, 1, -1, 1e-9, 0.5, 20, 60, 400, 500, -500, 3000, True, "", "x", [], {}, "M14x0", "1/0", "3x60", "10x400", "5x112",
    "]#[", '"; #panic()', "\u202e", "x" * 400, "bolted", "lipped", "nut", {"value": [1, 9], "u": 900}, "a\nb\tc",
]  # fmt: skip


def survives(tree: dict[str, Any], *, set_it: bool) -> None:
    try:
        job, answer = job_of(tree), answer_of(tree)
    except BadInput:
        return
    for kind in KINDS:
        try:
            if set_it:
                assert print_sheet(kind, job, answer, OWN).data.startswith(b"%PDF")
            assert sheet_of(kind, job, answer, OWN, Options()).blocks
        except BadInput as refusal:
            assert kind == "disc-drawing"
            assert refusal.faults


@pytest.mark.parametrize("name", PAPER)
def test_every_sheet_of_every_demo_job_is_printed(name: str) -> None:
    tree = tree_of(name)
    survives(tree, set_it=True)
    assert "job-card" in kinds_for(answer_of(tree))


@pytest.mark.parametrize("axle", ["front", "rear"])
def test_an_axle_of_which_nothing_is_known_spoils_no_sheet(axle: str) -> None:
    survives({"hubwright_job": 1, "title": "x", "request": {"use": "street"}, axle: {}}, set_it=True)
    survives(
        {"hubwright_job": 1, "title": "x", "request": {"use": "track"}, axle: {"wish": {"aim": "widest"}}}, set_it=True
    )


@pytest.mark.slow
@given(name=st.sampled_from(PAPER), data=st.data())
@settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_a_job_with_fields_taken_out_moved_or_made_odd_spoils_no_sheet(name: str, data: st.DataObject) -> None:
    tree = tree_of(name)
    for _ in range(data.draw(st.integers(1, 6), "changes")):
        found = places(tree)
        if not found:
            break
        place = data.draw(st.sampled_from(found), "place")
        what = data.draw(st.sampled_from(["out", "out", "moved", "odd"]), "change")
        if what == "out":
            tree = without(tree, place)
        elif what == "moved":
            tree = changed(tree, place, at(tree, data.draw(st.sampled_from(found), "taken from")))
        else:
            tree = changed(tree, place, data.draw(st.sampled_from(ODD), "odd"))
    survives(tree, set_it=data.draw(st.booleans(), "set in type"))


@pytest.mark.slow
@pytest.mark.parametrize("name", ["hatchback-rear-flush", "saloon-studs"])
def test_a_job_without_any_one_of_its_fields_spoils_no_sheet(name: str) -> None:
    tree = tree_of(name)
    for place in places(tree):
        survives(without(tree, place), set_it=False)
